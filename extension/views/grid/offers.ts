import { h } from "../shared/dom.ts";

/** A list below an input or a cell: what may be typed, or what mends a finding. The focus stays where it is. */
export interface Offer {
  readonly label: string;
  readonly detail: string;
}

export class Offers {
  readonly element = h("ul", {
    role: "listbox",
    id: "offers",
    class: "offers",
    hidden: true,
    "aria-label": "Offers",
  });
  private owner: HTMLElement | undefined;
  private count = 0;
  private take: (at: number) => void = () => {};
  /** -1: none is chosen, and Enter is the input's. */
  active = -1;

  get isOpen(): boolean {
    return this.owner !== undefined;
  }

  show(owner: HTMLElement, offers: readonly Offer[], take: (at: number) => void, first = -1): void {
    if (offers.length === 0) {
      this.hide();
      return;
    }
    this.owner = owner;
    this.count = offers.length;
    this.take = take;
    this.element.replaceChildren(
      ...offers.map(({ label, detail }, at) =>
        h(
          "li",
          {
            role: "option",
            id: `offer-${at}`,
            "aria-selected": "false",
            onpointerdown: (event) => {
              event.preventDefault();
              this.active = at;
              this.accept();
            },
          },
          h("span", { class: "label" }, label),
          detail !== "" && h("small", {}, detail),
        ),
      ),
    );
    this.element.hidden = false;
    owner.setAttribute("aria-expanded", "true");
    owner.setAttribute("aria-controls", "offers");
    this.place(owner);
    this.active = -1;
    if (first >= 0) this.choose(first);
    else owner.removeAttribute("aria-activedescendant");
  }

  hide(): void {
    if (this.owner === undefined) return;
    this.owner.setAttribute("aria-expanded", "false");
    this.owner.removeAttribute("aria-activedescendant");
    this.owner.removeAttribute("aria-controls");
    this.owner = undefined;
    this.active = -1;
    this.element.hidden = true;
    this.element.replaceChildren();
  }

  move(by: 1 | -1): void {
    const at = this.active + by;
    this.choose(at < -1 ? this.count - 1 : at >= this.count ? -1 : at);
  }

  /** @returns whether one was chosen */
  accept(): boolean {
    const { active } = this;
    if (active < 0) return false;
    this.hide();
    this.take(active);
    return true;
  }

  private choose(at: number): void {
    this.active = at;
    [...this.element.children].forEach((each, index) => {
      each.setAttribute("aria-selected", String(index === at));
      if (index === at) each.scrollIntoView({ block: "nearest" });
    });
    if (at < 0) this.owner?.removeAttribute("aria-activedescendant");
    else this.owner?.setAttribute("aria-activedescendant", `offer-${at}`);
  }

  private place(owner: HTMLElement): void {
    const { left, top, bottom } = owner.getBoundingClientRect();
    const { style } = this.element;
    style.left = `${Math.max(2, Math.min(left, window.innerWidth - this.element.offsetWidth - 4))}px`;
    const below = window.innerHeight - bottom;
    const isAbove = below < Math.min(240, this.element.offsetHeight) && top > below;
    style.top = isAbove ? "" : `${bottom + 1}px`;
    style.bottom = isAbove ? `${window.innerHeight - top + 1}px` : "";
    style.maxHeight = `${Math.min(260, (isAbove ? top : below) - 6)}px`;
  }
}
