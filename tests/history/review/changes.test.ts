import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { changesOf } from "../../../language/history/review/changes.ts";
import { changeText, countsText, marks } from "../../../language/history/review/words.ts";
import { arbitraryLog, textOf } from "../../support/arbitrary-log.ts";

/** What changed, in the words in which it is told: `~ dam test: pH 7.2 -> 7.4`. */
function told(before: string | Record<string, string>, after: string | Record<string, string>): string[] {
  const { list } = changesOf(filesOf(before), filesOf(after));
  return list.map((change) => {
    const of = change.definition || change.station;
    return [marks[change.is], of, changeText(change, 20_513)].filter((part) => part !== "").join(" ");
  });
}

const filesOf = (text: string | Record<string, string>) =>
  Object.entries(typeof text === "string" ? { "log.tank": text } : text).map(([path, each]) => ({
    path,
    text: each,
  }));

const day = (...lines: string[]): string => `2026-03-01\n${lines.map((line) => `  ${line}\n`).join("")}`;

describe("an entry", () => {
  test("that is new, and one that is gone", () => {
    expect(told(day("dam feed cyclops 2 cubes"), day("dam feed cyclops 2 cubes", "dam clean"))).toEqual([
      "+ dam clean",
    ]);
    expect(told(day("dam feed cyclops 2 cubes", "dam clean"), day("dam clean"))).toEqual([
      "- dam feed cyclops 2 cubes",
    ]);
  });

  test("is corrected value by value", () => {
    expect(told(day("dam test nitrate 18, pH 7.2"), day("dam test nitrate 18, pH 7.4"))).toEqual([
      "~ dam test: pH 7.2 -> 7.4",
    ]);
    expect(told(day('dam change 30 % "late"'), day("dam change 40 % from soft"))).toEqual([
      '~ dam change: 30 % -> from soft 40 %; text "late" taken out',
    ]);
    expect(told(day("dam test pH 7.2"), day("dam test pH 7.2, KH 4"))).toEqual(["~ dam test: KH 4 added"]);
    expect(told(day("r4 move cherry 12 -> q1"), day("r4 move cherry 10 -> q1"))).toEqual([
      "~ r4 move: cherry 10 -> q1 (it was 12 -> q1)",
    ]);
  });

  test("of another tank, or another kind", () => {
    expect(told(day("dam clean glass"), day("ford clean glass"))).toEqual([
      "~ ford clean: station dam -> ford",
    ]);
    expect(told(day("dam top-up 4 L"), day("dam change 4 L"))).toHaveLength(1);
  });

  test("moved in time, and to another day", () => {
    expect(
      told(day("08:40 dam clean", "09:00 dam feed flake"), day("dam feed flake", "10:00 dam clean")),
    ).toEqual(["> dam feed flake: 09:00 -> no time", "> dam clean: 08:40 -> 10:00"]);
    const two = (first: string, second: string): string => `2026-03-01\n${first}2026-03-02\n${second}`;
    expect(told(two("  dam clean glass\n", ""), two("", "  dam clean glass\n"))).toEqual([
      "> dam clean glass: from 1 March to 2 March",
    ]);
  });

  test("of a round is told under its heads; a cell that was not measured says so", () => {
    const round = (dam: string, q1: string): string => day("sheet pH nitrate", `  dam ${dam}`, `  q1 ${q1}`);
    expect(told(round("7.2 18", "- 20"), round("7.4 18", "7.0 20"))).toEqual([
      "~ dam sheet: pH 7.2 -> 7.4",
      "~ q1 sheet: pH not read -> 7.0",
    ]);
    expect(told(day("dam clean"), `${round("7.2 -", "7 9")}  dam clean\n`)).toEqual([
      "+ dam sheet pH 7.2",
      "+ q1 sheet pH 7, nitrate 9",
    ]);
  });

  test("that cannot be read is told as its line", () => {
    expect(told(day("dam clean"), day("dam clean", "dam tset pH 7"))).toEqual([
      "+ dam tset pH 7 (cannot be read)",
    ]);
    expect(told(day("dam test pH 7,2 ,,"), day("dam test pH 7.2"))).toHaveLength(1);
  });
});

