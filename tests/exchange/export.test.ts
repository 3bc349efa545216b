import { parse } from "csv-parse/sync";
import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { Book } from "../../language/book/book.ts";
import { Source } from "../../language/book/source.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { csvOf } from "../../language/exchange/export/csv.ts";
import { itemsOfLog } from "../../language/exchange/export/items-of-log.ts";
import type { LogItem } from "../../language/exchange/export/log-items.ts";
import { jsonOf, ndjsonOf, parsedItems } from "../../language/exchange/export/log-json.ts";
import { logOfItems } from "../../language/exchange/export/log-of-items.ts";
import { only } from "../../language/exchange/export/only.ts";
import { rowsOf as rowsOfTable, type TableRow, tables } from "../../language/exchange/export/tables.ts";
import { nextLine } from "../../language/syntax/blocks.ts";
import { arbitraryLog, filesOfLog } from "../support/arbitrary-log.ts";
import { anyText } from "../support/arbitrary-text.ts";

/** A log as plain data, and a log of it again. */

function itemsOf(files: Readonly<Record<string, string>>): LogItem[] {
  const checked = new CheckedLogbook();
  const sources = Object.entries(files).map(([path, text]) => new Source(path, text));
  for (const source of sources) checked.put(source);
  return [...itemsOfLog(checked.book, sources, ({ path }) => path)];
}

const throughJson = (items: readonly LogItem[]): LogItem[] =>
  [...parsedItems([...ndjsonOf(items)].join(""))].map(({ item }) => item as LogItem);

/** The lines of a text that say something, without their white space. */
function said(text: string): string[] {
  const lines: string[] = [];
  for (let start = 0; start < text.length; ) {
    const next = nextLine(text, start);
    lines.push(text.slice(start, next).replace(/\s+/g, ""));
    start = next;
  }
  return lines.filter((line) => line !== "");
}

const rowsOf = (name: string, files: Readonly<Record<string, string>>): TableRow[] => [
  ...rowsOfTable(tables.find((table) => table.name === name)!, itemsOf(files)),
];

const shed = `room "Shed"
  units  nitrate mg/L N, temperature F

# under the window
tank r1 "First"
  volume  24 L; system rack   # all glass
tank r2
  volume  5 gal
group pair = r1, r2

2026-03-01 "first day"
  08:30  r1  test nitrate 10 mg/L, pH 7.2, nitrite <0.05, temperature 77 "after feeding, \\"late\\""   # new kit
  @pair  change 30..40 % from tap
  sheet  temperature praecox  nitrate (mg/L)
    r1   76          3.5.20   4
    r2   -           12       ~5  "shy"
  r1  dose prazi 48 mg
  r1  chnage 30 %
  r9  note "no such tank"

not a block at all
`;

