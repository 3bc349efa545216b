import { isoOf } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import type { Block } from "../../book/source.ts";
import { cutBlock, type LineCut } from "./cut.ts";
import { changeLine, cutState, lineState } from "./edit-line.ts";
import type { EditSession } from "./edit-session.ts";
import { type ColumnId, type Refusal, refused } from "./grid-model.ts";
import { gapFor, indentIn } from "./new-line.ts";
import { ledgerFor } from "./round-figures.ts";
import { inEntry, inRow, notInLine, type RoundColumn, roundColumnOf, withHead } from "./round-line.ts";
import { emptyRound, isReckoned, ofRound } from "./round-rows.ts";
import { columnOf, type Round, type RoundLine, roundsOf } from "./rounds-on.ts";

/**
 * A cell of a round put into the log: where it stands it is changed there. What is new goes into the row of a sheet that the round has, or
 * into its test or count; else into the day's sheet where that has the column, else into a new entry.
 */
export function changeRound(
  session: EditSession,
  [station = "", dayText = "", minuteText = "", order = ""]: readonly string[],
  id: ColumnId,
  typed: string,
): Refusal | undefined {
  const day = Number(dayText);
  const key = `round ${station} ${dayText} ${minuteText} ${order}`;
  const by = Number(minuteText) < 0 ? "day" : "minute";
  const rounds = roundsOf(session.view, station, day, session.places.blocksOf(day), by);
  const found = rounds.find((round) => round.id === key);
  const round = found ?? (rounds.length === 0 && by === "day" ? emptyRound(station, day) : undefined);
  if (round === undefined) return refused("this round is not there any more");
  if (id === "date" || id === "tank")
    return typed.trim() === (id === "tank" ? station : isoOf(day)) ? undefined : refused(ofRound);
  if (isReckoned(id)) return refused("this column is reckoned from the log");
  if (id === "time" || id === "note") return changeLead(session, round, id, typed);
  const column = roundColumnOf(id);
  if (column === undefined) return refused("this is written among the entries");
  const wanted = typed.trim();
  const said = round.values.get(id);
  if (said !== undefined && said.fixed !== "") return said.text === wanted ? undefined : refused(said.fixed);
  const ill = notInLine(wanted, column);
  if (ill !== undefined) return ill;
  if (said !== undefined) return changeIn(session, said.of, column, wanted);
  const known = session.begun.get(begunKey(round, column));
  if (known === undefined && wanted === "") return undefined;
  const station_ = ledgerFor(session.view, station)?.station;
  if (station_ === undefined) return refused(`${station} is no tank or system`);
  if (!column.isTest && station_.kind !== "tank") return refused("animals are counted in tanks");
  const own = round.lines.filter(({ target }) => target === station);
  const line =
    own.find((each) => each.line.is === "row" && sheetColumn(session, each, column) >= 0) ??
    own.find((each) => each.line.is === "row") ??
    own.find(({ line: { kind } }) => kind === (column.isTest ? Kind.test : Kind.count));
  if (line !== undefined) return changeIn(session, line, column, wanted);
  return changeBegun(session, round, column, wanted);
}

function changeLead(
  session: EditSession,
  { lines }: Round,
  id: "time" | "note",
  typed: string,
): Refusal | undefined {
  const [line, other] = lines;
  if (line === undefined)
    return typed.trim() === "" ? undefined : refused("write a reading of this round first");
  if (other !== undefined)
    return refused("this round is written in several lines: edit it among the entries");
  if (line.target.startsWith("@"))
    return refused(`written for all of ${line.target}: edit it among the entries`);
  return session.changeLine(line.block, line.at, (state) => changeLine(state, id, typed));
}

/** The heads above a row, by their place among the lines of the block. */
function sheetAbove(lines: readonly LineCut[], at: number): number {
  let sheet = at;
  while (sheet > 0 && lines[sheet]!.is !== "sheet") sheet--;
  return sheet;
}

/** The place of a column among the heads as they stand now; -1 where there is none. */
function sheetColumn(session: EditSession, { block, at }: RoundLine, column: RoundColumn): number {
  const { columns = [] } = cutState(session.stateOf(block, sheetAbove(cutBlock(block), at)));
  const id = `${column.isTest ? "test" : "count"} ${column.name}`;
  return columns.findIndex((each) => columnOf(each) === id);
}

function changeIn(
  session: EditSession,
  line: RoundLine,
  column: RoundColumn,
  wanted: string,
): Refusal | undefined {
  const { block, at } = line;
  if (line.line.is !== "row") {
    const change = session.changeOf(block);
    const made = inEntry(session.stateOf(block, at), column, wanted);
    if (made === "gone") change.deleted.add(at);
    else if ("is" in made) return made;
    else {
      change.deleted.delete(at);
      change.changed.set(at, made.text);
    }
    return undefined;
  }
  let place = sheetColumn(session, line, column);
  if (place < 0) {
    if (wanted === "") return undefined;
    const added = addColumn(session, block, at, column);
    if (added !== undefined) return added;
    place = sheetColumn(session, line, column);
  }
  return session.changeLine(block, at, (state) => inRow(state, place, column, wanted));
}

