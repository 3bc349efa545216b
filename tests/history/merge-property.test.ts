import fc from "fast-check";
import { expect, test } from "vitest";
import { blocksOf, type LogLine, linesOfBlock } from "../../language/history/log-lines.ts";
import { mergeLogs } from "../../language/history/merge/merge-log.ts";
import { conflictMark } from "../../language/syntax/conflict-mark.ts";
import { type ThreeWays, threeWays } from "./three-ways.ts";

/** What holds of every merge. `RUNS` in the environment asks for more of them. */

const numRuns = Number(process.env.RUNS ?? 300);
const always = (holds: (ways: ThreeWays) => void): void =>
  fc.assert(fc.property(threeWays, holds), { numRuns });

interface Said {
  readonly day: string;
  readonly line: LogLine;
}

const saidIn = (text: string): Said[] =>
  blocksOf(text).flatMap((block) => linesOfBlock(block).map((line) => ({ day: block.name, line })));

/** What each line of a log says, one thing at a time, with its day. The heads of days and rounds say nothing: they stand where something stands below. */
function factsOf(text: string): string[] {
  return saidIn(text).flatMap(({ day, line }) => {
    if ((line.kind === "head" && /^\d/.test(line.content)) || line.kind === "sheet") return [];
    if (line.kind === "comment" || line.kind === "blank" || conflictMark(line.text) !== undefined) return [];
    if (line.kind === "row") return cellsOf(line).map((cell) => `${day} ${cell}`);
    if (line.facts.length === 0) return [`${day} ${line.kind} ${line.content}`];
    return line.facts.map(({ about, value }) => `${day} ${line.station} ${line.word} ${about} ${value}`);
  });
}

/** The cells of a row that say something, each with its unit: `7 F` under any head is what `7` is under `temperature (F)`. */
function cellsOf({ station, facts, note, content }: LogLine): string[] {
  const cells = facts.flatMap(({ about, value }) => {
    if (value === "-") return [];
    const [, name = about, unit = ""] = /^(\S+)(?: \((.*)\))?$/.exec(about) ?? [];
    return [`${station} ${name} ${/^[<\d.]+$/.test(value) ? `${value} ${unit}`.trim() : value}`];
  });
  if (station === "") return [content];
  return note === "" ? cells : [...cells, `${station} ${note}`];
}

const isTwice = (log: string): boolean => new Set(factsOf(log)).size < factsOf(log).length;

/** Each line that says something, with its day and time. */
function saidAt(text: string): string[] {
  return saidIn(text).flatMap(({ day, line }) => {
    if (["head", "sheet", "comment", "blank"].includes(line.kind) || conflictMark(line.text) !== undefined)
      return [];
    // The text behind a row is no reading: two rows may end in the same.
    if (line.kind === "row")
      return cellsOf({ ...line, note: "" }).map((cell) => `${day}|${line.time}|row ${cell}`);
    return [`${day}|${line.time}|${line.kind} ${line.content}`];
  });
}

function countsOf(items: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const item of items) counts.set(item, (counts.get(item) ?? 0) + 1);
  return counts;
}

/** How often something should stand that stood `base`, `ours` and `theirs` times. */
function countAfter(base: number, ours: number, theirs: number): number {
  const [a, b] = [ours - base, theirs - base];
  if (a * b <= 0) return base + a + b;
  return base + (a > 0 ? Math.max(a, b) : Math.min(a, b));
}

function daysOfSeveralBlocks(text: string): string[] {
  const days = blocksOf(text).flatMap(({ kind, name }) => (kind === "day" ? [name] : []));
  return days.filter((day, at) => days.indexOf(day) < at);
}

function daysOfSeveralRounds(text: string): string[] {
  const days = saidIn(text).flatMap(({ day, line }) => (line.kind === "sheet" ? [day] : []));
  return days.filter((day, at) => days.indexOf(day) < at);
}

/** Tanks that have two rows on one day: which of them a reading was of nobody can tell. */
function tanksOfTwoRows(text: string): string[] {
  const rows = saidIn(text).flatMap(({ day, line }) =>
    line.kind === "row" ? [`${day}|row ${line.station}`] : [],
  );
  return rows.filter((row, at) => rows.indexOf(row) < at);
}

/** How often something stands that each side took away where the other did not. */
function leftOf(counts: readonly Map<string, number>[], said: string): number {
  const [base, ours, theirs] = counts.map((each) => each.get(said) ?? 0);
  return Math.max(0, Math.min(base!, ours!) + Math.min(base!, theirs!) - base!);
}

const merged = ({ base, ours, theirs }: ThreeWays) => {
  const result = mergeLogs(base, ours, theirs);
  expect(result).toBeDefined();
  return result!;
};

