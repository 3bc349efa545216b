import type { Dimension } from "../quantity/dimension.ts";
import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { AMBIGUOUS, looseUnit, nearestUnits, UNITS, type Unit } from "../quantity/units.ts";
import { Mark, Piece, type Pieces } from "../syntax/pieces.ts";
import { didYouMean, either, nearest } from "./nearest.ts";
import { findParameter, type Parameter, parameterNames } from "./parameters.ts";
import type { Mend, Problem } from "./problem.ts";
import type { Filling, Signature, Slot } from "./slots.ts";

/**
 * Filling the slots of a signature with the pieces of a line.
 *
 * Pieces find their slots by what they are, so the order of arguments is free. What fits nowhere is a problem with the thing expected.
 * The matcher and its result are used again for every line.
 */

/** A signature made ready for matching. */
export interface Compiled {
  readonly signature: Signature;
  readonly slots: readonly Slot[];
  readonly leads: ReadonlyMap<string, number>;
  readonly choices: ReadonlyMap<string, readonly [slot: number, code: number]>;
  /** Slots without a lead, by what fills them, in order. */
  readonly names: readonly number[];
  readonly numbers: readonly number[];
  readonly texts: readonly number[];
  readonly destination: number;
  readonly date: number;
  readonly lengths: number;
  readonly required: readonly number[];
}

const compiled = new WeakMap<Signature, Compiled>();

/** The compiled form of a signature; made once. */
export function compile(signature: Signature): Compiled {
  const known = compiled.get(signature);
  if (known !== undefined) return known;
  const leads = new Map<string, number>();
  const choices = new Map<string, readonly [number, number]>();
  const names: number[] = [];
  const numbers: number[] = [];
  const texts: number[] = [];
  const required: number[] = [];
  let destination = -1;
  let date = -1;
  let lengths = -1;
  signature.slots.forEach((slot, at) => {
    if (slot.required !== undefined) required.push(at);
    const { filling } = slot;
    if (slot.lead !== undefined) {
      leads.set(slot.lead, at);
      return;
    }
    if (filling.is === "choice")
      for (const [code, word] of filling.words.entries()) choices.set(word, [at, code + 1]);
    else if (filling.is === "name" || filling.is === "words") names.push(at);
    else if (filling.is === "quantity" || filling.is === "count" || filling.is === "reading")
      numbers.push(at);
    else if (filling.is === "text") texts.push(at);
    else if (filling.is === "destination") destination = at;
    else if (filling.is === "date") date = at;
    else if (filling.is === "lengths") lengths = at;
  });
  const made: Compiled = {
    signature,
    slots: signature.slots,
    leads,
    choices,
    names,
    numbers,
    texts,
    destination,
    date,
    lengths,
    required,
  };
  compiled.set(signature, made);
  return made;
}

/** No piece. */
export const unfilled = -1;
const maxSlots = 12;

export class Matcher {
  /** Items of the list; one where the signature has no list. */
  items = 0;
  /** The piece that fills slot `s` of item `i` stands at `i * maxSlots + s`. */
  private filled = new Int16Array(maxSlots * 64);
  /** Numbers of the words chosen, counted from 1; 0 is none. */
  private codes = new Uint8Array(maxSlots * 64);
  /** First and last piece of each item. */
  private readonly from: number[] = [];
  private readonly to: number[] = [];
  private readonly parameter: (Parameter | undefined)[] = [];
  /** The text at the end of the line; a piece or `unfilled`. */
  note = unfilled;
  /** False if a problem says that the line cannot count. */
  counts = true;
  problems: Problem[] = [];
  private isComplete = true;

  /** The piece that fills a slot of an item, or `unfilled`. A slot of the whole line has one piece for all items. */
  pieceOf(compiled: Compiled, item: number, slot: number): number {
    const own = compiled.slots[slot]?.each === true;
    return this.filled[(own ? item : 0) * maxSlots + slot]!;
  }