describe("what stands around entries", () => {
  test("comments and layout are counted apart", () => {
    const { list, counts } = changesOf(
      filesOf(day("dam clean", "dam   feed flake", "dam test pH 7")),
      filesOf(day("# by hand", "dam clean", "dam feed flake", "dam test pH 7 # twice")),
    );
    expect(list).toEqual([]);
    expect(counts).toMatchObject({ comments: 2, layout: 1, added: 0 });
    expect(countsText(counts)).toBe("comments at 2 lines; only the layout of 1 line");
  });

  test("blank lines of what is new are no layout of their own", () => {
    const log = "tank dam\n  volume 100 L\n\n2026-03-01\n  dam clean\n\n2026-03-02\n  dam clean\n";
    expect(changesOf([], filesOf(log)).counts).toMatchObject({ added: 4, layout: 0, comments: 0 });
    expect(changesOf(filesOf(log), []).counts).toMatchObject({ removed: 4, layout: 0, comments: 0 });
    const wider = log.replace("\n\n2026-03-02", "\n\n\n2026-03-02");
    expect(changesOf(filesOf(log), filesOf(wider)).counts).toMatchObject({ added: 0, layout: 1 });
  });

  test("line ends are layout", () => {
    const text = day("dam clean", "dam feed flake");
    const { list, counts } = changesOf(filesOf(text), filesOf(text.replaceAll("\n", "\r\n")));
    expect([list, counts.comments]).toEqual([[], 0]);
  });

  test("the text of a day", () => {
    expect(told("2026-03-01\n  dam clean\n", '2026-03-01 "power cut"\n  dam clean\n')).toEqual([
      '~ room text "power cut" added',
    ]);
  });

  test("files that come, go, and are called otherwise", () => {
    const march = day("dam clean", "dam feed flake", "dam test pH 7");
    const { files, list, counts } = changesOf(
      filesOf({ "march.tank": march, "old.tank": "2020-01-01\n  dam clean\n" }),
      filesOf({ "2026/03.tank": march, "room.tank": 'room "X"\n' }),
    );
    expect(files).toEqual([
      { is: "renamed", path: "2026/03.tank", from: "march.tank" },
      { is: "removed", path: "old.tank", from: "" },
      { is: "added", path: "room.tank", from: "" },
    ]);
    expect(counts.refiled).toBe(0);
    expect(list.map(({ is, what }) => `${is} ${what}`)).toEqual(["added definition", "removed entry"]);
  });

  test("lines that went to another file are no change", () => {
    const one = {
      "a.tank": `${day("dam clean")}2026-03-02\n  dam feed flake\n`,
      "b.tank": "2026-03-03\n  dam clean\n",
    };
    const other = {
      "a.tank": day("dam clean"),
      "b.tank": "2026-03-02\n  dam feed flake\n2026-03-03\n  dam clean\n",
    };
    const { list, counts, files } = changesOf(filesOf(one), filesOf(other));
    expect([list, files, counts.refiled]).toEqual([[], [], 1]);
  });
});

describe("a definition", () => {
  test("is told property by property", () => {
    const tank = (...lines: string[]): string =>
      `tank dam "Dam"\n${lines.map((line) => `  ${line}\n`).join("")}`;
    expect(
      told(
        tank("volume 100 L", "limits nitrate <= 25 mg/L, pH 6..7"),
        tank("volume 110 L", "limits nitrate <= 20 mg/L, pH 6..7", "every 7 d change 30 %"),
      ),
    ).toEqual([
      "~ tank dam volume 100 L -> 110 L",
      "~ tank dam limits nitrate <= 25 mg/L -> <= 20 mg/L",
      "+ tank dam every 7 d change 30 %",
    ]);
    expect(told("group rack = r1 .. r3, q1\n", "group rack = r1 .. r3, q2\n")).toEqual([
      "~ group rack q1 -> q2",
    ]);
    expect(told('tank dam "Dam"\n', 'tank dam "The dam"\n')).toEqual(['~ tank dam text "Dam" -> "The dam"']);
  });
});

test("where the lines stand now is known, for what is told of them", () => {
  const before = `${day("dam clean", "dam feed flake", "dam test pH 7")}2026-03-02\n  dam clean glass\n`;
  const after = `${day("dam clean", "dam note “x”", "dam feed flake 2 pinches", "dam test pH 7")}2026-03-02\n  dam clean glass\n`;
  const { lines } = changesOf(filesOf(before), filesOf(after));
  for (const line of ["dam clean\n", "dam test pH 7", "dam clean glass"])
    expect(lines.now("log.tank", before.indexOf(line))).toEqual({
      path: "log.tank",
      start: after.indexOf(line),
    });
  expect(lines.now("log.tank", before.indexOf("dam feed"))).toEqual({
    path: "log.tank",
    start: after.indexOf("dam feed"),
  });
});

test("whatever the log: beside itself nothing changed, and what is there now is what was, with what came and without what went", () => {
  fc.assert(
    fc.property(arbitraryLog.map(textOf), arbitraryLog.map(textOf), (a, b) => {
      const [one, two] = [filesOf(a), filesOf(b)];
      expect(changesOf(one, one).list).toEqual([]);
      const said = (text: string): number =>
        changesOf([], filesOf(text)).list.filter(({ what }) => what !== "day").length;
      const told = changesOf(one, two).list.filter(({ what }) => what !== "day");
      const of = (is: string): number => told.filter((each) => each.is === is).length;
      expect(said(a) + of("added") - of("removed")).toBe(said(b));
    }),
    { numRuns: 60 },
  );
});

test("whatever the log: a line that is taken out is told alone, at its place", () => {
  fc.assert(
    fc.property(arbitraryLog.map(textOf), fc.nat(), (text, pick) => {
      const { list: all } = changesOf([], filesOf(text));
      const entries = all.filter(({ what, word }) => what === "entry" && word !== "sheet");
      // Below the head of a round a line may belong to it when its neighbour is gone.
      if (entries.length === 0 || /\bsheet\b/.test(text)) return;
      const { after } = entries[pick % entries.length]!;
      const end = text.indexOf("\n", after!.end) + 1 || text.length;
      const start = text.lastIndexOf("\n", after!.start) + 1;
      const { list } = changesOf(filesOf(text), filesOf(text.slice(0, start) + text.slice(end)));
      expect(list.map(({ is, before }) => [is, before?.text])).toEqual([["removed", after!.text]]);
    }),
    { numRuns: 60 },
  );
});
