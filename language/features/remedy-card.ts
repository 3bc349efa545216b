import { spokenDay } from "../book/dates.ts";
import type { Remedy } from "../book/stations.ts";
import { doseCaution } from "../checks/doses.ts";
import { concentration, percent } from "../checks/words.ts";
import { dosesOn } from "../room/due.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Logbook } from "../room/logbook.ts";
import { decayed, firstDoseOf, type RemedyStep, remedyAt, remedySteps } from "../room/past.ts";
import { latestTreatment } from "../room/treatments.ts";
import { dayText, known, rowLocation } from "./card-parts.ts";
import type { RemedyCard } from "./cards.ts";
import { courseCard, targetOf } from "./course-card.ts";
import type { CoursePoint } from "./population-cards.ts";
import { locationOf } from "./view.ts";

/** What is in the water of each remedy that was given of late: its course by dilution and half-life, and the next dose. */

/** A course that ended longer ago is no longer shown. */
export const lateDays = 60;
/** Between two steps a decay is drawn in pieces of at most this many days. */
const pieceDays = 0.5;

export function remedyCards(logbook: Logbook, ledger: Ledger, day: number): RemedyCard[] {
  return ledger.book.remedies.flatMap((remedy) => {
    const first = firstDoseOf(ledger, remedy, day + 1);
    if (first < 0) return [];
    const steps = remedySteps(ledger, remedy, day + 1, first);
    const last = steps.findLast((step) => step.is === "dose");
    return last === undefined || day - last.time > lateDays
      ? []
      : [remedyCard(logbook, ledger, remedy, steps, day)];
  });
}

function remedyCard(
  logbook: Logbook,
  ledger: Ledger,
  remedy: Remedy,
  steps: readonly RemedyStep[],
  day: number,
): RemedyCard {
  const { name, title, unit, ceiling, place } = remedy;
  const words = (value: number): string => concentration(value, unit);
  const now = remedyAt(ledger, remedy, day + 1);
  const latest = latestTreatment(logbook, ledger, remedy, day);
  return {
    name,
    title,
    unit,
    target: targetOf(remedy),
    ceiling: known(ceiling),
    ceilingText: Number.isFinite(ceiling) ? words(ceiling) : "",
    now: known(now),
    nowText: Number.isFinite(now) ? words(now) : "",
    course: courseOf(remedy, steps, day + 1),
    doses: steps
      .filter((step) => step.is === "dose")
      .flatMap(({ series, index, time, before, after }) => {
        const at = rowLocation(series.block[index]!, series.row[index]!);
        const text = Number.isFinite(after)
          ? `${words(after)}, of it ${words(after - before)} from this dose`
          : "cannot be computed";
        return at === null ? [] : [{ time, after: known(after), text, at }];
      }),
    next: nextOf(ledger, remedy, day),
    plan: latest === undefined ? null : courseCard(latest, day),
    caution: doseCaution,
    at: locationOf(place),
  };
}

function courseOf(remedy: Remedy, steps: readonly RemedyStep[], until: number): CoursePoint[] {
  const points: CoursePoint[] = [];
  const add = (time: number, value: number): void => {
    if (Number.isFinite(value)) points.push({ time, value });
  };
  steps.forEach((step, at) => {
    if (at === 0 || !Number.isNaN(step.before)) add(step.time, step.before);
    add(step.time, step.after);
    const end = steps[at + 1]?.time ?? until;
    if (!Number.isNaN(remedy.halfLifeDays))
      for (let time = step.time + pieceDays; time < end; time += pieceDays)
        add(time, decayed(step.after, time - step.time, remedy.halfLifeDays));
    if (at === steps.length - 1) add(end, decayed(step.after, end - step.time, remedy.halfLifeDays));
  });
  return points;
}

function nextOf(ledger: Ledger, remedy: Remedy, day: number): RemedyCard["next"] {
  const next = dosesOn(ledger, day).find(({ course }) => course.remedy === remedy);
  if (next === undefined) return null;
  const { course, due, changeOwed, late } = next;
  const number = course.given + 1;
  const when = late > 0 ? `was due ${spokenDay(due, day)}` : dayText(due, day);
  const owed = changeOwed > 0.005 ? `, change ${percent(changeOwed)} before it` : "";
  return {
    day: due,
    number,
    of: remedy.repeatTimes,
    changeOwed,
    text: `${number} of ${remedy.repeatTimes}, ${when}${owed}`,
  };
}
