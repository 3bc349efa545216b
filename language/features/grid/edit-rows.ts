import { dayOf } from "../../book/dates.ts";
import type { Block } from "../../book/source.ts";
import { ownEnd } from "../lines.ts";
import { usesOf } from "../names.ts";
import type { View } from "../view.ts";
import { cutBlock } from "./cut.ts";
import { changeLine, cutState, type LineState, lineState } from "./edit-line.ts";
import { EditSession } from "./edit-session.ts";
import { isDate, slotOfColumn } from "./entries.ts";
import { type Face, type GridResult, type NewRow, type Refusal, refused } from "./grid-model.ts";
import { lineOfId, linesOfBlock } from "./lines.ts";
import { insertDefinition } from "./new-definition.ts";
import { gapFor, indentIn } from "./new-line.ts";
import { insertRound } from "./new-round.ts";
import { roundsOf } from "./rounds-on.ts";
import { atOnce, perStep, type Steps } from "./steps.ts";

/** Whole rows: new entries, and rows that go. */

/**
 * New entries behind a row, or, without one, in the days that they name. A row with a date of its own goes to that day. Rows that say nothing are
 * passed over.
 */
export function insertRows(
  view: View,
  behind: string | undefined,
  rows: readonly NewRow[],
  face: Face = { is: "entries" },
): GridResult {
  const session = new EditSession(view);
  return atOnce(insertSteps(session, face, behind, rows)) ?? session.finish();
}

export function* insertSteps(
  session: EditSession,
  face: Face,
  behind: string | undefined,
  rows: readonly NewRow[],
): Steps<Refusal | undefined> {
  if (face.is === "entries") return yield* insertEntries(session, behind, rows);
  for (const [at, row] of rows.entries()) {
    if (at > 0 && at % perStep === 0) yield at / rows.length;
    const problem =
      face.is === "rounds"
        ? insertRound(session, face, row)
        : insertDefinition(session, face.of, behind, row);
    if (problem !== undefined)
      return rows.length > 1 ? refused(`row ${at + 1}: ${problem.message}`) : problem;
  }
  return undefined;
}

function* insertEntries(
  session: EditSession,
  behind: string | undefined,
  rows: readonly NewRow[],
): Steps<Refusal | undefined> {
  const anchor = behind === undefined ? undefined : anchorOf(session, behind);
  if (anchor !== undefined && "is" in anchor) return anchor;
  for (const [at, row] of rows.entries()) {
    if (at > 0 && at % perStep === 0) yield at / rows.length;
    const said = Object.entries(row).filter(([, text]) => text.trim() !== "");
    if (said.every(([column]) => column === "date")) continue;
    const date = row.date?.trim() ?? "";
    const where = rows.length > 1 ? `row ${at + 1}: ` : "";
    if (date !== "" && !isDate(date)) return refused(`${where}a date is written 2026-03-01`);
    if (date === "" && anchor === undefined) return refused(`${where}a new row needs a date`);
    const day = date === "" ? anchor!.block.day : dayOf(date);
    const isHere = anchor !== undefined && day === anchor.block.day;
    const block = isHere ? anchor.block : session.places.blockOf(day);
    const line = lineOf(row, block);
    if (typeof line !== "string") return refused(where + line.message);
    session.insert(day, [line], isHere ? anchor : undefined);
  }
  return undefined;
}

function anchorOf(session: EditSession, row: string): { block: Block; at: number } | Refusal {
  const [is, serial, id] = row.split(" ");
  const block = is === "line" ? session.blockOf(serial) : undefined;
  let at = block === undefined ? -1 : lineOfId(linesOfBlock(block), Number(id));
  if (block === undefined || at < 0) return refused("this row is not there any more");
  if (block.kind !== "day" || Number.isNaN(block.day))
    return refused("the lines here belong to no day: an entry cannot stand among them");
  // A sheet is not cut in two.
  const lines = cutBlock(block);
  const isInSheet = lines[at]!.is === "sheet" || lines[at]!.is === "row";
  while (isInSheet && at + 1 < lines.length && lines[at + 1]!.is === "row") at++;
  return { block, at };
}

/** A line of an entry, or a comment alone. */
function lineOf(row: NewRow, block: Block | undefined): string | Refusal {
  const text = (column: string): string => row[column]?.trim() ?? "";
  const indent = block === undefined ? "  " : indentIn(block);
  const others = Object.keys(row).filter((column) => column !== "comment" && column !== "date");
  if (others.every((column) => text(column) === "")) {
    const comment = text("comment").replace(/[\r\n]+/g, " ");
    return `${indent}# ${comment.replace(/^#\s*/, "")}`;
  }
  if (text("tank") === "" || text("what") === "")
    return refused("a new row needs a tank and what was done: dam, change");
  if (/\s/.test(text("tank")) || /\s/.test(text("what")))
    return refused("the tank is one word, and so is what was done");
  let state: LineState | Refusal = lineState(
    `${indent}${text("tank")}${" ".repeat(gapFor(block, indent, text("tank")))}${text("what")}`,
    "entry",
  );
  const cut = cutState(state);
  const isEntry = cut.is === "entry" && cut.what !== undefined;
  if (!isEntry || state.text.slice(cut.tank!.start, cut.tank!.end) !== text("tank"))
    return refused(`“${text("tank")} ${text("what")}” begins no entry: a tank, then change, test, feed ...`);
  const slots = Object.keys(row).filter((column) => slotOfColumn(column) !== undefined);
  for (const column of ["time", "values", ...slots, "note", "comment"]) {
    if (text(column) === "") continue;
    state = changeLine(state, column, row[column]!);
    if ("is" in state) return state;
  }
  return cutState(state).is === "entry"
    ? state.text
    : refused("this cannot be read as one entry: a tank, what was done, and what it takes");
}

