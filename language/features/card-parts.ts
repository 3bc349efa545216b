import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import type { Block } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { dueNotes } from "../checks/due-words.ts";
import type { Finding } from "../checks/finding.ts";
import { days } from "../checks/words.ts";
import type { DueDuty } from "../room/due.ts";
import { unsettledIn } from "../room/unsettled.ts";
import { placeOfRow, type Why } from "../room/why.ts";
import type { DutyCard, FindingCard, WhyCard } from "./cards.ts";
import { type Location, locationOf } from "./view.ts";

/** Parts that cards have in common. */

/** Null for what is not known: JSON knows no NaN and no Infinity. */
export const known = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** Where a row stands; null if an edit took it away. */
export function rowLocation(block: Block, row: number): Location | null {
  const place = placeOfRow(block, row);
  return place === undefined ? null : locationOf(place);
}

/** Where a station is defined. */
export function stationLocation({ place }: Station): Location | null {
  return place === undefined ? null : locationOf(place);
}

export function dutyCard(book: Book, due: DueDuty, day: number): DutyCard {
  const note = dueNotes(book, due, day).join("; ");
  const { duty, station, last, lastAt, late, times } = due;
  const { form, act, place } = duty;
  const period = days(form.periodDays);
  return {
    act,
    when: form.when === "every" ? `every ${period}` : `${form.when} ${form.times} in ${period}`,
    of: station.name,
    periodDays: form.periodDays,
    last: known(last),
    due: known(due.owed),
    late: known(late),
    times,
    timesStated: form.times,
    form: form.when,
    text: dueText(due),
    ...(note === "" ? {} : { note }),
    at: locationOf(place),
    lastAt: lastAt === undefined ? null : rowLocation(lastAt.block, lastAt.row),
  };
}

function dueText({ duty, late, times }: DueDuty): string {
  const { form } = duty;
  if (form.when !== "every") return `${times} of ${form.times}`;
  if (!Number.isFinite(late)) return "";
  if (late > 0) return `${days(late)} late`;
  if (late === 0) return "today";
  return late === -1 ? "tomorrow" : `in ${days(-late)}`;
}

export function findingCard(finding: Finding): FindingCard {
  const { code, severity, message, block, start, end } = finding;
  return { code, severity, message, day: known(block.day), at: locationOf({ block, start, end }) };
}

const severityOrder = ["error", "warning", "information", "hint"];

/** What a merge left in the files of the log, but for some blocks whose findings are told anyway. */
export function unsettledCards(checked: CheckedLogbook, told: readonly Block[] = []): FindingCard[] {
  return unsettledIn(checked.logbook).flatMap(({ block, start, end, message }): FindingCard[] =>
    told.includes(block)
      ? []
      : [
          {
            code: "syntax/conflict",
            severity: "error",
            message,
            day: Number.isNaN(block.day) ? null : block.day,
            at: locationOf({ block, start, end }),
          },
        ],
  );
}

/** The gravest first, then the latest; what stands in a definition holds today. */
export function byGravity(a: FindingCard, b: FindingCard): number {
  return (
    severityOrder.indexOf(a.severity) - severityOrder.indexOf(b.severity) ||
    (b.day ?? Number.MAX_SAFE_INTEGER) - (a.day ?? Number.MAX_SAFE_INTEGER) ||
    a.at.start - b.at.start
  );
}

/** `today`, `tomorrow`, `7 April`. */
export function dayText(day: number, today: number): string {
  if (day === today) return "today";
  return day === today + 1 ? "tomorrow" : spokenDay(day, today);
}

export function whyCard(why: Why): WhyCard {
  const { what, value, formula = "", source = "", place, from } = why;
  return {
    what,
    value,
    formula,
    source,
    at: place === undefined ? null : locationOf(place),
    from: from.map(whyCard),
  };
}
