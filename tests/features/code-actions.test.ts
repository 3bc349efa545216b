import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Col, intsPerRow } from "../../language/book/facts.ts";
import { codePages } from "../../language/checks/codes.ts";
import { type CodeAction, codeActions, startToday } from "../../language/features/code-actions.ts";
import { applySpaces, formatText } from "../../language/features/format.ts";
import type { View } from "../../language/features/view.ts";
import { cellarView } from "../support/cellar.ts";
import { atCursor, edited, viewOf } from "../support/cursor.ts";
import { findingsOf } from "../support/marked.ts";

const tank = `tank dam
  volume  310 L
`;

function actionsAt(marked: string, only?: string[], today?: string): { view: View; actions: CodeAction[] } {
  const { view, offset } = atCursor(marked, today);
  return { view, actions: codeActions(view, { start: offset, end: offset }, only) };
}

/** The files that an action changes, after it. */
function done(view: View, { edits, newFile }: Pick<CodeAction, "edits" | "newFile">): Record<string, string> {
  const paths = new Set(edits.map((edit) => edit.path));
  return Object.fromEntries(
    [...paths].map((path) => {
      const text = path === newFile ? "" : view.checked.logbook.sources.get(path)!.text;
      return [
        path,
        edited(
          text,
          edits.filter((edit) => edit.path === path),
        ),
      ];
    }),
  );
}

function taken(marked: string, title: string | RegExp, only?: string[], today?: string): string {
  const { view, actions } = actionsAt(marked, only, today);
  const action = actions.find((each) =>
    typeof title === "string" ? each.title === title : title.test(each.title),
  );
  if (action === undefined)
    throw new Error(`“${title}” is not among ${actions.map((each) => each.title).join(" | ")}`);
  return Object.values(done(view, action)).join("\n");
}

const titles = (marked: string, only?: string[], today?: string): string[] =>
  actionsAt(marked, only, today).actions.map((each) => each.title);

describe("of what a merge left", () => {
  const conflict = (cursor: string, between = "") =>
    `${tank}2026-03-01\n<<<<<<< HEAD\n  dam ${cursor}change 40 %\n${between}=======\n  dam   change 50 %\n>>>>>>> holiday\n  dam clean\n`;
  const of = (...lines: string[]): string => `${tank}2026-03-01\n${lines.join("")}  dam clean\n`;

  test("one version is kept, or both, letter for letter", () => {
    for (const marked of [conflict("¦"), conflict("¦", "||||||| base\n  dam change 30 %\n")]) {
      expect(taken(marked, "Keep the version of “HEAD”")).toBe(of("  dam change 40 %\n"));
      expect(taken(marked, "Keep the version of “holiday”")).toBe(of("  dam   change 50 %\n"));
      expect(taken(marked, "Keep both versions")).toBe(of("  dam change 40 %\n", "  dam   change 50 %\n"));
    }
    expect(taken(conflict("").replace("<<<<", "<<¦<<"), "Keep both versions")).toContain("50 %");
    expect(taken(conflict("").replace(">>>>", ">>¦>>"), "Keep both versions")).toContain("40 %");
  });

  test("an empty version takes the line away; a name may be missing, lines may end in CRLF, the last in nothing", () => {
    const removed = `${tank}2026-03-01\n<<<<<<<\n¦=======\n  dam clean\n>>>>>>>`;
    expect(taken(removed, "Keep the upper version")).toBe(`${tank}2026-03-01\n`);
    expect(taken(removed, "Keep the lower version")).toBe(`${tank}2026-03-01\n  dam clean\n`);
    expect(taken(conflict("¦").replaceAll("\n", "\r\n"), "Keep both versions")).toBe(
      of("  dam change 40 %\n", "  dam   change 50 %\n").replaceAll("\n", "\r\n"),
    );
  });

  test("of two that follow each other that of the cursor is settled", () => {
    const second = conflict("").slice(conflict("").indexOf("<<<<"));
    const two = conflict("").replace("change 50", "change¦ 50").replace("  dam clean\n", "") + second;
    expect(taken(two, "Keep the version of “holiday”")).toBe(
      of("  dam   change 50 %\n").replace("  dam clean\n", second),
    );
  });

  test("may be whole days; outside of it and of broken marks nothing is offered", () => {
    const days = `${tank}<<<<<<< HEAD\n2026-03-01\n  dam cl¦ean\n=======\n2026-03-02\n  dam clean\n>>>>>>> holiday\n`;
    expect(taken(days, "Keep the version of “holiday”")).toBe(`${tank}2026-03-02\n  dam clean\n`);
    const kept = (marked: string) => titles(marked, ["quickfix"]).filter((title) => title.startsWith("Keep"));
    expect(kept(conflict("").replace("dam clean", "dam cl¦ean"))).toEqual([]);
    expect(kept(conflict("").replace("2026-03-01", "2026-¦03-01"))).toEqual([]);
    expect(kept(conflict("¦").replace("=======\n", ""))).toEqual([]);
    expect(kept(conflict("¦").replace(">>>>>>> holiday\n", ""))).toEqual([]);
  });
});

