import { readdirSync, readFileSync } from "node:fs";
import { beforeEach, describe, expect, it } from "vitest";
import { readCounts } from "../../language/book/source.ts";
import { CheckedLogbook, checkCounts } from "../../language/checks/check.ts";
import { deriveCounts } from "../../language/room/logbook.ts";

/** How much is done again at a keystroke: the block edited, the water it names, and nothing else. */

const folder = new URL("../../samples/cellar/", import.meta.url);
const checked = new CheckedLogbook();
for (const name of readdirSync(folder).filter((each) => each.endsWith(".tank")))
  checked.set(name, readFileSync(new URL(name, folder), "utf8"));
const worldDay = 0;
checked.findings(worldDay);
const allRows = deriveCounts.rows;

function reset(): void {
  readCounts.blocks = deriveCounts.rows = deriveCounts.ledgers = deriveCounts.books = 0;
  checkCounts.blocks = checkCounts.ledgers = 0;
}

/** Replaces the first `find` after `from` in a file, looks at the findings, and counts the work. */
function work(path: string, from: string, find: string, text: string) {
  const source = checked.logbook.sources.get(path)!;
  const at = source.text.indexOf(find, source.text.indexOf(from));
  expect(at, `${find} after ${from}`).toBeGreaterThan(0);
  reset();
  checked.take(source.edit(at, at + find.length, text));
  checked.findings(worldDay);
  const { blocks } = readCounts;
  const { rows, ledgers, books } = deriveCounts;
  return { read: blocks, books, ledgers, rows, checked: checkCounts.blocks, late: checkCounts.ledgers };
}

describe("one keystroke", () => {
  beforeEach(() => {
    checked.findings(worldDay);
  });

  it("in one entry of one tank reads one block, derives one ledger, checks one block", () => {
    const done = work("2026-03.tank", "2026-03-30", "ford      test nitrate", "ford      test nitrite");
    expect(done).toMatchObject({ read: 1, books: 0, ledgers: 1, checked: 1, late: 1 });
    // Of the last month only what is of this tank.
    expect(done.rows).toBeLessThan(allRows / 50);
  });

  it("in a move derives the two ledgers it goes between", () => {
    const done = work("2026-03.tank", "b7         move praecox", "16 -> r9", "15 -> r9");
    expect(done).toMatchObject({ read: 1, books: 0, ledgers: 2, checked: 1, late: 2 });
  });

  it("in a text or a comment derives nothing", () => {
    expect(work("2026-03.tank", "2026-03-02", "most will be eaten", "all will be eaten")).toMatchObject({
      read: 1,
      ledgers: 0,
      rows: 0,
      checked: 1,
      late: 0,
    });
  });

  it("in an entry of a whole group derives the ledgers of its tanks", () => {
    const { bodies, groups } = checked.logbook.book;
    const names = new Set(groups.get("breeders")!.tanks.map((tank) => tank.body));
    expect(names.size).toBeLessThan(bodies.length);
    const done = work("2026-03.tank", "2026-03-02", "@breeders  feed cyclops 2", "@breeders  feed cyclops 3");
    expect(done).toMatchObject({ read: 1, ledgers: names.size, checked: 1 });
  });

  it("in shared water derives it once", () => {
    const done = work("2026-03.tank", "2026-03-02", "rack-water change 30", "rack-water change 31");
    expect(done).toMatchObject({ read: 1, ledgers: 1, checked: 1 });
  });

  it("far back derives one ledger from there on", () => {
    const done = work("2025-04.tank", "2025-04-01", "dam", "dam");
    expect(done).toMatchObject({ read: 0, ledgers: 0, checked: 0 });
    const early = work("2025-04.tank", "dam ", "change 3", "change 4");
    expect(early).toMatchObject({ read: 1, ledgers: 1, checked: 1 });
  });

  it("in a definition binds all anew", () => {
    const done = work("tanks.tank", "tank dam", "32 L", "33 L");
    expect(done).toMatchObject({ read: 1, books: 1, ledgers: checked.logbook.ledgers.length });
  });
});
