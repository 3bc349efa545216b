import { ByteWriter, ParquetWriter } from "hyparquet-writer";
import { dayOf } from "../../book/dates.ts";
import type { Cell, ColumnType, Table, TableColumn, TableRow } from "./tables.ts";

/** A table as Apache Parquet, one group of rows after the other. Every column may be empty but those that number its rows. */

type Element = ConstructorParameters<typeof ParquetWriter>[0]["schema"][number];

const typeOf: Readonly<Record<ColumnType, Omit<Element, "name">>> = {
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  integer: { type: "INT32" },
  number: { type: "DOUBLE" },
  date: { type: "INT32", converted_type: "DATE" },
  flag: { type: "BOOLEAN" },
};

const rowsAGroup = 50_000;
const msPerDay = 86_400_000;

/** The bytes of a table, part by part; of a row of which none come there is an empty part, so that who takes them can stop at any. */
export function* parquetOf(table: Table, createdBy: string, rows: Iterable<TableRow>): Generator<Uint8Array> {
  const parts: Uint8Array[] = [];
  const writer = new ParquetTable(table, createdBy, (part) => parts.push(part));
  const none = new Uint8Array(0);
  for (const row of rows) {
    writer.row(row);
    yield* parts.length === 0 ? [none] : parts.splice(0);
  }
  writer.end();
  yield* parts;
}

/** Takes rows one by one, and keeps one group of them, column by column. */
export class ParquetTable {
  private readonly columns: readonly TableColumn[];
  private readonly writer: ParquetWriter;
  private data: unknown[][];
  private count = 0;
  /** Days follow each other in a log. */
  private lastDate = "";
  private lastDay: Date | undefined;

  /** @param createdBy what the file says it was made by: a name, then `version` and its number */
  constructor({ name, columns }: Table, createdBy: string, write: (part: Uint8Array) => void) {
    this.columns = columns;
    this.data = columns.map(() => []);
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
    this.writer = new ParquetWriter({
      writer: new Sink(write),
      schema,
      createdBy,
    });
  }

  row(row: TableRow): void {
    for (let at = 0; at < this.columns.length; at++) {
      const { name, type } = this.columns[at]!;
      const cell = row[name];
      this.data[at]!.push(type === "date" ? this.dayOf(cell) : cell);
    }
    if (++this.count >= rowsAGroup) this.group();
  }

  end(): void {
    if (this.count > 0 || this.writer.num_rows === 0n) this.group();
    void this.writer.finish();
  }

  private group(): void {
    const columnData = this.columns.map(({ name }, at) => ({ name, data: this.data[at]! }));
    void this.writer.write({ columnData, rowGroupSize: rowsAGroup });
    this.data = this.columns.map(() => []);
    this.count = 0;
  }

  /** A day as the library takes it. What is no date is none. */
  private dayOf(cell: Cell): Date | undefined {
    if (cell !== this.lastDate) {
      const day = dayOf(String(cell ?? ""));
      this.lastDay = Number.isNaN(day) ? undefined : new Date(day * msPerDay);
      this.lastDate = String(cell ?? "");
    }
    return this.lastDay;
  }
}

/** Gives what it holds away after every group of rows. */
class Sink extends ByteWriter {
  private readonly write: (part: Uint8Array) => void;

  constructor(write: (part: Uint8Array) => void) {
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
