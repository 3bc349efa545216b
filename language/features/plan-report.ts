import { spokenDay } from "../book/dates.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Demand } from "../room/planner/fit.ts";
import type { PlannedDay, PlannedStop, PlannedWork, RoomPlan } from "../room/planner/plan.ts";
import type { Job } from "../room/planner/work.ts";
import { moveCost } from "../science/recurring-work.ts";
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
import { moveText } from "./move-words.ts";
import { fitSection, jobText, noneText } from "./plan-fit.ts";

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
      (plan) => (isEmpty(plan) ? [noneSection] : sectionsOf(plan)),
    ),
  };
}

const isEmpty = ({ jobs, days: shown }: RoomPlan): boolean =>
  jobs.length === 0 && shown.every(({ stops, covered }) => stops.length === 0 && covered.length === 0);

const noneSection: Section = { title: "The plan", parts: [text(noneText)] };

function sectionsOf(plan: RoomPlan): Section[] {
  return [
    fitSection(plan),
    daysSection(plan),
    ...plan.days
      .filter(
        ({ stops, covered, away, owed }) =>
          stops.length > 0 || covered.length > 0 || (away !== undefined && owed.length > 0),
      )
      .map((each) => daySection(each, plan.day)),
    boundSection(plan),
  ];
}

function daysSection({ days: shown, day, doneTanks }: RoomPlan): Section {
  // What a day holds stands in the head where all hold the same, else beside each day.
  const holdsOf = (of: Demand["of"]): string | undefined => {
    const all = new Set(shown.filter(({ away }) => away === undefined).map(({ holds }) => holds[of]));
    const [one] = all;
    if (all.size > 1) return undefined;
    return one === undefined || Number.isNaN(one) ? "" : ` of ${formatNumber(one, 3)}`;
  };
  const held = { tanks: holdsOf("tanks"), litres: holdsOf("litres"), minutes: holdsOf("minutes") };
  const cell = (each: PlannedDay, of: Demand["of"], value: string): string => {
    const holds = each.holds[of];
    return value === "" || held[of] !== undefined || Number.isNaN(holds)
      ? value
      : `${value} of ${formatNumber(holds, 3)}`;
  };
  const hasMinutes = shown.some(({ minutes }) => minutes > 0);
  const rows = shown.map((each) => {
    const { away, tanks, litres, minutes, owed } = each;
    return [
      spokenDay(each.day, day),
      away === undefined ? cell(each, "tanks", tanksText(tanks, each.day === day ? doneTanks : 0)) : "away",
      cell(each, "litres", litres.high === 0 ? "" : spanText(litres)),
      ...(hasMinutes ? [cell(each, "minutes", minutes === 0 ? "" : formatNumber(minutes, 3))] : []),
      owed.length === 0 ? "" : { text: String(owed.length), tone: "warning" as const },
    ];
  });
  return {
    title: "The days",
    parts: [
      table(
        [
          "Day",
          figure(`Tanks${held.tanks ?? ""}`),
          figure(`Litres${held.litres ?? ""}`),
          ...(hasMinutes ? [figure(`Minutes${held.minutes ?? ""}`)] : []),
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

function daySection({ day, away, stops, covered, owed, litres }: PlannedDay, today: number): Section {
  const parts: Part[] = [];
  if (away !== undefined)
    parts.push(
      text(`Away${away === "" ? "" : `: ${away}`}.${stops.length === 0 ? " Nothing is planned." : ""}`),
    );
  if (stops.length > 0) parts.push(list(stopLines(stops, today)));
  if (covered.length > 0) parts.push(text(`Done by someone else: ${coveredText(covered)}.`, "faint"));
  if (owed.length > 0) parts.push(text(`Left owed at its end: ${owedText(owed)}.`, "warning"));
  return {
    title: spokenDay(day, today),
    ...(litres.high > 0 ? { note: `${spanText(litres)} L` } : {}),
    parts,
  };
}

/** Places one after the other with the same work are told together. */
function stopLines(stops: readonly PlannedStop[], today: number): Line[] {
  const lines: { names: string[]; stage: string; what: string }[] = [];
  for (const { at, stage, work } of stops) {
    const what = work.map((each) => workText(each, today)).join(", ");
    const last = lines.at(-1);
    if (last?.what === what && last.stage === stage) last.names.push(at.name);
    else lines.push({ names: [at.kind === "room" ? "the room" : at.name], stage, what });
  }
  return lines.map(({ names, stage, what }) => ({
    text: `${names.join(", ")}: ${what}`,
    ...(stage === "healthy" ? {} : { note: stage }),
  }));
}

function workText({ job, late, isMoved, movedFrom }: PlannedWork, today: number): string {
  const from = Number.isNaN(movedFrom) ? "" : ` from ${spokenDay(movedFrom, today)}`;
  const said = [
    ...(job.isFixed ? ["its day"] : []),
    ...(late === 0 ? [] : [late > 0 ? `${days(late)} late` : `${days(-late)} early`]),
    ...(isMoved ? [`moved${from}`] : []),
  ];
  return said.length === 0 ? job.act : `${job.act} (${said.join(", ")})`;
}

function coveredText(covered: readonly PlannedWork[]): string {
  const named = covered.slice(0, mostNamed).map(({ job }) => jobText(job));
  return covered.length > named.length
    ? `${named.join("; ")}; ${covered.length - named.length} more`
    : named.join("; ");
}

/** So many are named. */
const mostNamed = 12;

/** What stays owed, the places of one act together. */
function owedText(owed: readonly Job[]): string {
  const byAct = new Map<string, string[]>();
  for (const { act, at } of owed) {
    const known = byAct.get(act);
    const name = at.kind === "room" ? "the room" : at.name;
    if (known === undefined) byAct.set(act, [name]);
    else known.push(name);
  }
  return [...byAct]
    .map(([act, names]) => {
      const more = names.length > mostNamed ? ` and ${names.length - mostNamed} more` : "";
      return `${act}: ${names.slice(0, mostNamed).join(", ")}${more}`;
    })
    .join("; ");
}

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
  const { daysLate, moved, days: shown, day } = plan;
  const hasFixed = shown.some(({ stops }) => stops.some(({ work }) => work.some(({ job }) => job.isFixed)));
  return {
    title: "How it is made",
    parts: [
      text(
        `Least waiting: each day that ends with a duty owed counts its lateness in parts of its interval, so that none waits for ever. ${nearnessText(plan)}`,
      ),
      list([
        `${days(daysLate)} of waiting in all, each duty’s its own`,
        ...movedLines(moved, day),
        ...(hasFixed
          ? [
              "doses, what a course owes, orders to pack and ends of quarantine keep their day, and take of it first",
            ]
          : []),
      ]),
      text(
        "Early by half an interval at most. What is done on the first day already is taken off what that day holds. Tests, counts and feeding are no tank of the day; of a change the least that will do counts.",
        "faint",
      ),
    ],
  };
}

function movedLines(moved: readonly PlannedWork[], today: number): Line[] {
  if (moved.length === 0) return [{ text: "nothing moved against the plan of yesterday" }];
  const named = moved.slice(0, mostNamed).map((work): Line => {
    const { job, day, movedFrom } = work;
    const from = Number.isNaN(movedFrom) ? "once more, on" : `from ${spokenDay(movedFrom, today)} to`;
    const why = moveText(work, today);
    const said = `moved: ${jobText(job)} ${from} ${spokenDay(day, today)}`;
    return { text: why === "" ? said : `${said}: ${why}` };
  });
  const more = moved.length - named.length;
  return [
    ...named,
    ...(more > 0 ? [{ text: `moved: ${more} more` }] : []),
    {
      text: `a move counts as ${formatNumber(moveCost, 2)} days late of an interval: a weekly duty is rather left a day late than two are moved, and one is moved to spare it that day`,
      tone: "faint",
    },
  ];
}