  codeOf(compiled: Compiled, item: number, slot: number): number {
    const own = compiled.slots[slot]?.each === true;
    return this.codes[(own ? item : 0) * maxSlots + slot]!;
  }

  firstPiece(item: number): number {
    return this.from[item] ?? 0;
  }

  lastPiece(item: number): number {
    return this.to[item] ?? 0;
  }

  parameterOf(item: number): Parameter | undefined {
    return this.parameter[item];
  }

  /**
   * Fills the slots with the pieces `begin..end`; `head` is the piece that names the signature, where what is missing is shown.
   * Problems are added to `problems`, which the caller empties. `isComplete` is false for the act of a duty, which may leave out
   * what an entry must say.
   */
  match(
    compiled: Compiled,
    pieces: Pieces,
    head: number,
    begin: number,
    end: number,
    isComplete = true,
  ): void {
    const { leads, choices, signature } = compiled;
    this.isComplete = isComplete;
    this.counts = true;
    this.note = unfilled;
    this.items = 0;
    this.open(begin);
    let at = begin;
    while (at < end) {
      const kind = pieces.kind[at];
      switch (kind) {
        case Piece.word: {
          const word = pieces.word[at]!;
          const led = leads.get(word);
          if (led !== undefined) {
            at = this.fillLed(compiled, pieces, led, at, end);
            continue;
          }
          const chosen = choices.get(word);
          if (chosen !== undefined && this.isFree(compiled, chosen[0])) {
            this.put(compiled, chosen[0], at, chosen[1]);
          } else if (!this.fillName(compiled, pieces, at, end)) {
            this.unexpected(compiled, pieces, at);
          }
          break;
        }
        case Piece.quantity:
        case Piece.sexed:
          this.joinUnit(pieces, at, end);
          if (!this.fillNumber(compiled, pieces, at)) this.unexpected(compiled, pieces, at);
          if (
            pieces.unit[at] !== noUnit &&
            pieces.kind[at + 1] === Piece.word &&
            at + 1 < end &&
            pieces.end[at] === pieces.end[at + 1]
          ) {
            at++;
          }
          break;
        case Piece.equals: {
          const led = leads.get("=");
          if (led !== undefined) {
            at = this.fillLed(compiled, pieces, led, at, end);
            continue;
          }
          this.unexpected(compiled, pieces, at);
          break;
        }
        case Piece.comma:
          if (this.isDecimalComma(pieces, at, end)) {
            this.decimalComma(pieces, at);
            at++;
          } else if (signature.list === true) {
            this.closeItem(compiled, pieces, head, at);
            this.open(at + 1);
          } else if (!this.continuesWords(compiled, pieces, at, end)) {
            this.unexpected(compiled, pieces, at);
          }
          break;
        case Piece.text:
        case Piece.openText:
          this.fillText(compiled, pieces, at, end);
          break;
        case Piece.destination:
          if (compiled.destination < 0 || !this.isFree(compiled, compiled.destination))
            this.unexpected(compiled, pieces, at);
          else this.put(compiled, compiled.destination, at, 0);
          break;
        case Piece.date:
          if (compiled.date < 0 || !this.isFree(compiled, compiled.date))
            this.unexpected(compiled, pieces, at);
          else this.put(compiled, compiled.date, at, 0);
          break;
        case Piece.lengths:
          if (compiled.lengths < 0 || !this.isFree(compiled, compiled.lengths))
            this.unexpected(compiled, pieces, at);
          else this.put(compiled, compiled.lengths, at, 0);
          break;
        default:
          this.unexpected(compiled, pieces, at);
      }
      at++;
    }
    this.closeItem(compiled, pieces, head, end);
    for (const slot of compiled.required) {
      if (compiled.slots[slot]?.each !== true && this.filled[slot] === unfilled)
        this.missing(compiled, pieces, head, slot);
    }
  }

