import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { code, declared, link, list, picture, plain } from "../../language/features/markdown.ts";

/** Code units of all sorts, those that mean something more often than the rest. */
const anyText = fc
  .array(fc.oneof(fc.nat(0x7f), fc.nat(0xffff), fc.integer({ min: 0x2000, max: 0x2070 })), { maxLength: 30 })
  .map((codes) => String.fromCharCode(...codes));

/** What a reader of CommonMark sees of escaped text: a backslash before punctuation goes. */
const seen = (markdown: string): string => markdown.replace(/\\([!-/:-@[-`{-~])/g, "$1");

const hostile = [
  "[click](javascript:alert(1))",
  "![x](https://example.org/track.png)",
  "<img src=x onerror=alert(1)>",
  "<script>alert(1)</script>",
  "https://example.org www.example.org keeper@example.org",
  "# heading\n\n- list\n1. list\n> quote\n```\ncode\n```",
  "`code` ``more`` *bold* _em_ ~~gone~~ | table |",
  "a\\](b) \\`",
  "&lt;b&gt; &#60; $(alert) $(gear) {x}",
  "\u202etxt.exe\u202c \u0000\u0007 \u2066x\u2069",
  "[ref]: https://example.org",
  "---\n***\n===",
];

describe("text of a log in Markdown", () => {
  test.each(hostile)("stays text: %j", (text) => {
    const made = plain(text);
    // No mark of punctuation without a backslash before it, and nothing that begins a line.
    expect(made.replace(/\\[!-/:-@[-`{-~]/g, "")).not.toMatch(/[!-/:-@[-`{-~]/);
    expect(made).not.toMatch(/[\r\n]/);
  });

  test("reads as it was written, on one line", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const made = plain(text);
        expect(made).not.toMatch(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/u);
        const spaced = text
          .replace(/\s+/g, " ")
          .replace(/[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, "")
          .trim();
        expect(seen(made)).toBe(spaced);
      }),
    );
  });

  test("as code ends where its fence says", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom("`", "a", " ", "\\", "\n", "<") }), (text) => {
        const made = code(text);
        if (made === "") return;
        const fence = /^`+/.exec(made)![0];
        const inside = made.slice(fence.length, -fence.length);
        expect(made.endsWith(fence)).toBe(true);
        expect([...inside.matchAll(/`+/g)].map(([run]) => run.length)).not.toContain(fence.length);
        expect(inside.trim()).toBe(text.replace(/\s+/g, " ").trim());
      }),
    );
  });
});

test("a link holds its text and its address apart", () => {
  expect(link("a](b", "file:///x y(1).tank#L3")).toBe("[a\\]\\(b](file:///x%20y%281%29.tank#L3)");
});

test("a picture is data, with its words beside it", () => {
  const made = picture("<svg>ü</svg>", "nitrate [1]");
  expect(made).toMatch(/^!\[nitrate \\\[1\\\]\]\(data:image\/svg\+xml;base64,[A-Za-z0-9+/=]+\)$/);
  const [, base64 = ""] = /base64,(.*)\)/.exec(made) ?? [];
  expect(Buffer.from(base64, "base64").toString("utf8")).toBe("<svg>ü</svg>");
});

test("a sentence of a declaration keeps its words of the format", () => {
  expect(declared("`batch` (the default): drained.")).toBe("`batch` \\(the default\\)\\: drained\\.");
});

test("lists nest by four spaces", () => {
  expect(list(["a", "b"], 1)).toBe("    - a\n    - b");
});
