import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Source } from "../../language/book/source.ts";
import { documentLinks } from "../../language/features/document-links.ts";
import { foldingRanges } from "../../language/features/folding.ts";
import { selectionRanges } from "../../language/features/selection-ranges.ts";
import { semanticTokens, type tokenTypes } from "../../language/features/semantic-tokens.ts";
import { atCursor, drawn, viewOf } from "../support/cursor.ts";

const log = `# The room
# and what is in it.
room "Cellar"
  units  temperature C

tank dam
  volume  310 L
  limits  nitrate <= 25 mg/L, pH 6.8..7.8
  every   7 d change 25..35 %

group rack = r1 .. r3, dam

2026-03-01
  dam   change 30 % flow from tap
  sheet  pH   nitrate (mg/L)
    dam  7.2  18      # fine
    r1   7    -
  08:40 dam   note "eggs"

# the next day
2026-03-02
  r1    clean
`;

describe("folding", () => {
  const folds = (text: string) =>
    foldingRanges(new Source("", text)).map(({ is, start, end }) => {
      const lines = text.slice(0, start).split(/\r?\n/).length;
      return `${is} ${lines}-${lines + text.slice(start, end).split(/\r?\n/).length - 1}`;
    });

  test("blocks without what is between them, sheets, comments of several lines", () => {
    expect(folds(log)).toEqual([
      "comment 1-2",
      "block 3-4",
      "block 6-9",
      "block 13-18",
      "sheet 15-17",
      "block 21-22",
    ]);
  });

  test("CRLF", () => {
    expect(folds(log.replaceAll("\n", "\r\n"))).toEqual(folds(log));
  });

  test("a sheet whose heads are broken folds with its rows", () => {
    expect(folds("2026-03-01\n  sheet pH ¤\n    dam 7\n    r1 7\n  dam clean\n")).toEqual([
      "block 1-5",
      "sheet 2-4",
    ]);
  });

  test("what is one line is no fold", () => {
    expect(folds("2026-03-01\n\n2026-03-02\n# one\ntank dam\n")).toEqual([]);
  });
});

describe("selection", () => {
  const grows = (marked: string): string[] => {
    const { view, offset } = atCursor(marked);
    return selectionRanges(view, offset).map((span) => view.source.text.slice(span.start, span.end));
  };

  test("grows from a word over its argument and line to the file", () => {
    const day = "2026-03-01\n  dam   change 30 % flow from tap\n\n";
    const text = `tank dam\n  volume 3 L\n${day.replace("tap", "t¦ap")}2026-03-02\n`;
    expect(grows(text)).toEqual([
      "tap",
      "from tap",
      "30 % flow from tap",
      "change 30 % flow from tap",
      "dam   change 30 % flow from tap",
      "  dam   change 30 % flow from tap",
      day.trimEnd(),
      day,
      text.replace("¦", ""),
    ]);
  });

  test("grows over the item of a list", () => {
    expect(grows('2026-03-01\n  dam count praecox 12 of 1¦4, horn 8 "all"\n').slice(0, 4)).toEqual([
      "14",
      "of 14",
      "praecox 12 of 14",
      'praecox 12 of 14, horn 8 "all"',
    ]);
  });

  test("grows from a text over its quotes", () => {
    expect(grows('2026-03-01\n  dam note "two¦ words"\n').slice(0, 4)).toEqual([
      "two",
      "two words",
      '"two words"',
      'note "two words"',
    ]);
  });

  test("grows over a sheet", () => {
    expect(grows("2026-03-01\n  dam clean\n  sheet pH\n    dam 7.¦2\n    r1 7\n  dam clean\n")).toContain(
      "  sheet pH\n    dam 7.2\n    r1 7",
    );
  });

  test("grows over a property and its definition", () => {
    expect(grows("tank dam\n  inside 10 x 10 x 10 cm; filled 9 c¦m\n").slice(0, 4)).toEqual([
      "cm",
      "9 cm",
      "filled 9 cm",
      "inside 10 x 10 x 10 cm; filled 9 cm",
    ]);
  });

  test("each step holds the one before and is larger, at every offset", () => {
    for (const text of [log, log.replaceAll("\n", "\r\n"), "", "\n", "x", "2026-03-01\n  dam ¤ x\n"]) {
      const view = viewOf(text, "log.tank");
      for (let offset = 0; offset <= text.length; offset++) {
        let last = { start: offset, end: offset };
        for (const span of selectionRanges(view, offset)) {
          expect(
            span.start <= last.start && span.end >= last.end && span.end - span.start > last.end - last.start,
          ).toBe(true);
          last = span;
        }
      }
    }
  });
});

