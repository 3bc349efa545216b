import { didYouMean, nearest } from "../quantity/nearest.ts";
import { noUnit } from "../quantity/unit-codes.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../syntax/parser.ts";
import { Mark, Piece, type Pieces } from "../syntax/pieces.ts";
import { brokenLine } from "./broken-line.ts";
import { type Compiled, compile } from "./compile.ts";
import { entryKinds } from "./entries/registry.ts";
import { Col, FactBuilder, type Facts } from "./facts.ts";
import { nameOf, noName } from "./interner.ts";
import { type LineRole, LineRoles } from "./line.ts";
import { Matcher, unfilled } from "./match.ts";
import { findParameter } from "./parameters.ts";
import type { Mend } from "./problem.ts";
import { unquote } from "./reading.ts";
import { readSheetHead, readSheetRow, type SheetColumn } from "./sheet.ts";
import type { Slot } from "./slots.ts";

/** Reading the lines of a day block into facts. */

const builder = new FactBuilder();
const matcher = new Matcher();
const roles = new LineRoles();
const compiledKinds: readonly Compiled[] = entryKinds.map((kind) => compile(kind));

class DayReader implements LineSink {
  minute = 0;
  /** Undefined below heads that are broken: their rows wait until the heads are mended. */
  columns: readonly SheetColumn[] | undefined = [];
  private text = "";

  begin(text: string): void {
    this.text = text;
    builder.begin();
    roles.begin();
    this.minute = 0;
    this.columns = [];
  }

  head(): void {
    // The head is read with its block: `readDayHead`.
  }

  line(pieces: Pieces, indent: number): void {
    const role = roles.roleOf(pieces, indent);
    this.readTime(pieces, role.time);
    if (role.is === "sheet" && role.isMisspelt) {
      this.columns = undefined;
      const at = role.word;
      const message = `“${pieces.word[at]}” begins no round; did you mean “sheet”?`;
      const mends = [{ title: "Write “sheet”", text: "sheet" }];
      this.problem("sheet/head", pieces.start[at]!, pieces.end[at]!, message, mends);
    } else if (role.is === "sheet") {
      const before = builder.problems.length;
      const columns = readSheetHead(pieces, role.word + 1, builder.problems);
      // A unit that does not fit costs its column; of heads that cannot be read nobody knows which cell is whose.
      const isBroken = builder.problems.slice(before).some((problem) => problem.code === "sheet/head");
      this.columns = isBroken ? undefined : columns;
    } else if (role.is === "row") {
      if (this.columns === undefined) return;
      const target = this.readTarget(pieces, role.target, true);
      if (target !== undefined) readSheetRow(pieces, role.target, target, this.minute, this.columns, builder);
    } else this.entry(pieces, role);
  }

  broken({ start, end, message, isHead, first, indent }: BrokenLine): void {
    // A broken head is told by what reads the block.
    if (isHead) return;
    if (roles.broken(this.text, first, indent)) this.columns = undefined;
    // The time of a line that cannot be read is that of the entries below all the same.
    const time = /^(\d{1,2}):(\d{2})(?![\d:])/.exec(this.text.slice(first, first + 6));
    const minute = time === null ? Number.NaN : Number(time[1]) * 60 + Number(time[2]);
    if (minute < 1440 && Number(time![2]) < 60) this.minute = minute;
    builder.problems.push(brokenLine(this.text, start, end, message));
  }

  private readTime(pieces: Pieces, time: number): void {
    if (time < 0) return;
    const minute = pieces.value[time]!;
    if (Number.isNaN(minute)) {
      const [start, end] = [pieces.start[time]!, pieces.end[time]!];
      const message = `there is no time ${this.text.slice(start, end)}: a day goes from 00:00 to 23:59`;
      this.problem("syntax/time", start, end, message);
    } else this.minute = minute;
  }

  /** The target's name (the complement of a group's), or undefined if there is none. */
  private readTarget(pieces: Pieces, at: number, inSheet: boolean): number | undefined {
    const kind = pieces.kind[at];
    if (at < pieces.count && kind === Piece.word) return nameOf(pieces.word[at]!);
    if (at < pieces.count && kind === Piece.group) return ~nameOf(pieces.word[at]!);
    const shown = at < pieces.count ? at : at - 1;
    const [start, end] = [pieces.start[shown]!, pieces.end[shown]!];
    const written = this.text.slice(start, end);
    const clock = /^(\d{1,2})[.h](\d{2})$/.exec(written);
    if (inSheet) this.problem("entry/target", start, end, "a row of a sheet begins with a tank");
    else if (clock !== null) {
      const text = `${clock[1]}:${clock[2]}`;
      this.problem("entry/target", start, end, "a time of day is written 08:40", [
        { title: `Write “${text}”`, text },
      ]);
    } else if (at < pieces.count && kind === Piece.nameRange) {
      const message = `an entry has one target; a range of tanks is a group: group x = ${written}, then @x`;
      this.problem("entry/target", start, end, message);
    } else {
      this.problem(
        "entry/target",
        start,
        end,
        "an entry begins with a tank, a system, a gear, room or @group",
      );
    }
    return undefined;
  }

  private entry(pieces: Pieces, role: LineRole & { is: "entry" }): void {
    const target = this.readTarget(pieces, role.target, false);
    if (target === undefined) return;
    const at = role.kindPiece;
    if (role.kind < 0) {
      this.unknownKind(pieces, at, role.target);
      return;
    }
    const compiled = compiledKinds[role.kind]!;
    matcher.problems = builder.problems;
    matcher.match(compiled, pieces, at, at + 1, pieces.count);
    if (!matcher.counts) return;
    this.writeRows(compiled, pieces, role.kind, target, pieces.start[role.target]!);
  }

