import { describe, expect, it } from "vitest";
import { definitionKinds } from "../../language/book/definitions/registry.ts";
import { entryKinds } from "../../language/book/entries/registry.ts";
import { findParameter } from "../../language/book/parameters.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { findUnit } from "../../language/quantity/units.ts";
import { parseBlock } from "../../language/syntax/parser.ts";
import { Mark, Piece } from "../../language/syntax/pieces.ts";
import { expectedFindings, findingsOf, shown } from "../support/marked.ts";
import { begin, pageText, tables } from "./tables.ts";

/** FORMAT.md is run: its blocks say what they say they say, its tables name what there is. */

const page = pageText();
const prose = page.slice(0, page.indexOf(begin));

/** What blocks name and do not define themselves. */
const prelude: Readonly<Record<string, string>> = {
  dam: "tank dam\n  volume 310 L",
  q1: "tank q1\n  volume 48 L\n  role quarantine",
  r1: "tank r1\n  volume 24 L",
  r2: "tank r2\n  volume 24 L",
  "rack-water": "system rack-water\n  sump 90 L",
  tap: "water tap\n  content nitrate 6 mg/L",
  ro: "water ro",
  praecox: "species praecox\n  kind fish",
  horn: "species horn\n  kind snail",
  cyclops: "food cyclops\n  kind frozen",
  flake: "food flake\n  kind dry",
  praziquantel: "remedy praziquantel\n  strength 100 %",
  salt: "remedy salt\n  strength 100 %",
  "blue-drops": "remedy blue-drops\n  strength 10 mg/mL; drop 0.05 mL",
  canister: "gear canister\n  on dam",
};

interface PageBlock {
  readonly title: string;
  readonly text: string;
}

