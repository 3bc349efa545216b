import { entryOf } from "../book/entry.ts";
import { wordOf } from "../book/interner.ts";
import type { Value } from "../book/reading.ts";
import type { Tank } from "../book/stations.ts";
import { Mark } from "../syntax/pieces.ts";
import type { Ledger } from "./ledger.ts";
import type { Moment } from "./observer.ts";

/** What `condition` entries measured: score, length and weight. */
export interface Measured extends Moment {
  /** NaN for what was not measured. */
  readonly score: number;
  readonly lengthCm: number;
  readonly weightG: number;
  /** Empty where none is named. */
  readonly lot: string;
}

const mgPerG = 1000;

/** Of one species in one tank before a time, in order of time. */
export function measuredBefore(
  { conditions, stock, book }: Ledger,
  tank: Tank,
  species: number,
  time: number,
): Measured[] {
  const holding = stock.known(tank.id, species);
  if (holding === undefined) return [];
  const found: Measured[] = [];
  const end = conditions.from(time);
  for (let at = 0; at < end; at++) {
    if (conditions.tag[at] !== holding.index) continue;
    const moment = { time: conditions.time[at]!, block: conditions.block[at]!, row: conditions.row[at]! };
    // The weight is in no column: its line is read.
    const item = entryOf(moment.block, moment.row)?.item;
    const weight = item?.weight;
    const grams =
      weight === undefined ? Number.NaN : book.units.canonical(middle(weight), weight.unit, "mass") / mgPerG;
    found.push({
      ...moment,
      score: conditions.first[at]!,
      lengthCm: conditions.second[at]!,
      weightG: grams,
      lot: item?.lot?.text ?? "",
    });
  }
  return found;
}

const middle = ({ value, second, mark }: Value): number =>
  mark === Mark.range ? (value + second) / 2 : value;

/** Those of the last day on which something was measured. */
export function latestOf(measured: readonly Measured[], what: "lengthCm" | "weightG" | "score"): Measured[] {
  const known = measured.filter((each) => !Number.isNaN(each[what]));
  const last = Math.floor(known.at(-1)?.time ?? Number.NaN);
  return known.filter(({ time }) => Math.floor(time) === last);
}

/** The mean of what some measured. */
export function meanOf(measured: readonly Measured[], what: "lengthCm" | "weightG" | "score"): number {
  return measured.reduce((sum, each) => sum + each[what], 0) / measured.length;
}

/** The species that were ever measured in a tank, by name. */
export function measuredSpecies({ conditions, stock }: Ledger, tank: Tank): string[] {
  const holdings = stock.all();
  const found = new Set<string>();
  for (let at = 0; at < conditions.length; at++) {
    const holding = holdings[conditions.tag[at]!];
    if (holding?.tank === tank.id) found.add(wordOf(holding.species));
  }
  return [...found];
}
