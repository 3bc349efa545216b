import { type Parameter, parameterOf } from "../../book/parameters.ts";
import { toCanonical } from "../../quantity/quantity.ts";
import { type Across, acrossBy, melted } from "./across.ts";
import { cellsOf } from "./cells.ts";
import type { Cut } from "./cutter.ts";
import { type Figure, rangeFlaw, readFigure } from "./figure.ts";
import { Filling } from "./filling.ts";
import { fitsParameter, type ImportUnit, importUnit, unitSaid } from "./import-units.ts";
import type { ColumnAt, Mapping } from "./mapping.ts";
import { columnsOf, measuresOf, timeColumns } from "./mapping-columns.ts";
import { isMissing, shiftPoint } from "./number.ts";
import { flagKey } from "./propose-marks.ts";
import { type Meaning, otherOf, Reject } from "./read-other.ts";
import { Refused } from "./refused.ts";
import { type Moment, momentOf } from "./row-moment.ts";

/** One row of a table by its mapping: what it says, or why it cannot be taken. All of a row is taken, or nothing. */

export interface Reading extends Moment {
  readonly is: "test";
  readonly tank: string;
  readonly parameter: Parameter;
  readonly censor: Figure["censor"];
  /** As it will be written; of a range the lower end. */
  readonly text: string;
  /** Of a range the upper end; empty where it is one figure. */
  readonly high: string;
  readonly unit: ImportUnit;
}

export interface Other extends Moment {
  readonly is: "other";
  readonly tank: string;
  /** The entry behind its tank: `change 30 %`. */
  readonly words: string;
  /** What of it is compared with the log. */
  readonly means: Meaning;
}

export type RowRead =
  | { readonly is: "read"; readonly entries: readonly (Reading | Other)[] }
  | { readonly is: "skipped"; readonly why: "empty" | "left out" }
  | { readonly is: "rejected"; readonly why: string };

export class RowReader {
  private readonly mapping: Mapping;
  private readonly width: number;
  private readonly lastNeeded: number;
  private readonly missing: ReadonlySet<string>;
  private readonly units = new Map<string, ImportUnit>();
  private readonly across: Across | undefined;
  private readonly filling: Filling | undefined;
  private isBelowOther = false;
  /** The date of the rows that follow, where it stands on a line of its own. */
  dateLine = "";

  /** @param heads of the table; throws `Refused` for a mapping that cannot be. */
  constructor(mapping: Mapping, heads: readonly string[]) {
    const { table } = mapping;
    this.mapping = mapping;
    this.width = heads.length;
    this.missing = new Set(table.missing?.map((each) => each.toLowerCase()));
    this.across = acrossBy(heads, table);
    const places = columnsOf(mapping).map(({ at }) => at);
    const fixed = table.across === undefined ? places : places.filter((at) => at < table.across!.from);
    this.lastNeeded = Math.max(1, ...fixed);
    this.filling = table.fill === undefined ? undefined : new Filling(table.fill);
    for (const { parameter, unit } of measuresOf(mapping))
      this.units.set(`${parameter} ${unit}`, unitIn(parameter, unit));
  }

  /** An empty line. */
  gap(): void {
    this.filling?.end();
  }

  /** The row as it can stand alone: with what it leaves to the rows above. */
  alone({ raw }: Cut): string {
    return this.filling?.alone(raw, this.mapping.table.delimiter) ?? raw;
  }

  read({ raw, flaw }: Cut): RowRead {
    if (flaw !== "") return this.unread(flaw);
    if (raw.includes("\0")) return this.unread("a NUL byte stands in it");
    const { delimiter, edges } = this.mapping.table;
    const cut = cellsOf(raw, delimiter, edges);
    if (cut.flaw !== "") return this.unread(cut.flaw);
    const cells = cut.cells.map((cell) => cell.trim());
    if (cells.every((cell) => cell === "")) {
      this.filling?.end();
      return { is: "skipped", why: "empty" };
    }
    if (cells.length > this.width && cells.slice(this.width).some((cell) => cell !== ""))
      return this.unread(`${cells.length} cells where the heads have ${this.width}`);
    if (cells.length < this.lastNeeded)
      return this.unread(`${cells.length} cells where the heads have ${this.width}`);
    if (this.isHead(cells)) this.isBelowOther = true;
    if (this.isBelowOther)
      return this.unread("it stands below other heads: import that table as a file of its own");
    this.filling?.fill(cells);
    try {
      return this.across === undefined ? this.entries(cells) : this.entriesAcross(cells, this.across);
    } catch (error) {
      if (error instanceof Reject) return { is: "rejected", why: error.message };
      throw error;
    }
  }