describe("quick fixes", () => {
  test("mend what is found, laid out", () => {
    expect(taken(`${tank}2026-03-01\n  rack-water clean\n  dam chn¦ge 30 %\n`, "Write “change”")).toBe(
      `${tank}2026-03-01\n  rack-water clean\n  dam        change 30 %\n`,
    );
  });

  test("the sure one is preferred, and knows what it mends", () => {
    const { actions } = actionsAt(`${tank}2026-03-01\n  dam note "le¦ft open\n`, ["quickfix"]);
    expect(actions.map((each) => [each.title, each.isPreferred, each.finding?.code])).toEqual([
      ["Close the text", true, "syntax/text"],
    ]);
  });

  test("a definition that is missing comes laid out, in the file of its kind", () => {
    const files = `--- a.tank ---\n${tank}--- b.tank ---\n2026-03-01\n  rive¦r clean\n`;
    const { view, actions } = actionsAt(files);
    const action = actions.find((each) => each.title === "Define tank “river”")!;
    expect(done(view, action)).toEqual({
      "a.tank": `${tank.trimEnd()}\n\ntank river\n  # volume, the net volume in litres`,
    });
  });

  test("all of one code in the file at once", () => {
    const log = `${tank}2026-03-01\n  dam test nitrate 18 m¦g/l, iron 2 MG/L\n  dam test KH 4 dkh\n  dam note "x\n`;
    expect(titles(log)).toContain("Fix all 3 of “unit/spelling” in this file");
    expect(taken(log, /Fix all 3/)).toBe(
      `${tank}2026-03-01\n  dam   test nitrate 18 mg/L, iron 2 mg/L\n  dam   test KH 4 dKH\n  dam note "x\n`,
    );
  });

  test("all that is sure, when it is asked for", () => {
    const log = `¦${tank}2026-03-01\n  dam test nitrate 18 mg/l\n  dam note "x\n  dmm clean\n`;
    expect(titles(log)).toEqual(expect.not.arrayContaining(["Fix all that is sure in this file"]));
    for (const only of ["source", "source.fixAll", "source.fixAll.standpipe"])
      expect(taken(log, "Fix all that is sure in this file", [only])).toContain(
        `  dam   test nitrate 18 mg/L\n  dam   note "x"\n`,
      );
  });

  test("every finding of the manual that has a fix has an action for each, and it is gone after the sure one", () => {
    let fixes = 0;
    for (const { code, raises } of codePages) {
      for (const finding of findingsOf(raises)) {
        const view = viewOf(raises);
        const at = finding.block.start + finding.start;
        const actions = codeActions(view, { start: at, end: at }, ["quickfix"]);
        for (const [index, fix] of finding.fixes.entries()) {
          const action = actions.find(
            (each) => each.title === fix.title && each.finding?.code === finding.code,
          );
          expect(action, `${code}: ${fix.title}`).toBeDefined();
          fixes++;
          if (!fix.isSure || index > 0) continue;
          const [text] = Object.values(done(view, action!));
          const still = findingsOf(text!).filter(
            (each) => each.code === finding.code && each.message === finding.message,
          );
          expect(still, `${code}: ${fix.title}`).toEqual([]);
        }
      }
    }
    expect(fixes).toBeGreaterThan(20);
  });

  test("CRLF stays", () => {
    const log = `${tank}2026-03-01\n  dam chn¦ge 30 %\n  river clean\n`.replaceAll("\n", "\r\n");
    expect(taken(log, "Write “change”")).toBe(
      `${tank}2026-03-01\n  dam   change 30 %\n  river clean\n`.replaceAll("\n", "\r\n"),
    );
    expect(
      taken(log.replace("chn¦ge", "change").replace("river", "riv¦er"), "Define tank “river”"),
    ).not.toMatch(/(?<!\r)\n/);
  });
});

