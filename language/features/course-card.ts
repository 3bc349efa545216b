import { spokenDay } from "../book/dates.ts";
import { entryOf } from "../book/entry.ts";
import type { Remedy } from "../book/stations.ts";
import { concentration, days, percent } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import {
  exposureHours,
  highestOn,
  lengthDays,
  pointsOf,
  type Stretch,
  timesAbove,
  timesWithin,
} from "../room/concentration-curve.ts";
import { type GivenDose, isDoneAfter, middleOfTarget } from "../room/dose-courses.ts";
import type { PartState } from "../room/taken-out.ts";
import type { PlannedDose, Treatment } from "../room/treatments.ts";
import { publishedCaution, publishedFor, rangeText, sourceText } from "../science/published-doses.ts";
import { dayText, known, rowLocation } from "./card-parts.ts";
import type {
  CourseCard,
  CourseDoseCard,
  CourseFigures,
  CoursePartCard,
  PublishedCard,
} from "./course-cards.ts";
import { productText } from "./dose-product.ts";
import { locationOf } from "./view.ts";

/** A course of treatment in figures and words, as known at the end of a day. */
export function courseCard(treatment: Treatment, day: number): CourseCard {
  const { ledger, remedy, state, begin, end, curve, steps, changeAfter } = treatment;
  const { halfLifeDays, unit, ceiling } = remedy;
  const past = curve.filter(({ isPlanned }) => !isPlanned);
  const ahead = curve.filter(({ isPlanned }) => isPlanned);
  return {
    remedy: remedy.name,
    title: remedy.title,
    unit,
    water: ledger.body?.name ?? "",
    case: treatment.case,
    state,
    times: known(treatment.times),
    stateText: stateText(treatment, day),
    begin,
    end: Math.floor(end),
    target: targetOf(remedy),
    ceiling: known(ceiling),
    ceilingText: Number.isFinite(ceiling) ? concentration(ceiling, unit) : "",
    doses: [
      ...treatment.given.map((dose) => givenCard(treatment, dose)),
      ...treatment.planned.map((dose, at) => plannedCard(treatment, dose, at)),
    ],
    course: pointsOf(past, halfLifeDays),
    ahead: pointsOf(ahead, halfLifeDays),
    changes: steps.flatMap(({ is, time, amount, isPlanned }) =>
      is === "change" ? [{ time, fraction: amount, isPlanned }] : [],
    ),
    parts: treatment.parts.map((part) => partCard(part, day)),
    changeAfterText:
      changeAfter === undefined
        ? ""
        : `change ${percent(changeAfter.owed)} ${isDoneAfter(changeAfter) ? "done" : `by ${spokenDay(changeAfter.due, day)}${changeAfter.done > 0.005 ? `; ${percent(changeAfter.done)} done` : ""}`}`,
    isChangeAfterDone: changeAfter !== undefined && isDoneAfter(changeAfter),
    withdrawalEnd: known(treatment.withdrawalEnd),
    figures: figuresOf(remedy, past, day),
    topUps: topUpsOf(treatment),
    published: publishedCard(remedy),
    at: locationOf(remedy.place),
  };
}

/** The target of a remedy with its words; null where it is not bounded below. */
export function targetOf({ targetLow, targetHigh, unit }: Remedy): CourseCard["target"] {
  if (!Number.isFinite(targetLow)) return null;
  const high = known(targetHigh) ?? targetLow;
  const text =
    targetLow === targetHigh
      ? concentration(targetLow, unit)
      : Number.isFinite(targetHigh)
        ? `${formatNumber(targetLow)}..${concentration(targetHigh, unit)}`
        : `at least ${concentration(targetLow, unit)}`;
  return { low: targetLow, high, text };
}

/** How a course stands: `2 of 3 doses given, the next is due on 8 March`. */
export function stateText({ given, planned, times, state, end }: Treatment, day: number): string {
  const last = given.at(-1)!;
  const [next] = planned;
  if (Number.isNaN(times))
    return `${last.number === 1 ? "one dose" : `${last.number} doses`} given, the last on ${spokenDay(Math.floor(last.time), day)}`;
  const told = `${last.number} of ${times} doses given`;
  if (next !== undefined)
    return `${told}, the next ${next.due < day ? `was due on ${spokenDay(next.due, day)}` : `is due ${onDay(next.due, day)}`}`;
  if (state === "cut") return `${told}, then it ended`;
  const over = Math.floor(end);
  return `${told}, ${over > day ? "over" : "it was over"} ${onDay(over, day)}`;
}

const onDay = (on: number, day: number): string => {
  const text = dayText(on, day);
  return text === "today" || text === "tomorrow" ? text : `on ${text}`;
};

function givenCard({ ledger, remedy }: Treatment, dose: GivenDose): CourseDoseCard {
  const { number, index, time, added, before } = dose;
  const [block, row] = [ledger.doses.block[index]!, ledger.doses.row[index]!];
  const amount = entryOf(block, row)?.item.amount;
  const after = before + added;
  return {
    number,
    time,
    isPlanned: false,
    after: known(after),
    amount: amount === undefined ? "" : block.text.slice(amount.start, amount.end),
    text: madeText(remedy, after, added),
    changeOwed: 0,
    at: rowLocation(block, row),
  };
}