describe("a log as items", () => {
  it("says of every line what it is, in its order, and what it means", () => {
    const items = itemsOf({ "shed.tank": shed });
    expect(items.map(({ is }) => is)).toEqual(
      (
        "log file definition property comment definition property definition property definition " +
        "day entry entry sheet row row entry entry entry unread"
      ).split(" "),
    );
    expect(items[11]).toMatchObject({
      line: 12,
      date: "2026-03-01",
      time: "08:30",
      at: "r1",
      tanks: ["r1"],
      entry: "test",
      note: 'after feeding, "late"',
      comment: "# new kit",
      counts: true,
    });
    expect(items[12]).toMatchObject({ at: "@pair", tanks: ["r1", "r2"], entry: "change" });
    expect(items[17]).toMatchObject({ entry: "chnage", written: "30 %", counts: false, values: [] });
  });

  it("gives figures in the one unit they are counted in beside those that were written", () => {
    const values = rowsOf("values", { "shed.tank": shed });
    const of = (what: string) => values.filter((row) => row.of === what);
    // 10 mg/L of nitrogen are 44.27 mg/L of nitrate: 62.004 / 14.007 (CIAAW 2021).
    expect(of("nitrate")[0]).toMatchObject({ value: 10, unit: "mg/L", meant_unit: "mg/L", basis: "NO3" });
    expect(of("nitrate")[0]!.meant_value).toBeCloseTo((10 * 62.004) / 14.007, 2);
    expect(of("nitrite")[0]).toMatchObject({ value: 0.05, mark: "below" });
    expect(of("temperature").map((row) => row.meant_value)).toEqual([25, expect.closeTo(24.444, 3)]);
    expect(of("praecox")).toMatchObject([
      { entry: "count", at: "r1", value: 28, males: 3, females: 5, unsexed: 20 },
      { entry: "count", at: "r2", value: 12 },
    ]);
    expect(of("prazi")).toMatchObject([{ entry: "dose", value: 48, unit: "mg", meant_value: 48 }]);
    expect(values.find((row) => row.slot === "amount" && row.entry === "change")).toMatchObject({
      value: 30,
      high: 40,
      mark: "range",
      unit: "%",
      meant_value: 0.3,
      meant_high: 0.4,
    });
    // Nobody says which gallon: what it means stays open.
    const [gallons] = rowsOf("properties", { "shed.tank": shed }).filter((row) => row.unit === "gal");
    expect(gallons).toMatchObject({ value: 5, meant_value: undefined });
  });

  it("says the same of a log whose days were left unread until then", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          arbitraryLog.map(filesOfLog),
          anyText.map((text) => [["a.tank", text]]),
        ),
        (files) => {
          const given = [...files] as [string, string][];
          const sources = given.map(([path, text]) => new Source(path, text, undefined, true));
          const definitions = sources
            .flatMap(({ blocks }) => blocks)
            .filter(({ kind }) => kind === "definition");
          expect([...itemsOfLog(new Book(definitions), sources, ({ path }) => path)]).toEqual(
            itemsOf(Object.fromEntries(given)),
          );
        },
      ),
    );
  });

  it("counts one of two versions that a merge left, and loses neither", () => {
    const log = `tank dam\n  volume 9 L\n\n2026-03-01\n<<<<<<< HEAD\n  dam  change 30 %\n=======\n  dam  change 50 %\n>>>>>>> holiday\n`;
    expect(rowsOf("entries", { "a.tank": log }).map(({ written }) => written)).toEqual(["30 %"]);
    const [text] = logOfItems(throughJson(itemsOf({ "a.tank": log }))).values();
    expect(said(text!)).toEqual(said(log));
  });

  it("numbers entries alike in all tables", () => {
    const files = { "shed.tank": shed };
    const ids = new Set(rowsOf("entries", files).map((row) => row.entry_id));
    for (const name of ["values", "entry_tanks"])
      for (const row of rowsOf(name, files)) expect(ids).toContain(row.entry_id);
    // The change of the pair; of its row in the sheet a test and a count.
    expect(rowsOf("entry_tanks", files).filter((row) => row.tank === "r2")).toHaveLength(3);
  });

  it("leaves out other days and tanks when some are asked for", () => {
    const log =
      "tank a\n  volume 9 L\ntank b\n  volume 9 L\n\n2026-03-01\n  a  clean\n  b  clean\n2026-03-02\n  a  clean\n";
    const days = { fromDay: Date.UTC(2026, 2, 2) / 86_400_000, untilDay: Number.POSITIVE_INFINITY };
    const kept = (at: string | undefined, from = Number.NEGATIVE_INFINITY) =>
      [...only(itemsOf({ "a.tank": log }), { ...days, fromDay: from, at })].filter(
        ({ is }) => is === "entry",
      );
    expect(kept(undefined)).toHaveLength(3);
    expect(kept("a")).toHaveLength(2);
    expect(kept(undefined, days.fromDay)).toHaveLength(1);
    expect(kept("b", days.fromDay)).toHaveLength(0);
  });
});

describe("a log of its items", () => {
  it("is the same but for white space, whatever its lines", () => {
    const [text] = logOfItems(throughJson(itemsOf({ "shed.tank": shed }))).values();
    expect(said(text!)).toEqual(said(shed));
  });

  it("is the same, and says the same, of every valid log", () => {
    fc.assert(
      fc.property(arbitraryLog, (log) => {
        const files = Object.fromEntries(filesOfLog(log));
        const items = itemsOf(files);
        const back = Object.fromEntries(logOfItems(throughJson(items)));
        for (const [path, text] of Object.entries(files)) expect(said(back[path]!)).toEqual(said(text));
        const bare = (each: LogItem) => ({ ...each, line: 0 });
        expect(itemsOf(back).map(bare)).toEqual(items.map(bare));
      }),
    );
  });

  it("loses nothing of any text at all", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const [back] = logOfItems(throughJson(itemsOf({ "a.tank": text }))).values();
        expect(said(back!)).toEqual(said(text));
      }),
    );
  });

  it("is read of an array as of lines", () => {
    const items = itemsOf({ "shed.tank": shed });
    expect([...parsedItems([...jsonOf(items)].join(""))].map(({ item }) => item)).toEqual(throughJson(items));
    expect(() => [...parsedItems('{"is":"log"}\n{"is":')]).toThrow(/^line 2: /);
  });
});

