import type { Dimension } from "../quantity/dimension.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import type { Compiled } from "./compile.ts";
import {
  fitCount,
  fitQuantity,
  fitReading,
  isDecimalComma,
  isHyphenRange,
  isJoined,
  joinUnit,
  type Report,
  reportDecimalComma,
} from "./fit.ts";
import { findParameter, type Parameter, parameterNames } from "./parameters.ts";
import type { Mend, Problem } from "./problem.ts";
import { nounOf } from "./slot-words.ts";
import type { Filling } from "./slots.ts";
import { isProse, nearUnit, surprise } from "./surprise.ts";

/**
 * Filling the slots of a signature with the pieces of a line.
 *
 * Pieces find their slots by what they are, so the order of arguments is free. What fits nowhere is a problem with the thing expected.
 * The matcher and its result are used again for every line.
 */

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
  /** The piece behind the last. */
  private end = 0;
  /** One finding a line says that something has no place there. */
  private isSurprised = false;
  private readonly report: Report = (code, start, end, message, mends = [], counts = false) => {
    if (!counts) this.counts = false;
    this.problems.push({ code, start, end, message, counts, mends });
  };

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
    this.end = end;
    this.counts = true;
    this.isSurprised = false;
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
            if (!this.isOpened(compiled, chosen[0])) this.unopened(compiled, pieces, at, chosen[0]);
            this.put(compiled, chosen[0], at, chosen[1]);
          } else if (!this.fillName(compiled, pieces, at, end)) {
            this.unexpected(compiled, pieces, at, end);
          }
          break;
        }
        case Piece.quantity:
        case Piece.sexed:
          if (compiled.numbers.length > 0 && isHyphenRange(pieces, at, end, this.report)) {
            const slot = compiled.numbers.find((each) => this.isFree(compiled, each));
            if (slot !== undefined) this.put(compiled, slot, at, 0);
            at++;
            break;
          }
          joinUnit(pieces, at, end, this.report);
          if (!this.fillNumber(compiled, pieces, at)) this.unexpected(compiled, pieces, at, end);
          if (isJoined(pieces, at, end)) at++;
          break;
        case Piece.equals: {
          const led = leads.get("=");
          if (led !== undefined) {
            at = this.fillLed(compiled, pieces, led, at, end);
            continue;
          }
          this.unexpected(compiled, pieces, at, end);
          break;
        }
        case Piece.comma:
          if (isDecimalComma(pieces, at, begin, end)) {
            reportDecimalComma(pieces, at, this.report);
            at++;
          } else if (signature.list === true) {
            this.closeItem(compiled, pieces, head, at);
            this.open(at + 1);
          } else if (!this.continuesWords(compiled, pieces, at, end)) {
            this.unexpected(compiled, pieces, at, end);
          }
          break;
        case Piece.text:
        case Piece.openText:
          this.fillText(compiled, pieces, at, end);
          break;
        case Piece.destination:
          if (compiled.destination < 0 || !this.isFree(compiled, compiled.destination))
            this.unexpected(compiled, pieces, at, end);
          else this.put(compiled, compiled.destination, at, 0);
          break;
        case Piece.date:
          if (compiled.date < 0 || !this.isFree(compiled, compiled.date))
            this.unexpected(compiled, pieces, at, end);
          else this.put(compiled, compiled.date, at, 0);
          break;
        case Piece.lengths:
          if (compiled.lengths < 0 || !this.isFree(compiled, compiled.lengths))
            this.unexpected(compiled, pieces, at, end);
          else this.put(compiled, compiled.lengths, at, 0);
          break;
        default:
          this.unexpected(compiled, pieces, at, end);
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
    const isBesideComma = item > 0 || (end < this.end && pieces.kind[end] === Piece.comma);
    if (isEmpty && isBesideComma && compiled.signature.list === true) {
      const comma = item > 0 ? begin - 1 : end;
      if (this.counts)
        this.report(
          "entry/missing",
          pieces.start[comma]!,
          pieces.end[comma]!,
          "nothing stands beside this comma",
          [{ title: "Delete the comma", text: "" }],
        );
      return;
    }
    for (const slot of compiled.required) {
      if (compiled.slots[slot]?.each !== true) continue;
      if (this.filled[item * maxSlots + slot] === unfilled) {
        this.missing(compiled, pieces, isEmpty ? head : end - 1, slot);
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

  /** Whether the slot that a slot stands behind is filled in this item or one before. */
  isOpened(compiled: Compiled, slot: number): boolean {
    const opener = compiled.behind.get(slot);
    if (opener === undefined) return true;
    for (let item = 0; item < this.items; item++)
      if (this.pieceOf(compiled, item, opener) !== unfilled) return true;
    return false;
  }

  private unopened(compiled: Compiled, pieces: Pieces, at: number, slot: number): void {
    const word = pieces.word[at]!;
    const lead = compiled.slots[compiled.behind.get(slot)!]?.lead ?? "";
    const start = pieces.start[at]!;
    this.report("entry/argument", start, pieces.end[at]!, `before “${word}” stands “${lead}”`, [
      { title: `Write “${lead} ${word}”`, text: `${lead} `, start, end: start },
    ]);
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
      const last = Math.min(next, end - 1);
      this.report("entry/twice", pieces.start[at]!, pieces.end[at]!, `“${lead}” stands here twice`, [
        { title: "Delete the second", text: "", start: pieces.end[at - 1]!, end: pieces.end[last]! },
      ]);
      return at + 2;
    }
    if (next >= end) {
      this.report(
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
          joinUnit(pieces, next, end, this.report);
          this.fit(pieces, next, filling, undefined);
          fits = true;
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
      const isQuoted = kind === Piece.text && (filling.is === "name" || filling.is === "words");
      const bare = isQuoted ? ", a name without quotes" : "";
      this.report(
        "entry/argument",
        pieces.start[next]!,
        pieces.end[next]!,
        `after “${lead}” comes ${nounOf(filling)}${bare}${didYouMean(words)}`,
        words.map(replaceBy),
      );
    }
    // A loosely spelled unit is a word of its own behind its number.
    return fits && isJoined(pieces, next, end) ? next + 2 : next + 1;
  }

  private fillName(compiled: Compiled, pieces: Pieces, at: number, end: number): boolean {
    for (const slot of compiled.names) {
      const { filling } = compiled.slots[slot]!;
      // A list of words fills one slot with its first; the others stand behind their commas.
      if (filling.is === "words" && !this.isFree(compiled, slot) && pieces.kind[at - 1] === Piece.comma)
        return true;
      if (!this.isFree(compiled, slot)) continue;
      if (filling.is === "name" && filling.of[0] === "parameter") {
        const parameter = findParameter(pieces.word[at]!);
        this.parameter[this.items - 1] = parameter;
        if (parameter === undefined) {
          const near = nearest(pieces.word[at]!, parameterNames);
          this.report(
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
      this.fit(pieces, at, filling, this.parameter[this.items - 1]);
      return true;
    }
    return false;
  }

  private fit(pieces: Pieces, at: number, filling: Filling, parameter: Parameter | undefined): void {
    if (filling.is === "quantity") fitQuantity(pieces, at, filling, !this.isComplete, this.report);
    else if (filling.is === "count") fitCount(pieces, at, filling.noun ?? "number of animals", this.report);
    else if (filling.is === "reading" && parameter !== undefined)
      fitReading(pieces, at, filling, parameter, this.report);
  }

  private fillText(compiled: Compiled, pieces: Pieces, at: number, end: number): void {
    if (pieces.kind[at] === Piece.openText) this.openText(pieces, at);
    for (const slot of compiled.texts) {
      if (!this.isFree(compiled, slot)) continue;
      this.put(compiled, slot, at, 0);
      return;
    }
    if (at === end - 1 && this.note === unfilled) this.note = at;
    else this.unexpected(compiled, pieces, at, end);
  }

  private continuesWords(compiled: Compiled, pieces: Pieces, at: number, end: number): boolean {
    if (at + 1 >= end || pieces.kind[at + 1] !== Piece.word) return false;
    return compiled.names.some((slot) => compiled.slots[slot]?.filling.is === "words");
  }

  private openText(pieces: Pieces, at: number): void {
    const end = pieces.end[at]!;
    this.report(
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
    this.report(
      "entry/missing",
      pieces.start[at]!,
      pieces.end[at]!,
      `${compiled.signature.word} needs ${required}`,
    );
  }

  private unexpected(compiled: Compiled, pieces: Pieces, at: number, end: number): void {
    if (this.isSurprised) return;
    this.isSurprised = true;
    const item = this.items - 1;
    const [firstText] = compiled.texts;
    const dimensions = at > 0 ? this.dimensionsOf(compiled, item, at - 1) : [];
    const unit = nearUnit(pieces, at, dimensions);
    if (unit !== undefined) {
      // That the number has no unit is said better here.
      const last = this.problems.at(-1);
      if (last?.code === "unit/missing" && last.start === pieces.start[at - 1]) this.problems.pop();
    }
    const { code, message, mends } =
      unit ??
      surprise(compiled, pieces, at, {
        afterParameter: this.parameter[item] !== undefined,
        wantsProse: firstText !== undefined && this.isFree(compiled, firstText),
        mayBeProse:
          isEntry(compiled) && this.note === unfilled && isProse(pieces, at, end) && !this.lacks(compiled),
        lacksNumber: this.lackingNumber(compiled),
        lacksDestination: compiled.destination >= 0 && this.isFree(compiled, compiled.destination),
        lacksDate: compiled.date >= 0 && this.isFree(compiled, compiled.date),
        end,
      });
    this.report(code, pieces.start[at]!, pieces.end[at]!, message, mends);
  }

  /** Whether a slot is free that must be filled. */
  private lacks(compiled: Compiled): boolean {
    return compiled.required.some((slot) => this.isFree(compiled, slot));
  }

  /** What to say where only the number is missing that an item needs; undefined if it has it. */
  private lackingNumber(compiled: Compiled): string | undefined {
    const { numbers, names, required, slots } = compiled;
    const slot = required.find((each) => numbers.includes(each) && this.isFree(compiled, each));
    const isNamed = names.every((each) => !this.isFree(compiled, each));
    return slot === undefined || !isNamed ? undefined : slots[slot]!.required;
  }

  /** What may fill the slot that a piece fills. */
  private dimensionsOf(compiled: Compiled, item: number, piece: number): readonly Dimension[] {
    for (const slot of [...compiled.numbers, ...compiled.leads.values()]) {
      if (this.pieceOf(compiled, item, slot) !== piece) continue;
      const { filling } = compiled.slots[slot]!;
      if (filling.is === "quantity") return filling.of;
      if (filling.is === "count") return ["count"];
      if (filling.is === "reading") return [this.parameter[item]?.dimension ?? "concentration"];
    }
    return [];
  }
}

/** A property has no text of its own that could take words over. */
const isEntry = ({ signature }: Compiled): boolean => "duty" in signature;

const replaceBy = (text: string): Mend => ({ title: `Write “${text}”`, text });
