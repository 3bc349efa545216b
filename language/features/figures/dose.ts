import { spokenDay } from "../../book/dates.ts";
import { concentration } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { Ledger } from "../../room/ledger.ts";
import { courseUntil, justAfter, remedyAt } from "../../room/past.ts";
import { settledTime } from "../../room/water.ts";
import type { Why } from "../../room/why.ts";
import { whyRemedy } from "../../room/why-dose.ts";
import { type LineFigure, ledgersOf, type Row } from "./row.ts";

/** What is in the water after a dose, and which of its course it is. */
export function doseFigure(row: Row): LineFigure | undefined {
  const remedy = row.checked.book.remedy(row.subject);
  if (remedy === undefined) return undefined;
  const doses = ledgersOf(row).flatMap((ledger) => {
    const index = lastOf(ledger, row);
    if (index < 0) return [];
    const until = settledTime(ledger.doses, index) + justAfter;
    return [{ ledger, until, after: remedyAt(ledger, remedy, until) }];
  });
  const known = doses.filter(({ after }) => !Number.isNaN(after));
  const [first] = known;
  // What cannot be computed is a finding.
  if (first === undefined || known.length < doses.length) return undefined;
  const levels = known.map(({ after }) => after);
  const [least, most] = [Math.min(...levels), Math.max(...levels)];
  const text =
    most - least < 0.005 * most
      ? concentration(most, remedy.unit)
      : `${formatNumber(least)}..${concentration(most, remedy.unit)}`;
  const given = courseUntil(first.ledger, remedy, first.until)?.given;
  const course = Number.isNaN(remedy.repeatTimes) ? "" : ` · dose ${given} of ${remedy.repeatTimes}`;
  const whyOne = ({ ledger, until }: (typeof known)[number]): Why =>
    whyRemedy(ledger, remedy, until, `${remedy.name} in ${ledger.body?.name} after this dose`);
  return {
    kind: "dose",
    label: `${text} in the water${course}`,
    why: () =>
      known.length === 1
        ? whyOne(first)
        : {
            what: `${remedy.name} after the doses of ${spokenDay(row.block.day)}`,
            value: text,
            from: known.map(whyOne),
          },
  };
}

/** The index of a row's dose; in shared water of the last that it gave to several tanks. */
function lastOf({ doses }: Ledger, { time, block, id }: Row): number {
  let last = -1;
  for (let at = doses.from(time); at < doses.length && doses.time[at] === time; at++)
    if (doses.row[at] === id && doses.block[at] === block) last = at;
  return last;
}
