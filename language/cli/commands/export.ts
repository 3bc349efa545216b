import { mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { Book } from "../../book/book.ts";
import { dayOf } from "../../book/dates.ts";
import { CsvWriter } from "../../exchange/export/csv.ts";
import { itemsOfLog } from "../../exchange/export/items-of-log.ts";
import type { LogItem } from "../../exchange/export/log-items.ts";
import { jsonOf, ndjsonOf } from "../../exchange/export/log-json.ts";
import { type Only, only } from "../../exchange/export/only.ts";
import { ParquetTable } from "../../exchange/export/parquet.ts";
import { type Table, type TableRow, tables, toldItems } from "../../exchange/export/tables.ts";
import type { Call, Command } from "../command.ts";
import { restore } from "../export/restore.ts";
import { extension, slashed } from "../files.ts";
import { inputName, type Opened, open } from "../open.ts";
import { Progress } from "../progress.ts";
import { tellUnread } from "../report.ts";
import { listed, plural } from "../text.ts";
import { version } from "../version.ts";
import { type Write, writeTogether, writeWhole } from "../whole-file.ts";
import { Status, Trouble, troubleWith } from "../world.ts";

const forms = ["csv", "json", "ndjson", "parquet"] as const;
type Form = (typeof forms)[number];
const tableNames = tables.map(({ name }) => name);

export const exportCommand: Command = {
  word: "export",
  takes: "[DIR|-]",
  summary: "the log for other tools: CSV, JSON, NDJSON or Parquet; JSON can be made a log again",
  about:
    "JSON and NDJSON hold the whole log, an item a line of it: what is written, and what it means in units that are settled. A log can be made of them again with " +
    `--restore, which loses nothing but white space. CSV and Parquet are flat tables of the same: ${tables.map(({ name, doc }) => `${name} (${doc})`).join("; ")}. ` +
    "A figure stands as it was written, with its unit, and beside it in the one unit that all such figures are counted in, so that years of a log can be added up. " +
    "In CSV a text that a spreadsheet would take for a formula gets an apostrophe before it.",
  options: [
    { name: "format", value: "FORM", choices: forms, doc: "csv, json, ndjson or parquet; else json" },
    {
      name: "table",
      value: "NAME",
      choices: tableNames,
      doc: `of CSV and Parquet one table: ${listed(tableNames)}`,
    },
    {
      name: "out",
      value: "PATH",
      doc: "the file to write, or of several tables the folder; else to standard output",
    },
    { name: "from", value: "DATE", doc: "entries from this day on" },
    { name: "until", value: "DATE", doc: "entries up to this day" },
    {
      name: "tank",
      value: "NAME",
      doc: "entries of this tank, those of its groups and its system among them",
    },
    { name: "formulas", doc: "in CSV: leave texts as they are that a spreadsheet takes for formulas" },
    { name: "restore", value: "FILE", doc: "the other way: makes the log of JSON or NDJSON in DIR" },
  ],
  examples: [
    ["standpipe export samples/cellar > cellar.json", "the whole log as JSON"],
    ["standpipe export samples/cellar --format csv --out tables", "all tables, a file each, in a folder"],
    [
      "standpipe export --format csv --table values --tank dam --from 2026-01-01",
      "what was measured in one tank",
    ],
    ["standpipe export restored --restore cellar.json", "a log of what was exported"],
  ],
  run: runExport,
};

async function runExport(call: Call): Promise<Status> {
  const { world } = call;
  const from = call.value("restore");
  if (from !== undefined) return restoreInto(call, from);
  const form = (call.value("format") ?? "json") as Form;
  const table = tables.find(({ name }) => name === call.value("table"));
  const isTable = form === "csv" || form === "parquet";
  if (table !== undefined && !isTable)
    throw new Trouble(`--table is for csv and parquet; ${form} holds the whole log`);
  const out = call.value("out");
  if (out?.endsWith(extension) === true)
    throw new Trouble(`--out ${out}: a file that ends in ${extension} is a log, and is not written over`);
  if (out === undefined && isTable && (table === undefined || form === "parquet"))
    throw new Trouble(
      form === "parquet"
        ? "Parquet goes to a file: --out FILE with --table, or --out FOLDER for all tables"
        : `name a table (--table ${tableNames.join(", ")}) or a folder for all of them (--out FOLDER)`,
    );
  const asked = onlyOf(call);
  // Lines are read as they are written out, and nothing that follows from them is asked for.
  const { logbooks, unread } = await open(call, call.words, true);
  const [opened, another] = logbooks;
  if (opened === undefined || another !== undefined)
    throw new Trouble(`name one logbook: ${listed(logbooks.map(({ folder }) => folder))}`);
  const progress = new Progress(world.err, world.env.TERM === "dumb");
  const step = (done: number, of: number): void => {
    if (out !== undefined) progress.step("files", done, of);
  };
  const items = (): Iterable<LogItem> => only(itemsOf(call, opened, step), asked);
  const inTable = (each: Table, write: Write): RowWriter =>
    form === "parquet"
      ? new ParquetTable(each, `standpipe version ${version}`, write)
      : new CsvWriter(each.columns, call.has("formulas"), write);
  const fill = (write: Write): void => {
    if (isTable) writeRows([{ table: table!, writer: inTable(table!, write) }], items());
    else for (const part of form === "json" ? jsonOf(items()) : ndjsonOf(items())) write(part);
  };
  if (out === undefined) fill((part) => world.out.write(String(part)));
  else if (isTable && table === undefined) writeAll(call, out, form, inTable, items(), progress);
  else {
    writeWhole(resolve(world.cwd, out), out, fill);
    progress.end();
    world.err.write(`${out}: written\n`);
  }
  tellUnread(call, unread);
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

/** Takes the rows of one table. */
interface RowWriter {
  row(row: TableRow): void;
  end(): void;
}

function writeRows(
  into: readonly { readonly table: Table; readonly writer: RowWriter }[],
  items: Iterable<LogItem>,
): void {
  for (const told of toldItems(items))
    for (const { table, writer } of into) for (const row of table.of(told)) writer.row(row);
  for (const { writer } of into) writer.end();
}

/** All tables of one reading of the log, or none of them. */
function writeAll(
  { world }: Call,
  out: string,
  form: Form,
  inTable: (table: Table, write: Write) => RowWriter,
  items: Iterable<LogItem>,
  progress: Progress,
): void {
  const folder = resolve(world.cwd, out);
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new Trouble(troubleWith(out, error));
  }
  writeTogether((begin) => {
    const into = tables.map((table) => {
      const file = `${table.name}.${form}`;
      return { table, writer: inTable(table, begin(join(folder, file), `${out}/${file}`).write) };
    });
    writeRows(into, items);
  });
  progress.end();
  world.err.write(`${out}: ${plural(tables.length, "table")} written\n`);
}

function restoreInto(call: Call, from: string): Promise<Status> {
  const [folder, ...more] = call.words;
  if (folder === undefined || more.length > 0)
    throw new Trouble(`name the folder for the log: standpipe export FOLDER --restore ${from}`);
  return restore(call, from, folder);
}

function onlyOf(call: Call): Only {
  const day = (option: string, none: number): number => {
    const text = call.value(option);
    if (text === undefined) return none;
    const read = /^\d{4}-\d{2}-\d{2}$/.test(text) ? dayOf(text) : Number.NaN;
    if (Number.isNaN(read)) throw new Trouble(`--${option} takes a day, such as 2026-03-01, not “${text}”`);
    return read;
  };
  return {
    fromDay: day("from", Number.NEGATIVE_INFINITY),
    untilDay: day("until", Number.POSITIVE_INFINITY),
    at: call.value("tank"),
  };
}

function itemsOf(
  { world, value }: Call,
  opened: Opened,
  step: (done: number, of: number) => void,
): Iterable<LogItem> {
  const { logbook } = opened.checked;
  const book = new Book(logbook.blocks().filter(({ kind }) => kind === "definition"));
  const tank = value("tank");
  if (tank !== undefined && book.names.get(tank) === undefined)
    throw new Trouble(`nothing is called “${tank}” in this log`);
  const sources = [...logbook.sources.values()].filter(opened.isAsked);
  const root = `${slashed(resolve(world.cwd, opened.folder)).replace(/\/$/, "")}/`;
  let done = 0;
  const pathOf = ({ path }: { path: string }): string => {
    step(++done, sources.length);
    if (path === inputName) return `${inputName}${extension}`;
    return path.startsWith(root) ? path.slice(root.length) : path;
  };
  return itemsOfLog(
    book,
    sources.sort((a, b) => (a.path < b.path ? -1 : 1)),
    pathOf,
  );
}