  /** The heads of the mapping again. */
  again(): void {
    this.isBelowOther = false;
  }

  /** Where a date should be stands its head: a second table begins. */
  private isHead(cells: readonly string[]): boolean {
    const when = timeColumns(this.mapping.time);
    return (
      when.length > 0 &&
      this.across === undefined &&
      when.every(({ at, head }) => head !== "" && (cells[at - 1] ?? "").toLowerCase() === head.toLowerCase())
    );
  }

  /** What it would have said for the rows below is not known. */
  private unread(why: string): RowRead {
    this.filling?.end();
    return { is: "rejected", why };
  }

  private entriesAcross(cells: readonly string[], across: Across): RowRead {
    const stray = cells.find((cell, at) => at >= across.from && cell !== "" && across.heads[at] === "");
    if (stray !== undefined) throw new Reject(`“${stray.slice(0, 40)}” stands below no date`);
    const entries: (Reading | Other)[] = [];
    let why: "empty" | "left out" = "empty";
    for (const each of melted(cells, across)) {
      const row = this.entries(each);
      if (row.is === "read") entries.push(...row.entries);
      else if (row.is === "skipped") why = row.why;
    }
    return entries.length === 0 ? { is: "skipped", why } : { is: "read", entries };
  }

  private entries(cells: readonly string[]): RowRead {
    const { mapping } = this;
    for (const { at, is } of mapping.only ?? [])
      if (!is.includes(cells[at - 1]!)) return { is: "skipped", why: "left out" };
    const tank = this.tankOf(cells);
    if (tank === "ignore") return { is: "skipped", why: "left out" };
    const entries: (Reading | Other)[] = [];
    let moment: Moment | undefined;
    const add = (entry: Omit<Reading, keyof Moment> | Omit<Other, keyof Moment>): void => {
      // Of a row with nothing in it the time is not asked for.
      moment ??= momentOf(mapping.time, cells, this.dateLine);
      entries.push({ ...entry, ...moment } as Reading | Other);
    };
    if (mapping.long !== undefined) {
      const { parameter, value, sign, flags, unit, means } = mapping.long;
      const word = cells[parameter.at - 1]!;
      const meant = Object.hasOwn(means, word) ? means[word]! : undefined;
      if (meant === undefined && isMissing(word)) return { is: "skipped", why: "empty" };
      if (meant === undefined) throw new Reject(`the mapping does not know “${word}” in “${parameter.head}”`);
      if (meant === "ignore") return { is: "skipped", why: "left out" };
      const written = unit === undefined ? "" : (cells[unit.at - 1] ?? "");
      if (written !== "" && !isUnit(written, this.units.get(`${meant.parameter} ${meant.unit}`)!))
        throw new Reject(`“${written}” in “${unit!.head}”, where the mapping has ${word} in ${meant.unit}`);
      const reading = this.reading(cells, value, meant.parameter, meant.unit, sign, flags);
      if (reading !== undefined) add({ ...reading, tank: this.named(tank) });
    }
    for (const role of mapping.columns) {
      if (role.as === "test") {
        const own = role.tank ?? tank;
        if (own === "ignore") continue;
        const reading = this.reading(cells, role, role.parameter, role.unit, role.sign, role.flags);
        if (reading !== undefined) add({ ...reading, tank: this.named(own) });
        continue;
      }
      const own = ("tank" in role ? role.tank : undefined) ?? tank;
      if (own === "ignore") continue;
      for (const other of otherOf(role, cells, mapping.table.decimal))
        add({ is: "other", tank: this.named(own), ...other });
    }
    return entries.length === 0 ? { is: "skipped", why: "empty" } : { is: "read", entries };
  }

  private tankOf(cells: readonly string[]): string {
    const { tank } = this.mapping;
    if ("name" in tank) return tank.name;
    if ("by" in tank) return "";
    const value = cells[tank.column.at - 1]!;
    if (value === "") throw new Reject(`no tank: “${tank.column.head}” is empty`);
    if (!Object.hasOwn(tank.names, value)) throw new Reject(`the mapping does not know the tank “${value}”`);
    return tank.names[value]!;
  }

