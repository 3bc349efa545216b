import { spokenDay } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import { type Face, leadsTo, section } from "./face.ts";
import type { QuarantineCard } from "./shown.ts";
import { whyFold } from "./why.ts";

/** How long quarantine lasts, what put it off, and each arrival with a clock of its own. Absent where none runs. */
export function quarantinePart(face: Face, card: QuarantineCard | null, day: number): HTMLElement[] {
  if (card === null) return [];
  const { tanks, text, dayText, putOff, arrivals, why } = card;
  const on = (each: number): string => spokenDay(each, day);
  const item = (key: string, at: QuarantineCard["at"], words: string, rest: string): HTMLElement =>
    h("li", {}, leadsTo(face, at, key, "name", words), h("div", { class: "aside" }, rest));
  return [
    section(
      "quarantine",
      "Quarantine",
      h(
        "p",
        {},
        h("strong", {}, text),
        ` (${dayText})`,
        tanks.length > 1 && h("span", { class: "aside" }, ` one water: ${tanks.join(", ")}`),
      ),
      h(
        "ul",
        { class: "rows" },
        ...putOff.map((each, at) =>
          item(`put-off-${at}`, each.at, each.text, `put off from ${on(each.from)} to ${on(each.to)}`),
        ),
        ...arrivals.map((each, at) =>
          item(`arrival-${at}`, each.at, each.text, `own clock until ${on(each.end)}`),
        ),
      ),
      whyFold(face, "quarantine", why),
    ),
  ];
}