/** Rows that go, with all that stands on them. The head of a day goes with all its lines only, the heads of a sheet with all its rows. */
export function deleteRows(view: View, rows: readonly string[]): GridResult {
  const session = new EditSession(view);
  for (const row of rows) {
    const problem = mark(session, row, rows);
    if (problem !== undefined) return problem;
  }
  const made = left(session, rows) ?? session.finish();
  return made.is === "edits" && made.edits.length === 0 && rows.length > 0
    ? refused("nothing is written of this round yet: there is nothing to delete")
    : made;
}

function mark(session: EditSession, row: string, rows: readonly string[]): Refusal | undefined {
  const [is, serial, id, minute] = row.split(" ");
  if (is === "round") {
    const day = Number(id);
    const by = Number(minute) < 0 ? "day" : "minute";
    const rounds = roundsOf(session.view, serial!, day, session.places.blocksOf(day), by);
    const round = rounds.find((each) => each.id === row);
    const shared = round?.lines.find(({ target }) => target.startsWith("@"));
    if (shared !== undefined)
      return refused(`written for all of ${shared.target}: delete it among the entries`, { row, column: "" });
    for (const { block, at } of round?.lines ?? []) session.changeOf(block).deleted.add(at);
    return undefined;
  }
  const block = session.blockOf(serial);
  if (block === undefined) return refused("this row is not there any more", { row, column: "" });
  const change = session.changeOf(block);
  if (is === "definition") {
    const used = usedElsewhere(session, block, rows);
    if (used !== undefined) return { ...used, at: { row, column: "name" } };
    // Comments between it and the next speak of the next.
    const { starts } = linesOfBlock(block);
    const end = ownEnd(block.text);
    for (let at = 0; at < starts.length && starts[at]! < end; at++) change.deleted.add(at);
    return undefined;
  }
  const at = lineOfId(linesOfBlock(block), Number(id));
  if (at < 0) return refused("this row is not there any more", { row, column: "" });
  change.deleted.add(at);
  return undefined;
}

/** What is named where nothing of it is deleted cannot go: the log would name what is not there. */
function usedElsewhere(session: EditSession, block: Block, rows: readonly string[]): Refusal | undefined {
  const { view } = session;
  const { definition } = block;
  if (definition === undefined || definition.word === "room" || definition.name === "") return undefined;
  // Of two with one name the first counts, and goes on counting.
  if (view.checked.book.names.get(definition.name)?.definition !== definition) return undefined;
  const gone = new Set(rows.map((row) => session.blockOf(row.split(" ")[1])));
  const uses = usesOf(view.checked, { name: definition.name, sort: definition.word }).filter(
    (use) => use.block !== block && !gone.has(use.block),
  );
  const [first] = uses;
  if (first === undefined) return undefined;
  const { path, text } = first.block.file;
  const line = text.slice(0, first.block.start + first.start).split(/\r\n|\r|\n/).length;
  const where = `${path.slice(path.lastIndexOf("/") + 1)}, line ${line}`;
  const until =
    definition.word === "tank" ? "; of a tank that is no more say until when it was in service" : "";
  return refused(
    `“${definition.name}” is named in ${uses.length === 1 ? "one other place" : `${uses.length.toLocaleString("en")} other places`} (${where})${until}`,
  );
}

/** What would be left without what it hangs on. */
function left(session: EditSession, rows: readonly string[]): Refusal | undefined {
  for (const row of rows) {
    const [is, serial, id] = row.split(" ");
    const block = is === "line" ? session.blockOf(serial) : undefined;
    if (block === undefined) continue;
    const lines = linesOfBlock(block);
    const { deleted } = session.changeOf(block);
    const at = lineOfId(lines, Number(id));
    if (at === 0 && block.kind === "day" && deleted.size < lines.starts.length)
      return refused("the lines of this day hang on its date: delete them with it", { row, column: "date" });
    if (block.kind !== "day" || cutBlock(block)[at]!.is !== "sheet") continue;
    const cut = cutBlock(block);
    for (let below = at + 1; below < cut.length && cut[below]!.is !== "sheet"; below++)
      if (cut[below]!.is === "row" && !deleted.has(below))
        return refused("the rows below are read by these heads: delete them with it", {
          row,
          column: "what",
        });
  }
  return undefined;
}
