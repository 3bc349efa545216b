import { spokenDay } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import { type Face, leadsTo, section } from "./face.ts";
import type { RoundCard, TankCard } from "./shown.ts";
import { whyFold } from "./why.ts";

/** What the readings of the latest rounds say together, each with its day, what stands beside it and why. Absent where they say nothing. */
export function roundsPart(face: Face, { rounds, day }: TankCard): HTMLElement | undefined {
  if (rounds.length === 0) return undefined;
  return section(
    "rounds",
    "Readings together",
    h("ul", {}, ...rounds.map((round) => item(face, round, day))),
  );
}

function item(face: Face, round: RoundCard, day: number): HTMLElement {
  const { what, text, isKnown, beside, caution, time, at, calculation, why } = round;
  const when = leadsTo(face, at, `round-${calculation}`, "date", spokenDay(time, day));
  return h(
    "li",
    {},
    h("strong", {}, what),
    " ",
    h("span", { class: isKnown ? "figure" : "aside" }, text),
    ", ",
    when,
    beside !== "" && h("div", { class: "aside" }, beside),
    whyFold(face, `round-${calculation}`, why, caution),
  );
}