  private named(tank: string): string {
    if (tank === "") throw new Reject("the mapping names no tank for it");
    return tank;
  }

  private reading(
    cells: readonly string[],
    column: ColumnAt,
    name: string,
    unitName: string,
    sign: ColumnAt | undefined,
    flags: ColumnAt | undefined,
  ): Omit<Reading, keyof Moment | "tank"> | undefined {
    const cell = cells[column.at - 1] ?? "";
    if (isMissing(cell) || this.missing.has(cell.toLowerCase())) return undefined;
    const number = readFigure(cell, this.mapping.table.decimal);
    if (number === undefined) throw new Reject(`“${cell.slice(0, 40)}” in “${column.head}” is no number`);
    const flaw = rangeFlaw(cell, number);
    if (flaw !== "") throw new Reject(flaw);
    let { censor } = number;
    const parameter = parameterOf(name);
    const unit = this.units.get(`${name} ${unitName}`)!;
    const signed = sign === undefined ? "" : (cells[sign.at - 1] ?? "");
    if (signed !== "" && signed !== "=") {
      if (!/^(?:[<>]=?|[≤≥])$/.test(signed)) throw new Reject(`“${signed}” in “${sign!.head}” is no sign`);
      censor = signed.startsWith("<") || signed === "≤" ? "<" : ">";
    }
    const marks = [
      flags === undefined ? "" : (cells[flags.at - 1] ?? ""),
      isUnit(number.mark, unit) ? "" : number.mark,
    ];
    for (const mark of marks) {
      if (mark === "") continue;
      const key = flagKey(mark);
      const means =
        this.mapping.flags !== undefined && Object.hasOwn(this.mapping.flags, key)
          ? this.mapping.flags[key]
          : undefined;
      if (means === undefined)
        throw new Reject(`the mapping does not know the mark “${mark}” beside “${column.head}”`);
      if (means === "leave-out") return undefined;
      if (means === "below") censor = "<";
      if (means === "above") censor = ">";
    }
    if (number.high !== undefined && censor !== "")
      throw new Reject(`“${cell.slice(0, 40)}” in “${column.head}” is a range, and marked as below or above`);
    const written = (digits: string): string => possible(parameter, unit, shiftPoint(digits, unit.places));
    const high = number.high === undefined ? "" : written(number.high.text);
    return { is: "test", parameter, censor, text: written(number.text), high, unit };
  }
}

/** The figure, if it can be one of the parameter. Throws `Reject`. */
function possible(parameter: Parameter, unit: ImportUnit, text: string): string {
  const canonical = toCanonical(Number(text), unit.unit.id);
  const [low, high] = parameter.possible.map((bound) => toCanonical(bound, parameter.unit.id)) as [
    number,
    number,
  ];
  if (!(canonical >= low && canonical <= high))
    throw new Reject(
      `${parameter.name} ${text}${unit.written === "" ? "" : ` ${unit.written}`} cannot be: ${parameter.possible.join(" to ")} ${parameter.unit.symbol} can`,
    );
  return text;
}

function isUnit(mark: string, unit: ImportUnit): boolean {
  if (mark === "") return true;
  const said = unitSaid(mark);
  // Of pH tables write all sorts of things, as it has none.
  if (unit.unit.dimension === "pH")
    return said === undefined && /^(?:ph|-|(?:std\.? ?|ph ?)?units?|s\.?u\.?)$/i.test(mark);
  if (said === undefined) return false;
  const bare = unit.symbol.split(" ")[0]!;
  return said.is === "unit"
    ? said.unit.symbol === unit.symbol || said.unit.symbol === bare
    : said.choices.includes(unit.symbol);
}

function unitIn(name: string, unitName: string): ImportUnit {
  let parameter: Parameter;
  try {
    parameter = parameterOf(name);
  } catch {
    throw new Refused(`the mapping names a parameter “${name}” that a log does not know`);
  }
  const unit = importUnit(unitName);
  if (unit === undefined || !fitsParameter(unit, parameter))
    throw new Refused(
      `the mapping has ${name} in “${unitName}”, which is no unit of it, or says no basis (as mg/L N)`,
    );
  return unit;
}
