import { describe, expect, test } from "vitest";
import { Source } from "../../language/book/source.ts";
import { documentSymbols, type OutlineSymbol, workspaceSymbols } from "../../language/features/symbols.ts";
import { logbookOf } from "../support/marked.ts";

const log = `room "Cellar"

tank dam "Rainbowfish dam"
  volume  310 L
  every   7 d change 30 %; role show

2026-03-01 "power cut, \\"20 min\\""
  08:40 dam   note "eggs"
  @rack change 30 %  # all
  sheet  pH   nitrate
    dam  7.2  18

# about the next day
2026-03-02
  dam   sick horn 1 case tuft-1
  chnge
tnak x
`;

const outline = (symbols: readonly OutlineSymbol[], indent = ""): string =>
  symbols
    .map(
      (each) =>
        `${indent}${each.name} | ${each.detail} | ${each.sort}\n${outline(each.children, `${indent}  `)}`,
    )
    .join("");

describe("the outline of a file", () => {
  test("days with their entries, definitions with their properties", () => {
    expect(outline(documentSymbols(new Source("", log)))).toBe(`Cellar | room | room
dam | tank, Rainbowfish dam | tank
  volume | 310 L | property
  every | 7 d change 30 % | property
  role | show | property
2026-03-01 | power cut, "20 min" | day
  dam note | "eggs" | prose
  @rack change | 30 % | water
  sheet | pH, nitrate | sheet
    dam | 7.2 18 | row
2026-03-02 |  | day
  dam sick | horn 1 case tuft-1 | health
  chnge |  | prose
`);
  });

  test("a place lies within its span, a child within its parent, also in CRLF", () => {
    const check = (symbols: readonly OutlineSymbol[], start: number, end: number): void => {
      for (const each of symbols) {
        expect([start <= each.start, each.end <= end]).toEqual([true, true]);
        expect([each.start <= each.place.start, each.place.end <= each.end]).toEqual([true, true]);
        check(each.children, each.start, each.end);
      }
    };
    for (const text of [log, log.replaceAll("\n", "\r\n"), `\ufeff${log}`])
      check(documentSymbols(new Source("", text)), 0, text.length);
  });

  test("of a file of very many entries the days alone", () => {
    const many = `2026-03-01\n${"  dam clean\n".repeat(5001)}`;
    expect(outline(documentSymbols(new Source("", many)))).toBe("2026-03-01 |  | day\n");
  });
});

describe("names over all files", () => {
  const checked = logbookOf(
    `--- a.tank ---\n${log}\n--- b.tank ---\ntank r1 "Red cherries"\n  volume 3 L\nspecies cherry\n`,
  );
  const found = (query: string) =>
    workspaceSymbols(checked, query).map((each) => `${each.sort} ${each.name}`);

  test("by name, by title, by letters in order", () => {
    expect(found("da")).toEqual(["tank dam"]);
    expect(found("cherr")).toEqual(["species cherry", "tank r1"]);
    expect(found("rbf")).toEqual(["tank dam"]);
    expect(found("tuft")).toEqual(["case tuft-1"]);
    expect(found("xyz")).toEqual([]);
  });

  test("all of them for no query, days for who asks for a date", () => {
    expect(found("")).toEqual(
      ["tank dam", "tank r1", "room room", "case tuft-1", "species cherry"].sort((a, b) =>
        a.split(" ")[1]! < b.split(" ")[1]! ? -1 : 1,
      ),
    );
    expect(found("2026-03")).toEqual(["day 2026-03-01", "day 2026-03-02"]);
    const [day] = workspaceSymbols(checked, "2026-03-02");
    expect(checked.logbook.sources.get("a.tank")!.text.slice(day!.place.start, day!.place.end)).toBe(
      "2026-03-02",
    );
  });
});
