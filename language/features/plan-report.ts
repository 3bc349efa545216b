import { spokenDay } from "../book/dates.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Demand, Fix } from "../room/planner/fit.ts";
import type { PlannedDay, PlannedStop, RoomPlan } from "../room/planner/plan.ts";
import type { RoomJob } from "../room/planner/work.ts";
import {
  figure,
  type Line,
  list,
  type Part,
  type Report,
  type Section,
  sectionsOfRooms,
  table,
  text,
} from "./document.ts";

/** The plan of the coming days as a report: whether the room fits its keeper, what each day holds, and in what order. */

export interface TitledPlan {
  readonly title: string;
  readonly plan: RoomPlan;
}

export function planReport(rooms: readonly TitledPlan[]): Report {
  const [only] = rooms;
  const about =
    rooms.length === 1
      ? [only!.title, `${days(only!.plan.days.length)} from ${spokenDay(only!.plan.day)}`]
          .filter(Boolean)
          .join(", ")
      : "";
  return {
    title: "Plan",
    about,
    sections: sectionsOfRooms(
      rooms.map(({ title, plan }) => ({ title, card: plan })),
      (plan) => (plan.jobs.length === 0 ? [noneSection] : sectionsOf(plan)),
    ),
  };
}

const noneText =
  "No duty with an interval is owed. One is stated at a tank or for the room: every 7 d change 30 %.";
const noneSection: Section = { title: "The plan", parts: [text(noneText)] };

function sectionsOf(plan: RoomPlan): Section[] {
  return [
    fitSection(plan),
    daysSection(plan),
    ...plan.days
      .filter(({ stops, away, owed }) => stops.length > 0 || (away !== undefined && owed.length > 0))
      .map((each) => daySection(each, plan.day)),
    boundSection(plan),
  ];
}

/** The plain answer. */
export function verdictText({ jobs, demands, daysLate, days: shown, tooLarge }: RoomPlan): string {
  if (jobs.length === 0) return noneText;
  const over = demands.filter(({ fixes }) => fixes.length > 0);
  if (over.length > 0)
    return `The room does not fit its keeper: ${over.map(overText).join("; ")}, every day, for good.`;
  if (tooLarge.length > 0) return "The room fits on average, but some work is larger than any day.";
  const bound = demands.filter(({ capacity }) => !Number.isNaN(capacity));
  if (bound.length === 0)
    return "The room states no capacity, so nothing binds but days away: capacity 7 tanks, 400 L, 150 min.";
  const late = shown.filter(({ owed }) => owed.length > 0).length;
  if (daysLate === 0) return "The room fits: nothing is late at the end of any of these days.";
  return `The room fits on average; what is late or falls on days away leaves something owed at the end of ${days(late)}.`;
}

const overText = ({ of, perDay, capacity, over }: Demand): string =>
  `${amountText(of, perDay)} a day of ${amountText(of, capacity)}, ${amountText(of, over)} too many`;

const units = { tanks: "tanks", litres: "L", minutes: "min" } as const;
export const amountText = (of: Demand["of"], value: number): string =>
  `${formatNumber(value, 3)} ${units[of]}`;

