import { h } from "../shared/dom.ts";
import { type Face, leadsTo, leadsToTank, section } from "./face.ts";
import type { FreeCard, WhyCard } from "./shown.ts";
import { whyFold } from "./why.ts";

/** What may go from here, and what is against the rest. Absent where nothing lives. */
export function freePart(face: Face, free: readonly FreeCard[], ofTank: string): HTMLElement[] {
  if (free.length === 0) return [];
  const heads = ["Free", "Species", "From"].map((word) => h("th", { scope: "col" }, word));
  const rows = free.map((each, at) => row(face, each, at, ofTank));
  return [
    section(
      "free",
      "Free to go",
      h(
        "table",
        { class: "residents" },
        h("thead", { class: "unseen" }, h("tr", {}, ...heads)),
        h("tbody", {}, ...rows),
      ),
    ),
  ];
}

function row(face: Face, card: FreeCard, at: number, ofTank: string): HTMLElement {
  const { tank, species, animals, free, promised, fromText, reasons } = card;
  const against = [
    ...reasons.map(({ text }) => text),
    ...(promised > 0 ? [`${promised} of the species promised`] : []),
  ];
  return h(
    "tr",
    {},
    h("td", { class: "figure" }, `${free} of ${animals}`),
    h(
      "td",
      {},
      leadsTo(face, card.at, `free-${at}`, "name", species),
      tank !== ofTank && [" in ", leadsToTank(face, tank, `free-of-${at}`)],
      against.length > 0 && h("div", { class: "aside" }, against.join("; ")),
      whyFold(face, `free-${at}`, whyHeld(card)),
    ),
    h("td", { class: "aside" }, fromText),
  );
}

/** The reasons together; null where nothing is against it. */
function whyHeld({ species, reasons }: FreeCard): WhyCard | null {
  if (reasons.length === 0) return null;
  const what = `against letting ${species} go`;
  return { what, value: "", formula: "", source: "", at: null, from: reasons.map(({ why }) => why) };
}
