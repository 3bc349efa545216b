import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Col, intsPerRow } from "../../language/book/facts.ts";
import { wordOf } from "../../language/book/interner.ts";
import { Source } from "../../language/book/source.ts";
import { applySpaces, formatNewLine, formatText } from "../../language/features/format.ts";
import { parseTree, printTree } from "../../language/syntax/tree.ts";
import { filesOf } from "../support/marked.ts";

const laidOut = (text: string): string => applySpaces(text, formatText(text));

describe("a day", () => {
  test("targets and kinds stand under each other, one space behind the longest target", () => {
    expect(
      laidOut('2026-03-01   "a quiet day"\n dam change 30 %\n\track-water   top-up  4 L\n@rack clean\n'),
    ).toBe(
      '2026-03-01 "a quiet day"\n  dam        change 30 %\n  rack-water top-up 4 L\n@rack clean\n'.replace(
        "@rack clean",
        "  @rack      clean",
      ),
    );
  });

  test("a short target has the width of a sheet", () => {
    expect(laidOut("2026-03-01\n  q1 change 30 %\n")).toBe("2026-03-01\n  q1    change 30 %\n");
  });

  test("an entry with a time has its target and kind under those of the others with one", () => {
    expect(laidOut('2026-03-01\n  8:40 dam note "a"\n  dam change 30 %\n  08:50 r12 note "b"\n')).toBe(
      '2026-03-01\n  8:40  dam   note "a"\n  dam   change 30 %\n  08:50 r12   note "b"\n',
    );
  });

  test("commas close up to what is before them, and one space follows", () => {
    expect(laidOut("2026-03-01\n  dam test nitrate 18 ,pH 7.2,KH   4\n")).toBe(
      "2026-03-01\n  dam   test nitrate 18, pH 7.2, KH 4\n",
    );
  });

  test("what is written without a space stays so", () => {
    expect(laidOut("2026-03-01\n  dam change 30%\n  dam   feed flake 2pinches\n")).toBe(
      "2026-03-01\n  dam   change 30%\n  dam   feed flake 2pinches\n",
    );
  });

  test("other days are not touched by a long target of one", () => {
    const before =
      "2026-03-01\n  dam   change 30 %\n2026-03-02\n  rack-water change 30 %\n  dam change 3 L\n";
    expect(formatText(before).map((edit) => edit.start > 30)).toEqual([true]);
  });
});

describe("a sheet", () => {
  const laid = `2026-03-01
  sheet         temperature (F)  pH   nitrate  KH
    dam         76.3             7.2  18       4
    rack-water  75.4             7.0  <5       3     # below the test's lowest step
    q1          77.4             7.1  -        4   "new bulb"
`;

  test("columns are two spaces behind the widest cell, texts behind the last column", () => {
    expect(laidOut(laid.replace(/ {2,}/g, (gap, at) => (laid[at - 1] === "\n" ? gap : " ")))).toBe(
      laid.replace("3     #", "3    #").replace("3    #", "3  #"),
    );
    expect(laidOut(laid)).toBe(laid);
  });

  test("a row with a time, and one with fewer cells and a text", () => {
    expect(laidOut('2026-03-01\n  sheet pH nitrate\n    08:40 dam 7.2 18\n    r1 7 "left"\n')).toBe(
      '2026-03-01\n  sheet        pH   nitrate\n    08:40 dam  7.2  18\n    r1         7             "left"\n',
    );
  });

  test("a row with too many cells is broken and stays; the others are laid out without it", () => {
    expect(laidOut("2026-03-01\n  sheet pH\n   dam 7.2\n   r1   7.25    99\n")).toBe(
      "2026-03-01\n  sheet  pH\n    dam  7.2\n   r1   7.25    99\n",
    );
  });

  test("the rows of a sheet whose heads are broken stay", () => {
    const text = "2026-03-01\n  sheet temperature (bananas)   pH\n     dam   24   7.2\n";
    expect(formatText(text)).toEqual([]);
  });
});

