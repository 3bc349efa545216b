import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { entryKinds } from "../../language/book/entries/registry.ts";
import type { EntryKind } from "../../language/book/kind.ts";
import { Source } from "../../language/book/source.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { arbitraryLog, definitions, entryText, filesOfLog } from "../support/arbitrary-log.ts";
import { rangeOf, type Splice, splice } from "../support/arbitrary-text.ts";
import { figuresOf, findingText } from "../support/figures.ts";

/** However a logbook came to what it is, it says what it would say if it were read anew. */

const today = 20_454 + 60;

type Step =
  | { readonly do: "edit"; readonly file: number; readonly edit: Splice }
  /** Writes another digit over one that stands there. */
  | { readonly do: "digit"; readonly file: number; readonly at: number; readonly digit: string }
  /** Writes another name over one that stands there: of a lot, a tank, a tool. */
  | { readonly do: "name"; readonly file: number; readonly at: number; readonly name: string }
  /** Types an entry on a new line of a day. */
  | { readonly do: "entry"; readonly file: number; readonly at: number; readonly text: string }
  /** Deletes whole lines, as a keeper does. */
  | { readonly do: "cut lines"; readonly file: number; readonly at: number; readonly lines: number }
  | { readonly do: "remove"; readonly file: number }
  | { readonly do: "set"; readonly file: number; readonly from: number }
  /** Asks to see the logbook as of a day, or no longer. */
  | { readonly do: "as of"; readonly day: number }
  /** Looks: what is asked in between must not change what is said later. */
  | { readonly do: "look"; readonly day: number };

const place = fc.double({ min: 0, max: 1, noNaN: true });

const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant("digit" as const),
      file: fc.nat(4),
      at: place,
      digit: fc.constantFrom(..."0123456789"),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      do: fc.constant("name" as const),
      file: fc.nat(4),
      at: place,
      name: fc.constantFrom(
        ..."a17 b18 praecox cherry dam q1 rack canister net flukes-1 spot o-12".split(" "),
      ),
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant("entry" as const),
      file: fc.nat(4),
      at: place,
      text: fc.constantFrom<EntryKind>(...entryKinds).chain(entryText),
    }),
  },
  { weight: 6, arbitrary: fc.record({ do: fc.constant("edit" as const), file: fc.nat(4), edit: splice }) },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant("cut lines" as const),
      file: fc.nat(4),
      at: place,
      lines: fc.integer({ min: 1, max: 4 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant("as of" as const),
      day: fc.constantFrom(today - 30, today - 3, Number.NaN),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("remove" as const), file: fc.nat(4) }) },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant("set" as const), file: fc.nat(4), from: fc.nat(3) }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      do: fc.constant("look" as const),
      day: fc.constantFrom(today, today, today, today - 20, today + 9),
    }),
  },
);

function take(checked: CheckedLogbook, paths: readonly string[], next: Step): void {
  const { sources } = checked.logbook;
  if (next.do === "look") {
    checked.findings(next.day);
    figuresOf(checked, next.day);
    return;
  }
  if (next.do === "as of") {
    checked.logbook.asOf = next.day;
    return;
  }
  const path = paths[next.file % paths.length]!;
  const source = sources.get(path);
  if (next.do === "remove") checked.remove(path);
  else if (next.do === "set") checked.set(path, sources.get(paths[next.from % paths.length]!)?.text ?? "");
  else if (source !== undefined && next.do === "edit") {
    const { start, end } = rangeOf(next.edit, source.text);
    checked.take(source.edit(start, end, next.edit.insert));
  } else if (source !== undefined && next.do === "digit") {
    const at = source.text.slice(Math.floor(next.at * source.text.length)).search(/\d/);
    const start = Math.floor(next.at * source.text.length) + at;
    if (at >= 0) checked.take(source.edit(start, start + 1, next.digit));
  } else if (source !== undefined && next.do === "name") {
    const from = Math.floor(next.at * source.text.length);
    const met =
      /(?<![\w-])(a17|b18|praecox|cherry|dam|q1|rack|canister|net|flukes-1|spot|o-12)(?![\w-])/.exec(
        source.text.slice(from),
      );
    if (met !== null)
      checked.take(source.edit(from + met.index, from + met.index + met[0].length, next.name));
  } else if (source !== undefined && next.do === "entry") {
    const start = source.text.indexOf("\n", Math.floor(next.at * source.text.length)) + 1;
    checked.take(source.edit(start, start, `  ${next.text}\n`));
  } else if (source !== undefined && next.do === "cut lines") {
    const { text } = source;
    const start = text.lastIndexOf("\n", Math.floor(next.at * text.length)) + 1;
    let end = start;
    for (let line = 0; line < next.lines && end >= 0 && end < text.length; line++) {
      const feed = text.indexOf("\n", end);
      end = feed < 0 ? text.length : feed + 1;
    }
    checked.take(source.edit(start, end, ""));
  }
}

