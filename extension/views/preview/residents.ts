import { spokenDay } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import { type Face, leadsTo, leadsToTank, nothing, section } from "./face.ts";
import type { ResidentCard } from "./shown.ts";

/** Who lives there, by the book. */
export function residentsPart(
  face: Face,
  residents: readonly ResidentCard[],
  ofTank: string,
  today: number,
): HTMLElement {
  const row = (resident: ResidentCard, at: number): HTMLElement => {
    const { text, species, title, counted, of } = resident;
    const when = counted === null ? "never counted" : spokenDay(Math.floor(counted), today);
    return h(
      "tr",
      {},
      h("td", { class: "figure" }, text),
      h(
        "td",
        {},
        species,
        of !== ofTank && [" in ", leadsToTank(face, of, `resident-of-${at}`)],
        title !== "" && h("i", { class: "aside" }, ` ${title}`),
      ),
      h("td", { class: "aside" }, leadsTo(face, resident.at, `resident-${at}`, "date", when)),
    );
  };
  return section(
    "residents",
    "Living here",
    residents.length === 0
      ? nothing("No animals by the book. Under a day:", `  ${ofTank}  count cherry ~40`)
      : h(
          "table",
          { class: "residents" },
          h(
            "thead",
            { class: "unseen" },
            h("tr", {}, ...["Animals", "Species", "Counted"].map((word) => h("th", { scope: "col" }, word))),
          ),
          h("tbody", {}, ...residents.map(row)),
        ),
  );
}
