import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cut, listed, padEnd, plain, plainLine, plural, widthOf, wrap } from "../../language/cli/text.ts";

describe("width on a terminal", () => {
  test.each([
    ["dam", 3],
    ["é", 1],
    ["e\u0301", 1],
    ["水槽", 4],
    ["🐟", 2],
    ["", 0],
  ])("%j is %i columns", (text, width) => {
    expect(widthOf(text)).toBe(width);
    expect(widthOf(padEnd(text, 10))).toBe(10);
  });

  test("a cut text is never wider than asked", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), fc.integer({ min: 1, max: 30 }), (text, width) => {
        expect(widthOf(cut(text, width))).toBeLessThanOrEqual(Math.max(width, 0));
      }),
    );
    expect(cut("rack-water change", 10)).toBe("rack-wate…");
  });
});

describe("wrapping", () => {
  test("breaks at spaces and hangs what follows", () => {
    expect(wrap("change the water of the dam", 14, "- ", "  ")).toEqual([
      "- change the",
      "  water of the",
      "  dam",
    ]);
  });

  test("breaks a word only where it alone is too wide", () => {
    expect(wrap("a praziquantelum b", 8)).toEqual(["a", "praziqua", "ntelum b"]);
  });

  test("loses no letter and no line is too wide", () => {
    const text = fc.array(fc.stringMatching(/^[a-z.\u4e00-\u4eff]{1,30}$/), { maxLength: 20 });
    fc.assert(
      fc.property(text, fc.integer({ min: 6, max: 60 }), (words, width) => {
        const lines = wrap(words.join(" "), width, "  ");
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(width);
        expect(lines.join("").replaceAll(" ", "")).toBe(words.join(""));
      }),
    );
  });
});

describe("what a terminal would obey", () => {
  test("is written out", () => {
    expect(plain("a\u001b[31mb\nc\u202ed")).toBe("a\\u001b[31mb\\nc\\u202ed");
  });

  test("keeps its width in a line of a log", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        const shown = plainLine(text);
        expect(shown).toHaveLength(text.length);
        expect(shown).not.toMatch(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/u);
      }),
    );
  });

  test("leaves the scripts that join their letters", () => {
    expect(plain("می\u200cخواهم")).toBe("می\u200cخواهم");
  });
});

test("numbers and lists in words", () => {
  expect([plural(1, "tank"), plural(24, "tank"), plural(6044, "entry", "entries")]).toEqual([
    "1 tank",
    "24 tanks",
    "6,044 entries",
  ]);
  expect([listed([]), listed(["a"]), listed(["a", "b", "c"])]).toEqual(["", "a", "a, b and c"]);
});