function fitSection(plan: RoomPlan): Section {
  const { demands, tooLarge } = plan;
  const isOver = demands.some(({ fixes }) => fixes.length > 0);
  const lines = [
    ...demands.flatMap(demandLines),
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

function demandLines(demand: Demand): Line[] {
  const { of, perDay, capacity, unknown, fixes } = demand;
  const lacks: Line[] =
    unknown === 0
      ? []
      : [
          {
            text:
              of === "minutes"
                ? `minutes of ${unknown} duties are not known and do not bind; state them: takes clean 20 min`
                : `litres of ${unknown} changes are not known and do not bind; state the volume of their tanks`,
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

export function fixText(of: Demand["of"], fix: Fix): string {
  switch (fix.is) {
    case "capacity":
      return `${amountText(of, fix.needed)} a day`;
    case "all intervals":
      return `all intervals ${timesText(fix.times)} as long`;
    case "intervals of":
      return `those of ${fix.at.name} alone ${timesText(fix.times)} as long`;
  }
}

/** Rounded up: a little less would not do. */
const timesText = (times: number): string => `${formatNumber(Math.ceil(times * 100 - 1e-6) / 100, 3)} times`;

function daysSection({ days: shown, day, doneTanks, demands }: RoomPlan): Section {
  const capacityOf = (of: Demand["of"]): string => {
    const capacity = demands.find((each) => each.of === of)!.capacity;
    return Number.isNaN(capacity) ? "" : ` of ${formatNumber(capacity, 3)}`;
  };
  const hasMinutes = shown.some(({ minutes }) => minutes > 0);
  const rows = shown.map((each) => {
    const { away, tanks, litres, minutes, owed } = each;
    return [
      spokenDay(each.day, day),
      away === undefined ? tanksText(tanks, each.day === day ? doneTanks : 0) : "away",
      litres.high === 0 ? "" : spanText(litres),
      ...(hasMinutes ? [minutes === 0 ? "" : formatNumber(minutes, 3)] : []),
      owed.length === 0 ? "" : { text: String(owed.length), tone: "warning" as const },
    ];
  });
  return {
    title: "The days",
    parts: [
      table(
        [
          "Day",
          figure(`Tanks${capacityOf("tanks")}`),
          figure(`Litres${capacityOf("litres")}`),
          ...(hasMinutes ? [figure(`Minutes${capacityOf("minutes")}`)] : []),
          figure("Left owed"),
        ],
        rows,
      ),
    ],
  };
}

const tanksText = (tanks: number, done: number): string =>
  [...(done > 0 ? [`${done} done`] : []), ...(tanks > 0 ? [String(tanks)] : [])].join(" + ");

const spanText = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  low === high ? formatNumber(low, 3) : `${formatNumber(low, 3)} to ${formatNumber(high, 3)}`;

function daySection({ day, away, stops, owed, litres }: PlannedDay, today: number): Section {
  const parts: Part[] = [];
  if (away !== undefined) parts.push(text(`Away${away === "" ? "" : `: ${away}`}. Nothing is planned.`));
  if (stops.length > 0) parts.push(list(stopLines(stops)));
  if (owed.length > 0) parts.push(text(`Left owed at its end: ${owedText(owed)}.`, "warning"));
  return {
    title: spokenDay(day, today),
    ...(litres.high > 0 ? { note: `${spanText(litres)} L` } : {}),
    parts,
  };
}

/** Places one after the other with the same work are told together. */
function stopLines(stops: readonly PlannedStop[]): Line[] {
  const lines: { names: string[]; stage: string; what: string }[] = [];
  for (const { at, stage, work } of stops) {
    const what = work.map(({ job, late }) => `${job.act}${lateText(late)}`).join(", ");
    const last = lines.at(-1);
    if (last?.what === what && last.stage === stage) last.names.push(at.name);
    else lines.push({ names: [at.name], stage, what });
  }
  return lines.map(({ names, stage, what }) => ({
    text: `${names.join(", ")}: ${what}`,
    ...(stage === "healthy" ? {} : { note: stage }),
  }));
}

const lateText = (late: number): string =>
  late === 0 ? "" : late > 0 ? ` (${days(late)} late)` : ` (${days(-late)} early)`;

/** So many are named. */
const mostNamed = 12;

function owedText(owed: readonly RoomJob[]): string {
  const named = owed.slice(0, mostNamed).map(jobText);
  return owed.length > named.length
    ? `${named.join("; ")}; ${owed.length - named.length} more`
    : named.join("; ");
}

const jobText = ({ at, act }: RoomJob): string => `${at.name} ${act}`;

/** How near the plan is to the best: a sentence. */
export function nearnessText({ cost, bound, isBest }: RoomPlan): string {
  if (isBest)
    return cost < 0.005 ? "No plan has less waiting." : "No plan has less waiting: this is the least.";
  const above = Math.ceil((cost / bound - 1) * 100 - 1e-6);
  return above <= mostPercent
    ? `Its waiting is at most ${above} % above the least that any plan has.`
    : `Whether another plan has much less waiting is not known.`;
}

/** Of more it is not said how many percent: next to nothing is divided by nothing then. */
const mostPercent = 300;

function boundSection(plan: RoomPlan): Section {
  const { daysLate, moved } = plan;
  return {
    title: "How it is made",
    parts: [
      text(
        `Least waiting: each day that ends with a duty owed counts its lateness in parts of its interval, so that none waits for ever. ${nearnessText(plan)}`,
      ),
      list([
        `${days(daysLate)} of waiting in all, each duty’s its own`,
        moved.length === 0
          ? "nothing moved against the plan of yesterday"
          : `${moved.length} moved against the plan of yesterday; a move counts too`,
      ]),
      text(
        "Early by half an interval at most. What is done on the first day already is taken off what that day holds. Tests, counts and feeding are no tank of the day; of a change the least that will do counts.",
        "faint",
      ),
    ],
  };
}
