import type { CaseDayCard } from "../case-cards.ts";
import { noPanel, panels } from "./panels.ts";

/** New cases and deaths a day, for paper; empty where there is neither. */
export function caseCurve(curve: readonly CaseDayCard[]): string {
  const [first, last] = [curve[0], curve.at(-1)];
  if (first === undefined || last === undefined) return "";
  if (curve.every(({ fresh, dead }) => fresh === 0 && dead === 0)) return "";
  // A week at least, so that a column is not as wide as the picture.
  const span = { from: first.day, to: Math.max(last.day + 1, first.day + 7) };
  const columns = (of: (day: CaseDayCard) => number) =>
    curve.map((each) => ({ day: each.day, value: of(each) }));
  return panels([
    { ...noPanel, ...span, title: "New cases a day", columns: columns(({ fresh }) => fresh) },
    { ...noPanel, ...span, title: "Deaths a day", columns: columns(({ dead }) => dead) },
  ]);
}