  private open(begin: number): void {
    const base = this.items * maxSlots;
    if (base + maxSlots > this.filled.length) {
      const filled = new Int16Array(this.filled.length * 2);
      filled.set(this.filled);
      this.filled = filled;
      const codes = new Uint8Array(this.codes.length * 2);
      codes.set(this.codes);
      this.codes = codes;
    }
    this.filled.fill(unfilled, base, base + maxSlots);
    this.codes.fill(0, base, base + maxSlots);
    this.from[this.items] = begin;
    this.parameter[this.items] = undefined;
    this.items++;
  }

  private closeItem(compiled: Compiled, pieces: Pieces, head: number, end: number): void {
    const item = this.items - 1;
    const begin = this.from[item]!;
    this.to[item] = Math.max(begin, end - 1);
    const isEmpty = end <= begin;
    for (const slot of compiled.required) {
      if (compiled.slots[slot]?.each !== true) continue;
      if (this.filled[item * maxSlots + slot] === unfilled) {
        this.missing(compiled, pieces, isEmpty ? Math.max(head, begin - 1) : end - 1, slot);
        return;
      }
    }
  }

  private index(compiled: Compiled, slot: number): number {
    return (compiled.slots[slot]?.each === true ? this.items - 1 : 0) * maxSlots + slot;
  }

  private isFree(compiled: Compiled, slot: number): boolean {
    return this.filled[this.index(compiled, slot)] === unfilled;
  }

  private put(compiled: Compiled, slot: number, piece: number, code: number): void {
    const index = this.index(compiled, slot);
    this.filled[index] = piece;
    this.codes[index] = code;
  }

  /** A slot with a lead: the piece behind the lead fills it. Returns the piece to go on with. */
  private fillLed(compiled: Compiled, pieces: Pieces, slot: number, at: number, end: number): number {
    const { filling, lead } = compiled.slots[slot]!;
    const next = at + 1;
    if (!this.isFree(compiled, slot)) {
      this.problem("entry/twice", pieces.start[at]!, pieces.end[at]!, `“${lead}” stands here twice`);
      return at + 2;
    }
    if (next >= end) {
      this.problem(
        "entry/argument",
        pieces.start[at]!,
        pieces.end[at]!,
        `after “${lead}” comes ${nounOf(filling)}`,
      );
      return next;
    }
    const kind = pieces.kind[next];
    let fits = false;
    let code = 0;
    switch (filling.is) {
      case "quantity":
      case "count":
      case "reading":
        if (kind === Piece.quantity || kind === Piece.sexed) {
          this.joinUnit(pieces, next, end);
          fits = this.checkNumber(pieces, next, filling, undefined);
        }
        break;
      case "name":
      case "words":
        fits = kind === Piece.word;
        break;
      case "choice":
        if (kind === Piece.word) {
          code = filling.words.indexOf(pieces.word[next]!) + 1;
          fits = code > 0;
        }
        break;
      case "text":
        fits =
          kind === Piece.text ||
          kind === Piece.openText ||
          kind === Piece.word ||
          kind === Piece.quantity ||
          kind === Piece.date;
        if (kind === Piece.openText) this.openText(pieces, next);
        break;
      case "date":
        fits = kind === Piece.date;
        break;
      case "destination":
        fits = kind === Piece.destination;
        break;
      case "lengths":
        fits = kind === Piece.lengths;
        break;
    }
    if (fits) {
      this.put(compiled, slot, next, code);
    } else {
      const words = filling.is === "choice" ? nearest(pieces.word[next]!, filling.words) : [];
      this.problem(
        "entry/argument",
        pieces.start[next]!,
        pieces.end[next]!,
        `after “${lead}” comes ${nounOf(filling)}${didYouMean(words)}`,
        words.map(replaceBy),
      );
    }
    // A loosely spelled unit is a word of its own behind its number.
    const joined =
      fits && kind === Piece.quantity && next + 1 < end && pieces.end[next] === pieces.end[next + 1];
    return joined ? next + 2 : next + 1;
  }

