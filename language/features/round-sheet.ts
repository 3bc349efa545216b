import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { wordOf } from "../book/interner.ts";
import { type Parameter, parameters } from "../book/parameters.ts";
import type { Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { dayOfText } from "../checks/quarantine-words.ts";
import { formatNumber } from "../quantity/format.ts";
import { courseSteps } from "../room/course-steps.ts";
import { dosesOn } from "../room/due.ts";
import { residentsAt } from "../room/past.ts";
import { quarantineUntil } from "../room/quarantine.ts";
import { quarantineTanks } from "../room/quarantine-period.ts";
import { handCases } from "../room/reached-by-cases.ts";
import { remedyReasons } from "../room/treated.ts";
import { stepReason, stepWords } from "./course-step-words.ts";
import { roundOver, type Stop } from "./day-round.ts";
import { litresText } from "./litres-text.ts";

/** The sheet for a round with wet hands: a row a tank in the order of hands, what is due to tick, boxes for what is tested there. */

export interface RoundSheet {
  readonly title: string;
  readonly day: number;
  readonly heads: readonly RoundHead[];
  /** What is tested somewhere and found no column. */
  readonly left: readonly string[];
  readonly rows: readonly RoundRow[];
}

export interface RoundHead {
  readonly parameter: Parameter;
  /** The room's; empty for pH. */
  readonly unit: string;
}

export interface RoundRow {
  /** A tank or system; a gear that serves none, or the room. */
  readonly at: string;
  readonly title: string;
  /** What to do before it; empty where it is no dirtier than the row before. */
  readonly before: string;
  readonly flags: readonly string[];
  readonly acts: readonly string[];
  /** One a head: the last value where it is tested there, undefined where it is not. Empty where it was never read. */
  readonly boxes: readonly (string | undefined)[];
  /** Whether animals can be in it. */
  readonly isTank: boolean;
}

/** More columns leave no room for wet hands. A choice of this tool. */
const mostHeads = 6;
/** What was not tested for so long is not tested there any more. A choice of this tool. */
const testedDays = 60;

export function roundSheet(checked: CheckedLogbook, worldDay: number): RoundSheet {
  const { logbook, book } = checked;
  const day = logbook.today(worldDay);
  const cases = handCases(logbook, day);
  const tested = testedOn(checked, day);
  const inService = book.tanks.filter(({ from, until }) => !(from > day) && !(until < day));
  const places = [...new Set<Station>([...inService, ...tested.keys(), ...owingCourses(checked, day)])];
  const stops = roundOver(checked, cases, day, places);
  const { heads, left } = headsOf(checked, [...tested.values()], day);
  return {
    title: book.title,
    day,
    heads: heads.map((parameter) => ({ parameter, unit: unitOf(book, parameter) })),
    left: left.map(({ name }) => name),
    rows: stops.map((stop) => ({
      at: stop.at.name,
      title: stop.at.title,
      before: stop.before,
      flags: flagsOf(checked, stop, day, cases.isReached),
      acts: [...courseActs(checked, stop.at, day), ...actsOf(stop)],
      boxes: heads.map((parameter) =>
        tested.get(stop.at)?.has(parameter) === true ? lastOf(checked, stop.at, parameter, day) : undefined,
      ),
      isTank: stop.at.kind === "tank",
    })),
  };
}

const unitOf = ({ units }: Book, parameter: Parameter): string =>
  parameter.dimension === "pH" ? "" : units.shown(parameter).symbol;

/** Whether a round sheet has a box. */
export const isAnythingTested = (checked: CheckedLogbook, day: number): boolean =>
  testedOn(checked, day).size > 0;

/** What is tested at each tank and system: by its duties, and by what was read there of late. */
function testedOn({ logbook, book }: CheckedLogbook, day: number): Map<Station, Set<Parameter>> {
  const found = new Map<Station, Set<Parameter>>();
  const add = (station: Station | undefined, parameter: Parameter | undefined): void => {
    if (station === undefined || parameter === undefined || !isThere(station, day)) return;
    const known = found.get(station) ?? new Set();
    found.set(station, known.add(parameter));
  };
  for (const station of book.stations)
    for (const { kind, subjects } of station.duties)
      if (kind === Kind.test && station.body >= 0)
        for (const id of subjects ?? []) add(station, parameters[id]);
  for (const { readings } of logbook.ledgers)
    for (const parameter of parameters) {
      const series = readings[parameter.id];
      if (series === undefined) continue;
      const end = series.from(day + 1);
      for (let at = series.from(day - testedDays); at < end; at++)
        add(book.stations[series.tag[at]!], parameter);
    }
  return found;
}

function isThere(station: Station, day: number): boolean {
  const { from, until } = station as Tank;
  return station.kind !== "tank" || (!(from > day) && !(until < day));
}

/** Those tested at the most places, of like the most often, in the order of parameters. */
function headsOf(
  { logbook }: CheckedLogbook,
  tested: readonly ReadonlySet<Parameter>[],
  day: number,
): { readonly heads: readonly Parameter[]; readonly left: readonly Parameter[] } {
  const places = (parameter: Parameter): number => tested.filter((each) => each.has(parameter)).length;
  const readings = ({ id }: Parameter): number =>
    logbook.ledgers.reduce((sum, ledger) => {
      const series = ledger.readings[id];
      return sum + (series === undefined ? 0 : series.from(day + 1) - series.from(day - testedDays));
    }, 0);
  const all = parameters.filter((parameter) => places(parameter) > 0);
  const order = [...all].sort((a, b) => places(b) - places(a) || readings(b) - readings(a));
  const kept = new Set(order.slice(0, mostHeads));
  return {
    heads: all.filter((parameter) => kept.has(parameter)),
    left: all.filter((parameter) => !kept.has(parameter)),
  };
}

/** The last value at a place, of shared water else that of another tank of it: `18`, `<5`, without its unit. Empty where it was never read. */
const lastOf = (checked: CheckedLogbook, station: Station, parameter: Parameter, day: number): string =>
  lastReading(checked, station, parameter, day)?.text ?? "";

/** The same with its time, in days. */
export function lastReading(
  { logbook, book }: CheckedLogbook,
  station: Station,
  parameter: Parameter,
  day: number,
): { readonly text: string; readonly time: number } | undefined {
  const series = logbook.ledgerOf(station).readings[parameter.id];
  const end = series?.from(day + 1) ?? 0;
  if (series === undefined || end === 0) return undefined;
  let at = end - 1;
  while (at >= 0 && series.tag[at] !== station.id) at--;
  const index = at < 0 ? end - 1 : at;
  const text = valueText(book, parameter, series.first[index]!, series.second[index]!);
  return { text, time: series.time[index]! };
}

function valueText(book: Book, parameter: Parameter, low: number, high: number): string {
  const shown = (canonical: number): string => formatNumber(book.units.fromReading(parameter, canonical));
  if (low === high) return shown(low);
  if (high === Number.POSITIVE_INFINITY) return `>${shown(low)}`;
  const [least] = parameter.possible;
  const isBelow = low === least * parameter.unit.factor + parameter.unit.offset;
  return isBelow ? `<${shown(high)}` : `${shown(low)}..${shown(high)}`;
}

/** Where courses owe something today. */
function owingCourses(checked: CheckedLogbook, day: number): Station[] {
  return checked.logbook.ledgers.flatMap(({ body }) => {
    const station = body?.system ?? body?.tanks[0];
    return station !== undefined && courseActs(checked, station, day).length > 0 ? [station] : [];
  });
}

function courseActs({ logbook }: CheckedLogbook, station: Station, day: number): string[] {
  const ledger = logbook.ledgerOf(station);
  const { body } = ledger;
  // Of shared water once: at its system.
  if (body === undefined || (body.system ?? body.tanks[0]) !== station) return [];
  const doses = dosesOn(ledger, day)
    .filter(({ late }) => late >= 0)
    .flatMap(({ course, changeOwed }) => [
      ...(changeOwed > leastOwed ? [`change ${Math.ceil(changeOwed * 100 - 1e-9)} % first`] : []),
      `dose ${course.remedy.name}`,
    ]);
  const steps = courseSteps(logbook, ledger, day)
    .filter(({ late }) => late >= 0)
    .map((step) => `${stepWords(step)}, ${stepReason(step)}`);
  return [...doses, ...steps];
}

const leastOwed = 0.005;

/** What is due, in few words. Tests have their boxes. */
function actsOf({ work, at }: Stop): string[] {
  return work
    .filter(({ due }) => due.duty.kind !== Kind.test || at.body < 0)
    .map(({ act, litres }) => (litres === undefined ? act : `${act} (${litresText(litres)})`));
}

function flagsOf(
  { logbook, book }: CheckedLogbook,
  { at, stage, reason }: Stop,
  day: number,
  isReached: (tank: Tank) => readonly string[],
): string[] {
  const ledger = logbook.ledgerOf(at);
  if (ledger.body === undefined) return [];
  const flags: string[] = [];
  if (stage === "sick" && !reason.startsWith("a course of")) flags.push(`SICK: ${reason}`);
  const held = at.kind === "tank" ? isReached(at as Tank) : [];
  if (held.length > 0 && stage !== "sick")
    flags.push(`HELD: ${held.filter(Boolean).join(", ") || "signs of disease"}`);
  const clock = quarantineUntil(logbook, ledger, day, day + 1);
  const isOfClock = at.kind === "system" || quarantineTanks(ledger).some((tank) => tank === at);
  if (clock !== undefined && clock.end > day && isOfClock) flags.push(`quarantine ${dayOfText(clock, day)}`);
  else if (stage === "quarantine" && /^new animals/.test(reason)) flags.push(reason);
  for (const { name, until, is } of remedyReasons(ledger, day, day + 1)) {
    const when = Number.isFinite(until) ? ` until ${spokenDay(until, day)}` : "";
    flags.push(`${name}${is === "remedy" ? " in the water" : ""}: no shipping${when}`);
  }
  const kinds = residentsAt(ledger, day + 1).map((number) => book.species.get(wordOf(number))?.kind);
  const harmed = (["shrimp", "snail", "crayfish"] as const).filter((kind) => kinds.includes(kind));
  if (harmed.length > 0) flags.push(`${harmed.join(", ")}: no copper`);
  return flags;
}
