import { spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { lineAt, placeOfSlot } from "../book/entry.ts";
import { Col, intsPerRow, kindOfRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import { rowOfId } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { middleOf } from "../room/amounts.ts";
import { kept } from "../room/kept.ts";
import { keptFor } from "../room/kept-for-logbook.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Logbook } from "../room/logbook.ts";
import type { Moment } from "../room/observer.ts";
import { clockIn, endIn, type Quarantine, quarantinePeriods } from "../room/quarantine.ts";
import { type PutOff, type QuarantinePeriod, quarantineTanks } from "../room/quarantine-period.ts";
import { settledTime } from "../room/water.ts";
import { placeOfRow, whyEntry, whyStated } from "../room/why.ts";
import { whyPutOffTo, whyQuarantine } from "../room/why-quarantine.ts";
import type { Finding, Fix } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { caseText, putOffText } from "./quarantine-words.ts";
import { days } from "./words.ts";

/** The clock of quarantine: who leaves before it ends, who comes while it runs, what puts it off, and who never was in it. */

type Found = Finding | RowFinding;

/** What is to be said of quarantine, by the number of the ledger it is about. */
export function quarantineFindings(logbook: Logbook): ReadonlyMap<number, readonly Found[]> {
  return keptFor(logbook, "quarantine findings", () => {
    const { book, ledgers } = logbook;
    if (Number.isNaN(book.quarantineDays)) return new Map([...shared(ledgers)]);
    const found = new Map<number, Found[]>([...shared(ledgers)]);
    const add = (at: number, more: readonly Found[]): void => {
      if (more.length > 0) found.set(at, [...(found.get(at) ?? []), ...more]);
    };
    const apart = book.tanks.filter(({ role }) => role === "quarantine");
    if (apart.length === 0) return found;
    for (const [at, ledger] of ledgers.entries()) {
      add(at, clockFindings(logbook, ledger));
      add(
        at,
        kept(ledger, "skipped quarantine", () => skippedFindings(logbook, ledger, apart)),
      );
    }
    return found;
  });
}

function* shared(ledgers: readonly Ledger[]): Iterable<[number, Found[]]> {
  for (const [at, ledger] of ledgers.entries()) {
    const others = ledger.body?.tanks.filter(({ role }) => role !== "quarantine") ?? [];
    if (others.length === 0) continue;
    const told = quarantineTanks(ledger).flatMap((tank) => sharedFinding(tank, others));
    if (told.length > 0) yield [at, told];
  }
}

function sharedFinding(tank: Tank, others: readonly Tank[]): Found[] {
  const { name, place } = tank;
  if (place === undefined) return [];
  const named = others.map((other) =>
    other.role === undefined ? other.name : `${other.name} (${other.role})`,
  );
  return [
    {
      code: "quarantine/shared-water",
      severity: "warning",
      ...place,
      message: `${name} is for quarantine, and shares its water with ${named.join(", ")}: its animals are not apart`,
      fixes: [],
      related: others.flatMap((other) =>
        other.place === undefined
          ? []
          : [{ place: other.place, message: `${other.name} is on the same water` }],
      ),
      why: {
        what: `one water with ${name}`,
        value: others.map((other) => other.name).join(", "),
        from: others.flatMap((other) => (other.place === undefined ? [] : [whyStated(other.place)])),
      },
      about: tank,
    },
  ];
}

/** By the periods they follow from: those are the same as long as nothing they hang on has changed. */
const byPeriods = new WeakMap<readonly QuarantinePeriod[], readonly Found[]>();

function clockFindings(logbook: Logbook, ledger: Ledger): readonly Found[] {
  const periods = quarantinePeriods(logbook, ledger);
  if (periods.length === 0) return [];
  const known = byPeriods.get(periods);
  if (known !== undefined) return known;
  const found = [
    ...periods.flatMap(({ putOff }) => putOff.slice(1).flatMap((each) => putOffFinding(ledger, each))),
    ...earlyFindings(periods, ledger),
  ];
  byPeriods.set(periods, found);
  return found;
}

/** A dose that puts it off is told by its figure: the keeper gave it. */
function putOffFinding(ledger: Ledger, putOff: PutOff): RowFinding[] {
  const { by, at } = putOff;
  if (by === "dose" || by === "bath") return [];
  return [
    {
      code: by === "arrive" || by === "move" ? "quarantine/mixed" : "quarantine/extended",
      block: at.block,
      row: at.row,
      slots: [],
      severity: () => "information",
      message: () => putOffMessage(ledger, putOff),
      why: () => whyPutOffTo(ledger.book, putOff),
      about: quarantineTanks(ledger)[0]!,
    },
  ];
}

function putOffMessage(ledger: Ledger, { by, name, from, to, day }: PutOff): string {
  const where = quarantineTanks(ledger)
    .map((tank) => tank.name)
    .join(", ");
  if (by === "arrive" || by === "move")
    return `new animals come into quarantine in ${where}: the clock of all begins anew, until ${spokenDay(to, day)} instead of ${spokenDay(from, day)}`;
  const signs = `signs of ${caseText(name)}`;
  const what = by === "loss" ? "a loss puts" : by === "over" ? `the last ${signs} put` : `${signs} put`;
  const lasts =
    by === "signs" && name !== "" ? `, and further while ${caseText(name)} is open with signs` : "";
  return `${what} the end of quarantine in ${where} off from ${spokenDay(from, day)} to ${spokenDay(to, day)}${lasts}`;
}

/** Animals that leave the quarantine tanks of a water, but for others and for the hospital. */
function earlyFindings(periods: readonly QuarantinePeriod[], ledger: Ledger): RowFinding[] {
  const { animals, book } = ledger;
  const holdings = ledger.stock.all();
  const found: RowFinding[] = [];
  for (let index = 0; index < animals.length; index++) {
    const tank = book.stations[holdings[animals.tag[index]!]!.tank] as Tank;
    if (tank.role !== "quarantine") continue;
    const block = animals.block[index]!;
    const row = rowOfId(block, animals.row[index]!);
    const kind = row < 0 ? -1 : kindOfRow(block.facts, row);
    if (kind !== Kind.move && kind !== Kind.sell && kind !== Kind.ship) continue;
    const { ints } = block.facts;
    const to = kind === Kind.move ? book.station(ints[row * intsPerRow + Col.object]!) : undefined;
    const role = (to as Tank | undefined)?.role;
    // What came in by the same move is no one who leaves.
    if (to === tank || role === "quarantine" || role === "hospital" || middleOf(block.facts, row) === 0)
      continue;
    const at = { time: animals.time[index]!, block, row: animals.row[index]! };
    const day = Math.floor(at.time);
    const until = settledTime(animals, index);
    if (!(endIn(periods, ledger, day, until) > day)) continue;
    // As it was then, whenever it is asked for.
    const clock = (): Quarantine => clockIn(periods, ledger, day, until)!;
    const species = wordOf(ints[row * intsPerRow + Col.subject]!);
    found.push({
      code: "quarantine/early",
      block,
      row: at.row,
      slots: [],
      severity: () => "warning",
      message: () => earlyText(book.quarantineDays, clock(), species, tank, at),
      related: () => {
        const last = clock().putOff.at(-1)!;
        const place = placeOfRow(last.at.block, last.at.row);
        const isIn = last.by === "arrive" || last.by === "move";
        return place === undefined
          ? []
          : [{ place, message: isIn ? "the last arrival" : "what put its end off" }];
      },
      why: () => {
        const why = whyQuarantine(book, clock());
        return { ...why, from: [...why.from, whyEntry(at)] };
      },
      about: tank,
    });
  }
  return found;
}

function earlyText(
  quarantineDays: number,
  clock: Quarantine,
  species: string,
  tank: Tank,
  at: Moment,
): string {
  const day = Math.floor(at.time);
  const last = clock.putOff.at(-1)!;
  const leave = `${species} leave quarantine in ${tank.name}`;
  if (clock.signs.length > 0)
    return `${leave} while signs of ${clock.signs.map(caseText).join(", ")} last; it ends on ${spokenDay(clock.end, day)} at the earliest`;
  if (last.by !== "arrive" && last.by !== "move")
    return `${leave} before ${spokenDay(clock.end, day)}: ${putOffText(last, day)} put its end off`;
  return `${leave} after ${formatNumber(day - last.day)} of ${days(quarantineDays)}: the last animals came on ${spokenDay(last.day, day)}`;
}

/** Arrivals among animals that were there at the beginning of the day: of one day and tank the first is told. */
function skippedFindings(logbook: Logbook, ledger: Ledger, apart: readonly Tank[]): RowFinding[] {
  const { animals, book } = ledger;
  const holdings = ledger.stock.all();
  const found: RowFinding[] = [];
  const now = new Map<number, number>();
  let before: ReadonlySet<number> = new Set();
  let day = Number.NaN;
  let told = new Set<number>();
  for (let index = 0; index < animals.length; index++) {
    const on = Math.floor(animals.time[index]!);
    if (on !== day) {
      before = new Set([...now].filter(([, there]) => there > 0).map(([tag]) => holdings[tag]!.tank));
      told = new Set();
      day = on;
    }
    const tag = animals.tag[index]!;
    now.set(tag, animals.second[index]!);
    const tank = book.stations[holdings[tag]!.tank] as Tank;
    if (before.size === 0 || tank.role === "quarantine" || tank.role === "hospital" || told.has(tank.id))
      continue;
    const block = animals.block[index]!;
    const row = rowOfId(block, animals.row[index]!);
    if (row < 0 || kindOfRow(block.facts, row) !== Kind.arrive) continue;
    const ready = apart.filter(({ from, until }) => !(from > on) && !(until < on));
    if (ready.length === 0) continue;
    told.add(tank.id);
    const at = { time: animals.time[index]!, block, row: animals.row[index]! };
    const isAmong = before.has(tank.id);
    const species = wordOf(block.facts.ints[row * intsPerRow + Col.subject]!);
    found.push({
      code: "quarantine/skipped",
      block,
      row: at.row,
      slots: [],
      severity: () => "information",
      message: () =>
        `${species} come from outside straight into ${tank.name}, ${isAmong ? "where" : "on a water in which"} others live; arrivals stay apart for ${days(book.quarantineDays)} in this room`,
      related: () =>
        ready.flatMap(({ name, place }) =>
          place === undefined ? [] : [{ place, message: `${name} is for quarantine` }],
        ),
      fixes: () => intoFixes(logbook, at, ready),
      why: () => ({
        what: `came into ${tank.name} by way of no quarantine`,
        value: spokenDay(on),
        from: [
          whyEntry(at),
          ...ready.flatMap(({ place }) => (place === undefined ? [] : [whyStated(place)])),
        ],
      }),
      about: tank,
    });
  }
  return found;
}

/** The quarantine tanks that were empty, as the target of the line: for a slip of the pen. */
function intoFixes(logbook: Logbook, at: Moment, ready: readonly Tank[]): Fix[] {
  const { block, row } = at;
  const line = lineAt(block, placeOfSlot(block, row).start);
  const target = line === undefined || line.is === "sheet" ? undefined : line.target;
  if (target === undefined || block.text.startsWith("@", target.start)) return [];
  return ready
    .filter((tank) => isEmptyAt(logbook.ledgerOf(tank), tank, at.time))
    .map(({ name }) => ({
      title: `Write that they came into ${name}`,
      edits: [{ block, start: target.start, end: target.end, text: name }],
      isSure: false,
    }));
}

function isEmptyAt(ledger: Ledger, tank: Tank, time: number): boolean {
  const { animals } = ledger;
  const holdings = ledger.stock.all();
  const seen = new Set<number>();
  for (let index = animals.from(time) - 1; index >= 0; index--) {
    const tag = animals.tag[index]!;
    if (holdings[tag]!.tank !== tank.id || seen.has(tag)) continue;
    seen.add(tag);
    if (animals.second[index] !== 0) return false;
  }
  return true;
}
