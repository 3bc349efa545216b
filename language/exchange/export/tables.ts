import type { EntryItem, LogItem, RowItem, ValueItem } from "./log-items.ts";

/** A logbook as flat tables, for whatever reads tables: entries, what they say value by value, their tanks, and the definitions. */

export type Cell = string | number | boolean | undefined;
export type TableRow = Readonly<Record<string, Cell>>;
export type ColumnType = "text" | "integer" | "number" | "date" | "flag";

export interface TableColumn {
  readonly name: string;
  readonly type: ColumnType;
  readonly doc: string;
}

export interface Table {
  readonly name: string;
  readonly doc: string;
  readonly columns: readonly TableColumn[];
  /** Its rows of one item. */
  of(told: ToldItem): readonly TableRow[];
}

/** An item with where it stands, and the entries that are in it. */
export interface ToldItem {
  readonly file: string;
  readonly item: LogItem;
  readonly entries: readonly Told[];
}

/** The rows of one table. */
export function* rowsOf(table: Table, items: Iterable<LogItem>): Generator<TableRow> {
  for (const told of toldItems(items)) yield* table.of(told);
}

const column = (name: string, type: ColumnType, doc: string): TableColumn => ({ name, type, doc });

const place = [
  column("file", "text", "from the logbook's folder"),
  column("line", "integer", "in its file, from 1"),
];
const entryNumber = column("entry_id", "integer", "numbered in the order of files and lines; from 1");
const valueColumns = [
  column("slot", "text", "what it is of the entry: amount, source, reading"),
  column("of", "text", "what the figure is of: a parameter, a remedy, a species"),
  column("item", "integer", "in an entry that lists several, from 0"),
  column("written", "text", "as it stands in the log"),
  column("word", "text", "a name, a word, the inside of a text"),
  column("value", "number", "as written; of a range its lower end, of a sexed count the sum"),
  column("high", "number", "the upper end of a range"),
  column("unit", "text", "as written"),
  column("mark", "text", "below, above, range, at most, at least, about; empty for a figure that is exact"),
  column("males", "integer", "of a sexed count"),
  column("females", "integer", "of a sexed count"),
  column("unsexed", "integer", "of a sexed count"),
  column(
    "meant_value",
    "number",
    "in the one unit such figures are counted in; empty where its unit is not settled",
  ),
  column("meant_high", "number", "the upper end of a range, likewise"),
  column("meant_unit", "text", "that unit"),
  column("basis", "text", "what a concentration counts: N, NO3"),
];

const entries: Table = {
  name: "entries",
  doc: "one row an entry; a row of a sheet is a test, a count, or one of each",
  columns: [
    entryNumber,
    ...place,
    column("date", "date", "the day"),
    column("time", "text", "as written; empty where none is"),
    column("at", "text", "the target, as written: a tank, a group, a system"),
    column("entry", "text", "the word of its kind"),
    column("written", "text", "what stands behind it"),
    column("note", "text", "the text at its end"),
    column("comment", "text", "from # on"),
    column("counts", "flag", "false if a fault keeps it out of the book"),
  ],
  of: ({ file, entries: all }) =>
    all.map(({ id, item, entry }) => ({
      entry_id: id,
      file,
      line: item.line,
      date: item.date,
      time: item.time,
      at: item.at,
      entry,
      written: item.written,
      note: item.note,
      comment: item.comment,
      counts: item.is === "row" || item.counts,
    })),
};

const values: Table = {
  name: "values",
  doc: "one row a figure or name that an entry says",
  columns: [
    entryNumber,
    column("date", "date", "the day"),
    column("time", "text", "as written; empty where none is"),
    column("at", "text", "the target, as written"),
    column("entry", "text", "the word of the entry's kind"),
    ...valueColumns,
  ],
  of: ({ entries: all }) =>
    all.flatMap(({ id, item, entry, own }) =>
      own.map((value) => flat({ entry_id: id, date: item.date, time: item.time, at: item.at, entry }, value)),
    ),
};

const entryTanks: Table = {
  name: "entry_tanks",
  doc: "one row an entry and tank: of a group or a system one each",
  columns: [entryNumber, column("tank", "text", "its name")],
  of: ({ entries: all }) => all.flatMap(({ id, item }) => item.tanks.map((tank) => ({ entry_id: id, tank }))),
};

const definitions: Table = {
  name: "definitions",
  doc: "one row a tank, species, remedy and whatever else is defined",
  columns: [
    ...place,
    column("word", "text", "what it is: tank, species, remedy"),
    column("name", "text", "empty for the room"),
    column("title", "text", "in quotes behind the name"),
    column("written", "text", "the whole head"),
    column("comment", "text", "from # on"),
  ],
  of({ file, item }) {
    if (item.is !== "definition") return [];
    const { line, word, name, title, written, comment } = item;
    return [{ file, line, word, name, title, written, comment }];
  },
};

const properties: Table = {
  name: "properties",
  doc: "one row a figure or name of a property; of one that has none one row with its line",
  columns: [
    ...place,
    column("definition", "text", "the definition's word and name"),
    column("property", "text", "the words of the line's properties"),
    column("line_written", "text", "the whole line"),
    ...valueColumns,
    column("comment", "text", "from # on"),
  ],
  of({ file, item }) {
    if (item.is !== "property") return [];
    const { line, of, written, words, values: own, comment } = item;
    const base = { file, line, definition: of, property: words.join(" "), line_written: written, comment };
    return own.length === 0 ? [base] : own.map((value) => flat({ ...base }, value));
  },
};

export const tables: readonly Table[] = [entries, values, entryTanks, definitions, properties];

interface Told {
  readonly id: number;
  readonly item: EntryItem | RowItem;
  readonly entry: string;
  readonly own: readonly ValueItem[];
}

const none: readonly Told[] = [];

/** Items with their files, and entries with their numbers. What a row of a sheet measures and what it counts are entries of two kinds. */
export function* toldItems(items: Iterable<LogItem>): Generator<ToldItem> {
  let file = "";
  let id = 0;
  for (const item of items) {
    if (item.is === "file") file = item.path;
    if (item.is === "entry")
      yield { file, item, entries: [{ id: ++id, item, entry: item.entry, own: item.values }] };
    else if (item.is === "row") {
      const readings = item.values.filter(({ slot }) => slot === "reading");
      const counts = item.values.filter(({ slot }) => slot === "count");
      const entries: Told[] = [];
      if (readings.length > 0 || counts.length === 0)
        entries.push({ id: ++id, item, entry: "test", own: readings });
      if (counts.length > 0) entries.push({ id: ++id, item, entry: "count", own: counts });
      yield { file, item, entries };
    } else yield { file, item, entries: none };
  }
}

/** A row with a value in it. */
function flat(row: Record<string, Cell>, value: ValueItem): TableRow {
  row.slot = value.slot;
  row.of = value.of;
  row.item = value.item;
  row.written = value.written;
  row.word = value.word;
  row.value = value.value;
  row.high = value.high;
  row.unit = value.unit;
  row.mark = value.mark;
  row.males = value.males;
  row.females = value.females;
  row.unsexed = value.unsexed;
  row.meant_value = value.meant?.value;
  row.meant_high = value.meant?.high;
  row.meant_unit = value.meant?.unit;
  row.basis = value.meant?.basis;
  return row;
}
