import { findParameter, type Parameter } from "../book/parameters.ts";
import type { Place } from "../book/stations.ts";
import type { Calculation, QuantityInput } from "../calculations/calculation.ts";
import { type Answered, reckon, takenText } from "../calculations/evaluate.ts";
import { type Known, type Read, readInput } from "../calculations/read.ts";
import { LEAST } from "../quantity/dimension.ts";
import { rebase } from "../quantity/quantity.ts";
import { unitOf } from "../quantity/units.ts";
import type { Ledger } from "./ledger.ts";
import type { Series } from "./series.ts";
import { settledTime, sourceLevel } from "./water.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";

/** What follows from the readings of one tank on one day taken together, by a calculation of the registry. */
export interface RoundFigure {
  readonly calculation: Calculation;
  /** Empty where the formula does not hold for what was read. */
  readonly figures: readonly Answered[];
  /** Why there are no figures. */
  readonly outside: string | undefined;
  /** What it was reckoned from, each with its entry where it stands when asked. */
  readonly from: () => readonly Why[];
}

/**
 * A calculation over the round that a reading belongs to; undefined where a value that it needs was not read on that day in that tank.
 * @param index the reading in the ledger's series of the parameter
 */
export function roundFigure(
  ledger: Ledger,
  calculation: Calculation,
  parameter: Parameter,
  index: number,
): RoundFigure | undefined {
  const reads = new Map<string, Read>();
  const from: (() => Why)[] = [];
  for (const [name, input] of Object.entries(calculation.inputs)) {
    const found = input.is === "quantity" ? valueFor(ledger, input, parameter, index) : undefined;
    if (found !== undefined) {
      reads.set(name, found.known);
      from.push(() => ({ ...found.why(), value: `${input.title} ${takenText(input, found.known)}` }));
      continue;
    }
    if (input.otherwise !== undefined) {
      const taken = readInput(name, input, input.otherwise, {});
      if ("problem" in taken) return undefined;
      reads.set(name, taken);
    } else if (input.optional !== true) return undefined;
  }
  const { figures, outside } = reckon(calculation, reads);
  return { calculation, figures, outside, from: () => from.map((why) => why()) };
}

/** One figure of a round by its name; undefined where there is none. */
export function figureNamed({ figures }: RoundFigure, name: string): Answered | undefined {
  const found = figures.find((each) => each.name === name);
  return found?.outside === undefined ? found : undefined;
}

/** Why a figure of a round is what it is. */
export function whyRound(round: RoundFigure, name: string): Why {
  const { calculation, figures, from } = round;
  const figure = figures.find((each) => each.name === name);
  return {
    what: figure?.title ?? calculation.title,
    value: figure?.text ?? "",
    formula: calculation.formula.join("; "),
    source: calculation.sources.join("; "),
    from: from(),
  };
}

interface Found {
  readonly known: Known;
  readonly why: () => Why;
}

function valueFor(
  ledger: Ledger,
  input: QuantityInput,
  parameter: Parameter,
  index: number,
): Found | undefined {
  const { book, body } = ledger;
  const { from } = input;
  if (from === undefined) return undefined;
  if (from === "altitude")
    return Number.isNaN(book.altitudeM) || book.roomPlace === undefined
      ? undefined
      : { known: exactly(book.altitudeM), why: statedAt(book.roomPlace) };
  if (from === "volume")
    return body === undefined || Number.isNaN(body.volumeL)
      ? undefined
      : {
          known: exactly(body.volumeL),
          why: () => ({ what: `net volume of ${body.name}`, value: "", from: [] }),
        };
  const [which, word = ""] = from.split(" ");
  const wanted = findParameter(word);
  if (wanted === undefined) return undefined;
  if (which === "source") {
    const [water] = book.waters;
    if (water === undefined || !water.content.has(wanted.id)) return undefined;
    return { known: exactly(inUnit(wanted, input, sourceLevel(water, wanted))), why: statedAt(water.place) };
  }
  if (which !== "reading") return undefined;
  const series = ledger.readings[wanted.id];
  const at = wanted === parameter ? index : companion(ledger, parameter, index, wanted);
  if (series === undefined || at < 0) return undefined;
  const [block, row] = [series.block[at]!, series.row[at]!];
  return { known: knownAt(ledger, wanted, input, at), why: () => whyEntry({ block, row }) };
}

const statedAt = (place: Place) => (): Why => whyStated(place);

const exactly = (value: number): Known => ({ is: "quantity", low: value, high: value, best: value });

/** The ends of another reading of the round that a reading belongs to, canonical; undefined where there is none. */
export function roundReading(
  ledger: Ledger,
  parameter: Parameter,
  index: number,
  wanted: Parameter,
): { readonly low: number; readonly high: number } | undefined {
  const at = companion(ledger, parameter, index, wanted);
  const series = ledger.readings[wanted.id];
  if (series === undefined || at < 0) return undefined;
  const half = (ledger.book.steps.get(wanted.id) ?? 0) / 2;
  return { low: series.first[at]! - half, high: series.second[at]! + half };
}

/** A reading in the unit of an input, with what the step of its test leaves open. */
function knownAt(ledger: Ledger, parameter: Parameter, input: QuantityInput, at: number): Known {
  const { first, second } = ledger.readings[parameter.id]!;
  const isOne = first[at] === second[at];
  const half = isOne ? (ledger.book.steps.get(parameter.id) ?? 0) / 2 : 0;
  const least = Math.min(first[at]!, LEAST[parameter.dimension]);
  return {
    is: "quantity",
    low: inUnit(parameter, input, Math.max(least, first[at]! - half)),
    high: inUnit(parameter, input, second[at]! + half),
    best: isOne ? inUnit(parameter, input, first[at]!) : undefined,
  };
}

/** A canonical reading in the unit of an input. */
function inUnit(parameter: Parameter, { unit: symbol, alike }: QuantityInput, canonical: number): number {
  const own = unitOf(symbol);
  const unit = alike !== undefined && own.dimension !== parameter.dimension ? unitOf(alike) : own;
  const based = rebase(canonical, parameter.basis, unit.basis) ?? canonical;
  return (based - unit.offset) / unit.factor;
}

/** The reading of another parameter on the day of a reading, in the same tank, nearest in time; -1 if there is none. */
function companion(ledger: Ledger, parameter: Parameter, index: number, wanted: Parameter): number {
  const series: Series | undefined = ledger.readings[wanted.id];
  if (series === undefined) return -1;
  const own = ledger.readings[parameter.id]!;
  // With the order of the lines: of two rounds at one time the nearer line is meant.
  const time = settledTime(own, index);
  const tag = own.tag[index]!;
  const day = Math.floor(time);
  const away = (at: number): number => Math.abs(settledTime(series, at) - time);
  let best = -1;
  for (let at = series.from(day); at < series.length && series.time[at]! < day + 1; at++)
    if (series.tag[at] === tag && (best < 0 || away(at) < away(best))) best = at;
  return best;
}
