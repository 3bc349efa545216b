import { weekdays } from "../book/dates.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Demand, Fix } from "../room/planner/fit.ts";
import type { RoomPlan } from "../room/planner/plan.ts";
import type { Job } from "../room/planner/work.ts";
import { type Line, list, type Section, text } from "./document.ts";

/** Whether a room fits its keeper, in words: by how much it does not, and what would do. */

export const noneText = "No duty is owed. One is stated at a tank or for the room: every 7 d change 30 %.";
export const jobText = ({ at, act }: Job): string => (at.kind === "room" ? act : `${at.name} ${act}`);

/** The plain answer. */
export function verdictText({ jobs, fit, daysLate, days: shown, tooLarge }: RoomPlan): string {
  if (jobs.length === 0) return noneText;
  const { demands, allTimes } = fit;
  const over = demands.filter(({ fixes }) => fixes.length > 0);
  if (over.length > 0)
    return `The room does not fit its keeper: ${over.map(overText).join("; ")}, every day, for good.${
      over.length > 1 && !Number.isNaN(allTimes)
        ? ` All intervals ${timesText(allTimes)} as long would do for all of it.`
        : ""
    }`;
  if (tooLarge.length > 0) return "The room fits on average, but some work is larger than any day.";
  const bound = demands.filter(({ capacity }) => !Number.isNaN(capacity));
  if (bound.length === 0)
    return "The room states no capacity, so nothing binds but days away: capacity 7 tanks, 400 L, 150 min.";
  const late = shown.filter(({ owed }) => owed.length > 0).length;
  if (daysLate === 0) return "The room fits: nothing is late at the end of any of these days.";
  return `The room fits on average; what is late already, falls together or falls on days away leaves something owed at the end of ${days(late)}.`;
}

const overText = ({ of, perDay, capacity, over }: Demand): string =>
  `${amountText(of, perDay)} a day of ${amountText(of, capacity)}, ${amountText(of, over)} too many (${amountText(of, over * 7)} a week)`;

const units = { tanks: "tanks", litres: "L", minutes: "min" } as const;
export const amountText = (of: Demand["of"], value: number): string =>
  `${formatNumber(value, 3)} ${units[of]}`;

export function fitSection(plan: RoomPlan): Section {
  const { tooLarge, fit } = plan;
  const { demands } = fit;
  const isOver = demands.some(({ fixes }) => fixes.length > 0);
  const lines = [
    ...demands.flatMap(demandLines),
    ...spareLines(plan),
    ...tooLarge.map(
      (job): Line => ({ text: `${jobText(job)}: more than any day holds; it stays owed`, tone: "warning" }),
    ),
  ];
  const isClear = !isOver && tooLarge.length === 0;
  return {
    title: "Does it fit",
    parts: [
      text(verdictText(plan), isClear ? (plan.daysLate === 0 ? "good" : "strong") : "warning"),
      list(lines),
    ],
  };
}

/** What a day off costs, where all fits. */
function spareLines({ fit: { demands } }: RoomPlan): Line[] {
  const bound = demands.filter(({ sparedDays, perDay }) => !Number.isNaN(sparedDays) && perDay > 0);
  if (bound.length === 0 || bound.some(({ over }) => over > 1e-9)) return [];
  const spared = Math.min(...bound.map(({ sparedDays }) => sparedDays));
  const first = bound.find(({ sparedDays }) => sparedDays === spared)!;
  if (spared > 0)
    return [{ text: `${days(spared)} more a week could be off on average`, note: `by ${first.of}` }];
  return [{ text: `one more day off a week would not fit: ${first.of} are short then` }];
}

function demandLines(demand: Demand): Line[] {
  const { of, perDay, capacity, unknown, fixes } = demand;
  const lacks: Line[] =
    unknown === 0
      ? []
      : [
          {
            text:
              of === "minutes"
                ? `minutes of ${many(unknown, "duty", "duties")} are not known and do not bind; state them: takes clean 20 min`
                : `litres of ${many(unknown, "change", "changes")} are not known and do not bind; state the volume of their tanks`,
            tone: "faint",
          },
        ];
  if (perDay === 0 && unknown > 0) return lacks;
  if (Number.isNaN(capacity))
    return perDay > 0
      ? [{ text: `${of}: ${amountText(of, perDay)} a day on average; no capacity is stated` }, ...lacks]
      : lacks;
  const head: Line =
    fixes.length > 0
      ? { text: `${of}: ${overText(demand)}`, tone: "warning" }
      : {
          text: `${of}: ${of === "tanks" ? "at least " : ""}${amountText(of, perDay)} a day on average`,
          note: `of ${amountText(of, capacity)}`,
        };
  return [head, ...fixes.map((fix): Line => ({ text: `would do: ${fixText(of, fix)}` })), ...lacks];
}

const many = (count: number, one: string, several: string): string =>
  `${count} ${count === 1 ? one : several}`;

export function fixText(of: Demand["of"], fix: Fix): string {
  switch (fix.is) {
    case "capacity":
      return `${amountText(of, fix.needed)} on each day with work`;
    case "one day":
      return `${amountText(of, fix.more)} more on one day of each week`;
    case "no day off":
      return `${weekdays[fix.weekday - 1]} not off: it adds ${amountText(of, fix.adds)}`;
    case "all intervals":
      return `all intervals ${timesText(fix.times)} as long`;
    case "intervals of":
      return `those of ${fix.at.name} alone ${timesText(fix.times)} as long`;
  }
}

/** Rounded up: a little less would not do. */
const timesText = (times: number): string => `${formatNumber(Math.ceil(times * 100 - 1e-6) / 100, 3)} times`;