  private fillName(compiled: Compiled, pieces: Pieces, at: number, end: number): boolean {
    for (const slot of compiled.names) {
      const { filling } = compiled.slots[slot]!;
      // A list of words fills one slot with its first; the others stand behind their commas.
      if (filling.is === "words" && !this.isFree(compiled, slot) && pieces.kind[at - 1] === Piece.comma) return true;
      if (!this.isFree(compiled, slot)) continue;
      if (filling.is === "name" && filling.of[0] === "parameter") {
        const parameter = findParameter(pieces.word[at]!);
        this.parameter[this.items - 1] = parameter;
        if (parameter === undefined) {
          const near = nearest(pieces.word[at]!, parameterNames);
          this.problem(
            "name/parameter",
            pieces.start[at]!,
            pieces.end[at]!,
            `“${pieces.word[at]}” is no parameter of a test${didYouMean(near)}`,
            near.map(replaceBy),
          );
          // One finding is enough: what follows belongs to a parameter that is not known.
          this.put(compiled, slot, at, 0);
          for (const number of compiled.numbers) {
            if (at + 1 < end && pieces.kind[at + 1] === Piece.quantity) this.put(compiled, number, at + 1, 0);
          }
          return true;
        }
      }
      this.put(compiled, slot, at, 0);
      return true;
    }
    return false;
  }

  private fillNumber(compiled: Compiled, pieces: Pieces, at: number): boolean {
    for (const slot of compiled.numbers) {
      const index = this.index(compiled, slot);
      const was = this.filled[index];
      if (was === at) return true;
      if (was !== unfilled) continue;
      const { filling } = compiled.slots[slot]!;
      if (filling.is === "reading" && this.parameter[this.items - 1] === undefined) return false;
      this.filled[index] = at;
      this.checkNumber(pieces, at, filling, this.parameter[this.items - 1]);
      return true;
    }
    return false;
  }

  private fillText(compiled: Compiled, pieces: Pieces, at: number, end: number): void {
    if (pieces.kind[at] === Piece.openText) this.openText(pieces, at);
    for (const slot of compiled.texts) {
      if (!this.isFree(compiled, slot)) continue;
      this.put(compiled, slot, at, 0);
      return;
    }
    if (at === end - 1 && this.note === unfilled) this.note = at;
    else this.unexpected(compiled, pieces, at);
  }

  /** Whether a number fits a slot; if not, says why. */
  private checkNumber(
    pieces: Pieces,
    at: number,
    filling: Filling,
    parameter: Parameter | undefined,
  ): boolean {
    const unit = pieces.unit[at]!;
    if (filling.is === "count") return this.checkCount(pieces, at, filling.noun ?? "number of animals");
    const wanted: readonly Dimension[] =
      filling.is === "reading"
        ? parameter === undefined
          ? []
          : [parameter.dimension]
        : filling.is === "quantity"
          ? filling.of
          : [];
    const noun =
      filling.is === "reading"
        ? (parameter?.name ?? "reading")
        : filling.is === "quantity"
          ? filling.noun
          : "";
    if (pieces.kind[at] === Piece.sexed) {
      this.problem(
        "entry/argument",
        pieces.start[at]!,
        pieces.end[at]!,
        `${noun} is one number, not ${sourceForm(pieces, at)}`,
      );
      return true;
    }
    if (unit === noUnit) {
      if (wanted.length > 1 && !wanted.includes("count")) {
        const number = numberForm(pieces, at);
        const units = wanted
          .map((dimension) => exampleUnit[dimension])
          .filter((symbol) => symbol !== undefined);
        this.problem(
          "unit/missing",
          pieces.start[at]!,
          pieces.end[at]!,
          `${number} of what? Give a unit: ${either(units.map((symbol) => `${number} ${symbol}`))}`,
          units.map((symbol) => replaceBy(`${number} ${symbol}`)),
        );
      }
      return true;
    }
    const candidates = unit > noUnit ? [UNITS[unit]!] : (AMBIGUOUS.get(ambiguousSpelling(unit)!) ?? []);
    if (candidates.some((candidate) => accepts(wanted, candidate, parameter))) return true;
    const offers = offersFor(wanted, candidates[0], parameter);
    this.problem(
      "unit/wrong-kind",
      pieces.start[at]!,
      pieces.end[at]!,
      `${noun} is not measured in ${ambiguousSpelling(unit) ?? candidates[0]!.symbol}; expected ${either(offers)}`,
      offers.map((symbol) => replaceBy(`${numberForm(pieces, at)} ${symbol}`.trim())),
    );
    return true;
  }

