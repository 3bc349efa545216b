import { spokenDay } from "../book/dates.ts";
import { isFurther } from "../book/facts.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { courses } from "../room/course.ts";
import { firstFrom } from "../room/days.ts";
import type { DutyRecord } from "../room/duty-record.ts";
import { lightsClosed } from "../room/light-compared.ts";
import type { Logbook } from "../room/logbook.ts";
import { movements } from "../room/movement.ts";
import type { Period } from "../room/stock-book.ts";
import type { WaterUse } from "../room/water-used.ts";
import { lightChangeCard } from "./light-card.ts";
import type { DailyCard, LogCard, PeriodCard } from "./period-cards.ts";
import { periodEvents } from "./period-events.ts";
import { periodTests, periodTrends } from "./period-tests.ts";
import { periodWater } from "./period-water.ts";
import { periodWork } from "./period-work.ts";
import { stockCard } from "./stock-card.ts";

/** A week, a month or any days of a room. @param today what came of a test or a shipment counts up to its end; not before the period ends */
export function periodCard(checked: CheckedLogbook, period: Period, today: number): PeriodCard {
  const { logbook } = checked;
  const { from, to } = period;
  const { card: work, records } = periodWork(checked, period);
  const { card: water, uses } = periodWater(logbook, period);
  return {
    is: "period",
    from,
    to,
    day: today,
    log: logCard(logbook, period, today),
    work,
    water,
    stock: stockCard(checked, period, "species"),
    tests: periodTests(logbook, period, today),
    trends: periodTrends(logbook, period),
    ...periodEvents(logbook, period, today),
    lights: lightsClosed(logbook, period).map((each) => lightChangeCard(logbook, each.tank, each.change, to)),
    daily: dailyCards(logbook, period, records, uses),
  };
}

function logCard({ dayGroups }: Logbook, { from, to }: Period, today: number): LogCard {
  const begins = dayGroups[0]?.day ?? Number.NaN;
  const groups = dayGroups.slice(firstFrom(dayGroups, from), firstFrom(dayGroups, to + 1));
  let entries = 0;
  for (const { blocks } of groups)
    for (const { facts } of blocks)
      for (let row = 0; row < facts.count; row++) if (!isFurther(facts, row)) entries++;
  return {
    entries,
    days: groups.length,
    begins: Number.isNaN(begins) ? null : begins,
    text: beginText(begins, { from, to }, today),
  };
}

function beginText(begins: number, { from, to }: Period, today: number): string {
  if (Number.isNaN(begins)) return `The log has no entry up to ${spokenDay(today)}.`;
  if (begins > to) return `The log begins after this, on ${spokenDay(begins)}.`;
  if (begins > from)
    return `The log begins within this time, on ${spokenDay(begins)}: what was before is not known, and there is nothing to compare with.`;
  return begins > from - (to - from + 1)
    ? `The log begins on ${spokenDay(begins)}: it has a part only of the days before that are compared with.`
    : "";
}

function dailyCards(
  logbook: Logbook,
  { from, to }: Period,
  records: readonly DutyRecord[],
  uses: readonly WaterUse[],
): DailyCard[] {
  const daily = Array.from({ length: to - from + 1 }, (_, at) => ({
    day: from + at,
    litres: 0,
    done: 0,
    late: 0,
    died: 0,
  }));
  for (const { day, litres } of uses) if (!Number.isNaN(litres)) daily[day - from]!.litres += litres;
  for (const { doneDays, lateDays, duty } of records) {
    if (duty.form.when === "at most") continue;
    for (const day of doneDays) daily[day - from]!.done++;
    for (const day of lateDays) daily[day - from]!.late++;
  }
  for (const ledger of logbook.ledgers)
    for (const course of courses(ledger))
      for (const { is, how, time, animals } of movements(ledger, course, from, to + 1))
        if (is === "lose" && how !== "culled" && how !== "missing")
          daily[Math.floor(time) - from]!.died += animals;
  return daily;
}
