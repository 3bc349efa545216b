import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDay } from "../../language/book/day.ts";
import {
  Col,
  type Facts,
  floatsPerRow,
  intsPerRow,
  kindOfRow,
  minuteOfRow,
} from "../../language/book/facts.ts";
import { Source } from "../../language/book/source.ts";
import { textFindings } from "../../language/checks/text.ts";
import {
  type ArbitraryLog,
  arbitraryLog,
  type LogDay,
  type LogLine,
  lineText,
} from "../support/arbitrary-log.ts";
import { damagedLog, meaningfulText } from "../support/arbitrary-text.ts";
import { findingsOf } from "../support/marked.ts";

/** The line is the wall: what is broken costs itself only. */

/** The facts of some lines of a day, each row as text, by the line it stands in; times of day apart. */
function rowsByLine(facts: Facts, text: string): Map<number, string[]> {
  const lineOf = (offset: number): number => text.slice(0, offset).split(/\r\n|\r|\n/).length - 1;
  const rows = new Map<number, string[]>();
  for (let row = 0; row < facts.count; row++) {
    const ints = [...facts.ints.subarray(row * intsPerRow + Col.target, row * intsPerRow + Col.start)];
    const floats = [...facts.floats.subarray(row * floatsPerRow, (row + 1) * floatsPerRow)];
    const line = lineOf(facts.ints[row * intsPerRow + Col.start]!);
    const said = `${kindOfRow(facts, row)} ${minuteOfRow(facts, row)} ${ints} ${floats}`;
    rows.set(line, [...(rows.get(line) ?? []), said]);
  }
  return rows;
}

function textOfDay({ head, lines }: LogDay, eol: string): string {
  return [head, ...lines.map(lineText), ""].join(eol);
}

/** What a slip may leave of a line, its indentation kept: it still holds something, and is neither a comment nor a sheet. */
const slips: fc.Arbitrary<(text: string) => string> = fc.oneof(
  fc.constantFrom(
    (text: string) => `${text} ¤`,
    (text: string) => `¤ ${text}`,
    (text: string) => text.replace(/\s+\S+\s*$/, ""),
    (text: string) => text.replace(/^\S+\s+/, ""),
    (text: string) => text.replace(/ /, ""),
    (text: string) => `${text} "`,
    (text: string) => text.replace(/[aeiou]/, ""),
    (text: string) => text.replace(/\d/, "7,5"),
    (text: string) => `${text} -> ->`,
    (text: string) => text.replaceAll(" ", "\u3000"),
    (text: string) => [...text].reverse().join(""),
  ),
  meaningfulText
    .map((text) => text.replace(/[\r\n]/g, " ").trim())
    .filter((text) => text !== "" && !text.startsWith("#"))
    .map((text) => () => text),
);

/** A day of a log with the place of one of its entries. */
const dayWithEntry: fc.Arbitrary<{ log: ArbitraryLog; day: LogDay; at: number }> = arbitraryLog
  .map((log) => ({
    log,
    places: log.days.flatMap((day) =>
      day.lines.flatMap((line, at) => (line.is === "entry" || line.is === "row" ? [{ day, at }] : [])),
    ),
  }))
  .filter(({ places }) => places.length > 0)
  .chain(({ log, places }) => fc.constantFrom(...places).map((place) => ({ log, ...place })));

const timed = /^(\d{1,2}:\d{2} )(.*)$/;

