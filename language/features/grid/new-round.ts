import { dayOf } from "../../book/dates.ts";
import { changeLine, cutState, type LineState, lineState } from "./edit-line.ts";
import { changeRound, daySheet } from "./edit-round.ts";
import type { EditSession } from "./edit-session.ts";
import { isDate } from "./entries.ts";
import { type Face, type NewRow, type Refusal, refused } from "./grid-model.ts";
import { gapFor, indentIn } from "./new-line.ts";
import { ledgerFor } from "./round-figures.ts";
import { inEntry, notInLine, type RoundColumn, roundColumnOf } from "./round-line.ts";
import { roundId, roundsOf } from "./rounds-on.ts";

/** A new round: readings and counts of a tank on a day, as a test and a count, or as a row of the day's sheet where it has their heads. */

type RoundsFace = Face & { readonly is: "rounds" };

/** @param row `date` or `tank`, whichever the face does not say; `time`, readings, `values` (further readings as they are written), `note` */
export function insertRound(session: EditSession, face: RoundsFace, row: NewRow): Refusal | undefined {
  const said = (id: string): string => row[id]?.trim() ?? "";
  if (Object.values(row).every((text) => text.trim() === "")) return undefined;
  const station = face.of === "tank" ? face.name : said("tank");
  const date = said("date");
  if (face.of === "tank" && !isDate(date)) return refused("a new round needs a date: 2026-03-01");
  const day = face.of === "day" ? face.day : dayOf(date);
  if (station === "") return refused("a new round needs a tank");
  const place = ledgerFor(session.view, station)?.station;
  if (place === undefined) return refused(`“${station}” is no tank or system`);
  const cells = Object.entries(row).flatMap(([id, text]): [string, RoundColumn, string][] => {
    const column = roundColumnOf(id);
    return column === undefined || text.trim() === "" ? [] : [[id, column, text.trim()]];
  });
  if (cells.length === 0 && said("values") === "")
    return refused("a new round needs a reading or a count: nitrate 18");
  if (place.kind !== "tank" && cells.some(([, { isTest }]) => !isTest))
    return refused("animals are counted in tanks");
  const blocks = session.places.blocksOf(day);
  const id = roundId(station, day, -1, 0);
  const isFirst =
    roundsOf(session.view, station, day, blocks, "day").length === 0 &&
    ![...session.begun.keys()].some((key) => key.startsWith(`${id} `));
  const isInSheet =
    isFirst &&
    ["time", "note", "values"].every((each) => said(each) === "") &&
    cells.every(([, column]) => column.isTest && daySheet(blocks, column) !== undefined);
  if (isInSheet) {
    for (const [column, , text] of cells) {
      const problem = changeRound(session, [station, String(day), "-1", "0"], column, text);
      if (problem !== undefined) return problem;
    }
    return undefined;
  }
  return insertLines(session, day, station, cells, said);
}

function insertLines(
  session: EditSession,
  day: number,
  station: string,
  cells: readonly (readonly [string, RoundColumn, string])[],
  said: (id: string) => string,
): Refusal | undefined {
  const block = session.places.blockOf(day);
  const indent = block === undefined ? "  " : indentIn(block);
  let note = said("note");
  for (const word of ["test", "count"] as const) {
    const own = cells.filter(([, { isTest }]) => isTest === (word === "test"));
    const further = word === "test" ? said("values") : "";
    if (own.length === 0 && further === "") continue;
    let state: LineState = lineState(
      indent + station + " ".repeat(gapFor(block, indent, station)) + word,
      "entry",
    );
    for (const [, column, text] of own) {
      const made = notInLine(text, column) ?? inEntry(state, column, text);
      if (made === "gone") continue;
      if ("is" in made) return made;
      state = made;
    }
    const { values } = cutState(state);
    const listed = values === undefined ? "" : `${state.text.slice(values.start, values.end)}, `;
    for (const [id, text] of [
      ["values", further === "" ? "" : listed + further],
      ["time", said("time")],
      ["note", note],
    ] as const) {
      if (text === "") continue;
      const made = changeLine(state, id, text);
      if ("is" in made) return made;
      state = made;
    }
    if (cutState(state).is !== "entry") return refused("further readings are written: KH 4, phosphate 0.2");
    note = "";
    session.insert(day, [state.text]);
  }
  return undefined;
}
