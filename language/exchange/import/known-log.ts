import { Kind } from "../../book/entries/registry.ts";
import {
  Col,
  type Facts,
  floatsPerRow,
  intsPerRow,
  kindOfRow,
  markOfAmount,
  minuteOfRow,
  Num,
  unitOfAmount,
} from "../../book/facts.ts";
import { wordOf } from "../../book/interner.ts";
import { type Parameter, parameters } from "../../book/parameters.ts";
import type { Block } from "../../book/source.ts";
import type { Limit, Tank } from "../../book/stations.ts";
import { toCanonical } from "../../quantity/quantity.ts";
import { noUnit } from "../../quantity/unit-codes.ts";
import { unitById } from "../../quantity/units.ts";
import type { Logbook } from "../../room/logbook.ts";
import { Mark } from "../../syntax/pieces.ts";
import type { KnownPlace } from "./propose-tanks.ts";
import type { Meaning } from "./read-other.ts";
import type { Other, Reading } from "./read-row.ts";

/** What a log holds already, as an import asks for it. */

interface KnownReading {
  readonly minute: number;
  /** Canonical, in the parameter's own basis. */
  readonly value: number;
  /** Of a range the upper end; NaN where it is one figure. */
  readonly high: number;
  readonly censor: Reading["censor"];
  readonly text: string;
}

interface KnownOther {
  readonly minute: number;
  readonly amount: number;
  /** Of a range the upper end; NaN where it is one figure. */
  readonly high: number;
  readonly dimension: string;
  readonly text: string;
}

/** What a table may name of a log. */
export interface KnownNames {
  readonly places: readonly KnownPlace[];
  readonly species: readonly KnownPlace[];
  readonly foods: readonly KnownPlace[];
}

export type Known = "new" | "known" | { readonly differs: string };

export class KnownLog {
  readonly logbook: Logbook;
  private readonly blocks: ReadonlyMap<number, readonly Block[]>;
  private readonly days = new Map<number, ReadonlyMap<string, readonly KnownReading[]>>();
  private readonly others = new Map<number, ReadonlyMap<string, readonly KnownOther[]>>();
  private readonly notes = new Map<number, ReadonlySet<string>>();
  /** Of a tank on shared water its system, of a system its tanks: a reading of the one is a reading of the other. */
  private readonly sameWater = new Map<string, readonly string[]>();
  private readonly systemOf = new Map<string, string>();

  constructor(logbook: Logbook) {
    this.logbook = logbook;
    this.blocks = new Map(logbook.dayGroups.map(({ day, blocks }) => [day, blocks]));
    const { stations } = logbook.book;
    for (const system of stations.filter(({ kind }) => kind === "system")) {
      const tanks = stations.filter(({ kind, body }) => kind === "tank" && body === system.body);
      this.sameWater.set(
        system.name,
        tanks.map(({ name }) => name),
      );
      for (const { name } of tanks) {
        this.sameWater.set(name, [system.name]);
        this.systemOf.set(name, system.name);
      }
    }
  }

  /** All that a table may name. */
  get names(): KnownNames {
    const { species, foods } = this.logbook.book;
    const named = (each: { readonly name: string; readonly title: string }): KnownPlace => ({
      name: each.name,
      title: each.title,
    });
    return {
      places: this.places,
      species: [...species.values()].map(named),
      foods: [...foods.values()].map(named),
    };
  }

  /** The tanks and systems of which readings can be told. */
  get places(): KnownPlace[] {
    return this.logbook.book.stations
      .filter(({ kind }) => kind === "tank" || kind === "system")
      .map(({ name, title }) => ({ name, title }));
  }

  blocksOn(day: number): readonly Block[] {
    return this.blocks.get(day) ?? [];
  }

  limitOf(tank: string, parameter: Parameter): Limit | undefined {
    const station = this.logbook.book.stations.find(({ name }) => name === tank);
    return (station as Partial<Tank> | undefined)?.limits?.get(parameter.id);
  }

