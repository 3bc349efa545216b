import { isoOf } from "../../book/dates.ts";
import { parameters } from "../../book/parameters.ts";
import type { Block } from "../../book/source.ts";
import type { Station, Tank } from "../../book/stations.ts";
import { toldOfRounds } from "../rounds.ts";
import type { Location, View } from "../view.ts";
import { clock, writtenIn } from "./entries.ts";
import type { RowMaker } from "./found-rows.ts";
import type { ColumnId, Face, GridCell, GridColumn, GridRow } from "./grid-model.ts";
import {
  bookColumn,
  changeColumn,
  figureColumn,
  figured,
  forecastColumn,
  ledgerFor,
  stateOf,
} from "./round-figures.ts";
import { type Round, roundId, roundLines, roundPlace, roundsAt, roundsOf } from "./rounds-on.ts";

/** Rounds as rows: of one tank in order of time, or of all tanks on a day. */

type RoundsFace = Face & { readonly is: "rounds" };

/** What was not tested for so long is not tested there any more. A choice of this tool, as on the round sheet. */
const testedDays = 60;

export function roundRows(view: View, face: RoundsFace, rounds = roundsIn(view, face)): readonly RowMaker[] {
  return rounds.map((round) => ({
    id: round.id,
    blocks: [...new Set(round.lines.map(({ block }) => block))],
    make: (columns) => rowOf(view, round, columns),
  }));
}

/** By block its rounds of a place, where it is all of its day. */
const kept = new WeakMap<Block, { readonly text: string; readonly byPlace: Map<string, readonly Round[]> }>();

export function roundsIn(view: View, face: RoundsFace): readonly Round[] {
  const { logbook } = view.checked;
  if (face.of === "day") {
    const blocks = logbook.blocks().filter(({ day }) => day === face.day);
    return placesOn(view, face.day).flatMap((name) => {
      const rounds = roundsOf(view, name, face.day, blocks, "day");
      return rounds.length > 0 ? rounds : [emptyRound(name, face.day)];
    });
  }
  const place = roundPlace(view, face.name);
  const days = new Map<number, Block[]>();
  for (const block of logbook.blocks()) {
    if (Number.isNaN(block.day) || roundLines(block, place).length === 0) continue;
    const known = days.get(block.day);
    if (known === undefined) days.set(block.day, [block]);
    else known.push(block);
  }
  return [...days.keys()]
    .sort((a, b) => a - b)
    .flatMap((day) => {
      const blocks = days.get(day)!;
      const [only] = blocks;
      if (blocks.length > 1) return roundsAt(place, day, blocks, "minute");
      let known = kept.get(only!);
      if (known === undefined || known.text !== only!.text) {
        known = { text: only!.text, byPlace: new Map() };
        kept.set(only!, known);
      }
      const rounds = known.byPlace.get(place.key) ?? roundsAt(place, day, blocks, "minute");
      known.byPlace.set(place.key, rounds);
      return rounds;
    });
}

export const emptyRound = (station: string, day: number): Round => ({
  id: roundId(station, day, -1, 0),
  station,
  day,
  minute: 0,
  lines: [],
  values: new Map(),
});

/** The tanks in service on a day in the order in which they are defined, and the systems that are tested. */
function placesOn({ checked: { book, logbook } }: View, day: number): string[] {
  const isThere = ({ from, until }: Tank): boolean => !(from > day) && !(until < day);
  const systems = book.bodies.flatMap(({ system, id }) => {
    const isTested = logbook.ledgers[id]!.readings.some((series) => {
      const end = series?.from(day + 1) ?? 0;
      for (let at = series?.from(day - testedDays) ?? 0; at < end; at++)
        if (series!.tag[at] === system?.id) return true;
      return false;
    });
    return system !== undefined && isTested ? [system] : [];
  });
  return [...book.tanks.filter(isThere), ...systems].map(({ name }: Station) => name);
}

