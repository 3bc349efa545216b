import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { definitionKinds } from "../../language/book/definitions/registry.ts";
import { entryKinds } from "../../language/book/entries/registry.ts";
import { definitionWords } from "../../language/syntax/blocks.ts";
import { coloured, colours } from "./grammar.ts";
import { unitPattern } from "./unit-pattern.ts";

describe("a day is coloured before the server answers", () => {
  test("its head and its entries", async () => {
    expect(await colours('2026-03-01 "power cut"\n  08:40 dam  change 30 % from tap   # yes')).toEqual([
      "2026-03-01: markup.heading.day",
      '": punctuation.definition.string.begin',
      "power cut: string.quoted.double",
      '": punctuation.definition.string.end',
      "08:40: constant.numeric.time",
      "dam: entity.name.type.target",
      "change: keyword.other.entry",
      "30: constant.numeric",
      "%: keyword.other.unit",
      "from: keyword.control",
      "tap: variable.other",
      "#: punctuation.definition.comment",
      "yes: comment.line.number-sign",
    ]);
  });

  test("readings that are censored, counts with their sexes, groups, moves", async () => {
    expect(
      await colours("2026-03-01\n  @rack test nitrate <5 mg/L, pH 7.2\n  q1 move horn 3.5.20 -> r1"),
    ).toEqual([
      "2026-03-01: markup.heading.day",
      "@rack: entity.name.type.target",
      "test: keyword.other.entry",
      "nitrate: variable.other",
      "<: keyword.operator",
      "5: constant.numeric",
      "mg/L: keyword.other.unit",
      ",: punctuation.separator",
      "pH: variable.other",
      "7.2: constant.numeric",
      "q1: entity.name.type.target",
      "move: keyword.other.entry",
      "horn: variable.other",
      "3.5.20: constant.numeric.count",
      "->: keyword.operator",
      "r1: variable.other",
    ]);
  });

  test("a round: heads, rows, and the entries after it", async () => {
    const text =
      '2026-03-01\n  sheet  temperature (F)  pH\n    dam  76.3  -   # ok\n    # between\n\n    r1   <5    7 "new bulb"\n  dam clean glass';
    expect(await colours(text)).toEqual([
      "2026-03-01: markup.heading.day",
      "sheet: keyword.other.entry.sheet",
      "temperature: variable.other.property.head",
      "F: keyword.other.unit",
      "pH: variable.other.property.head",
      "dam: entity.name.type.target",
      "76.3: constant.numeric",
      "-: comment.unmeasured",
      "#: punctuation.definition.comment",
      "ok: comment.line.number-sign",
      "#: punctuation.definition.comment",
      "between: comment.line.number-sign",
      "r1: entity.name.type.target",
      "<: keyword.operator",
      "5: constant.numeric",
      "7: constant.numeric",
      '": punctuation.definition.string.begin',
      "new bulb: string.quoted.double",
      '": punctuation.definition.string.end',
      "dam: entity.name.type.target",
      "clean: keyword.other.entry",
      "glass: variable.other",
    ]);
  });

  test("a text that is left open ends on its line; a number sign inside a word or a text is no comment", async () => {
    const parts = await coloured(
      '2026-03-01\n  dam note "left open\n  dam note "no #3" a#b\n  dam clean glass',
    );
    expect(parts.filter(({ scopes }) => scopes.some((each) => each.startsWith("comment")))).toEqual([]);
    expect(parts.at(-2)).toMatchObject({
      text: "clean",
      scopes: expect.arrayContaining(["keyword.other.entry.standpipe"]),
    });
  });

  test("every kind of entry, and an entry about the room", async () => {
    for (const { word } of entryKinds) {
      expect(await colours(`2026-03-01\n  dam ${word}`), word).toContain(`${word}: keyword.other.entry`);
    }
    expect(await colours('2026-03-01\nroom note "x"')).toContain("note: keyword.other.entry");
  });

  test("every word that introduces an argument", async () => {
    const signatures = [
      ...entryKinds,
      ...Object.values(definitionKinds).flatMap(({ properties }) => properties),
    ];
    const leads = new Set(
      signatures.flatMap(({ slots }) =>
        slots.flatMap(({ lead }) => (lead === undefined || lead === "=" ? [] : [lead])),
      ),
    );
    for (const lead of leads) {
      expect(await colours(`2026-03-01\n  dam note ${lead} x`), lead).toContain(`${lead}: keyword.control`);
    }
  });
});