describe("a definition", () => {
  test("values begin two spaces behind the longest word; at most is one word", () => {
    expect(
      laidOut(
        'tank   dam  "Rainbowfish dam"\n inside 150 x 55 x 50 cm ;filled 46 cm\n role show\n at  most 2 per 7 d feed dry\n',
      ),
    ).toBe(
      'tank dam "Rainbowfish dam"\n  inside   150 x 55 x 50 cm; filled 46 cm\n  role     show\n  at most  2 per 7 d feed dry\n',
    );
  });

  test("the tanks of a group", () => {
    expect(laidOut("group  rack=r1 .. r3 ,q1\n")).toBe("group rack = r1 .. r3, q1\n");
  });
});

describe("comments, blank lines, broken lines", () => {
  test("a comment keeps its distance, at least two", () => {
    expect(laidOut("2026-03-01\n  dam change 30 %     # far\n  dam top-up 4 L # near\n")).toBe(
      "2026-03-01\n  dam   change 30 %     # far\n  dam   top-up 4 L  # near\n",
    );
  });

  test("comments of neighbouring lines that share a column go on sharing it", () => {
    expect(
      laidOut("2026-03-01\n  dam change 30 %  # a\n  dam top-up 4 L   # b\n\n  rack-water clean # c\n"),
    ).toBe(
      "2026-03-01\n  dam        change 30 %  # a\n  dam        top-up 4 L   # b\n\n  rack-water clean  # c\n",
    );
  });

  test("comment lines stay as they stand, blank lines stay and are empty", () => {
    expect(laidOut("# top  \n\n2026-03-01\n      # in between\n   \n  dam clean  \n")).toBe(
      "# top  \n\n2026-03-01\n      # in between\n\n  dam   clean\n",
    );
  });

  test("a broken line stays byte for byte, and counts for no column", () => {
    const broken = "   rack-water-of-the-cellar    chnge   30 %   ";
    expect(laidOut(`2026-03-01\n${broken}\n  dam change 30 %\n   @ ->  x\n`)).toBe(
      `2026-03-01\n${broken}\n  dam   change 30 %\n   @ ->  x\n`,
    );
  });

  test("a layout that would make something else of a broken line is thrown away", () => {
    // Indented as it should be, the sheet would lose its broken row, which stays where it is.
    expect(formatText("2026-03-01\nsheet pH\n  dam x\n    dam   7.2\n")).toEqual([]);
  });

  test("the lines of a block whose head is broken stay", () => {
    expect(formatText("tnak  dam\n volume    3 L\n2026-02-30\n   dam   change  30 %\n")).toEqual([]);
  });

  test("line ends stay: CRLF, a lone CR, none at the end", () => {
    expect(laidOut("2026-03-01\r\n dam change 30 %  \r\n\r\n dam clean\r dam clean  lid")).toBe(
      "2026-03-01\r\n  dam   change 30 %\r\n\r\n  dam   clean\r  dam   clean lid",
    );
  });
});

describe("scripts", () => {
  test("wide letters count two columns, marks on letters none", () => {
    expect(
      laidOut("2026-03-01\n  水槽水槽 change 30 %\n  dam change 30 %\n  e\u0301te\u0301 change 30 %\n"),
    ).toBe(
      "2026-03-01\n  水槽水槽 change 30 %\n  dam      change 30 %\n  e\u0301te\u0301      change 30 %\n",
    );
  });

  test("tabs become spaces, a tab in a text stays", () => {
    expect(laidOut('2026-03-01\n\tdam\tchange\t30 %\t"a\tb"\t# c\n')).toBe(
      '2026-03-01\n  dam   change 30 % "a\tb"  # c\n',
    );
  });

  test("a byte order mark stays where it is", () => {
    expect(laidOut("\ufeff2026-03-01\n dam clean\n")).toBe("\ufeff2026-03-01\n  dam   clean\n");
  });
});