/** Weeks of tests and changes on the way to a limit, a course that stops, feeding now too much and now too little. */
const history = Array.from({ length: 9 }, (_, week) => {
  const day = isoOf(today - 63 + week * 7);
  return [
    day,
    "  b1 feed flake",
    `  dam test nitrate ${12 + week * 1.4}, KH ${8 - week / 4}`,
    "  r1 count cherry ~20",
    `  dam change ${5 + week / 10} %`,
    week === 6 || week === 7 ? "  q1 dose prazi 96 mg" : "  08:15 dam feed flake",
    week % 3 === 0 ? "  rack-water test nitrate 20\n  q1 arrive praecox 4" : "  dam feed flake, cyclops",
    "",
  ].join("\n");
}).join("\n");

function anew(checked: CheckedLogbook): CheckedLogbook {
  const fresh = new CheckedLogbook();
  fresh.logbook.asOf = checked.logbook.asOf;
  for (const { path, text } of checked.logbook.sources.values()) fresh.set(path, text);
  return fresh;
}

const said = (checked: CheckedLogbook, day = today): string[] => checked.findings(day).map(findingText);

describe("after any edits", () => {
  it("a logbook says what one read anew says", () => {
    fc.assert(
      fc.property(
        arbitraryLog,
        fc.integer({ min: 1, max: 3 }),
        fc.array(step, { minLength: 1, maxLength: 12 }),
        (log, parts, steps) => {
          const checked = new CheckedLogbook();
          const files = filesOfLog(log, parts).set("0-history.tank", history);
          for (const [path, text] of files) checked.set(path, text);
          // The history twice: what follows from a row in the middle of a day is there.
          const paths = ["0-history.tank", ...files.keys()];
          for (const next of steps) {
            take(checked, paths, next);
            // What is kept from one look to the next must not be stale at the next.
            checked.findings(today);
          }
          const fresh = anew(checked);
          expect(said(checked)).toEqual(said(fresh));
          expect(figuresOf(checked, today)).toEqual(figuresOf(fresh, today));
          expect(checked.count(today)).toEqual(fresh.count(today));
        },
      ),
      { numRuns: 300 },
    );
  });

  it("a finding at an entry goes with it, though nothing of its own water changed", () => {
    const checked = new CheckedLogbook();
    checked.set("0.tank", definitions);
    checked.set("1.tank", history);
    const places = (): string[] => said(checked).filter((text) => text.includes("dose/overdue"));
    expect(places()).toHaveLength(1);
    const source = checked.logbook.sources.get("1.tank")!;
    const above = source.text.lastIndexOf(
      "\n",
      source.text.lastIndexOf("  dam change", source.text.lastIndexOf("prazi")),
    );
    checked.take(source.edit(above, above, '\n  b1 note "eggs"'));
    expect(places()).toEqual(said(anew(checked)).filter((text) => text.includes("dose/overdue")));
  });

  it("an entry that another finding goes by is shown where it stands now", () => {
    const checked = new CheckedLogbook();
    checked.set("0.tank", definitions);
    checked.set(
      "1.tank",
      `${isoOf(today)}\n  r1 arrive cherry 10\n  b1 feed flake\n  @rack test copper 0.1, GH 1.5\n`,
    );
    const criteria = (log: CheckedLogbook): string[] =>
      said(log).filter((text) => text.includes("test GH 1.5"));
    expect(criteria(checked)).not.toEqual([]);
    const source = checked.logbook.sources.get("1.tank")!;
    const at = source.text.indexOf("flake");
    checked.take(source.edit(at, at + 5, "pellet"));
    expect(criteria(checked)).toEqual(criteria(anew(checked)));
  });

  it("a parent that an entry names is found below a line of water that nobody knows", () => {
    const checked = new CheckedLogbook();
    checked.set("0.tank", definitions);
    const rows = "  dam eggs horn 3 lot a17\n  flukes 12:00\n  dam spawn praecox father a17\n";
    checked.set("1.tank", `${isoOf(today)}\n${rows}`);
    const pedigree = (log: CheckedLogbook): string[] =>
      said(log).filter((text) => text.includes("pedigree/"));
    expect(pedigree(checked)).not.toEqual([]);
    const source = checked.logbook.sources.get("1.tank")!;
    const at = source.text.indexOf("flukes");
    checked.take(source.edit(at, at + 6, "mud"));
    expect(pedigree(checked)).toEqual(pedigree(anew(checked)));
  });

  it("a file's blocks are those of its text", () => {
    fc.assert(
      fc.property(arbitraryLog, fc.array(splice, { minLength: 1, maxLength: 8 }), (log, edits) => {
        const source = new Source("log.tank", [...filesOfLog(log, 1).values()].join("\n"));
        for (const edit of edits) {
          const { start, end } = rangeOf(edit, source.text);
          source.edit(start, end, edit.insert);
          const fresh = new Source("log.tank", source.text);
          const shape = ({ blocks }: Source) =>
            blocks.map(({ kind, start, text, day, facts, problems }) => ({
              kind,
              start,
              text,
              day,
              facts,
              problems,
            }));
          expect(shape(source)).toEqual(shape(fresh));
        }
      }),
      { numRuns: 200 },
    );
  });
});