describe("links", () => {
  const files = `--- room.tank ---
tank dam "since 2026-03-01"
  from  2026-03-01
  note  "see log.tank, room.tank and gone.tank"
--- log.tank ---
2026-03-01 "as on 2026-03-02 or 2026-13-45"
  dam   note "2025-01-01 was long ago"  # 2026-03-02 again
2026-03-02
`;

  test("a date in a text or comment leads to its day, the name of a file to the file", () => {
    const rooms = viewOf(files, "room.tank");
    const days = viewOf(files, "log.tank");
    expect(
      documentLinks(rooms).map(
        (each) =>
          `${rooms.source.text.slice(each.start, each.end)} -> ${each.target.path} ${each.target.start}`,
      ),
    ).toEqual(["2026-03-01 -> log.tank 0", "log.tank -> log.tank 0"]);
    const second = days.source.text.lastIndexOf("2026-03-02");
    expect(
      documentLinks(days).map(
        (each) => `${days.source.text.slice(each.start, each.end)} -> ${each.target.start}`,
      ),
    ).toEqual([`2026-03-02 -> ${second}`, `2026-03-02 -> ${second}`]);
  });
});

describe("colours", () => {
  const letters: Partial<Record<keyof typeof tokenTypes, string>> = {
    date: "D",
    time: "T",
    definition: "K",
    property: "P",
    entry: "E",
    tank: "t",
    system: "y",
    group: "g",
    species: "s",
    food: "f",
    remedy: "r",
    water: "w",
    gear: "G",
    case: "c",
    lot: "l",
    order: "o",
    parameter: "m",
    lead: "L",
    word: "W",
    quantity: "Q",
    unit: "U",
    text: "X",
    comment: "C",
  };
  const coloured = (text: string, path = "log.tank"): string => {
    const view = viewOf(text, path);
    const marks = semanticTokens(view).map((token) => ({ ...token, letter: letters[token.type]! }));
    return view.source.text
      .split("\n")
      .map((line, at, lines) => {
        const start = lines.slice(0, at).join("\n").length + (at > 0 ? 1 : 0);
        const row = [...line].map(() => " ");
        for (const mark of marks)
          if (mark.start >= start && mark.start < start + line.length)
            row.fill(mark.modifier === "undefined" ? "?" : mark.letter, mark.start - start, mark.end - start);
        return `${line}\n${row.join("").trimEnd()}`;
      })
      .join("\n");
  };

  test("of every sort of line", () => {
    expect(
      coloured(`water tap
species horn
food flake
remedy prazi
  target  2 mg/L; repeat 3 times every 7 d
  harms   snail, horn
gear canister
${log.replace("# The room\n", "").replace("tank dam\n", "tank dam\ntank r1\ntank r3\n")}  canister service rinsed
  room  note "x"
  dam   feed flake 1 pinch, none
  dam   count horn ~20, hron 3.5.2
  dam   test nitrate <5 mg/L, KH 4
  dam   sick horn 1 case tuft
  dam   arrive horn 3 from "a, b" lot a17
  dam   move horn 1 -> r1
  dam   dose prazi 20 mg
  dmm   chnge 30 %
  dam   change ¤
`),
    ).toMatchInlineSnapshot(`
      "water tap
      KKKKK www
      species horn
      KKKKKKK ssss
      food flake
      KKKK fffff
      remedy prazi
      KKKKKK rrrrr
        target  2 mg/L; repeat 3 times every 7 d
        PPPPPP  Q UUUU  PPPPPP Q WWWWW LLLLL Q U
        harms   snail, horn
        PPPPP   WWWWW  ssss
      gear canister
      KKKK GGGGGGGG
      # and what is in it.
      CCCCCCCCCCCCCCCCCCCC
      room "Cellar"
      KKKK XXXXXXXX
        units  temperature C
        PPPPP  mmmmmmmmmmm W


      tank dam
      KKKK ttt
      tank r1
      KKKK tt
      tank r3
      KKKK tt
        volume  310 L
        PPPPPP  QQQ U
        limits  nitrate <= 25 mg/L, pH 6.8..7.8
        PPPPPP  mmmmmmm QQQQQ UUUU  mm QQQQQQQQ
        every   7 d change 25..35 %
        PPPPP   Q U EEEEEE QQQQQQ U


      group rack = r1 .. r3, dam
      KKKKK gggg   tt    tt  ttt


      2026-03-01
      DDDDDDDDDD
        dam   change 30 % flow from tap
        ttt   EEEEEE QQ U WWWW LLLL www
        sheet  pH   nitrate (mg/L)
        EEEEE  mm   mmmmmmm  UUUU
          dam  7.2  18      # fine
          ttt  QQQ  QQ      CCCCCC
          r1   7    -
          tt   Q
        08:40 dam   note "eggs"
        TTTTT ttt   EEEE XXXXXX


      # the next day
      CCCCCCCCCCCCCC
      2026-03-02
      DDDDDDDDDD
        r1    clean
        tt    EEEEE
        canister service rinsed
        GGGGGGGG EEEEEEE WWWWWW
        room  note "x"
        KKKK  EEEE XXX
        dam   feed flake 1 pinch, none
        ttt   EEEE fffff Q UUUUU  WWWW
        dam   count horn ~20, hron 3.5.2
        ttt   EEEEE ssss QQQ  ???? QQQQQ
        dam   test nitrate <5 mg/L, KH 4
        ttt   EEEE mmmmmmm QQ UUUU  mm Q
        dam   sick horn 1 case tuft
        ttt   EEEE ssss Q LLLL cccc
        dam   arrive horn 3 from "a, b" lot a17
        ttt   EEEEEE ssss Q LLLL XXXXXX LLL lll
        dam   move horn 1 -> r1
        ttt   EEEE ssss Q    tt
        dam   dose prazi 20 mg
        ttt   EEEE rrrrr QQ UU
        dmm   chnge 30 %
        ???         QQ U
        dam   change ¤


      "
    `);
  });

  test("in order, none over another or over a line, whatever the text", () => {
    const words = fc.constantFrom(
      "dam",
      "change",
      "30 %",
      "@rack",
      "->",
      "r1",
      "..",
      "r3",
      '"a b"',
      "sheet",
      "pH",
      "(F)",
      "nitrate",
      "# c",
      ",",
      ";",
      "2026-03-01",
      "08:40",
      "tank",
      "every",
      "7 d",
      "at",
      "most",
      "group",
      "=",
      "3.5.20",
      "150 x 55 cm",
      "lot",
      "17",
    );
    const line = fc
      .tuple(fc.constantFrom("", "  ", "    "), fc.array(words, { maxLength: 8 }))
      .map(([indent, parts]) => indent + parts.join(" "));
    fc.assert(
      fc.property(fc.array(line, { maxLength: 6 }), fc.constantFrom("\n", "\r\n"), (lines, end) => {
        const text = log + lines.join(end);
        const view = viewOf(text, "log.tank");
        let last = 0;
        for (const token of semanticTokens(view)) {
          expect(token.start >= last && token.end > token.start).toBe(true);
          expect(text.slice(token.start, token.end)).not.toMatch(/[\r\n]/);
          last = token.end;
        }
      }),
      { numRuns: 300 },
    );
  });

  test("a part is a part of the whole", () => {
    const view = viewOf(log, "log.tank");
    const whole = semanticTokens(view).map((token) => JSON.stringify(token));
    const part = semanticTokens(view, { start: 120, end: 200 });
    expect(part.length).toBeGreaterThan(5);
    for (const token of part) expect(whole).toContain(JSON.stringify(token));
    expect(drawn(log, part)).not.toContain("^".repeat(30));
  });
});