test("nothing is lost and nothing doubled: each thing stands as often as the two sides together say", () => {
  always((ways) => {
    const { text, conflicts } = merged(ways);
    const versions = [ways.base, ways.ours, ways.theirs];
    const cutDays = new Set(
      versions.flatMap((text) => [...daysOfSeveralBlocks(text), ...daysOfSeveralRounds(text)]),
    );
    const twoRows = new Set(versions.flatMap(tanksOfTwoRows));
    const timed = [...versions, text].map((each) => countsOf(saidAt(each)));
    const should = (counts: readonly Map<string, number>[], said: string): number => {
      const [b, o, t] = counts.map((each) => each.get(said) ?? 0);
      return countAfter(b!, o!, t!);
    };
    // One thing at two times is two; a line may have its time from one side and its figure from the other.
    const most = new Map<string, number>();
    for (const said of new Set(timed.flatMap((each) => [...each.keys()]))) {
      const [day, , ...rest] = said.split("|");
      const line = `${day}|${rest.join("|")}`;
      most.set(line, (most.get(line) ?? 0) + should(timed, said));
    }
    const plain = [...versions, text].map((each) =>
      countsOf(saidAt(each).map((said) => said.replace(/\|[^|]*/, ""))),
    );
    const whole = new Set(versions.flatMap((each) => each.split(/\r?\n/)));
    const isWhole = text.split(/\r?\n/).every((line) => whole.has(line));
    for (const said of new Set(plain.flatMap((each) => [...each.keys()]))) {
      const [one, sum] = [should(plain, said), most.get(said) ?? 0];
      // Of a day that is cut in blocks, or has several rounds, each side may have taken another away.
      const isUnclear = cutDays.has(said.slice(0, 10)) || twoRows.has(said.split(" ", 2).join(" "));
      const least = isUnclear ? Math.min(one, sum, leftOf(plain, said)) : Math.min(one, sum);
      const is = plain[3]!.get(said) ?? 0;
      if (isWhole || conflicts > 0) expect(is, said).toBeGreaterThanOrEqual(least);
      if (conflicts === 0) expect(is, said).toBeLessThanOrEqual(Math.max(one, sum, isWhole ? 0 : 1));
    }
    // What stands at two times is two things, of which the counts above tell.
    if (versions.some(isTwice)) return;
    const facts = [...versions, text].map((each) => countsOf(factsOf(each)));
    for (const fact of new Set(facts.flatMap((each) => [...each.keys()])))
      if (should(facts, fact) > 0 && !cutDays.has(fact.slice(0, 10)))
        expect(facts[3]!.has(fact), fact).toBe(true);
  });
});

test("comments of either side stand in the result", () => {
  always((ways) => {
    const commentsOf = (text: string) =>
      new Set(
        saidIn(text).flatMap(({ line }) => (line.kind === "comment" ? [line.content] : line.comment || [])),
      );
    const [base, ours, theirs, result] = [ways.base, ways.ours, ways.theirs, merged(ways).text].map(
      commentsOf,
    );
    for (const comment of [...ours!, ...theirs!]) if (!base!.has(comment)) expect(result).toContain(comment);
  });
});

test("no line is broken that was whole", () => {
  always((ways) => {
    const broken = (text: string) =>
      saidIn(text)
        .filter(({ line }) => line.kind === "unread" && conflictMark(line.text) === undefined)
        .map(({ line }) => line.content);
    const known = new Set([ways.base, ways.ours, ways.theirs].flatMap(broken));
    expect(broken(merged(ways).text).filter((line) => !known.has(line))).toEqual([]);
  });
});

test("the sides can be swapped: the same is said, and as much is left to choose", () => {
  always((ways) => {
    const one = merged(ways);
    const two = merged({ base: ways.base, ours: ways.theirs, theirs: ways.ours });
    // Conflicts that touch are one, so that their number hangs on the order of the lines.
    expect(two.conflicts > 0).toBe(one.conflicts > 0);
    expect(factsOf(two.text).sort()).toEqual(factsOf(one.text).sort());
  });
});

