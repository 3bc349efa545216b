import type { Dimension } from "../quantity/dimension.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { AMBIGUOUS, UNITS, type Unit } from "../quantity/units.ts";
import { Mark } from "../syntax/pieces.ts";
import type { Defined } from "./defined.ts";
import type { Parameter } from "./parameters.ts";
import type { Mend, Problem } from "./problem.ts";
import type { Value } from "./reading.ts";
import type { RoomUnits } from "./room-units.ts";
import type { Block } from "./source.ts";
import type { Place } from "./stations.ts";

/** A problem of a definition that only shows beside the others. */
export interface BoundProblem extends Problem {
  readonly block: Block;
  readonly related?: readonly { readonly place: Place; readonly message: string }[];
}

/** What binding needs: the units of the room, and a place for what is wrong. */
export class Binder {
  readonly units: RoomUnits;
  readonly problems: BoundProblem[] = [];

  constructor(units: RoomUnits) {
    this.units = units;
  }

  report(
    block: Block,
    code: string,
    place: { readonly start: number; readonly end: number },
    message: string,
    mends: readonly Mend[] = [],
    related?: BoundProblem["related"],
  ): void {
    const { start, end } = place;
    const problem = { block, code, start, end, message, counts: true, mends };
    this.problems.push(related === undefined ? problem : { ...problem, related });
  }

  /** A value in the canonical unit of a dimension; NaN where it is missing, or its unit cannot be settled, which is reported. */
  number({ block }: Defined, value: Value | undefined, dimension: Dimension): number {
    if (value === undefined) return Number.NaN;
    const canonical = this.units.canonical(value.value, value.unit, dimension);
    if (Number.isNaN(canonical)) this.unsettled(block, value, [dimension]);
    return canonical;
  }

  /** The upper end of a range, as `number`; NaN if the value is none. */
  upper(value: Value | undefined, dimension: Dimension): number {
    return value?.mark === Mark.range
      ? this.units.canonical(value.second, value.unit, dimension)
      : Number.NaN;
  }

  /** The ends of a reading in the parameter's canonical unit and basis; NaN for an end that is not there. */
  reading({ block }: Defined, parameter: Parameter, value: Value): { first: number; second: number } {
    const first = this.units.reading(parameter, value.value, value.unit);
    if (Number.isNaN(first)) this.unsettled(block, value, [parameter.dimension]);
    const second =
      value.mark === Mark.range ? this.units.reading(parameter, value.second, value.unit) : Number.NaN;
    return { first, second };
  }

  /** Reports a name that stands for nothing of its sort. */
  unknown({ block }: Defined, value: Value, code: string, sort: string, names: Iterable<string>): void {
    const near = nearest(value.text, names);
    this.report(
      block,
      code,
      value,
      `no ${sort} is called “${value.text}”${didYouMean(near)}`,
      near.map(replaceBy),
    );
  }

  private unsettled(block: Block, value: Value, dimensions: readonly Dimension[]): void {
    const spelling = ambiguousSpelling(value.unit);
    const number = value.text
      .slice(0, spelling === undefined ? undefined : value.text.lastIndexOf(spelling))
      .trimEnd();
    const units = (AMBIGUOUS.get(spelling ?? "") ?? []).filter((unit) => dimensions.includes(unit.dimension));
    if (spelling === undefined || units.length === 0) {
      const symbol = spelling ?? (value.unit === noUnit ? "" : UNITS[value.unit]?.symbol);
      this.report(block, "unit/wrong-kind", value, `${symbol} does not fit the other figures stated here`);
      return;
    }
    this.report(
      block,
      "unit/ambiguous",
      value,
      mayMean(spelling, units),
      units.map((unit) => replaceBy(`${number} ${unit.symbol}`)),
    );
  }
}

/** What an ambiguous spelling may mean where it stands. */
export function mayMean(spelling: string, units: readonly Unit[]): string {
  const symbols = units.map((unit) => unit.symbol);
  return symbols.length === 1
    ? `“${spelling}” is not settled: write ${symbols[0]}, or declare what it means in the units line of the room`
    : `“${spelling}” may be ${symbols.join(" or ")}: write which, or declare it in the units line of the room`;
}

const replaceBy = (text: string): Mend => ({ title: `Write “${text}”`, text });