describe("start today", () => {
  const month = (name: string, ...days: string[]) =>
    `--- ${name} ---\n${days.map((day) => `${day}\n  dam   clean\n`).join("\n")}`;
  const started = (files: string, today: string): Record<string, string> => {
    const view = viewOf(files, undefined, today);
    const start = startToday(view);
    if (!("edits" in start)) throw new Error("today is begun");
    const edits = start.edits.map((edit) => ({ path: start.path, ...edit }));
    const files2 = done(view, { edits, newFile: start.isNewFile ? start.path : undefined });
    const text = files2[start.path]!;
    return { ...files2, [start.path]: `${text.slice(0, start.cursor)}¦${text.slice(start.cursor)}` };
  };
  const room = `--- room.tank ---\n${tank}`;

  test("at the end of the file of the month", () => {
    expect(
      started(room + month("2026-02.tank", "2026-02-28") + month("2026-03.tank", "2026-03-01"), "2026-03-04"),
    ).toEqual({
      "2026-03.tank": "2026-03-01\n  dam   clean\n\n2026-03-04\n¦",
    });
  });

  test("in a new file where a file is a month and a new month begins", () => {
    expect(started(room + month("log/2026-03.tank", "2026-03-01", "2026-03-31"), "2026-04-01")).toEqual({
      "log/2026-04.tank": "2026-04-01\n¦",
    });
  });

  test("in the file that is there for it", () => {
    expect(
      started(`${room}--- 2026-04.tank ---\n# April\n${month("2026-03.tank", "2026-03-31")}`, "2026-04-01"),
    ).toEqual({
      "2026-04.tank": "# April\n\n2026-04-01\n¦",
    });
  });

  test("in the newest file where files are no months", () => {
    expect(started(room + month("log.tank", "2026-03-31"), "2026-04-01")).toEqual({
      "log.tank": "2026-03-31\n  dam   clean\n\n2026-04-01\n¦",
    });
    expect(started(room + month("2026-03.tank", "2026-03-31", "2026-02-01"), "2026-04-01")).toHaveProperty([
      "2026-03.tank",
    ]);
  });

  test("behind a blank line in a file of Windows, too, and behind none where its days have none", () => {
    const parted = "2026-03-01\r\n  dam   clean\r\n\r\n2026-03-02\r\n  dam   clean\r\n";
    expect(started(parted, "2026-03-04")).toEqual({ "log.tank": `${parted}\r\n2026-03-04\r\n¦` });
    const close = parted.replace("\r\n\r\n", "\r\n");
    expect(started(close, "2026-03-04")).toEqual({ "log.tank": `${close}2026-03-04\r\n¦` });
  });

  test("between the days around it, parted as the others are", () => {
    expect(started(`${tank}2026-03-01\n  dam clean\n2026-03-09\n  dam clean\n`, "2026-03-04")).toEqual({
      "log.tank": `${tank}2026-03-01\n  dam clean\n2026-03-04\n¦2026-03-09\n  dam clean\n`,
    });
    expect(started(`2026-03-01\n  dam clean\n\n2026-03-09\n  dam clean\n`, "2026-03-04")).toEqual({
      "log.tank": `2026-03-01\n  dam clean\n\n2026-03-04\n¦\n2026-03-09\n  dam clean\n`,
    });
  });

  test("behind a last line that is not ended, in CRLF, in an empty log", () => {
    expect(started(`2026-03-01\r\n  dam clean`, "2026-03-04")).toEqual({
      "log.tank": "2026-03-01\r\n  dam clean\r\n\r\n2026-03-04\r\n¦",
    });
    expect(started("", "2026-03-04")).toEqual({ "log.tank": "2026-03-04\n¦" });
  });

  test("where it is begun, there it goes on", () => {
    const view = viewOf("2026-03-01\n  dam clean\n\n# after\n", undefined, "2026-03-01");
    expect(startToday(view)).toEqual({ path: "log.tank", start: 22, end: 22 });
  });

  test("is offered on blank lines and at heads", () => {
    const at = (marked: string) =>
      titles(marked, ["refactor"], "2026-03-04").filter((each) => each.startsWith("Start"));
    expect(at("2026-03-0¦1\n  dam clean\n\n")).toEqual(["Start today, 2026-03-04"]);
    expect(at("2026-03-01\n  dam clean\n¦\n")).toEqual(["Start today, 2026-03-04"]);
    expect(at("2026-03-01\n  dam cle¦an\n")).toEqual([]);
    expect(at("2026-03-04\n¦\n")).toEqual([]);
    expect(at("room\n  as-of last-entry\n2026-02-04\n¦\n")).toEqual(["Start the next day, 2026-02-05"]);
  });
});