describe("a definition is coloured before the server answers", () => {
  test("its head, its properties one a line or parted by semicolons, its duties", async () => {
    const text =
      'tank dam "Dam"\n  inside  150 x 55 x 50 cm; filled 46 cm\n  limits  temperature 23..27 C, nitrate <= 25 mg/L\n  at least 3 per 7 d feed frozen';
    expect(await colours(text)).toEqual([
      "tank: storage.type.definition",
      "dam: entity.name.type",
      '": punctuation.definition.string.begin',
      "Dam: string.quoted.double",
      '": punctuation.definition.string.end',
      "inside: support.type.property-name",
      "150: constant.numeric",
      "x: keyword.operator",
      "55: constant.numeric",
      "x: keyword.operator",
      "50: constant.numeric",
      "cm: keyword.other.unit",
      "filled: support.type.property-name",
      "46: constant.numeric",
      "cm: keyword.other.unit",
      "limits: support.type.property-name",
      "temperature: variable.other",
      "23: constant.numeric",
      "..: keyword.operator",
      "27: constant.numeric",
      "C: keyword.other.unit",
      ",: punctuation.separator",
      "nitrate: variable.other",
      "<=: keyword.operator",
      "25: constant.numeric",
      "mg/L: keyword.other.unit",
      "at least: keyword.control.duty",
      "3: constant.numeric",
      "per: keyword.control",
      "7: constant.numeric",
      "d: keyword.other.unit",
      "feed: keyword.other.entry",
      "frozen: variable.other",
    ]);
  });

  test("every kind of definition, with every property of it", async () => {
    for (const word of definitionWords) {
      for (const { word: property, form } of definitionKinds[word].properties) {
        if (form === "every" || form === "at") continue;
        const found = await colours(`${word} x1\n  ${property} y`);
        expect(found, `${word} ${property}`).toContain(`${word}: storage.type.definition`);
        expect(found, `${word} ${property}`).toContain(`${property}: support.type.property-name`);
      }
    }
  });

  test("the tanks of a group", async () => {
    expect(await colours("group rack = r1 .. r2, q1")).toEqual([
      "group: storage.type.definition",
      "rack: entity.name.type",
      "=: keyword.operator",
      "r1: entity.name.type.target",
      "..: keyword.operator",
      "r2: entity.name.type.target",
      "q1: entity.name.type.target",
    ]);
  });

  test("every unit of the table, and no other", () => {
    const grammar = readFileSync(
      join(import.meta.dirname, "../../extension/syntaxes/standpipe.tmLanguage.json"),
      "utf8",
    );
    expect(grammar).toContain(JSON.stringify(unitPattern()).slice(1, -1));
  });
});

describe("in Markdown", () => {
  test("a fenced block of the format is coloured, and what is around it is not", async () => {
    const text =
      "# Log\n\n```tank\n2026-03-01\n  dam change 30 %\n```\n\n2026-03-01 dam change\n\n```ts\ntank dam\n```";
    const parts = await coloured(text, "text.html.markdown");
    const ours = parts.filter(({ scopes }) => scopes.some((each) => each.endsWith(".standpipe")));
    expect(new Set(ours.map(({ line }) => line))).toEqual(new Set([3, 4]));
    expect(ours.find(({ text: part }) => part === "change")?.scopes).toContain(
      "meta.embedded.block.standpipe",
    );
  });
});
