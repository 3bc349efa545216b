import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cutBlocks, nextLine } from "../../language/syntax/blocks.ts";
import { parseTree, printTree } from "../../language/syntax/tree.ts";
import { anyText } from "../support/arbitrary-text.ts";

/** A tree loses nothing: every character of the text is in it, in its place. */

describe("the tree of a text", () => {
  it("prints as the text, for every text", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        expect(printTree(parseTree(text))).toBe(text);
      }),
      { numRuns: 1000 },
    );
  });

  it("has its leaves side by side, and its lines as the editor has them", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        let at = 0;
        for (const line of parseTree(text)) {
          expect(line.start).toBe(at);
          for (const leaf of line.leaves) {
            expect(leaf.start).toBe(at);
            expect(leaf.text).not.toBe("");
            at += leaf.text.length;
          }
          expect(at).toBe(nextLine(text, line.start));
          expect(line.end).toBeLessThanOrEqual(at);
        }
        expect(at).toBe(text.length);
      }),
      { numRuns: 300 },
    );
  });

  it("tells pieces, spaces, comments and line ends apart", () => {
    const [line] = parseTree('  dam change 30 % "all" # done\r\n');
    expect(line!.leaves.map(({ kind, text }) => `${kind} ${JSON.stringify(text)}`)).toEqual([
      'space "  "',
      'piece "dam"',
      'space " "',
      'piece "change"',
      'space " "',
      'piece "30 %"',
      'space " "',
      'piece "\\"all\\""',
      'space " "',
      'comment "# done"',
      'end "\\r\\n"',
    ]);
  });

  it("keeps a line that cannot be read as it is, and says where it stumbled", () => {
    const [good, bad, alsoGood] = parseTree("  dam change 30 %\n  dam change ¤ 30 %\n  dam feed flake\n");
    expect(good!.broken).toBeUndefined();
    expect(bad!.leaves.map(({ kind }) => kind)).toEqual(["unread", "end"]);
    expect(bad!.broken).toMatchObject({ start: 31, end: 32 });
    expect(alsoGood!.broken).toBeUndefined();
  });
});

describe("the blocks of a text", () => {
  const isEntryWord = (word: string): boolean => word === "change";

  it("lie side by side from its beginning to its end", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const blocks = cutBlocks(text, isEntryWord);
        let at = 0;
        for (const { start, end, kind } of blocks) {
          expect(start).toBe(at);
          expect(end).toBeGreaterThan(start);
          if (start > 0) expect(kind).not.toBe("prelude");
          at = end;
        }
        expect(at).toBe(text.length);
      }),
      { numRuns: 500 },
    );
  });

  const kinds = (text: string): string[] => cutBlocks(text, isEntryWord).map(({ kind }) => kind);

  it("begin at dates and definitions in column 0", () => {
    expect(kinds("2026-03-01\n  dam change 30 %\ntank dam\n  volume 9 L\n")).toEqual(["day", "definition"]);
    expect(kinds("# first\n  \n2026-03-01\n")).toEqual(["prelude", "day"]);
    expect(kinds("\ufeff2026-03-01\n")).toEqual(["day"]);
  });

  it("are not opened by an entry that lost its indentation", () => {
    expect(kinds("2026-03-01\ndam change 30 %\n08:40 dam change 30 %\nroom change 1 %\n")).toEqual(["day"]);
    expect(kinds("tank dam\nroom change 1 %\n")).toEqual(["definition", "definition"]);
    expect(kinds("tank dam\ndam change 30 %\n")).toEqual(["definition", "broken"]);
  });

  it("are broken where their head is neither", () => {
    expect(kinds("2026-03-01\nabc\n2026/03/01\n")).toEqual(["day", "broken", "broken"]);
    expect(kinds("2026-03-01\ntanks dam\ntänk dam\ntank-x\ntanké x\n")).toEqual([
      "day",
      "broken",
      "broken",
      "broken",
      "broken",
    ]);
  });
});
