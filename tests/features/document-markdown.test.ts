import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plain } from "../../language/features/document-markdown.ts";
import { plain as escaped } from "../../language/features/markdown.ts";

/** Text of a log in a Markdown document: readable as it stands, and never markup. */

const unescaped = (text: string): string => text.replace(/\\([!-/:-@[-`{-~])/g, "$1");
/** What is left where all that is escaped is taken out. */
const bare = (text: string): string => text.replace(/\\[!-/:-@[-`{-~]/g, "\0");

describe("text in a Markdown document", () => {
  it.each([
    ["2026-03-01 08:40", "2026-03-01 08:40"],
    ["woworae, 3.5.20 in q-1: 2 mg/L (6 %)", "woworae, 3.5.20 in q-1: 2 mg/L (6 %)"],
    ["all is well.", "all is well."],
    ["....", "...."],
    ["1. of two", "1\\. of two"],
    ["2) of two", "2\\) of two"],
    ["- a list", "\\- a list"],
    ["see http://a.example", "see http\\://a\\.example"],
    ["www.a.example", "www\\.a\\.example"],
    [
      "[a](b) ![c](d) <b> `e` *f* _g_ ~h~ | $i$",
      "\\[a\\](b) \\!\\[c\\](d) \\<b\\> \\`e\\` \\*f\\* \\_g\\_ \\~h\\~ \\| \\$i\\$",
    ],
  ])("%s", (text, shown) => {
    expect(plain(text)).toBe(shown);
  });

  it("says what was written, whatever it is", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (text) => {
        expect(unescaped(plain(text))).toBe(unescaped(escaped(text)));
      }),
    );
  });

  it("holds no mark that could mean something", () => {
    const marks = fc.constantFrom(
      "[",
      "]",
      "(",
      ")",
      "<",
      ">",
      "`",
      "*",
      "_",
      "~",
      "|",
      "$",
      "!",
      "#",
      "+",
      "-",
      ".",
      ":",
      "/",
      "&",
      "\\",
      "=",
      "1",
      "a",
      "www",
      "http",
      " ",
    );
    fc.assert(
      fc.property(fc.array(marks, { maxLength: 12 }), (parts) => {
        const left = bare(plain(parts.join("")));
        expect(left).not.toMatch(/[`*_{}[\]<>|~#&!\\$+=^@]/);
        // Addresses, and what would begin a list or a rule.
        expect(left).not.toMatch(/:\/|www\.[a-z]|^\d+[.)]|^-|- |--/);
      }),
      { numRuns: 2000 },
    );
  });
});