/** What a log says, by what it is about; how many lines are of one tank and work, and when, under `#`. */
function saidAbout(text: string): Map<string, string> {
  const all = new Map<string, string[]>();
  const put = (about: string, said: string): void => {
    all.set(about, [...(all.get(about) ?? []), said]);
  };
  for (const { day, line } of saidIn(text)) {
    if (line.kind === "comment" || line.kind === "blank") continue;
    const lead = [day, line.kind, line.station, line.word].join("|");
    const isDayHead = line.kind === "head" && /^\d/.test(day);
    // A definition is taken away with all it says.
    if (line.kind === "head" && !isDayHead) put(`${day}|#`, "");
    if (line.kind !== "head" && line.kind !== "sheet") put(`${lead}|#`, line.time);
    // Heads of columns are one fact, so is the text at the head of a day.
    if (line.kind === "sheet" || (line.kind === "head" && line.note !== ""))
      put(`${day}|${line.kind}`, line.content);
    else if (line.kind === "unread") put(`${day}|unread`, line.content);
    else if (line.facts.length === 0) put(lead, line.content);
    for (const { about, value } of line.facts) put(`${lead}|${about}`, `${line.time} ${value}`);
    if (line.note !== "") put(`${lead}|note`, line.note);
    if (line.comment !== "") put(`${lead}|comment`, line.comment);
  }
  return new Map([...all].map(([about, said]) => [about, said.sort().join("; ")]));
}

/** Whether a row has a cell that stands under no head: then nobody can tell its round apart. */
const hasLooseCells = (text: string): boolean =>
  saidIn(text).some(
    ({ line }) => line.kind === "row" && line.facts.some(({ about }) => about.startsWith("column ")),
  );

test("a conflict is left only where both sides changed the same, or one took away what the other changed", () => {
  always(({ base, ours, theirs }) => {
    if (merged({ base, ours, theirs }).conflicts === 0 || [base, ours, theirs].some(hasLooseCells)) return;
    const was = saidAbout(base);
    const [own, other] = [ours, theirs].map((text) => {
      const is = saidAbout(text);
      return [...new Set([...was.keys(), ...is.keys()])].filter((about) => was.get(about) !== is.get(about));
    });
    const isLineOf = (line: string, about: string): boolean =>
      line.endsWith("|#") && about.startsWith(line.slice(0, -1));
    const isMet = own!.some((about) =>
      other!.some((each) => each === about || isLineOf(each, about) || isLineOf(about, each)),
    );
    expect(isMet).toBe(true);
  });
});

test("in a day whose entries stand in the order of their times they do so after it, whichever side is ours", () => {
  always((ways) => {
    const timesOf = (text: string) =>
      new Map(
        blocksOf(text)
          .filter(({ kind }) => kind === "day")
          .map((block) => [
            block.name,
            linesOfBlock(block)
              .filter(({ time }) => time !== "")
              .map(({ minute }) => minute),
          ]),
      );
    const isRising = (times: readonly number[]): boolean =>
      times.every((time, at) => at === 0 || time >= times[at - 1]!);
    const { text, conflicts } = merged(ways);
    const swapped = merged({ base: ways.base, ours: ways.theirs, theirs: ways.ours });
    if (conflicts > 0) return;
    const [ours, theirs] = [timesOf(ways.ours), timesOf(ways.theirs)];
    const cutDays = new Set([ways.base, ways.ours, ways.theirs].flatMap(daysOfSeveralBlocks));
    for (const [day, times] of timesOf(text)) {
      if (cutDays.has(day)) continue;
      if (!isRising(ours.get(day) ?? []) || !isRising(theirs.get(day) ?? [])) continue;
      expect(isRising(times)).toBe(true);
      expect(timesOf(swapped.text).get(day)).toEqual(times);
    }
  });
});

test("what only one side changed is that side, to the byte; what both changed alike is that", () => {
  always(({ base, ours }) => {
    expect(mergeLogs(base, ours, base)).toEqual({ text: ours, conflicts: 0 });
    expect(mergeLogs(base, base, ours)).toEqual({ text: ours, conflicts: 0 });
    expect(mergeLogs(base, ours, ours)).toEqual({ text: ours, conflicts: 0 });
  });
});

test("merging a side again into what was merged changes nothing", () => {
  always((ways) => {
    const { text, conflicts } = merged(ways);
    // Of what stands twice, one that was taken away is taken away again.
    if (conflicts > 0 || [ways.base, ways.ours, ways.theirs].some(isTwice)) return;
    const again = merged({ base: ways.base, ours: text, theirs: ways.theirs });
    // What both sides changed in place may look like a correction of what one of them took away; then both stay.
    const left = factsOf(again.text);
    if (again.conflicts === 0) expect(left.sort()).toEqual(factsOf(text).sort());
    else expect(factsOf(text).filter((fact) => !left.includes(fact))).toEqual([]);
  });
});

test("line ends are those of the log", () => {
  always((ways) => {
    const { text } = merged(ways);
    const isWindows = [ways.base, ways.ours, ways.theirs].some((each) => each.includes("\r\n"));
    if (isWindows) expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    else expect(text).not.toContain("\r");
  });
});
