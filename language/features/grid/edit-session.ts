import { dayOf } from "../../book/dates.ts";
import type { Block } from "../../book/source.ts";
import type { Edit, View } from "../view.ts";
import { type Added, addedEdits } from "./added-definitions.ts";
import { BlockChange } from "./block-edits.ts";
import { cutBlock } from "./cut.ts";
import { DayPlaces, placeInDay } from "./day-places.ts";
import { definitionEdits } from "./edit-definition.ts";
import { cutState, type LineState, lineState } from "./edit-line.ts";
import { dateOf, isDate } from "./entries.ts";
import { type GridResult, type Refusal, refused } from "./grid-model.ts";
import { blockOfSerial } from "./lines.ts";
import { indentIn } from "./new-line.ts";

export interface BegunLine {
  readonly day: number;
  readonly behind?: { readonly block: Block; readonly at: number };
  state: LineState;
}

/** Changes of many cells, one after the other, that come to one list of edits. The log itself is not touched. */
export class EditSession {
  readonly view: View;
  private readonly blocks = new Map<Block, BlockChange>();
  private readonly definitions = new Map<Block, string>();
  private readonly moves = new Map<BlockChange, Map<number, number>>();
  /** New lines of days that have no block yet. */
  private readonly days = new Map<number, string[]>();
  /** Definitions that are new. */
  readonly added: Added[] = [];
  /** Lines that are begun here and go on to be written, by what they are of. */
  readonly begun = new Map<string, BegunLine>();
  private thePlaces: DayPlaces | undefined;

  constructor(view: View) {
    view.checked.refresh();
    this.view = view;
  }

  get places(): DayPlaces {
    this.thePlaces ??= new DayPlaces(this.view);
    return this.thePlaces;
  }

  changeOf(block: Block): BlockChange {
    let change = this.blocks.get(block);
    if (change === undefined) {
      change = new BlockChange(block);
      this.blocks.set(block, change);
    }
    return change;
  }

  /** Changes a definition, as it stands after what was changed before. */
  changeDefinition(block: Block, change: (text: string) => string | Refusal): Refusal | undefined {
    const made = change(this.definitions.get(block) ?? block.text);
    if (typeof made !== "string") return made;
    this.definitions.set(block, made);
    return undefined;
  }

  /** The block that a row is in; undefined where it is gone. */
  blockOf(serial: string | undefined): Block | undefined {
    const block = blockOfSerial(Number(serial));
    return block !== undefined && this.view.checked.logbook.sources.get(block.file.path) === block.file
      ? block
      : undefined;
  }

  /** Changes a line of a day, as it stands after what was changed before. */
  changeLine(
    block: Block,
    at: number,
    change: (state: LineState) => LineState | Refusal,
  ): Refusal | undefined {
    const made = change(this.stateOf(block, at));
    if ("is" in made) return made;
    this.changeOf(block).changed.set(at, made.text);
    return undefined;
  }

  stateOf(block: Block, at: number): LineState {
    const lines = cutBlock(block);
    const own = this.blocks.get(block);
    const textAt = (line: number): string =>
      own?.lineText(line) ?? block.text.slice(lines[line]!.start, lines[line]!.end);
    const text = textAt(at);
    // Without a head that can be read, and in a definition, a line is what it is: text.
    if (block.kind !== "day") return { text, above: "", isText: true };
    const line = lines[at]!;
    if (at === 0) return lineState(text, "day");
    if (line.is !== "row") return lineState(text, "entry");
    let sheet = at;
    while (sheet > 0 && lines[sheet]!.is !== "sheet") sheet--;
    return lineState(text, "row", textAt(sheet));
  }

  /** Moves an entry to another day, when all else is done. */
  moveTo(block: Block, at: number, date: string): Refusal | undefined {
    const line = cutBlock(block)[at]!;
    const said = dateOf(block, line);
    if (said.text === date) return undefined;
    if (said.fixed !== "") return refused(said.fixed);
    if (line.is !== "entry") return refused("what is no entry is moved in the text");
    if (!isDate(date)) return refused("a date is written 2026-03-01");
    const change = this.changeOf(block);
    this.moves.set(change, (this.moves.get(change) ?? new Map()).set(at, dayOf(date)));
    return undefined;
  }

  /** Puts new lines of a day at their place in it, or into a new day. @param behind a line of that day behind which they go */
  insert(
    day: number,
    lines: readonly string[],
    behind?: { readonly block: Block; readonly at: number },
  ): void {
    if (behind !== undefined) {
      this.changeOf(behind.block).insert(behind.at, lines);
      return;
    }
    const block = this.places.blockOf(day);
    for (const line of lines) {
      if (block === undefined) {
        const known = this.days.get(day);
        if (known === undefined) this.days.set(day, [line]);
        else known.push(line);
      } else
        this.changeOf(block).insert(placeInDay(block, cutState(lineState(line, "entry")).minute), [line]);
    }
  }

  /** All edits in the order of files, or why there are none. */
  finish(): GridResult {
    for (const [change, moves] of this.moves) this.move(change, moves);
    for (const { day, state, behind } of this.begun.values()) this.insert(day, [state.text], behind);
    const edits: Edit[] = [];
    for (const change of this.blocks.values()) {
      const broken = change.broken();
      if (broken !== undefined) return broken;
      const { file, start } = change.block;
      for (const edit of change.edits())
        edits.push({ path: file.path, start: start + edit.start, end: start + edit.end, text: edit.text });
    }
    for (const [block, text] of this.definitions) edits.push(...definitionEdits(block, text));
    edits.push(...addedEdits(this.view, this.added));
    const { edits: fresh, newFiles } =
      this.days.size === 0 ? { edits: [], newFiles: [] } : this.places.newDays(this.days);
    edits.push(...fresh);
    edits.sort((a, b) => (a.path === b.path ? a.start - b.start || a.end - b.end : a.path < b.path ? -1 : 1));
    for (let at = 1; at < edits.length; at++) {
      const [before, edit] = [edits[at - 1]!, edits[at]!];
      if (before.path === edit.path && edit.start < before.end)
        return refused("these changes touch one another: make them one after the other");
    }
    return { is: "edits", edits: together(edits), newFiles };
  }

  private move(change: BlockChange, moves: ReadonlyMap<number, number>): void {
    for (const [at, day] of moves) {
      const text = change.lineText(at);
      change.deleted.add(at);
      change.changed.delete(at);
      const place = this.places.blockOf(day, change.block.file);
      const line = place === undefined ? `  ${text.trim()}` : indentIn(place) + text.trim();
      if (place === undefined) this.insert(day, [line]);
      else {
        const { minute } = cutState(lineState(line, "entry"));
        this.changeOf(place).insert(placeInDay(place, minute), [line]);
      }
    }
  }
}

/** Edits of a file that touch are one: nothing hangs on the order in which they are made. */
function together(edits: readonly Edit[]): Edit[] {
  const made: Edit[] = [];
  for (const edit of edits) {
    const last = made.at(-1);
    if (last?.path === edit.path && edit.start <= last.end)
      made[made.length - 1] = { ...last, end: edit.end, text: last.text + edit.text };
    else made.push(edit);
  }
  return made;
}