describe("what is due", () => {
  const room = `tank dam
  volume  310 L
  every   7 d change 25..35 %
  every   7 d test nitrate, pH
tank r1
  volume  24 L
  every   14 d test temperature
tank r2
  volume  24 L
  every   14 d test temperature, pH
`;
  const past = `2026-03-01
  dam   change 30 % from tap
  dam   test nitrate 18, pH 7.2
  r1    test temperature 24
  r2    test temperature 24, pH 7
`;

  test("a sheet with a row a tank, nothing in it measured yet", () => {
    expect(taken(`${room}${past}2026-03-15\n  dam   note "x"\n¦\n`, "Sheet for what is due: 3 tanks")).toBe(
      `${room}${past}2026-03-15\n  dam   note "x"\n  sheet  nitrate  pH  temperature\n    dam  -        -   -\n    r1   -        -   -\n    r2   -        -   -\n\n`,
    );
  });

  test("its heads and tanks in the order of the last round", () => {
    const round = `2026-03-02\n  sheet  pH  temperature (F)  nitrate\n    r2   7   75               10\n`;
    expect(taken(`${room}${past}${round}2026-03-17¦\n`, /Sheet for/)).toContain(
      `2026-03-17\n  sheet  pH  temperature (F)  nitrate\n    r2   -   -                -\n    dam  -   -                -\n    r1   -   -                -\n`,
    );
  });

  test("an entry, on the blank line of the cursor or behind the last", () => {
    expect(taken(`${room}${past}2026-03-15\n\n¦\n  dam clean\n`, /dam change/)).toContain(
      "2026-03-15\n\n  dam   change 30 % from tap\n  dam clean\n",
    );
    expect(taken(`${room}${past}2026-03-15\n  dam cl¦ean\n\n# end\n`, /dam change/)).toContain(
      "2026-03-15\n  dam clean\n  dam   change 30 % from tap\n\n# end\n",
    );
  });

  test("of a duty, from where it is stated, in today's block or a new one", () => {
    const duty = `${room.replace("every   7 d change", "every   7 d ch¦ange")}${past}`;
    expect(taken(duty, "Write “dam change 30 % from tap” (7 days late)", undefined, "2026-03-15")).toContain(
      "\n\n2026-03-15\n  dam   change 30 % from tap\n",
    );
    expect(taken(`${duty}2026-03-15\n  r1    clean\n`, /dam change/, undefined, "2026-03-15")).toContain(
      "2026-03-15\n  r1    clean\n  dam   change 30 % from tap\n",
    );
  });

  test("a test is not written without its reading, and long past days are not asked of", () => {
    expect(titles(`${room}${past}2026-03-15\n¦\n`).filter((each) => each.includes("Write"))).toEqual([
      "Write “dam change 30 % from tap” (7 days late)",
    ]);
    expect(
      titles(`${room}${past}2026-03-09\n¦\n2026-03-29\n`).filter((each) => each.includes("Write")),
    ).toEqual([]);
  });

  test("a dose comes with the caution", () => {
    const course = `remedy prazi\n  target  2 mg/L\n  repeat  3 times every 7 d\ntank q1\n  volume  50 L\n2026-03-01\n  q1    dose prazi 100 mg\n2026-03-08\n  q1    change 50 %\n¦`;
    expect(titles(course)).toEqual([
      "Write “q1 dose prazi 50 mg” (due today; computed from what you stated, follow the label and a veterinarian)",
    ]);
  });
});