/** A new head behind the others. The other rows stay as short as they are. */
function addColumn(session: EditSession, block: Block, at: number, column: RoundColumn): Refusal | undefined {
  const lines = cutBlock(block);
  const sheet = sheetAbove(lines, at);
  const heads = cutState(session.stateOf(block, sheet)).columns?.length ?? 0;
  for (let row = sheet + 1; row < lines.length && lines[row]!.is !== "sheet"; row++)
    if (lines[row]!.is === "row" && (lines[row]!.pieces?.length ?? 0) > heads)
      return refused("a row of this sheet has more cells than it has heads: mend it first");
  return session.changeLine(block, sheet, (state) => withHead(state, column));
}

const begunKey = ({ id }: Round, { isTest }: RoundColumn): string => `${id} ${isTest ? "test" : "count"}`;

/** A line that is not there yet: a row of the day's sheet, or an entry. */
function changeBegun(
  session: EditSession,
  round: Round,
  column: RoundColumn,
  wanted: string,
): Refusal | undefined {
  const { station, day } = round;
  const known = session.begun.get(begunKey(round, column)) ?? session.begun.get(`${round.id} row`);
  if (known !== undefined) {
    const line = cutState(known.state);
    const id = `${column.isTest ? "test" : "count"} ${column.name}`;
    const place = (line.columns ?? []).findIndex((each) => columnOf(each) === id);
    if (line.is === "row" && place >= 0) {
      const made = inRow(known.state, place, column, wanted);
      if ("is" in made) return made;
      known.state = made;
      return undefined;
    }
    if (line.is !== "row") {
      const made = inEntry(known.state, column, wanted);
      if (made === "gone") session.begun.delete(begunKey(round, column));
      else if ("is" in made) return made;
      else known.state = made;
      return undefined;
    }
  }
  const last = round.lines.at(-1);
  const sheet = last === undefined ? daySheet(session.places.blocksOf(day), column) : undefined;
  if (sheet !== undefined) {
    const { block, end, heads } = sheet;
    const state = lineState(`${rowIndent(block, end)}${station}`, "row", heads);
    const place = (cutState(state).columns ?? []).findIndex(
      (each) => columnOf(each) === `${column.isTest ? "test" : "count"} ${column.name}`,
    );
    const made = inRow(state, place, column, wanted);
    if ("is" in made) return made;
    session.begun.set(`${round.id} row`, { day, behind: { block, at: end }, state: made });
    return undefined;
  }
  const block = last?.block ?? session.places.blockOf(day);
  const indent = block === undefined ? "  " : indentIn(block);
  const word = column.isTest ? "test" : "count";
  const made = inEntry(
    lineState(indent + station + " ".repeat(gapFor(block, indent, station)) + word, "entry"),
    column,
    wanted,
  );
  if (made === "gone") return undefined;
  if ("is" in made) return made;
  // Beside the others of its round it counts at their time.
  const behind =
    last === undefined ? {} : { behind: { block: last.block, at: sheetEnd(cutBlock(last.block), last.at) } };
  session.begun.set(begunKey(round, column), { day, state: made, ...behind });
  return undefined;
}

/** The last row of the sheet that a line is in, else the line itself. */
function sheetEnd(lines: readonly LineCut[], at: number): number {
  let end = at;
  if (lines[at]!.is !== "sheet" && lines[at]!.is !== "row") return at;
  while (end + 1 < lines.length && lines[end + 1]!.is === "row") end++;
  return end;
}

/** The last sheet of a day that has a column, with its end. */
export function daySheet(blocks: readonly Block[], column: RoundColumn) {
  const id = `${column.isTest ? "test" : "count"} ${column.name}`;
  for (const block of [...blocks].reverse()) {
    const lines = cutBlock(block);
    for (let at = lines.length - 1; at > 0; at--) {
      if (lines[at]!.is !== "sheet" || !lines[at]!.columns!.some((each) => columnOf(each) === id)) continue;
      return { block, end: sheetEnd(lines, at), heads: block.text.slice(lines[at]!.start, lines[at]!.end) };
    }
  }
  return undefined;
}

/** How a row is indented: as the one above it, two deeper than its heads. */
function rowIndent(block: Block, at: number): string {
  const line = cutBlock(block)[at]!;
  const own = block.text.slice(line.start, line.first);
  return line.is === "row" ? own : `${own}  `;
}