  private checkCount(pieces: Pieces, at: number, noun: string): boolean {
    const mark = pieces.mark[at]!;
    const unit = pieces.unit[at]!;
    const start = pieces.start[at]!;
    const end = pieces.end[at]!;
    if (unit !== noUnit && UNITS[unit]?.dimension !== "count") {
      this.problem("unit/wrong-kind", start, end, `the ${noun} has no unit`, [
        replaceBy(numberForm(pieces, at)),
      ]);
    } else if (pieces.kind[at] === Piece.sexed) {
      return true;
    } else if (mark === Mark.below || mark === Mark.above || mark === Mark.atMost || mark === Mark.atLeast) {
      this.problem(
        "value/count",
        start,
        end,
        `a ${noun} is a number, about a number (~20) or a range (12..14)`,
      );
    } else if (!isCount(pieces.value[at]!) || (mark === Mark.range && !isCount(pieces.second[at]!))) {
      const low = pieces.value[at]!;
      this.problem(
        "value/count",
        start,
        end,
        low < 0 ? `a ${noun} is not below zero` : `a ${noun} is whole, not ${low}`,
      );
    }
    return true;
  }

  /** A word right behind a number without a unit may be a unit in another spelling: then it is joined to the number. */
  private joinUnit(pieces: Pieces, at: number, end: number): void {
    const next = at + 1;
    if (
      pieces.unit[at] !== noUnit ||
      next >= end ||
      pieces.kind[next] !== Piece.word ||
      pieces.kind[at] === Piece.sexed
    )
      return;
    const word = pieces.word[next]!;
    if (!/[A-Za-z\u00b5\u00b0]/.test(word)) return;
    const loose = looseUnit(word);
    if (loose === undefined || loose.symbol === "" || word.length < 2) return;
    this.problem(
      "unit/spelling",
      pieces.start[at]!,
      pieces.end[next]!,
      `“${word}” is read as ${loose.symbol}`,
      [replaceBy(`${numberForm(pieces, at)} ${loose.symbol}`)],
      true,
    );
    pieces.unit[at] = loose.id;
    pieces.end[at] = pieces.end[next]!;
  }

  private isDecimalComma(pieces: Pieces, at: number, end: number): boolean {
    return (
      at + 1 < end &&
      pieces.kind[at - 1] === Piece.quantity &&
      pieces.kind[at + 1] === Piece.quantity &&
      pieces.unit[at - 1] === noUnit &&
      pieces.end[at - 1] === pieces.start[at] &&
      pieces.end[at] === pieces.start[at + 1]
    );
  }

  private decimalComma(pieces: Pieces, at: number): void {
    const start = pieces.start[at - 1]!;
    const end = pieces.end[at + 1]!;
    this.problem("value/decimal-comma", start, end, "the decimal mark is a point", [
      { title: "Write a point", text: ".", start: pieces.start[at]!, end: pieces.end[at]! },
    ]);
  }

  private continuesWords(compiled: Compiled, pieces: Pieces, at: number, end: number): boolean {
    if (at + 1 >= end || pieces.kind[at + 1] !== Piece.word) return false;
    return compiled.names.some((slot) => compiled.slots[slot]?.filling.is === "words");
  }

