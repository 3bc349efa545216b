import { isoOf } from "../../book/dates.ts";
import { kindOf } from "../../book/entries/registry.ts";
import { stepWords } from "../../features/course-step-words.ts";
import { broodComes, cultureComes, quarantineComes, resultComes } from "../../features/meanwhile-words.ts";
import { beforeAway, type DaysAway, daysAwayAhead, daysAwayOn } from "../../room/before-absence.ts";
import { homeOf } from "../../room/broods.ts";
import { dayOffWhy } from "../../room/capacity.ts";
import type { DueDuty } from "../../room/due.ts";
import { placeOf } from "../../room/due.ts";
import { targetWords } from "../../room/pantry.ts";
import type { Opened } from "../open.ts";
import type { DayReport } from "../schema.ts";

/** Days away: the one that a day lies in, and what to do before those that come. */

export function awayOf({ checked }: Opened, day: number): DayReport["away"] {
  const away = daysAwayOn(checked.book, day);
  return away === undefined ? null : daysReport(away);
}

const daysReport = ({ from, until, why, covered }: DaysAway): NonNullable<DayReport["away"]> => ({
  from: isoOf(from),
  until: isoOf(until),
  why: why ?? dayOffWhy,
  covered: covered.map((kind) => kindOf(kind).word),
});

const isoOrNull = (time: number): string | null => (Number.isFinite(time) ? isoOf(Math.floor(time)) : null);

export function beforeOf(
  opened: Opened,
  day: number,
  workOf: (due: DueDuty) => DayReport["coming"][number]["work"][number],
): DayReport["before"] {
  const { logbook, book } = opened.checked;
  return daysAwayAhead(book, day)
    .map((away) => beforeAway(logbook, away, day))
    .map(({ away, work, meanwhile, doses, steps, orders, comes }) => ({
      ...daysReport(away),
      days: [...new Set(work.map(({ due }) => due))]
        .sort((a, b) => a - b)
        .map((due) => ({ day: isoOf(due), work: work.filter((each) => each.due === due).map(workOf) })),
      meanwhile: meanwhile.map(({ duty, station }) => ({
        at: placeOf(book, station).name,
        of: station.name,
        act: duty.act,
        days: Math.round(duty.form.periodDays),
      })),
      doses: doses.map(({ ledger, treatment, number, due }) => ({
        at: ledger.body?.name ?? "",
        remedy: treatment.remedy.name,
        number,
        of: treatment.times,
        due: isoOf(due),
      })),
      steps: steps.map((step) => ({
        at: step.ledger.body?.name ?? "",
        act: stepWords(step),
        due: isoOf(step.due),
      })),
      orders: orders.map(({ order }) => ({ order: order.name, due: isoOf(order.due) })),
      hatches: comes.broods.map((each) => ({
        brood: each.brood.name,
        at: homeOf(each.brood, day).name,
        stage: each.expected.stage,
        earliest: isoOf(each.expected.earliest),
        latest: isoOrNull(each.expected.latest),
        text: broodComes(each, day),
      })),
      cultures: comes.cultures.map((each) => ({
        food: each.name,
        at: targetWords(each.start),
        from: isoOf(Math.floor(each.readyFrom)),
        until: isoOrNull(each.readyUntil),
        text: cultureComes(each, day),
      })),
      quarantines: comes.quarantines.map((each) => ({
        at: each.tanks.map(({ name }) => name),
        end: isoOf(each.end),
        text: quarantineComes(each, day),
      })),
      results: comes.results.map((each) => ({
        case: each.case,
        laboratory: each.laboratory,
        left: isoOf(each.left.day),
        text: resultComes(each, day),
      })),
    }));
}
