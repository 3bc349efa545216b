import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { linesOf } from "../../language/book/entry.ts";
import { type Block, Source } from "../../language/book/source.ts";
import { countedOf } from "../../language/syntax/conflict-mark.ts";

/** What a merge left and nobody chose: the upper version counts, the other stands there and does not. */

const room = "tank dam\n  volume 100 L\n\n";
const log = (between = "") =>
  `${room}2026-03-01\n  dam feed flake\n<<<<<<< HEAD\n  dam change 30 %\n${between}=======\n  dam change 40 %\n  dam clean\n>>>>>>> holiday\n  dam test pH 7\n`;

/** What the blocks say, with where they stand. */
const said = ({ blocks }: Source) =>
  blocks.map(({ kind, start, text, day, facts, definition, problems }: Block) => ({
    kind,
    start,
    text,
    day,
    rows: [...facts.ints, ...facts.floats].map(String),
    problems: [...problems, ...facts.problems],
    definition: JSON.stringify(definition),
  }));
const rows = (text: string): number =>
  new Source("a.tank", text).blocks.reduce((sum, { facts }) => sum + facts.count, 0);
const codes = (text: string): string[] =>
  said(new Source("a.tank", text)).flatMap(({ problems }) => problems.map(({ code }) => code));

describe("between the marks of a merge", () => {
  it("the upper version counts, and no other, nor what both were made of", () => {
    for (const text of [log(), log("||||||| base\n  dam change 20 %\n"), log().replaceAll("\n", "\r\n")]) {
      expect(rows(text)).toBe(3);
      const [, day] = new Source("a.tank", text).blocks;
      expect(linesOf(day!).map((line) => line.is === "entry" && line.kind?.word)).toEqual([
        "feed",
        "change",
        "test",
      ]);
      expect(new Set(codes(text))).toEqual(new Set(["syntax/conflict"]));
    }
    expect(codes(log())).toHaveLength(3);
    expect(codes(log("||||||| base\n  dam change 20 %\n"))).toHaveLength(4);
  });

  it("whole days and definitions of the other version are none, and every mark is told", () => {
    const days = `${room}<<<<<<< HEAD\n2026-03-01\n  dam clean\n=======\n2026-03-02\n  dam clean\n  dam clean\n>>>>>>> holiday\n\n2026-03-03\n  dam clean\n`;
    expect(rows(days)).toBe(2);
    expect(codes(days)).toEqual(["syntax/conflict", "syntax/conflict", "syntax/conflict"]);
    const tanks = "<<<<<<< HEAD\ntank a\n  volume 9 L\n=======\ntank b\n  volume 8 L\n>>>>>>> holiday\n";
    const { blocks } = new Source("a.tank", tanks);
    expect(blocks.map(({ definition }) => definition?.name)).toEqual([undefined, "a", undefined]);
    expect(codes(`\ufeff${tanks}`)).toHaveLength(3);
  });

  it("of a definition the upper lines are its properties", () => {
    const text =
      "tank dam\n<<<<<<< HEAD\n  volume 100 L\n=======\n  volume 90 L\n>>>>>>> holiday\n  role show\n";
    const [block] = new Source("a.tank", text).blocks;
    expect(block?.definition?.properties.map(({ word }) => word)).toEqual(["volume", "role"]);
    expect(block?.text).toBe(text);
  });

  it("of marks that are not whole all counts, as nobody can tell what stands between them", () => {
    expect(rows(log().replace("=======\n", ""))).toBe(5);
    expect(rows(log().replace(">>>>>>> holiday\n", ""))).toBe(5);
    expect(rows(log().replace("<<<<<<< HEAD\n", ""))).toBe(5);
  });

  it("keeps what counts where it stands", () => {
    for (const text of [log(), log().replaceAll("\n", "\r\n")]) {
      const counted = countedOf(text);
      expect(counted.length).toBe(text.length);
      expect(counted.replace(/\S/g, "").length).toBeGreaterThan(0);
      for (const [at, letter] of [...counted].entries()) if (letter !== " ") expect(text[at]).toBe(letter);
    }
  });
});

describe("edits of a file with marks", () => {
  const lines = [
    "2026-03-01",
    "2026-03-02",
    "tank dam",
    "  volume 9 L",
    "  dam clean",
    "  dam test pH 7",
    "<<<<<<< HEAD",
    "=======",
    "||||||| base",
    ">>>>>>> holiday",
    "",
  ];
  const anyLog = fc
    .array(fc.constantFrom(...lines), { maxLength: 14 })
    .map((all) => all.map((line) => `${line}\n`).join(""));

  it("read as the whole text read anew, whatever is typed where", () => {
    fc.assert(
      fc.property(
        anyLog,
        fc.array(fc.tuple(fc.nat(), fc.nat(30), anyLog), { maxLength: 5 }),
        (text, edits) => {
          const source = new Source("a.tank", text);
          for (const [where, length, inserted] of edits) {
            const start = where % (source.text.length + 1);
            source.edit(start, Math.min(source.text.length, start + length), inserted);
            const stated = ({ definition, ...each }: ReturnType<typeof said>[number]) => each;
            expect(said(source).map(stated)).toEqual(said(new Source("a.tank", source.text)).map(stated));
          }
        },
      ),
    );
  });

  it("are told to the logbook as days that are the same days", () => {
    const source = new Source("a.tank", log());
    const at = source.text.indexOf("=======");
    const { revised, added, removed } = source.edit(at, at + 8, "");
    expect([added, removed]).toEqual([[], []]);
    expect(revised?.block.facts.count).toBe(5);
    const [, day] = source.blocks;
    expect(day).toBe(revised?.block);
  });

  it("reads another state like the first, marks or none", () => {
    fc.assert(
      fc.property(anyLog, anyLog, (before, after) => {
        const like = new Source("a.tank", before);
        expect(said(new Source("a.tank", after, like))).toEqual(said(new Source("a.tank", after)));
      }),
    );
  });
});