  private openText(pieces: Pieces, at: number): void {
    const end = pieces.end[at]!;
    this.problem(
      "syntax/text",
      pieces.start[at]!,
      end,
      "the text is not closed: a quote is missing at its end",
      [{ title: "Close the text", text: '"', start: end, end }],
    );
  }

  private missing(compiled: Compiled, pieces: Pieces, at: number, slot: number): void {
    if (!this.counts || !this.isComplete) return;
    const { required } = compiled.slots[slot]!;
    this.problem(
      "entry/missing",
      pieces.start[at]!,
      pieces.end[at]!,
      `${compiled.signature.word} needs ${required}`,
    );
  }

  private unexpected(compiled: Compiled, pieces: Pieces, at: number): void {
    const start = pieces.start[at]!;
    const end = pieces.end[at]!;
    const { word } = compiled.signature;
    if (pieces.kind[at] === Piece.word) {
      const text = pieces.word[at]!;
      if (pieces.kind[at - 1] === Piece.quantity && pieces.unit[at - 1] === noUnit && at > 0) {
        const wanted = wantedBefore(compiled, this, at - 1);
        const units = nearestUnits(text).filter(
          (unit) => wanted.length === 0 || wanted.includes(unit.dimension),
        );
        const symbols = [
          ...new Set([...units, ...ambiguousNear(text, wanted)].map((unit) => unit.symbol)),
        ].slice(0, 3);
        if (symbols.length > 0) {
          // That the number has no unit is said better here.
          const last = this.problems.at(-1);
          if (last?.code === "unit/missing" && last.start === pieces.start[at - 1]) this.problems.pop();
          this.problem(
            "unit/unknown",
            start,
            end,
            `“${text}” is no unit that I know${didYouMean(symbols)}`,
            symbols.map(replaceBy),
          );
          return;
        }
      }
      const known = [...compiled.leads.keys(), ...compiled.choices.keys()];
      const near = nearest(text, known);
      this.problem(
        "entry/unexpected",
        start,
        end,
        `“${text}” says nothing in ${withArticle(word)}${near.length > 0 ? didYouMean(near) : `; it takes ${describe(compiled)}`}`,
        near.map(replaceBy),
      );
      return;
    }
    this.problem(
      "entry/unexpected",
      start,
      end,
      `${kindNoun(pieces, at)} has no place here: ${word} takes ${describe(compiled)}`,
    );
  }

  private problem(
    code: string,
    start: number,
    end: number,
    message: string,
    mends: readonly Mend[] = [],
    counts = false,
  ): void {
    if (!counts) this.counts = false;
    this.problems.push({ code, start, end, message, counts, mends });
  }
}

/** What the ambiguous spellings near a word may mean. */
function ambiguousNear(word: string, wanted: readonly Dimension[]): readonly Unit[] {
  return nearest(word, AMBIGUOUS.keys())
    .flatMap((spelling) => AMBIGUOUS.get(spelling) ?? [])
    .filter((unit) => wanted.length === 0 || wanted.includes(unit.dimension));
}

const replaceBy = (text: string): Mend => ({ title: `Write “${text}”`, text });

const isCount = (value: number): boolean => Number.isInteger(value) && value >= 0;

function accepts(wanted: readonly Dimension[], unit: Unit, parameter: Parameter | undefined): boolean {
  if (!wanted.includes(unit.dimension)) return false;
  // mg/L of hardness or alkalinity is a concentration of CaCO3, and only that.
  return (
    parameter === undefined ||
    unit.basis === undefined ||
    unit.dimension !== "concentration" ||
    parameter.basis !== undefined
  );
}

function offersFor(
  wanted: readonly Dimension[],
  unit: Unit | undefined,
  parameter: Parameter | undefined,
): string[] {
  const offers: string[] = [];
  if (parameter !== undefined) offers.push(parameter.unit.symbol);
  if (wanted.includes("hardness") && unit?.dimension === "concentration") offers.unshift("mg/L CaCO3");
  for (const dimension of wanted) {
    const symbol = exampleUnit[dimension];
    if (symbol !== undefined && !offers.includes(symbol)) offers.push(symbol);
  }
  return [...new Set(offers)];
}

