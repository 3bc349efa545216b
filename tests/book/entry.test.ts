import { describe, expect, it } from "vitest";
import { entryOf, linesOf, placeOfSlot } from "../../language/book/entry.ts";
import { Source } from "../../language/book/source.ts";

/** A row of facts leads back to its words. */

const day = (line: string) => new Source("log.tank", `2026-03-01\n${line}\n`).blocks[0]!;
/** The words of a slot for each row of a line, asked with the lines of the day read before and not. */
function words(line: string, slot: string): string[] {
  return [false, true].flatMap((isRead) => {
    const block = day(line);
    if (isRead) linesOf(block);
    return Array.from({ length: block.facts.count }, (_, row) => {
      const { start, end } = placeOfSlot(block, row, slot);
      return block.text.slice(start, end);
    });
  });
}
const twice = (...texts: string[]): string[] => [...texts, ...texts];

describe("where a slot of a row stands", () => {
  it("is in its own item of a list, also where the list shares what stands behind it", () => {
    const line = '  q1 sell cherry 10, horn 2, praecox 3 to "a neighbour" price 6 EUR';
    expect(words(line, "species")).toEqual(twice("cherry", "horn", "praecox"));
    expect(words(line, "animals")).toEqual(twice("10", "2", "3"));
    expect(words(line, "buyer")).toEqual(twice('"a neighbour"', '"a neighbour"', '"a neighbour"'));
  });

  it("is in its own item, also where what is shared stands in the middle", () => {
    const line = '  q1 sell cherry 10 to "a neighbour", horn 2';
    expect(words(line, "species")).toEqual(twice("cherry", "horn"));
    expect(words(line, "animals")).toEqual(twice("10", "2"));
  });

  it("is the whole entry where it is empty", () => {
    expect(words("  08:00 q1 lose horn 2", "how")).toEqual(twice("q1 lose horn 2"));
  });

  it("is the cell in a sheet", () => {
    expect(words("  sheet pH nitrate\n    dam 7.2 18", "reading")).toEqual(twice("7.2", "18"));
  });
});

describe("an entry", () => {
  it("is found by its row, with the item of its own", () => {
    const block = day("  dam test nitrate 18 mg/L, pH 7.2");
    expect(entryOf(block, 1)?.item.parameter?.text).toBe("pH");
    expect(entryOf(block, 1)?.line.is).toBe("entry");
    expect(entryOf(block, 7)).toBeUndefined();
  });

  it("keeps its number while it stays as it is, wherever it moves to", () => {
    const source = new Source("log.tank", "2026-03-01\n  dam clean\n  b1 clean\n  q1 clean\n");
    const block = source.blocks[0]!;
    const textOf = (id: number): string | undefined => {
      const { start, end } = placeOfSlot(block, id);
      return end === 0 ? undefined : block.text.slice(start, end);
    };
    source.edit(11, 11, "  h1 feed flake\n");
    expect([0, 1, 2].map(textOf)).toEqual(["dam clean", "b1 clean", "q1 clean"]);
    const gone = source.text.indexOf("  b1");
    source.edit(gone, gone + "  b1 clean\n".length, "");
    expect([0, 1, 2].map(textOf)).toEqual(["dam clean", undefined, "q1 clean"]);
    // What comes back is another entry, and its number was never used.
    source.edit(gone, gone, "  b1 clean\n");
    expect(textOf(1)).toBeUndefined();
  });
});