export function roundColumns(
  view: View,
  face: RoundsFace,
  rounds = roundsIn(view, face),
): readonly GridColumn[] {
  const { book } = view.checked;
  const has = new Set(rounds.flatMap(({ values }) => [...values.keys()]));
  if (face.of === "day") for (const name of testedOf(view, face.day)) has.add(`test ${name}`);
  const measured: GridColumn[] = parameters
    .filter(({ name }) => has.delete(`test ${name}`))
    .flatMap((parameter) => {
      const unit = parameter.dimension === "pH" ? "" : book.units.shown(parameter).symbol;
      const { name, title } = parameter;
      return [
        columnOf(`test ${name}`, name, title, { unit }),
        ...toldOfRounds
          .filter(({ at }) => at === parameter)
          .map(({ calculation }) =>
            columnOf(figureColumn(calculation.name), calculation.title.toLowerCase(), calculation.title, {
              isComputed: true,
              isShown: calculation.name === "free-ammonia",
            }),
          ),
        columnOf(changeColumn(name), `${name} change`, `${title}: since the reading before it.`, {
          unit,
          isComputed: true,
          isShown: false,
        }),
        columnOf(
          forecastColumn(name),
          `${name} forecast`,
          `${title}: when it meets its limit, by what was known then.`,
          { isComputed: true, isShown: false },
        ),
      ];
    });
  const counted = [...has].flatMap((id): GridColumn[] => {
    const [is, name = "", lot] = id.split(" ");
    if (is !== "count") return [columnOf(id, name, "No parameter of a test is called so.", {})];
    const title = lot === undefined ? name : `${name} ${lot}`;
    return [
      columnOf(id, title, `Counted: ${book.species.get(name)?.title || name}.`, {}),
      ...(lot === undefined
        ? [
            columnOf(bookColumn(name), `${name} by the book`, "How many the book had then.", {
              isComputed: true,
            }),
          ]
        : []),
    ];
  });
  const lead = face.of === "tank" ? ["date", "time"] : ["tank", "time"];
  return [
    ...lead.map((id) => ({ ...columnOf(id, titles[id]!, docs[id]!, {}), isFigure: false })),
    ...measured,
    ...counted,
    { ...columnOf("note", "Note", "The text at the end of the line.", {}), isFigure: false },
  ];
}

const titles: Readonly<Record<string, string>> = { date: "Date", time: "Time", tank: "Tank" };
const docs: Readonly<Record<string, string>> = {
  date: "The day of the round.",
  time: "Its time of day, where one is written.",
  tank: "The tank or system.",
};

function columnOf(id: ColumnId, title: string, doc: string, more: Partial<GridColumn>): GridColumn {
  return { id, title, unit: "", doc, isFigure: true, isComputed: false, isShown: true, ...more };
}

/** Parameters that were read anywhere of late. */
function testedOf({ checked: { logbook } }: View, day: number): string[] {
  return parameters
    .filter(({ id }) =>
      logbook.ledgers.some(({ readings }) => {
        const series = readings[id];
        return series !== undefined && series.from(day + 1) > series.from(day - testedDays);
      }),
    )
    .map(({ name }) => name);
}

function rowOf(view: View, round: Round, columns: readonly ColumnId[]): GridRow {
  const [first] = round.lines;
  const place = (block: Block, start: number, end: number): Location => ({
    path: block.file.path,
    start: block.start + start,
    end: block.start + end,
  });
  return {
    id: round.id,
    is: "round",
    at: first === undefined ? undefined : place(first.block, first.line.start, first.line.end),
    day: round.day,
    cells: columns.map((id): GridCell => {
      const cell = { ...empty };
      if (id === "date") return { ...cell, text: isoOf(round.day), fixed: ofRound };
      if (id === "tank") return { ...cell, text: round.station, fixed: ofRound };
      if (id === "time" || id === "note") return leadCell(round, id, place);
      if (isReckoned(id))
        return { ...cell, ...figured(view, round, id), fixed: "this column is reckoned from the log" };
      const value = round.values.get(id);
      const known = value === undefined ? fixedOf(view, round, id) : value.fixed;
      const parameter = parameters.find(({ name }) => id === `test ${name}`);
      return {
        ...cell,
        text: value?.text ?? "",
        at: value === undefined ? undefined : place(value.of.block, value.at.start, value.at.end),
        fixed: known,
        ...(value?.unit === undefined ||
        parameter === undefined ||
        value.unit === view.checked.book.units.shown(parameter).symbol
          ? {}
          : { unit: value.unit }),
        ...(parameter === undefined ? {} : stateOf(view, round, parameter)),
      };
    }),
  };
}

const empty: GridCell = {
  text: "",
  at: undefined,
  fixed: "",
  implied: "",
  state: "",
  detail: "",
  marks: [],
};
export const ofRound = "a round is moved among the entries, not here";

/** Whether a column is reckoned and never written. */
export const isReckoned = (id: ColumnId): boolean => /^(?:figure|change|forecast|book) /.test(id);

/** Time and text of a round that is one line; of several they stand among the entries. */
function leadCell(
  round: Round,
  id: "time" | "note",
  place: (block: Block, start: number, end: number) => Location,
): GridCell {
  const [first] = round.lines;
  if (first === undefined) return { ...empty, fixed: "nothing is written of this round yet" };
  const { text, at } = writtenIn(first.block.text, first.line, id);
  const isShared = first.target.startsWith("@");
  return {
    ...empty,
    text,
    at: at === undefined ? undefined : place(first.block, at.start, at.end),
    implied: id === "time" ? clock(round.minute) : "",
    fixed:
      round.lines.length > 1
        ? "this round is written in several lines: edit it among the entries"
        : isShared
          ? `written for all of ${first.target}: edit it among the entries`
          : "",
  };
}

/** Why an empty cell of a round cannot be filled. */
function fixedOf(view: View, round: Round, id: ColumnId): string {
  if (/^count \S+ \S/.test(id)) return "a count of a lot is written among the entries";
  if (!id.startsWith("count ")) return "";
  return ledgerFor(view, round.station)?.station.kind === "tank" ? "" : "animals are counted in tanks";
}
