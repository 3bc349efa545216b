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
import { noUnit } from "../../quantity/unit-codes.ts";
import { unitById } from "../../quantity/units.ts";
import type { Logbook } from "../../room/logbook.ts";
import { Mark } from "../../syntax/pieces.ts";
import type { KnownPlace } from "./propose-tanks.ts";
import type { Other, Reading } from "./read-row.ts";

/** What a log holds already, as an import asks for it. */

interface KnownReading {
  readonly minute: number;
  /** Canonical, in the parameter's own basis. */
  readonly value: number;
  readonly censor: "" | "<" | ">";
  readonly text: string;
}

export type Known = "new" | "known" | { readonly differs: string };

export class KnownLog {
  readonly logbook: Logbook;
  private readonly blocks: ReadonlyMap<number, readonly Block[]>;
  private readonly days = new Map<number, ReadonlyMap<string, readonly KnownReading[]>>();
  private readonly lines = new Map<number, ReadonlySet<string>>();

  constructor(logbook: Logbook) {
    this.logbook = logbook;
    this.blocks = new Map(logbook.dayGroups.map(({ day, blocks }) => [day, blocks]));
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

  /** The figure that is compared and held against limits; NaN if the room's basis does not tell. */
  canonical({ parameter, text, unit }: Reading): number {
    return this.logbook.book.units.reading(parameter, Number(text), unit.unit.id);
  }

  /** Whether a reading stands in the log. One without a time is that of any time of its day. */
  reading(reading: Reading): Known {
    const there = this.readingsOn(reading.day).get(`${reading.tank} ${reading.parameter.id}`) ?? [];
    const value = this.canonical(reading);
    const isSame = (each: KnownReading): boolean =>
      each.censor === reading.censor && Math.abs(each.value - value) <= 1e-9 * Math.max(1, Math.abs(value));
    const isDay = Number.isNaN(reading.minute);
    const then = there.filter(({ minute }) => isDay || minute === reading.minute);
    if (then.some(isSame)) return "known";
    const other = then.find(({ minute }) => !isDay || minute === 0);
    return other === undefined ? "new" : { differs: other.text };
  }

  /** Whether an entry stands in the log as it would be written. */
  other({ day, minute, tank, words }: Other): Known {
    return this.linesOn(day).has(lineKey(minute, `${tank} ${words}`)) ? "known" : "new";
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
        const mark = markOfAmount(facts, row);
        const reading: KnownReading = {
          minute: minuteOfRow(facts, row),
          value: book.units.reading(
            parameter,
            facts.floats[row * floatsPerRow + Num.amount]!,
            unitOfAmount(facts, row),
          ),
          censor: mark === Mark.below ? "<" : mark === Mark.above ? ">" : "",
          text: inWords(parameter, facts, row),
        };
        const names =
          target >= 0
            ? [wordOf(target)]
            : (book.groups.get(wordOf(~target))?.tanks.map(({ name }) => name) ?? []);
        for (const name of names) {
          const key = `${name} ${parameter.id}`;
          made.set(key, [...(made.get(key) ?? []), reading]);
        }
      }
    this.days.set(day, made);
    return made;
  }

  private linesOn(day: number): ReadonlySet<string> {
    const known = this.lines.get(day);
    if (known !== undefined) return known;
    const made = new Set<string>();
    for (const { text } of this.blocksOn(day))
      for (const line of text.split(/\r\n|\n|\r/).slice(1)) {
        const words = line
          .replace(/\s#.*$/, "")
          .trim()
          .replace(/\s+/g, " ");
        if (words !== "") made.add(words);
      }
    this.lines.set(day, made);
    return made;
  }
}

const lineKey = (minute: number, words: string): string => {
  const line = words.replace(/\s#.*$/, "").replace(/\s+/g, " ");
  return Number.isNaN(minute) ? line : `${clock(minute)} ${line}`;
};

/** A reading of the log as it is told. */
function inWords(parameter: Parameter, facts: Facts, row: number): string {
  const mark = markOfAmount(facts, row);
  const code = unitOfAmount(facts, row);
  const unit = code > noUnit ? ` ${unitById(code).symbol}` : "";
  return `${parameter.name} ${mark === Mark.below ? "<" : mark === Mark.above ? ">" : ""}${facts.floats[row * floatsPerRow + Num.amount]}${parameter.dimension === "pH" ? "" : unit}`;
}

/** `08:40`. */
export const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