  /** The figure that is compared and held against limits, of a range its lower end; NaN if the room's basis does not tell. */
  canonical({ parameter, text, unit }: Reading, of = text): number {
    return this.logbook.book.units.reading(parameter, Number(of), unit.unit.id);
  }

  /** Whether a reading stands in the log. One without a time is that of any time of its day. */
  reading(reading: Reading): Known {
    const readings = this.readingsOn(reading.day);
    const of = (tank: string): readonly KnownReading[] =>
      readings.get(`${tank} ${reading.parameter.id}`) ?? [];
    const value = this.canonical(reading);
    const high = reading.high === "" ? Number.NaN : this.canonical(reading, reading.high);
    const isDay = Number.isNaN(reading.minute);
    const isThen = ({ minute }: KnownReading): boolean => isDay || minute === reading.minute;
    const isSame = (each: KnownReading): boolean =>
      isThen(each) &&
      each.censor === reading.censor &&
      isNear(each.value, value) &&
      isSameEnd(each.high, high);
    const own = of(reading.tank);
    if (own.some(isSame)) return "known";
    if ((this.sameWater.get(reading.tank) ?? []).some((other) => of(other).some(isSame))) return "known";
    const other = own.find((each) => isThen(each) && (!isDay || each.minute === 0));
    return other === undefined ? "new" : { differs: other.text };
  }

  /**
   * Whether an entry stands in the log, however it is written there.
   * @param nth how many that say the same came before it in the table: what was done twice a day stands there twice
   */
  other({ day, minute, tank, words, means }: Other, nth = 0): Known {
    const isDay = Number.isNaN(minute);
    if (means.kind === "note")
      return this.notesOn(day).has(`${isDay ? "" : `${clock(minute)} `}${tank} ${words}`) ? "known" : "new";
    const thenOf = (of: string): readonly KnownOther[] =>
      (this.othersOn(day).get(`${of} ${means.kind} ${means.subject}`) ?? []).filter(
        (each) => isDay || each.minute === minute,
      );
    const then = thenOf(tank);
    const isSame = (each: KnownOther): boolean =>
      Number.isNaN(means.amount)
        ? Number.isNaN(each.amount)
        : each.dimension === means.dimension &&
          isNear(each.amount, means.amount) &&
          isSameEnd(each.high, means.high);
    const isOne = means.kind === "count" || means.kind === "change";
    if (then.filter(isSame).length > (isOne || !isDay ? 0 : nth)) return "known";
    // A share of the system's water that was changed is one of each of its tanks'.
    const system = means.dimension === "fraction" ? this.systemOf.get(tank) : undefined;
    if (means.kind === "change" && system !== undefined && thenOf(system).some(isSame)) return "known";
    // A second feed or loss of a day is one more; a second count or change at one time contradicts the first.
    const differing = isOne ? then.find((each) => !isDay || each.minute === 0) : undefined;
    return differing === undefined ? "new" : { differs: differing.text };
  }

  private readingsOn(day: number): ReadonlyMap<string, readonly KnownReading[]> {
    const known = this.days.get(day);
    if (known !== undefined) return known;
    const { book } = this.logbook;
    const made = new Map<string, KnownReading[]>();
    for (const { facts } of this.blocksOn(day))
      for (let row = 0; row < facts.count; row++) {
        if (kindOfRow(facts, row) !== Kind.test) continue;
        const at = row * intsPerRow;
        const target = facts.ints[at + Col.target]!;
        const parameter = parameters[facts.ints[at + Col.subject]!];
        if (parameter === undefined) continue;
        const reading: KnownReading = {
          minute: minuteOfRow(facts, row),
          value: book.units.reading(
            parameter,
            facts.floats[row * floatsPerRow + Num.amount]!,
            unitOfAmount(facts, row),
          ),
          high:
            markOfAmount(facts, row) === Mark.range
              ? book.units.reading(
                  parameter,
                  facts.floats[row * floatsPerRow + Num.high]!,
                  unitOfAmount(facts, row),
                )
              : Number.NaN,
          censor: signOf(facts, row),
          text: inWords(parameter, facts, row),
        };
        const names = this.targets(target);
        for (const name of names) {
          const key = `${name} ${parameter.id}`;
          made.set(key, [...(made.get(key) ?? []), reading]);
        }
      }
    this.days.set(day, made);
    return made;
  }