describe("break any one entry of any valid log", () => {
  it("and all other lines say what they said", () => {
    fc.assert(
      fc.property(dayWithEntry, slips, ({ log, day, at }, slip) => {
        const line = day.lines[at]!;
        // The time is kept: it is that of the entries below, too.
        const [, time = "", rest = line.text] = timed.exec(line.text) ?? [];
        const broken: LogLine = { ...line, text: time + slip(rest).trim() };
        fc.pre(!/^\s*(?:#|$)|^(?:\d+:\d+ )?\s*sheet\b|^\d{1,2}:\d{2}/.test(broken.text.slice(time.length)));
        const lines = day.lines.map((each, index) => (index === at ? broken : each));
        const before = textOfDay(day, log.eol);
        const after = textOfDay({ ...day, lines }, log.eol);
        const said = rowsByLine(readDay(before), before);
        const saidAfter = rowsByLine(readDay(after), after);
        said.delete(at + 1);
        saidAfter.delete(at + 1);
        expect(saidAfter).toEqual(said);
      }),
      { numRuns: 2000 },
    );
  });

  it("and no other line has a finding of it", () => {
    fc.assert(
      fc.property(dayWithEntry, slips, ({ log, day, at }, slip) => {
        const line = day.lines[at]!;
        const broken: LogLine = { ...line, text: slip(line.text).trim() };
        fc.pre(!/^\s*(?:#|$)|^(?:\d+:\d+ )?\s*sheet\b/.test(broken.text));
        const lines = day.lines.map((each, index) => (index === at ? broken : each));
        const text = textOfDay({ ...day, lines }, log.eol);
        for (const problem of readDay(text).problems)
          expect(text.slice(0, problem.start).split(/\r\n|\r|\n/).length - 1).toBe(at + 1);
      }),
      { numRuns: 1000 },
    );
  });
});

describe("break the head of a block", () => {
  const heads = [
    "2026-02-30",
    "2026-13-01",
    "2026/03/01",
    "01.03.2026",
    "tnak x",
    "¤",
    "<<<<<<< HEAD",
    "Sunday",
  ];

  it("and its lines are kept, with one finding at the head and none below", () => {
    fc.assert(
      fc.property(arbitraryLog, fc.constantFrom(...heads), (log, head) => {
        fc.pre(log.days.length > 0);
        const text = textOfDay({ ...log.days[0]!, head }, log.eol);
        const source = new Source("log.tank", text);
        expect(source.blocks).toHaveLength(1);
        expect(source.blocks[0]!.text).toBe(text);
        const findings = textFindings(source.blocks[0]!);
        expect(findings.map(({ start }) => text.slice(0, start).includes("\n"))).toEqual([false]);
      }),
    );
  });

  it("and mend it: all is back", () => {
    fc.assert(
      fc.property(arbitraryLog, (log) => {
        fc.pre(log.days.length > 0);
        const day = log.days[0]!;
        const source = new Source("log.tank", textOfDay({ ...day, head: "2026-02-30" }, log.eol));
        source.edit(0, 10, day.head.slice(0, 10));
        const fresh = readDay(source.text);
        expect(source.blocks[0]!.facts).toEqual(fresh);
      }),
    );
  });
});

describe("break the head of a sheet", () => {
  const rows = `    dam  24.5  7.2
    r1   24.1  -     "well"
`;
  const after = "  dam  change 30 %\n";

  it.each([
    ["a mark that cannot be read", "  sheet  temperature  ¤"],
    ["the word misspelt", "  shet  temperature  pH"],
    ["the word misspelt, with a time", "  08:40 sheeet  temperature  pH"],
    ["a head that is a number", "  sheet  temperature  7"],
    ["no heads", "  sheet"],
    ["an unclosed bracket", "  sheet  temperature (F  pH"],
  ])("by %s: one finding, at the head", (_, head) => {
    const log = `tank dam\n  volume 100 L\ntank r1\n  volume 24 L\n2026-03-01\n${head}\n${rows}${after}`;
    const findings = findingsOf(log);
    expect(
      findings.map(({ code, block, start }) => [code, block.text.slice(0, start).split("\n").length]),
    ).toEqual([[expect.stringMatching(/^(?:sheet|syntax)\//), 2]]);
    expect(findings[0]!.block.facts.count).toBe(1);
  });
});

describe("what a day says", () => {
  it("follows from what of its text counts alone", () => {
    fc.assert(
      fc.property(damagedLog, damagedLog, (text, other) => {
        for (const block of new Source("log.tank", text).blocks) {
          if (block.kind !== "day") continue;
          // Nothing is left of what was read in between.
          new Source("other.tank", other);
          expect(readDay(block.counted)).toEqual(block.facts);
        }
      }),
      { numRuns: 200 },
    );
  });
});
