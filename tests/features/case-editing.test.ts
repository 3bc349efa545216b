import { describe, expect, test } from "vitest";
import { completions } from "../../language/features/completion.ts";
import { definitionsAt } from "../../language/features/definition.ts";
import { highlightsAt } from "../../language/features/highlights.ts";
import { referencesAt } from "../../language/features/references.ts";
import { rename } from "../../language/features/rename.ts";
import { workspaceSymbols } from "../../language/features/symbols.ts";
import { atCursor, edited } from "../support/cursor.ts";
import { logbookOf } from "../support/marked.ts";

const room = `species praecox
tank q1
  volume 50 L
tank b3
  volume 45 L
remedy prazi
  target 2 mg/L
gear net-a
  kind net
`;
const days = `2026-03-01
  q1 sick praecox 3 of 14 signs "white spots" case flukes-1
  b3 sick praecox 1 of 9 case fin-1
2026-03-03
  q1 dose prazi 100 mg case flukes-1
  q1 bath praecox 2 with prazi 9 mg/L for 10 min case flukes-1
  q1 lose praecox 1 found case flukes-1
  q1 sample gill 2 of praecox case flukes-1
  q1 send flukes-1 sent
  q1 ask flukes-1 "which?"
2026-03-09
  q1 result flukes-1 positive
  b3 close fin-1 recovered
`;

describe("the name of a case", () => {
  const marked = (room + days).replace("result flukes", "result flu¦kes");

  test("leads to its first entry, and to all that name it", () => {
    const { view, offset } = atCursor(marked);
    const [first, ...others] = definitionsAt(view, offset);
    expect(others).toEqual([]);
    expect(view.source.text.slice(0, first!.start)).toMatch(/white spots" case $/);
    expect(referencesAt(view, offset)).toHaveLength(8);
    expect(highlightsAt(view, offset)).toHaveLength(8);
  });

  test("is renamed wherever it stands, also where no column has it", () => {
    const { view, offset } = atCursor(marked);
    const made = rename(view, offset, "worms-2");
    if ("refused" in made) throw new Error(made.refused);
    const text = edited(view.source.text, made.edits);
    expect(text).not.toContain("flukes-1");
    expect(text.match(/worms-2/g)).toHaveLength(8);
    expect(text).toContain("for 10 min case worms-2");
    expect("refused" in rename(view, offset, "fin-1")).toBe(true);
  });

  test("is found over all files, with its state", () => {
    const found = workspaceSymbols(logbookOf(room + days), "f");
    expect(
      found.filter(({ sort }) => sort === "case").map(({ name, detail }) => `${name}: ${detail}`),
    ).toEqual(["fin-1: case, closed 9 March 2026", "flukes-1: case, open since 1 March 2026"]);
  });
});

test("a species that a sample names is renamed there too", () => {
  const { view, offset } = atCursor((room + days).replace("species praecox", "species prae¦cox"));
  const made = rename(view, offset, "rainbow");
  if ("refused" in made) throw new Error(made.refused);
  expect(edited(view.source.text, made.edits)).toContain("sample gill 2 of rainbow case");
});

test("a gear that was worked with is renamed there too", () => {
  const log = `${room.replace("gear net-a", "gear net¦-a")}2026-03-01\n  q1 clean with net-a\n  q1 move praecox 2 -> b3 with net-a\n`;
  const { view, offset } = atCursor(log);
  const made = rename(view, offset, "net-b");
  if ("refused" in made) throw new Error(made.refused);
  const text = edited(view.source.text, made.edits);
  expect(text).toContain("clean with net-b");
  expect(text).toContain("-> b3 with net-b");
});

describe("completion", () => {
  const offered = (line: string) => {
    const { view, offset } = atCursor(
      `${room}${days}2026-03-10\n  ${line.includes("¦") ? line : `${line}¦`}`,
    );
    return { view, items: completions(view, offset).items };
  };
  const labels = (line: string): string[] => offered(line).items.map(({ label }) => label);
  const taken = (line: string, label: string): string => {
    const { view, items } = offered(line);
    const item = items.find((each) => each.label === label)!;
    const { text } = view.source;
    return (text.slice(0, item.replace.start) + item.insertText + text.slice(item.replace.end)).split(
      "2026-03-10\n  ",
    )[1]!;
  };

  test("offers open cases, and of sick animals closed ones last", () => {
    expect(labels("q1 result ")).toEqual(["flukes-1"]);
    expect(labels("q1 sick praecox 1 case ")).toEqual(["flukes-1", "fin-1"]);
  });

  test("offers the signs of the vocabulary within the text, those of the case first", () => {
    const here = labels('q1 sick praecox 1 signs "¦" case flukes-1');
    expect(here[0]).toBe("white spots");
    expect(here).toContain("flashing");
    expect(labels('q1 sick praecox 1 signs "white spots, clam')[0]).toBe("clamped fins");
  });

  test("goes on behind a comma, and offers what stands there no more", () => {
    expect(labels('q1 sick praecox 1 signs "flashing, ')).not.toContain("flashing");
    expect(taken('q1 sick praecox 1 signs "flashing, cl¦a" case x', "clamped fins")).toBe(
      'q1 sick praecox 1 signs "flashing, clamped fins" case x',
    );
    expect(taken('q1 sick praecox 1 signs "cl¦, flashing"', "clamped fins")).toBe(
      'q1 sick praecox 1 signs "clamped fins, flashing"',
    );
  });

  test("finds a sign by another word for it, and offers how bad it is", () => {
    expect(labels('q1 sick praecox 1 signs "not eating')).toContain("anorexia");
    expect(labels('q1 sick praecox 1 signs "flashing ')).toContain("flashing moderate");
  });

  test("offers nothing in any other text", () => {
    expect(labels('q1 note "signs ')).toEqual([]);
    expect(labels('q1 sick praecox 1 signs "flashing" "')).toEqual([]);
    expect(labels('q1 sick praecox 1 # signs "')).toEqual([]);
  });
});