  private writeRows(
    compiled: Compiled,
    pieces: Pieces,
    kind: number,
    target: number,
    lineStart: number,
  ): void {
    const { slots } = compiled;
    const lineEnd = pieces.end[pieces.count - 1]!;
    for (let item = 0; item < matcher.items; item++) {
      const alone = matcher.items === 1;
      const start = alone ? lineStart : pieces.start[matcher.firstPiece(item)]!;
      const end = alone ? lineEnd : pieces.end[matcher.lastPiece(item)]!;
      const row = builder.add(kind, this.minute, target, start, end);
      if (item > 0) builder.setFurther(row);
      for (let slot = 0; slot < slots.length; slot++) {
        const { column } = slots[slot]!;
        if (column === undefined) continue;
        const piece = matcher.pieceOf(compiled, item, slot);
        if (piece === unfilled) continue;
        if (column === "choice") builder.setChoice(row, matcher.codeOf(compiled, item, slot));
        else if (column === "amount") writeAmount(row, pieces, piece);
        else if (column === "second") writeSecond(row, pieces, piece);
        else if (column === "object") builder.setName(row, Col.object, this.nameIn(pieces, piece));
        else if (column === "tool") builder.setName(row, Col.tool, this.nameIn(pieces, piece));
        else if (column === "lot") builder.setName(row, Col.lot, this.nameIn(pieces, piece));
        else builder.setName(row, Col.subject, this.subjectOf(slots[slot]!, pieces, piece, item));
      }
    }
  }

  private subjectOf(slot: Slot, pieces: Pieces, piece: number, item: number): number {
    if (slot.filling.is === "name" && slot.filling.of[0] === "parameter")
      return matcher.parameterOf(item)?.id ?? noName;
    return this.nameIn(pieces, piece);
  }

  /** A name: a word, the inside of a text, or what else stands there (a lot may be called by a number). */
  private nameIn(pieces: Pieces, piece: number): number {
    const word = pieces.word[piece]!;
    if (word !== "") return nameOf(word);
    const written = this.text.slice(pieces.start[piece]!, pieces.end[piece]!);
    const name = pieces.kind[piece] === Piece.text ? unquote(written) : written;
    return name === "" ? noName : nameOf(name);
  }

  private unknownKind(pieces: Pieces, at: number, target: number): void {
    if (at >= pieces.count) {
      const word = pieces.word[target]!;
      const is = kindWords.includes(word);
      this.problem(
        "entry/kind",
        pieces.start[target]!,
        pieces.end[target]!,
        is
          ? `${word} needs a tank before it: “dam ${word} ...”`
          : `what happened to “${word}”? After the tank comes a word such as change, test or feed`,
      );
      return;
    }
    if (kindWords.includes(pieces.word[target]!)) {
      this.problem(
        "entry/target",
        pieces.start[target]!,
        pieces.end[target]!,
        `an entry begins with its tank: “dam ${pieces.word[target]} ...”`,
      );
      return;
    }
    if (pieces.kind[at] !== Piece.word) {
      const message =
        pieces.kind[at] === Piece.time
          ? "the time stands before the tank: 08:40 dam clean"
          : pieces.kind[at] === Piece.comma
            ? "an entry has one target; several tanks are a group: group x = dam, q1, then @x"
            : "after the tank comes what was done: change, test, feed ...";
      this.problem("entry/kind", pieces.start[at]!, pieces.end[at]!, message);
      return;
    }
    const word = pieces.word[at]!;
    const parameter = findParameter(word);
    const near = nearest(word, kindWords);
    const mends: Mend[] = near.map((kind) => ({ title: `Write “${kind}”`, text: kind }));
    if (parameter !== undefined) mends.unshift({ title: `Write “test ${word}”`, text: `test ${word}` });
    this.problem(
      "entry/kind",
      pieces.start[at]!,
      pieces.end[at]!,
      parameter !== undefined
        ? `a reading is written “test ${word}”`
        : `“${word}” is no kind of entry${didYouMean(near)}`,
      mends,
    );
  }

  private problem(
    code: string,
    start: number,
    end: number,
    message: string,
    mends: readonly Mend[] = [],
  ): void {
    builder.problems.push({ code, start, end, message, counts: false, mends });
  }
}

const kindWords: readonly string[] = entryKinds.map((kind) => kind.word);
const reader = new DayReader();

/** The facts of a day block. @param text the block, its head included */
export function readDay(text: string): Facts {
  reader.begin(text);
  parseBlock(text, reader);
  return builder.finish();
}

/** Writes a number into the amount of a row. */
function writeAmount(row: number, pieces: Pieces, piece: number): void {
  const sexed = pieces.kind[piece] === Piece.sexed;
  const value = sexed
    ? pieces.value[piece]! + pieces.second[piece]! + pieces.third[piece]!
    : pieces.value[piece]!;
  const mark = sexed ? Mark.exact : pieces.mark[piece]!;
  const high = mark === Mark.range ? pieces.second[piece]! : Number.NaN;
  builder.setAmount(row, value, high, sexed ? noUnit : pieces.unit[piece]!, mark);
}

function writeSecond(row: number, pieces: Pieces, piece: number): void {
  const sexed = pieces.kind[piece] === Piece.sexed;
  const value = sexed
    ? pieces.value[piece]! + pieces.second[piece]! + pieces.third[piece]!
    : pieces.value[piece]!;
  builder.setSecond(
    row,
    value,
    sexed ? noUnit : pieces.unit[piece]!,
    sexed ? Mark.exact : pieces.mark[piece]!,
  );
}