/** A unit of each dimension to offer where none was given. */
const exampleUnit: Partial<Record<Dimension, string>> = {
  temperature: "C",
  volume: "L",
  length: "cm",
  mass: "mg",
  concentration: "mg/L",
  "volume-concentration": "uL/L",
  hardness: "dGH",
  conductivity: "uS/cm",
  fraction: "%",
  duration: "d",
  flow: "L/h",
  illuminance: "lx",
  "light-flux": "umol/m2/s",
  power: "W",
  redox: "mV",
  portion: "drops",
};

function wantedBefore(compiled: Compiled, matcher: Matcher, piece: number): readonly Dimension[] {
  for (const slot of [...compiled.numbers, ...compiled.leads.values()]) {
    if (matcher.pieceOf(compiled, matcher.items - 1, slot) !== piece) continue;
    const { filling } = compiled.slots[slot]!;
    if (filling.is === "quantity") return filling.of;
    if (filling.is === "reading")
      return [matcher.parameterOf(matcher.items - 1)?.dimension ?? "concentration"];
  }
  return [];
}

/** What a signature takes, for messages: `an amount, batch or flow, from WATER`. */
export function describe(compiled: Compiled): string {
  if (compiled.slots.length === 0) return "no arguments";
  return compiled.slots
    .map((slot) => (slot.lead === undefined ? shortNoun(slot) : `“${slot.lead}” ${nounOf(slot.filling)}`))
    .join(", ");
}

function shortNoun(slot: Slot): string {
  return slot.filling.is === "choice" ? either(slot.filling.words) : nounOf(slot.filling);
}

/** What fills a slot, in words. */
export function nounOf(filling: Filling): string {
  switch (filling.is) {
    case "quantity":
      return withArticle(filling.noun);
    case "reading":
      return "its reading";
    case "count":
      return withArticle(filling.noun ?? "number of animals");
    case "name":
      return withArticle(filling.noun ?? filling.of[0] ?? "name");
    case "choice":
      return either(filling.words);
    case "words":
      return withArticle(filling.noun);
    case "text":
      return withArticle(filling.noun);
    case "destination":
      return "-> and a tank";
    case "date":
      return "a date";
    case "lengths":
      return "length x width x height";
  }
}

const withArticle = (noun: string): string => (/^[aeio]/.test(noun) ? `an ${noun}` : `a ${noun}`);

function kindNoun(pieces: Pieces, at: number): string {
  switch (pieces.kind[at]) {
    case Piece.quantity:
    case Piece.sexed:
      return `the number ${sourceForm(pieces, at)}`;
    case Piece.text:
    case Piece.openText:
      return "a text";
    case Piece.comma:
      return "a comma";
    case Piece.destination:
      return "an arrow";
    case Piece.dash:
      return "a dash";
    case Piece.time:
      return "a time of day";
    case Piece.date:
      return "a date";
    case Piece.group:
      return "a group";
    default:
      return "this";
  }
}

const signs = ["", "<", ">", "", "<= ", ">= ", "~"];

/** The number as it was written, without its unit. */
export function numberForm(pieces: Pieces, at: number): string {
  const sign = signs[pieces.mark[at]!] ?? "";
  const range = pieces.mark[at] === Mark.range ? `..${pieces.second[at]}` : "";
  return `${sign}${pieces.value[at]}${range}`;
}

function sourceForm(pieces: Pieces, at: number): string {
  if (pieces.kind[at] === Piece.sexed) return `${pieces.value[at]}.${pieces.second[at]}.${pieces.third[at]}`;
  const unit = pieces.unit[at]!;
  const symbol = unit === noUnit ? "" : (ambiguousSpelling(unit) ?? UNITS[unit]?.symbol ?? "");
  return `${numberForm(pieces, at)} ${symbol}`.trim();
}