describe("a part", () => {
  const text = "2026-03-01\n dam change 30 %\n dam clean\n rack-water clean\n";

  test("of a range only the lines it touches, in the columns of the whole block", () => {
    const start = text.indexOf("dam clean");
    expect(applySpaces(text, formatText(text, { start, end: start }))).toBe(
      "2026-03-01\n dam change 30 %\n  dam        clean\n rack-water clean\n",
    );
  });

  test("when a line is ended it is laid out, and the line that follows indented", () => {
    const typed = "2026-03-01\n  dam   change 30 %\n dam clean\n";
    expect(onNewLine(typed)).toBe("2026-03-01\n  dam   change 30 %\n  dam   clean\n  ");
  });

  test("a line that needs more room moves the others of its block", () => {
    const typed = "2026-03-01\n  dam   change 30 %\n\n  rack-water clean\n  \n2026-03-02\n dam clean\n";
    const at = typed.indexOf("\n2026-03-02");
    expect(applySpaces(typed, formatNewLine(new Source("", typed), at))).toBe(
      typed.replace("dam   change", "dam        change"),
    );
  });

  test("below the heads of a sheet and its rows the indentation is four", () => {
    expect(onNewLine("2026-03-01\n  sheet pH  nitrate\n")).toBe("2026-03-01\n  sheet  pH  nitrate\n    ");
    expect(onNewLine("2026-03-01\r\n  sheet  pH\r\n    dam 7.2\r\n")).toBe(
      "2026-03-01\r\n  sheet  pH\r\n    dam  7.2\r\n    ",
    );
  });

  test("below a blank, broken or comment line nothing is said", () => {
    for (const line of ["", "  ", "  dam chnge", "  # note"]) {
      const typed = `2026-03-01\n  dam   clean\n${line}\n`;
      expect(onNewLine(typed), line).toBe(typed);
    }
  });

  function onNewLine(typed: string): string {
    return applySpaces(typed, formatNewLine(new Source("", typed), typed.length));
  }
});

describe("what stands in the project is laid out", () => {
  const language = new URL("../../language/", import.meta.url);

  test.each(readdirSync(new URL("../../samples/cellar/", import.meta.url)))(
    "the sample cellar: %s",
    (name) => {
      const text = readFileSync(new URL(`../../samples/cellar/${name}`, import.meta.url), "utf8");
      expect(laidOut(text)).toBe(text);
    },
  );

  test("every example of the format", () => {
    const page = readFileSync(new URL("FORMAT.md", language), "utf8");
    const blocks = [...page.matchAll(/```tank\n([\s\S]*?)```/g)].map((match) => match[1]!);
    expect(blocks.length).toBeGreaterThan(20);
    for (const block of blocks) expect(laidOut(block)).toBe(block);
  });

  test("what section 7 says becomes of its example", () => {
    const page = readFileSync(new URL("FORMAT.md", language), "utf8");
    const [, before, after] = /```text\n([\s\S]*?)```\n\nbecomes\n\n```tank\n([\s\S]*?)```/.exec(page)!;
    expect(laidOut(before!)).toBe(after);
  });
});

// Lines a keeper may write, whole and broken, and white space a hand may leave.
const gap = fc.constantFrom(" ", " ", "  ", "\t", "     ", "\u00a0", " \t ");
const indent = fc.constantFrom("  ", "  ", "    ", " ", "\t", "      ", "");
const lineEnd = fc.constantFrom("\n", "\n", "\n", "\r\n", "\r");
const pieces = (...words: string[]) => fc.constantFrom(...words).map((line) => line.split("|"));
const dayLine = pieces(
  "dam|change|30 %",
  "rack-water|change|120 L|flow|from|tap|at|23 C",
  "水槽|feed|cyclops|2 cubes|,|flake|1 pinch",
  '@rack|clean|"all of them"',
  '08:40|dam|note|"a \\" # no comment"',
  "8:5|dam|clean",
  "25:10|dam|clean",
  "dam|test|nitrate|<5 mg/L|,|pH|7.2",
  "dam|test|pH|7,2",
  "sheet|temperature (F)|pH|horn",
  "sheet|nitrate|(mg/L)",
  "sheet|(F)",
  'dam|76.3|7.2|14|"new bulb"',
  "r1|-|<5",
  "r1|1|2|3|4|5",
  "dam|chnge|30 %",
  "dam",
  "@",
  "r4|move|horn|4|->|r1",
  'dam|note|"left open',
  "30|%|¤",
  "",
  "# a comment  line",
);
const definitionLine = pieces(
  "volume|30 L",
  "kind|dry|;|protein|45 %",
  "at|most|2|per|7 d|feed|dry",
  "every|7 d|change|25..35 %",
  "limits|nitrate|<=|25 mg/L|,|pH|6.8..7.8",
  "system",
  "volme|30 L",
  "kind",
  "harms|snail|,|scaleless",
  "",
  "# said",
);
const head = fc.constantFrom(
  "2026-03-01",
  '2026-03-02   "power cut"',
  "2026-02-30",
  "tank  dam",
  "species horn",
  "group rack = r1 .. r2 ,q1",
  "food flake",
  "remedy x",
  "tnak y",
);
const comment = fc.constantFrom("", "", "", "", " # c", "   # c", "\t# c", "#c");
const written = (line: fc.Arbitrary<string[]>) =>
  fc
    .tuple(indent, line, fc.array(gap, { minLength: 9, maxLength: 9 }), comment, lineEnd)
    .map(([before, words, gaps, after, end]) => {
      const text = words.map((word, at) => (at === 0 ? word : gaps[at % gaps.length]! + word)).join("");
      return (text === "" ? before.trim() : before) + text + after + end;
    });