describe("sheets and entries", () => {
  test("a sheet as entries, with units of columns, counts, texts, times and comments", () => {
    expect(
      taken(
        `2026-03-01\n  dam   clean\n  sheet  temperature (F)  nitrate  horn\n    08:40 dam  76.3  <5  ~20  "new bulb"  # c\n    r1¦  -  4 mg/L  -\n    r2  -  -  -  "not looked at"\n  dam   clean\n`,
        "Write this sheet as entries",
      ),
    ).toBe(
      `2026-03-01
  dam   clean
  08:40 dam   test temperature 76.3 F, nitrate <5
  dam   count horn ~20 "new bulb"  # c
  r1    test nitrate 4 mg/L
  r2    note "not looked at"
  dam   clean
`.replace("  r2    note", "  r2    note"),
    );
  });

  test("not where something would be lost", () => {
    const offered = (log: string) => titles(log, ["refactor.rewrite"]);
    expect(offered("2026-03-01\n  sheet  p¦H  # round\n    dam  7\n")).toEqual([]);
    expect(offered("2026-03-01\n  sheet  p¦H\n    # a remark\n    dam  7\n")).toEqual([]);
    expect(offered("2026-03-01\n  sheet  p¦H\n    dam  7  8\n")).toEqual([]);
    expect(offered("2026-03-01\n  sheet  p¦H\n")).toEqual([]);
    expect(offered("2026-03-01\n  sheet  p¦H\n    dam  7\n")).toEqual(["Write this sheet as entries"]);
  });

  test("tests on neighbouring lines as a sheet; a unit that all have goes to the head", () => {
    expect(
      taken(
        `2026-03-01\n  dam   clean\n  dam   te¦st temperature 76.3 F, pH 7.2\n  08:40 r1 test nitrate <5 mg/L, pH 7 "low"  # c\n  r2    test temperature 75 F, nitrate 4\n  dam   clean\n  dam   test pH 7\n`,
        "Gather these tests in a sheet",
      ),
    ).toBe(`2026-03-01
  dam   clean
  sheet       temperature (F)  pH   nitrate
    dam       76.3             7.2  -
    08:40 r1  -                7    <5 mg/L  "low"  # c
    r2        75               -    4
  dam   clean
  dam   test pH 7
`);
  });

  test("the log says the same, and back again", () => {
    const reading = fc.constantFrom("24", "<5", "76 F", "7.2", ">100 mg/L", "4..6");
    const parameter = fc.constantFrom("temperature", "pH", "nitrate", "KH");
    const line = fc
      .tuple(
        fc.constantFrom("dam", "r1", "@rack", "08:40 r2"),
        fc.uniqueArray(parameter, { minLength: 1 }),
        fc.array(reading, { minLength: 4, maxLength: 4 }),
        fc.constantFrom("", ' "x"', " # c"),
      )
      .map(
        ([target, names, readings, end]) =>
          `  ${target} test ${names.map((name, at) => `${name} ${readings[at]}`).join(", ")}${end}`,
      );
    fc.assert(
      fc.property(fc.array(line, { minLength: 2, maxLength: 5 }), (lines) => {
        const view = viewOf(`2026-03-01\n${lines.join("\n")}\n`);
        const action = codeActions(view, { start: 14, end: 14 }, ["refactor.rewrite"])[0];
        if (action === undefined) return;
        const [text] = Object.values(done(view, action));
        const back = viewOf(text!);
        const again = codeActions(back, { start: 14, end: 14 }, ["refactor.rewrite"])[0];
        const rows = ({ source }: View) =>
          source.blocks
            .flatMap(({ facts }) =>
              Array.from({ length: facts.count }, (_, row) =>
                [
                  // All but whether it is an entry of its own, which is what changes.
                  ...facts.ints.slice(row * intsPerRow, row * intsPerRow + Col.marks),
                  facts.ints[row * intsPerRow + Col.marks]! & 0xffff,
                  facts.ints[row * intsPerRow + Col.lot],
                  ...facts.floats.slice(row * 3, row * 3 + 3),
                ].join(),
              ),
            )
            .sort();
        expect(rows(back)).toEqual(rows(view));
        if (again === undefined) return;
        const [entries] = Object.values(done(back, again));
        expect(rows(viewOf(entries!))).toEqual(rows(view));
      }),
      { numRuns: 200 },
    );
  });
});

describe("the sample cellar", () => {
  test("its next day: a new month, a new file, what is due there", () => {
    const view = cellarView("2026-03.tank");
    const start = startToday(view);
    expect(start).toMatchObject({
      path: "2026-04.tank",
      isNewFile: true,
      edits: [{ start: 0, end: 0, text: "2026-04-01\n" }],
    });
    const text = view.source.text.length;
    const actions = codeActions(view, { start: text, end: text });
    expect(actions[0]!.title).toBe("Start the next day, 2026-04-01");
    for (const action of actions) {
      const files = done(view, action);
      for (const made of Object.values(files)) expect(applySpaces(made, formatText(made))).toBe(made);
    }
  });
});
