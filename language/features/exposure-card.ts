import { spokenDay } from "../book/dates.ts";
import type { Station } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { days } from "../checks/words.ts";
import { type Case, casesUntil } from "../room/cases.ts";
import { exposedTanks, isHeld } from "../room/exposed-tanks.ts";
import {
  type Exposure,
  exposureOf,
  isOpenOn,
  type Origin,
  resultOf,
  signsOf,
} from "../room/exposure-of-case.ts";
import type { Logbook } from "../room/logbook.ts";
import type { ExposureCard } from "./exposure-cards.ts";
import { drawnOf } from "./exposure-lanes.ts";
import { CardMaker } from "./exposure-parts.ts";

/** What is asked of: a case by its name or as it is, or a tank or system to the end of a day. */
export type ExposureSubject =
  | { readonly is: "case"; readonly name: string }
  | { readonly is: "thread"; readonly thread: Case }
  | { readonly is: "station"; readonly station: Station; readonly day: number };

export interface ExposureAsked {
  /** NaN for what the room states. */
  readonly days: number;
  readonly by: "signs" | "result";
}

const usual: ExposureAsked = { days: Number.NaN, by: "signs" };

/**
 * The exposure of a case, of its result, or of a tank on a day. Undefined where there is nothing to begin at: no such case by then, no
 * sign in any water, no positive result.
 */
export function exposureCard(
  checked: CheckedLogbook,
  subject: ExposureSubject,
  worldDay: number,
  asked: ExposureAsked = usual,
): ExposureCard | undefined {
  const { logbook } = checked;
  const today = logbook.today(worldDay);
  if (subject.is === "station") {
    const { station, day } = subject;
    if (station.body < 0 || day > today) return undefined;
    const origin: Origin = { station, day, at: undefined, how: "asked" };
    const exposure = exposureOf(logbook, [origin], [], { days: asked.days, until: today });
    return cardOf(logbook, exposure, undefined, "asked");
  }
  const thread =
    subject.is === "thread"
      ? subject.thread
      : casesUntil(logbook, today).findLast(({ name }) => name === subject.name);
  if (thread === undefined) return undefined;
  const isResult = asked.by === "result";
  const { first, later } = isResult ? { first: resultOf(thread), later: [] } : signsOf(thread);
  if (first.length === 0) return undefined;
  const closed = Number.isNaN(thread.closed) ? today : Math.min(today, thread.closed);
  // A result may come after the case was closed: it is followed to today.
  const until = isResult && thread.afterwards.length > 0 ? today : closed;
  const exposure = exposureOf(logbook, first, later, { days: asked.days, until });
  return cardOf(logbook, exposure, thread, isResult ? "result" : "signs");
}

/** The exposure of each case that is open today, in the order in which they were opened. */
export function openExposures(
  checked: CheckedLogbook,
  worldDay: number,
  asked: ExposureAsked = usual,
): ExposureCard[] {
  const { logbook } = checked;
  const today = logbook.today(worldDay);
  return casesUntil(logbook, today)
    .filter((each) => isOpenOn(each, today))
    .flatMap((thread) => exposureCard(checked, { is: "thread", thread }, worldDay, asked) ?? []);
}

function cardOf(
  logbook: Logbook,
  exposure: Exposure,
  thread: Case | undefined,
  by: ExposureCard["by"],
): ExposureCard {
  const maker = new CardMaker(logbook, exposure);
  const tanks = exposedTanks(logbook.book, exposure);
  const inOrder = [...tanks].sort(
    (a, b) =>
      Number(b.isOrigin) - Number(a.isOrigin) ||
      a.closest.rank - b.closest.rank ||
      a.closest.hops.length - b.closest.hops.length ||
      a.since - b.since,
  );
  const forward = maker.forward(tanks);
  const back = maker.back();
  const beside = maker.beside();
  const closed = thread?.closed ?? Number.NaN;
  const { until, from, windowDays } = exposure;
  return {
    is: "exposure",
    case: thread?.name ?? "",
    title: titleOf(exposure, thread, by),
    by,
    from,
    day: until,
    closed: closed <= until ? closed : null,
    windowDays,
    windowText: windowText(exposure, by),
    origins: maker.origins(),
    hold: inOrder.filter((each) => isHeld(each, exposure)).map((each) => maker.held(each)),
    past: inOrder
      .filter((each) => each.ended === undefined && !isHeld(each, exposure))
      .map((each) => maker.held(each)),
    ended: inOrder.flatMap((each) => maker.ended(each)),
    tools: maker.tools(),
    forward,
    back,
    beside,
    cuts: maker.cuts(),
    ...drawnOf(logbook.book, exposure, { forward, back, beside }),
  };
}

const beginWords = { signs: "the first signs", result: "the sample", asked: "that day" } as const;

function windowText({ windowDays, isStated }: Exposure, by: ExposureCard["by"]): string {
  const whose = isStated ? "" : " (a choice of this tool: the room states no trace)";
  return `contacts from ${days(windowDays)} before ${beginWords[by]} on${whose}`;
}

function titleOf({ origins, until }: Exposure, thread: Case | undefined, by: ExposureCard["by"]): string {
  const [first] = origins;
  if (thread === undefined) return `${first!.station.name} on ${spokenDay(first!.day, until)}`;
  if (thread.name !== "") return by === "result" ? `Result of case ${thread.name}` : `Case ${thread.name}`;
  return `Signs of disease in ${origins.map(({ station }) => station.name).join(", ")}`;
}
