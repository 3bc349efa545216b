import { type Attributes, type Child, h } from "./dom.ts";

/** Parts that pages share: what leads somewhere, and what folds. */

export interface Leading<At> {
  /** Goes to where something is written. */
  reveal(at: At): void;
}

export interface Folding {
  /** Whether a part that folds is unfolded. */
  isOpen(key: string): boolean;
  setOpen(key: string, isOpen: boolean): void;
}

/** A button that leads to a place; plain content where there is none. `key` holds the focus over a redraw. */
export function leadsTo<At>(
  owner: Leading<At>,
  at: At | null,
  key: string,
  look: string,
  ...children: readonly Child[]
): HTMLElement {
  if (at === null) return h("span", { class: look }, ...children);
  const go: Attributes = { type: "button", class: `leads ${look}`, "data-key": key };
  return h("button", { ...go, onclick: () => owner.reveal(at) }, ...children);
}

/** A part that folds; what is in it is made when it is first unfolded. */
export function folding(
  owner: Folding,
  key: string,
  look: string,
  summary: readonly Child[],
  content: () => readonly Child[],
): HTMLDetailsElement {
  const details = h(
    "details",
    { class: look, open: owner.isOpen(key) },
    h("summary", { "data-key": key }, ...summary),
  );
  let isMade = false;
  const make = (): void => {
    if (isMade || !details.open) return;
    isMade = true;
    details.append(...content().filter((child) => child instanceof Node));
  };
  make();
  details.addEventListener("toggle", () => {
    make();
    owner.setOpen(key, details.open);
  });
  return details;
}
