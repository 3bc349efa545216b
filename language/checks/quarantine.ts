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
import {
  type PutOff,
  type Quarantine,
  type QuarantinePeriod,
  quarantinePeriods,
  quarantineTanks,
  quarantineUntil,
} from "../room/quarantine.ts";
import { settledTime } from "../room/water.ts";
import { placeOfRow, whyEntry, whyStated } from "../room/why.ts";
import { quarantineSource, whyPutOffTo, whyQuarantine } from "../room/why-quarantine.ts";
import { page } from "./code.ts";
import type { Finding, Fix } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { caseText, putOffText } from "./quarantine-words.ts";
import { days } from "./words.ts";

/** The clock of quarantine: who leaves before it ends, who comes while it runs, what puts it off, and who never was in it. */

const room = `room "Cellar"
  quarantine 28 d
species praecox
tank dam
  volume 300 L
`;
const prelude = `${room}tank q1
  volume 50 L
  role quarantine
`;
const source = `${quarantineSource}.`;

export const quarantinePages = [
  page({
    code: "quarantine/early",
    severity: "warning",
    since: "0.1",
    title: "Out of quarantine early",
    says: "Animals leave a quarantine tank before its clock has run out, by a move, a sale or a shipment. The clock is one for all of them: it counts from the last animal that came into the water, and a loss, signs of disease or, where the room states “clear”, a dose put its end off.",
    whatToDo:
      "Keep them apart, or say in a note why not; watch the tank they went to, and what has shared water with it since.",
    raises: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-15
  q1 move praecox 8 -> dam
# ^^^^^^^^^^^^^^^^^^^^^^^^ quarantine/early`,
    fine: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-29
  q1 move praecox 8 -> dam`,
    source,
  }),
  page({
    code: "quarantine/mixed",
    severity: "information",
    since: "0.3",
    title: "New animals among those in quarantine",
    says: "Animals come into a quarantine tank, or into water it shares, while the clock of others runs. What the new ones carry, the others may have from then on: the clock of all begins anew.",
    whatToDo: "Keep all of them for as long as the last, or give each arrival a tank of its own.",
    raises: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-10
  q1 arrive praecox 4
# ^^^^^^^^^^^^^^^^^^^ quarantine/mixed`,
    fine: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-29
  q1 move praecox 8 -> dam
2026-03-29
  q1 arrive praecox 4`,
    source,
  }),
  page({
    code: "quarantine/extended",
    severity: "information",
    since: "0.3",
    title: "Quarantine lasts longer",
    says: "An animal was found dead or had to be euthanised, or some show signs of disease, while the clock of a quarantine runs. Its end is put off: by the days that the room states as “clear”, or, where it states none, by the whole time anew. Signs of a case last until an entry says that none show them, or the case is closed.",
    whatToDo:
      "Find out why before they go anywhere: look at all of them, and have one examined. Of some diseases the authority must be told at once: ask a veterinarian.",
    raises: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-10
  q1 lose praecox 1 found
# ^^^^^^^^^^^^^^^^^^^^^^^ quarantine/extended`,
    fine: `${prelude.replace("28 d", "28 d\n  clear 14 d")}2026-03-01
  q1 arrive praecox 8
2026-03-10
  q1 lose praecox 1 found
2026-03-11
  q1 lose praecox 1 jumped`,
    source:
      "That deaths, signs and treatment put a release off is *common practice*; for how long is the keeper's to state.",
  }),
  page({
    code: "quarantine/shared-water",
    severity: "warning",
    since: "0.3",
    title: "Quarantine shares its water",
    says: "A quarantine tank is on one water with a tank of another role. Whatever its animals carry is in that tank too: they are not apart.",
    whatToDo:
      "Give the quarantine tank a water of its own, or state another role. Until then what lives in that water is in quarantine with them.",
    raises: `${room}system rack
  sump 40 L
tank q1
#    ^^ quarantine/shared-water
  volume 50 L
  role quarantine
  system rack
tank r1
  volume 50 L
  role grow-out
  system rack`,
    fine: `${room}system rack
  sump 40 L
tank q1
  volume 50 L
  role quarantine
  system rack
tank q2
  volume 50 L
  role quarantine
  system rack`,
    source: "That quarantine is isolation, with water, tools and air of its own: *common practice*.",
  }),
  page({
    code: "quarantine/skipped",
    severity: "information",
    since: "0.3",
    title: "Not by way of quarantine",
    says: "Animals come from outside straight into water in which others live, though the room states a quarantine and has a tank for it. What they carry, the others may have from that day on.",
    whatToDo:
      "Let arrivals stay apart first. If these were in quarantine elsewhere, say so in a note; watch the tank, and let nothing go from it until the time has passed.",
    raises: `${prelude}2026-03-01
  dam count praecox 14
2026-03-10
  dam arrive praecox 4
# ^^^^^^^^^^^^^^^^^^^^ quarantine/skipped`,
    fine: `${prelude}2026-03-01
  dam arrive praecox 14
  dam arrive praecox 4`,
    source: "That arrivals stay apart: *common practice*; for how long is the keeper's to state.",
  }),
] as const;

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
    ...earlyFindings(logbook, ledger),
  ];
  byPeriods.set(periods, found);
  return found;
}

/** A dose that puts it off is told by its figure: the keeper gave it. */
function putOffFinding(ledger: Ledger, putOff: PutOff): RowFinding[] {
  const { book } = ledger;
  const { by, name, from, to, day, at } = putOff;
  if (by === "dose" || by === "bath") return [];
  const where = quarantineTanks(ledger)
    .map((tank) => tank.name)
    .join(", ");
  const isNew = by === "arrive" || by === "move";
  const ends = `from ${spokenDay(from, day)} to ${spokenDay(to, day)}`;
  const lasts =
    by === "signs" && name !== "" ? `, and further while ${caseText(name)} is open with signs` : "";
  const what = {
    loss: "a loss",
    signs: `signs of ${caseText(name)}`,
    over: `the last signs of ${caseText(name)}`,
    arrive: "",
    move: "",
  }[by];
  const verb = by === "loss" ? "puts" : "put";
  return [
    {
      code: isNew ? "quarantine/mixed" : "quarantine/extended",
      block: at.block,
      row: at.row,
      slots: [],
      severity: () => "information",
      message: () =>
        isNew
          ? `new animals come into quarantine in ${where}: the clock of all begins anew, until ${spokenDay(to, day)} instead of ${spokenDay(from, day)}`
          : `${what} ${verb} the end of quarantine in ${where} off ${ends}${lasts}`,
      why: () => whyPutOffTo(book, putOff),
      about: quarantineTanks(ledger)[0]!,
    },
  ];
}

/** Animals that leave the quarantine tanks of a water, but for others and for the hospital. */
function earlyFindings(logbook: Logbook, ledger: Ledger): RowFinding[] {
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
    const clock = quarantineUntil(logbook, ledger, day, settledTime(animals, index));
    if (clock === undefined || clock.end <= day) continue;
    const species = wordOf(ints[row * intsPerRow + Col.subject]!);
    found.push({
      code: "quarantine/early",
      block,
      row: at.row,
      slots: [],
      severity: () => "warning",
      message: () => earlyText(book.quarantineDays, clock, species, tank, at),
      related: () => {
        const last = clock.putOff.at(-1)!;
        const place = placeOfRow(last.at.block, last.at.row);
        const isIn = last.by === "arrive" || last.by === "move";
        return place === undefined
          ? []
          : [{ place, message: isIn ? "the last arrival" : "what put its end off" }];
      },
      why: () => {
        const why = whyQuarantine(book, clock);
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