  /** The stations that a target names. */
  private targets(target: number): readonly string[] {
    if (target >= 0) return [wordOf(target)];
    return this.logbook.book.groups.get(wordOf(~target))?.tanks.map(({ name }) => name) ?? [];
  }

  private othersOn(day: number): ReadonlyMap<string, readonly KnownOther[]> {
    const known = this.others.get(day);
    if (known !== undefined) return known;
    const made = new Map<string, KnownOther[]>();
    for (const { facts } of this.blocksOn(day))
      for (let row = 0; row < facts.count; row++) {
        const kind = otherKinds.get(kindOfRow(facts, row));
        if (kind === undefined) continue;
        const at = row * intsPerRow;
        const subject = kind === "change" ? "" : wordOf(facts.ints[at + Col.subject]!);
        const written = facts.floats[row * floatsPerRow + Num.amount]!;
        const isRange = markOfAmount(facts, row) === Mark.range;
        const upper = isRange ? facts.floats[row * floatsPerRow + Num.high]! : Number.NaN;
        const code = unitOfAmount(facts, row);
        const unit = code > noUnit ? unitById(code) : undefined;
        const other: KnownOther = {
          minute: minuteOfRow(facts, row),
          amount: unit === undefined ? written : toCanonical(written, unit.id),
          high: unit === undefined ? upper : toCanonical(upper, unit.id),
          dimension: unit?.dimension ?? "",
          text: [
            kind,
            subject,
            Number.isNaN(written) ? "" : `${written}${isRange ? `..${upper}` : ""}`,
            unit?.symbol ?? "",
          ]
            .filter((each) => each !== "")
            .join(" "),
        };
        for (const name of this.targets(facts.ints[at + Col.target]!)) {
          const key = `${name} ${kind} ${subject}`;
          const list = made.get(key);
          if (list === undefined) made.set(key, [other]);
          else list.push(other);
        }
      }
    this.others.set(day, made);
    return made;
  }

  /** The lines of a day that are notes, as they are written. */
  private notesOn(day: number): ReadonlySet<string> {
    const known = this.notes.get(day);
    if (known !== undefined) return known;
    const made = new Set<string>();
    for (const { text } of this.blocksOn(day))
      for (const line of text.split(/\r\n|\n|\r/).slice(1)) {
        const found = /^\s+(?:(\d{1,2}:\d{2})\s+)?(\S+)\s+note\s+("(?:[^"\\]|\\.)*")/.exec(line);
        if (found !== null)
          made.add([found[1]?.padStart(5, "0"), found[2], "note", found[3]].filter(Boolean).join(" "));
      }
    this.notes.set(day, made);
    return made;
  }
}

const otherKinds: ReadonlyMap<number, Meaning["kind"]> = new Map([
  [Kind.change, "change"],
  [Kind.feed, "feed"],
  [Kind.count, "count"],
  [Kind.lose, "lose"],
]);

const isSameEnd = (a: number, b: number): boolean =>
  Number.isNaN(a) || Number.isNaN(b) ? Number.isNaN(a) && Number.isNaN(b) : isNear(a, b);

const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(b));

function signOf(facts: Facts, row: number): Reading["censor"] {
  const mark = markOfAmount(facts, row);
  return mark === Mark.below ? "<" : mark === Mark.above ? ">" : mark === Mark.about ? "~" : "";
}

/** A reading of the log as it is told. */
function inWords(parameter: Parameter, facts: Facts, row: number): string {
  const code = unitOfAmount(facts, row);
  const unit = code > noUnit ? ` ${unitById(code).symbol}` : "";
  const [low, high] = [Num.amount, Num.high].map((at) => facts.floats[row * floatsPerRow + at]!);
  const range = markOfAmount(facts, row) === Mark.range ? `..${high}` : "";
  return `${parameter.name} ${signOf(facts, row)}${low}${range}${parameter.dimension === "pH" ? "" : unit}`;
}

/** `08:40`. */
export const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