function plannedCard(
  { ledger, remedy, given, steps }: Treatment,
  dose: PlannedDose,
  at: number,
): CourseDoseCard {
  const step = steps.filter(({ is, isPlanned }) => is === "dose" && isPlanned)[at]!;
  const product = productText(ledger, remedy, given.at(-1)!.index, dose.added);
  return {
    number: dose.number,
    time: step.time,
    isPlanned: true,
    after: known(step.after),
    amount: dose.added > 0 && "text" in product ? product.text : "",
    text: madeText(remedy, step.after, dose.added),
    changeOwed: dose.changeOwed,
    at: null,
  };
}

function madeText({ unit }: Remedy, after: number, added: number): string {
  return Number.isFinite(after)
    ? `${concentration(after, unit)}, of it ${concentration(added, unit)} from this dose`
    : "cannot be computed";
}

const partWords: Readonly<Record<PartState["is"], string>> = {
  out: "out since",
  in: "in: nothing says that it was taken out",
  "back early": "put back early, on",
  back: "back since",
};

function partCard({ part, is, since, row }: PartState, day: number): CoursePartCard {
  const when = Number.isNaN(since) ? "" : ` ${spokenDay(Math.floor(since), day)}`;
  return {
    part,
    is,
    text: `${part} ${partWords[is]}${when}`,
    at: row === undefined ? null : rowLocation(row.block, row.id),
  };
}

/** Round one figure a level may be out by so much and still be as aimed at. Common practice; of a range its own ends count. */
const roundTarget = 0.25;

/** The band that counts as inside the target; undefined where none is stated. */
export function bandOf({
  targetLow,
  targetHigh,
}: Remedy): { readonly low: number; readonly high: number } | undefined {
  if (Number.isNaN(targetLow) && Number.isNaN(targetHigh)) return undefined;
  if (targetLow === targetHigh)
    return { low: targetLow * (1 - roundTarget), high: targetLow * (1 + roundTarget) };
  return {
    low: Number.isNaN(targetLow) ? 0 : targetLow,
    high: Number.isNaN(targetHigh) ? Number.POSITIVE_INFINITY : targetHigh,
  };
}

function figuresOf(remedy: Remedy, past: readonly Stretch[], day: number): CourseFigures {
  const { unit, halfLifeDays, ceiling } = remedy;
  const exposure = exposureHours(past, halfLifeDays);
  const most = highestOn(past);
  const isKnown = past.every(({ level }) => !Number.isNaN(level));
  const band = bandOf(remedy);
  const inside =
    band === undefined ? Number.NaN : lengthDays(timesWithin(past, halfLifeDays, band.low, band.high));
  const over = Number.isNaN(ceiling) ? [] : timesAbove(past, halfLifeDays, ceiling * (1 + 1e-9));
  const all = past.length === 0 ? 0 : past.at(-1)!.to - past[0]!.from;
  const bandText =
    band === undefined
      ? ""
      : Number.isFinite(band.high)
        ? `${formatNumber(band.low)}..${concentration(band.high, unit)}`
        : `at least ${concentration(band.low, unit)}`;
  const on = (time: number): string => spokenDay(Math.floor(time), day);
  return {
    exposure: known(exposure),
    exposureText: Number.isFinite(exposure)
      ? `${formatNumber(exposure)} ${unit.replace("/L", "·h/L")}`
      : "cannot be computed",
    insideDays: isKnown ? known(inside) : null,
    insideText:
      band === undefined
        ? ""
        : isKnown
          ? `${formatNumber(inside, 2)} of ${days(all)} within ${bandText}`
          : "cannot be computed",
    highest: most === undefined ? null : most.level,
    highestText: most === undefined ? "" : `${concentration(most.level, unit)} on ${on(most.time)}`,
    aboveDays: Number.isNaN(ceiling) || !isKnown ? null : lengthDays(over),
    aboveText: Number.isNaN(ceiling)
      ? ""
      : over.length > 0
        ? `above the ceiling ${over.map(({ from, to }) => (on(from) === on(to) ? `on ${on(from)}` : `from ${on(from)} to ${on(to)}`)).join(", ")}, ${days(lengthDays(over))}${isKnown ? "" : " at least"}`
        : isKnown
          ? "never above the ceiling"
          : "not known whether above the ceiling",
  };
}

/** Changes for which it is told how much to add. */
const usualChanges = [0.1, 0.25, 0.3, 0.5];

/** What is taken out with a change is target × litres replaced, so much brings back what was at the target: never a whole dose. */
function topUpsOf({ ledger, remedy, given }: Treatment): CourseCard["topUps"] {
  const aim = middleOfTarget(remedy);
  if (Number.isNaN(aim)) return [];
  return usualChanges.flatMap((fraction) => {
    const product = productText(ledger, remedy, given.at(-1)!.index, aim * fraction);
    return "text" in product ? [{ fraction, text: product.text }] : [];
  });
}

/** What is published of its active substance, or of a remedy named as one. */
export function publishedCard({ active, name }: Pick<Remedy, "active" | "name">): PublishedCard | null {
  const found = publishedFor(active === "" ? name : active);
  if (found === undefined) return null;
  return {
    substance: found.substance,
    ranges: found.ranges.map((range) => ({ text: rangeText(range), source: sourceText(range) })),
    notes: found.notes.map((note) => ({ text: note.text, source: sourceText(note) })),
    cautions: found.cautions.map((note) => ({ text: note.text, source: sourceText(note) })),
    caution: publishedCaution,
  };
}