const log = fc
  .array(
    fc.tuple(head, lineEnd, fc.array(written(fc.oneof(dayLine, dayLine, definitionLine)), { maxLength: 8 })),
    {
      maxLength: 4,
    },
  )
  .map((blocks) => blocks.map(([first, end, lines]) => first + end + lines.join("")).join(""));

/** What a text says, wherever it stands on its lines. */
function said(text: string): unknown {
  return new Source("", text).blocks.map(({ kind, day, facts, definition, problems, ...block }) => ({
    kind,
    day,
    ints: Array.from(facts.ints, (value, at) => {
      // Places differ; names are compared as words.
      const column = at % intsPerRow;
      return column === Col.start || column === Col.end
        ? 0
        : column === Col.target
          ? wordOf(value < 0 ? ~value : value)
          : value;
    }),
    floats: [...facts.floats].map(String),
    problems: [...problems, ...facts.problems, ...(definition?.problems ?? [])].map((problem) => [
      problem.code,
      block.text.slice(problem.start, problem.end).replace(/\s+/g, " "),
    ]),
    properties: definition?.properties.map((each) => [
      each.word,
      block.text.slice(each.start, each.end).replace(/\s+/g, ""),
    ]),
  }));
}

describe("always", () => {
  const black = (text: string): string => text.replace(/[ \t\f\v\u00a0\ufeff\u3000]/g, "");

  test("only white space changes, and no line end", () => {
    fc.assert(
      fc.property(log, (text) => {
        expect(black(laidOut(text))).toBe(black(text));
      }),
      { numRuns: 400 },
    );
  });

  test("laid out twice is laid out once", () => {
    fc.assert(
      fc.property(log, (text) => {
        expect(laidOut(laidOut(text))).toBe(laidOut(text));
      }),
      { numRuns: 400 },
    );
  });

  test("the log says the same, and its tree prints it", () => {
    fc.assert(
      fc.property(log, (text) => {
        const made = laidOut(text);
        expect(said(made)).toEqual(said(text));
        expect(printTree(parseTree(made))).toBe(made);
      }),
      { numRuns: 400 },
    );
  });

  test("for any text at all", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 80 }), (text) => {
        const made = laidOut(`2026-03-01\n ${text}`);
        expect(laidOut(made)).toBe(made);
        expect(black(made)).toBe(black(`2026-03-01\n ${text}`));
      }),
      { numRuns: 400 },
    );
  });

  test("a part is a part of the whole", () => {
    fc.assert(
      fc.property(log, fc.nat(400), fc.nat(60), (text, start, length) => {
        const whole = formatText(text).map((edit) => JSON.stringify(edit));
        for (const edit of formatText(text, { start, end: start + length }))
          expect(whole).toContain(JSON.stringify(edit));
      }),
      { numRuns: 200 },
    );
  });

  test("sorted by file, every file of a logbook on its own", () => {
    const files = filesOf("--- a.tank ---\ntank dam\n volume 3 L\n--- b.tank ---\n2026-03-01\n dam clean\n");
    expect([...files.values()].map(laidOut)).toEqual([
      "tank dam\n  volume  3 L",
      "2026-03-01\n  dam   clean\n",
    ]);
  });
});
