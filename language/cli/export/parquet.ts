import { ByteWriter, parquetWriteRows } from "hyparquet-writer";
import { dayOf } from "../../book/dates.ts";
import type { LogItem } from "../../exchange/export/log-items.ts";
import type { ColumnType, Table, TableRow } from "../../exchange/export/tables.ts";
import { version } from "../version.ts";
import type { Write } from "../whole-file.ts";

/** A table as Apache Parquet, one group of rows after the other. Every column may be empty but those that number its rows. */

type Element = NonNullable<Parameters<typeof parquetWriteRows>[0]["schema"]>[number];

const typeOf: Readonly<Record<ColumnType, Omit<Element, "name">>> = {
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  integer: { type: "INT32" },
  number: { type: "DOUBLE" },
  date: { type: "INT32", converted_type: "DATE" },
  flag: { type: "BOOLEAN" },
};

const rowsAGroup = 50_000;
const msPerDay = 86_400_000;

export function writeParquet({ name, columns, rows }: Table, items: Iterable<LogItem>, write: Write): void {
  const schema: Element[] = [
    { name, num_children: columns.length },
    ...columns.map(
      (column): Element => ({
        name: column.name,
        repetition_type: "OPTIONAL",
        ...typeOf[column.type],
      }),
    ),
  ];
  const dates = columns.filter(({ type }) => type === "date").map((column) => column.name);
  parquetWriteRows({
    writer: new Sink(write),
    rows: dated(rows(items), dates),
    columns: columns.map((column) => ({ name: column.name })),
    schema,
    rowGroupSize: rowsAGroup,
    createdBy: `standpipe version ${version}`,
  });
}

/** Days as the library takes them. What is no date is none. */
function* dated(rows: Iterable<TableRow>, dates: readonly string[]): Generator<Record<string, unknown>> {
  for (const row of rows) {
    const made: Record<string, unknown> = { ...row };
    for (const name of dates) {
      const day = dayOf(String(row[name] ?? ""));
      made[name] = Number.isNaN(day) ? undefined : new Date(day * msPerDay);
    }
    yield made;
  }
}

/** Gives what it holds away after every group of rows. */
class Sink extends ByteWriter {
  private readonly write: Write;

  constructor(write: Write) {
    super();
    this.write = write;
  }

  flush(): void {
    this.write(new Uint8Array(this.buffer.slice(0, this.index)));
    this.index = 0;
  }

  override finish(): void {
    this.flush();
  }
}