const blocks: PageBlock[] = [...prose.matchAll(/```tank\n([\s\S]*?)```/g)].map((found) => {
  const before = prose.slice(0, found.index);
  const line = before.split("\n").length + 1;
  const heading =
    before
      .match(/^#{2,3} .*$/gm)
      ?.at(-1)
      ?.replace(/^#+ /, "") ?? "";
  return { title: `line ${line}, ${heading}`, text: found[1]! };
});

/** The findings of a block of the page, read beside what it does not define. */
function findingsBeside(text: string) {
  const defines = (name: string): boolean => new RegExp(`^[a-z]+ ${name}(?![\\w-])`, "m").test(text);
  const names = Object.keys(prelude).filter((name) => !defines(name));
  const checked = new CheckedLogbook();
  checked.set("0-prelude.tank", names.map((name) => `${prelude[name]}\n`).join(""));
  checked.set("1-page.tank", text);
  const today = checked.logbook.dayGroups.at(-1)?.day ?? 20_513;
  return checked.findings(today);
}

describe("a block of the page", () => {
  it("is there for each kind of definition and entry", () => {
    expect(blocks.length).toBeGreaterThan(20);
    for (const word of Object.keys(definitionKinds))
      expect(
        blocks.some(({ text }) => new RegExp(`^${word}\\b`, "m").test(text)),
        word,
      ).toBe(true);
    for (const { word } of entryKinds)
      expect(
        blocks.some(({ text }) => new RegExp(`^ +[@\\w-]+ +${word}\\b`, "m").test(text)),
        word,
      ).toBe(true);
  });

  it.each(blocks.map(({ title, text }) => [title, text]))(
    "raises what it marks, and nothing else: %s",
    (_, text) => {
      const found = findingsBeside(text).filter(
        ({ code }) =>
          !/^(?:stock|dose|bath|case|course|quarantine|sample|exposure)\/|^duty\/(?:overdue|short)$/.test(
            code,
          ),
      );
      expect(
        found.filter(({ block }) => block.file.path !== "1-page.tank").map(({ message }) => message),
      ).toEqual([]);
      const places = found.map((finding) => {
        const { message: _message, ...place } = shown(finding);
        return place;
      });
      const order = (a: { line: number; start: number }, b: { line: number; start: number }): number =>
        a.line - b.line || a.start - b.start;
      expect(places.sort(order)).toEqual(expectedFindings(text).sort(order));
    },
  );
});

describe("the tables of the page", () => {
  it("are those of the code; `node tests/format/tables.ts` writes them", () => {
    expect(page.slice(page.indexOf(begin))).toBe(tables());
  });
});

describe("what the prose names", () => {
  it("as a unit is one", () => {
    const [, listed] = /\nUnits: ([\s\S]*?)\. Section 8/.exec(prose)!;
    const units = [...listed!.matchAll(/`([^`]+)`/g)].map((found) => found[1]!);
    expect(units.length).toBeGreaterThan(40);
    expect(units.filter((unit) => findUnit(unit) === undefined)).toEqual([]);
  });

  it("as a parameter is one", () => {
    const [, listed] = /\nParameters: ([\s\S]*?)\n\n/.exec(prose)!;
    const names = [...listed!.matchAll(/`([^`]+)`/g)].map((found) => found[1]!);
    expect(names.length).toBeGreaterThan(15);
    expect(names.filter((name) => findParameter(name)?.name !== name)).toEqual([]);
  });

  it("as a unit for what has none is the unit of that", () => {
    const log = (unit: string): string[] =>
      findingsOf(`room "C"\n  units ${unit}\n`).map(({ message }) => message);
    const [, listed] = /`units` declares defaults: of ([\s\S]*?), of a parameter/.exec(prose)!;
    const example = {
      temperature: "F",
      volume: "L",
      length: "inch",
      mass: "g",
      concentration: "ug/L",
      conductivity: "mS/cm",
      duration: "w",
      flow: "L/min",
      hardness: "fH",
      alkalinity: "meq/L",
    };
    const named = [...listed!.matchAll(/`([^`]+)`/g)].map((found) => found[1]!);
    expect(named.sort()).toEqual(Object.keys(example).sort());
    for (const [what, unit] of Object.entries(example)) expect(log(`${what} ${unit}`), what).toEqual([]);
  });

  it("as a form of a number is read as that form", () => {
    const rows: readonly (readonly [string, number, number])[] = [
      ["18 mg/L", Piece.quantity, Mark.exact],
      ["<5 mg/L", Piece.quantity, Mark.below],
      [">100 mg/L", Piece.quantity, Mark.above],
      ["23..27 C", Piece.quantity, Mark.range],
      ["<= 25 mg/L", Piece.quantity, Mark.atMost],
      [">= 8", Piece.quantity, Mark.atLeast],
      ["~200", Piece.quantity, Mark.about],
      ["3.5.20", Piece.sexed, Mark.exact],
      ["150 x 55 x 50 cm", Piece.lengths, Mark.exact],
    ];
    const written = [...prose.matchAll(/^\| (`[^|]*`) +\| (?!.*due)/gm)].flatMap((found) =>
      [...found[1]!.matchAll(/`([^`]+)`/g)].map((form) => form[1]!),
    );
    for (const [text, kind, mark] of rows) {
      expect(written).toContain(text);
      let read: readonly number[] = [];
      const sink = {
        head: () => {},
        line: (pieces: { count: number; kind: Uint8Array; mark: Uint8Array }) => {
          read = [pieces.count, pieces.kind[0]!, pieces.mark[0]!];
        },
        broken: () => {},
      };
      parseBlock(text, sink, true);
      expect(read, text).toEqual([1, kind, mark]);
    }
  });

  it("as a duty is one", () => {
    const written = [...prose.matchAll(/^\| `((?:every|at) [^`]+)` /gm)].map((found) => found[1]!);
    expect(written).toHaveLength(3);
    expect(findingsOf(`tank dam\n  volume 9 L\n${written.map((duty) => `  ${duty}\n`).join("")}`)).toEqual(
      [],
    );
  });
});

describe("examples of the declarations", () => {
  it.each(entryKinds.flatMap((kind) => kind.examples.map((example) => [kind.word, example] as const)))(
    "of an entry are entries: %s",
    (_, example) => {
      const text = `2026-03-01\n  dam ${example}\n`;
      const wrong = findingsBeside(text).filter(({ code }) => /^(?:syntax|entry|unit|value)\//.test(code));
      expect(wrong.map(({ message }) => message)).toEqual([]);
    },
  );

  it.each(
    Object.values(definitionKinds).flatMap((kind) =>
      kind.properties.flatMap((property) =>
        property.examples.map((example) => [kind.word, example] as const),
      ),
    ),
  )("of a property are properties: %s, %s", (word, example) => {
    const head = word === "room" ? "room" : word === "group" ? "group x = dam" : `${word} x`;
    const wrong = findingsBeside(`${head}\n  ${example}\n`).filter(
      ({ code, block }) =>
        block.file.path === "1-page.tank" &&
        /^(?:syntax|entry|unit|value|definition\/(?!volume)|duty\/(?:form|kind))/.test(code),
    );
    expect(wrong.map(({ message }) => message)).toEqual([]);
  });
});