describe("tables as CSV", () => {
  const columns = [
    { name: "what", type: "text", doc: "" },
    { name: "value", type: "number", doc: "" },
  ] as const;
  const csv = (rows: readonly TableRow[], keepsFormulas = false): string =>
    [...csvOf(columns, rows, keepsFormulas)].join("");

  it("are read back by another reader, whatever stands in them", () => {
    const cell = fc.string({ unit: "grapheme", maxLength: 20 }).map((text) => `x${text}`);
    fc.assert(
      fc.property(fc.array(fc.record({ what: cell, value: fc.double({ noNaN: true }) })), (rows) => {
        const read = parse(csv(rows, true), { columns: true }) as { what: string; value: string }[];
        expect(read.map(({ what }) => what)).toEqual(rows.map(({ what }) => what));
        expect(read.map(({ value }) => Number(value))).toEqual(rows.map(({ value }) => value + 0));
      }),
    );
    // RFC 4180, 2: records end in CR LF.
    expect(csv([{ what: "a", value: 1 }])).toBe("what,value\r\na,1\r\n");
  });

  /** OWASP, CSV Injection; OWASP ASVS 4.0, 1.2.10 and 5.3.10. */
  it.each(["=", "+", "-", "@", "\t", "\r", "\n", "\0", "＝", "＋", "－", "＠", " =", '"='])(
    "make no formula of a text that begins with %j",
    (begin) => {
      const text = `${begin}cmd|' /C calc'!A0`;
      const cells = (parse(csv([{ what: text, value: 1 }])) as string[][])[1]!;
      expect(cells[0]).toBe(`'${text}`);
      // Another reader, which looks for the ends of lines itself, reads the same.
      const other = Papa.parse<string[]>(csv([{ what: text, value: 1 }]), { newline: "\r\n" }).data;
      expect(other[1]).toEqual(cells);
      expect((parse(csv([{ what: text, value: 1 }], true)) as string[][])[1]![0]).toBe(text);
    },
  );

  it("leave numbers numbers, also where they stand among texts", () => {
    for (const what of ["-5", "+3", "-0.5", "-12.25"])
      expect(csv([{ what, value: -5 }])).toBe(`what,value\r\n${what},-5\r\n`);
    // What is more than a number may be reckoned with.
    for (const what of ["-5+1", "-5 L", "--5", "-5..-3", "-.5e3"])
      expect((parse(csv([{ what, value: 1 }])) as string[][])[1]![0]).toBe(`'${what}`);
  });

  it("take no longer for a text that is all quotes", () => {
    const what = "'\"".repeat(200_000);
    const begun = performance.now();
    expect((parse(csv([{ what, value: 1 }])) as string[][])[1]![0]).toBe(what);
    // Quadratic, it would be minutes.
    expect(performance.now() - begun).toBeLessThan(5000);
  });

  it("leave numbers numbers, and harmless texts as they are", () => {
    expect(csv([{ what: "r4 to q1 - slowly", value: -0.5 }])).toBe(
      "what,value\r\nr4 to q1 - slowly,-0.5\r\n",
    );
  });

  it("make no formula of what another habit of parting cells would cut off", () => {
    for (const by of [";", ",", "\t", "|"]) {
      const [cell] = (parse(csv([{ what: `note${by}=1+1`, value: 1 }])) as string[][])[1]!;
      expect(cell).toBe(`'note${by}=1+1`);
    }
  });

  const leads = ["=", "+", "-", "@", "\t=", "＝", "＋", "－", "＠"];
  it.each(leads)("make no formula of any text of a log that begins with %j, in whichever table", (lead) => {
    const text = `${lead}HYPERLINK(A1)`;
    const log = `room "${text}"
tank dam "${text}"
  place  "${text}"
  note   "${text}"
species praecox "${text}"
  also  "${text}"

2026-03-01 "${text}"  #${text}
  dam   note "${text}"
  dam   top-up -4 L "${text}"
  dam   arrive praecox 2 from "${text}" lot a1
  ${lead.trim()}x  change 30 %
  dam   sick praecox 2 signs "${text}" case c1
  sheet  pH   "${text}"
    dam  7.2  "${text}"
`;
    const items = itemsOf({ [`${lead.trim()}log.tank`]: log });
    for (const table of tables) {
      const read = parse([...csvOf(table.columns, rowsOfTable(table, items), false)].join("")) as string[][];
      expect(read[0]).toEqual(table.columns.map(({ name }) => name));
      table.columns.forEach(({ name, type }, at) => {
        expect(name).toMatch(/^[a-z_]+$/);
        for (const row of read.slice(1))
          if (type === "text" || type === "date")
            expect(row[at], `${table.name} ${name}`).not.toMatch(/^(?!')[\s"]*[=+\-@＝＋－＠]/);
      });
    }
    expect(JSON.stringify(items).split("HYPERLINK").length).toBeGreaterThan(10);
  });
});
