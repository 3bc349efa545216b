import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { diffReport, historyReport } from "../../language/cli/schema.ts";
import { type GitRepository, gitEnvironment, sampleHistory } from "../support/git-repository.ts";
import { atDesk, cellar } from "./support.ts";

/** A year of the sample room, committed day by day, and what its keeper put right afterwards: what is told of each commit, by real git. */

let repository: GitRepository;
const march = "2026-03.tank";
const textOf = (name: string): string => readFileSync(join(repository.folder, name), "utf8");

/** Puts lines right and commits that. Each has to be there. */
function putRight(
  subject: string,
  name: string,
  ...changes: readonly (readonly [from: string, to: string])[]
): void {
  let text = textOf(name);
  for (const [from, to] of changes) {
    expect(text).toContain(from);
    text = text.replaceAll(from, to);
  }
  repository.commit(subject, { [name]: text }, "2026-04-01T08:00:00Z");
}

beforeAll(() => {
  repository = sampleHistory(cellar);
  const original = textOf(march);
  putRight("Too low by a step", march, ["  ford       test nitrate 35\n", "  ford       test nitrate 30\n"]);
  repository.commit("It was not", { [march]: original }, "2026-04-01T08:00:00Z");
  putRight("The scale said 326", march, [
    'dose praziquantel 126 mg "first',
    'dose praziquantel 326 mg "first',
  ]);
  putRight("Two were behind the wood", march, [
    "  r4         count ramshorn ~45\n",
    "  r4         count ramshorn 40\n",
  ]);
  putRight("And two were dead", march, [
    "  r4         count ramshorn 40\n",
    "  r4         count ramshorn 40\n  r4         lose ramshorn 2 found\n",
  ]);
  putRight("Measured anew", "tanks.tank", ["  volume  63 L\n", "  volume  60 L\n"]);
  repository.git("mv", march, "march.tank");
  repository.commit("Called otherwise", {}, "2026-04-01T09:00:00Z");
});
afterAll(() => repository.remove());

const ask = async (words: readonly string[]): Promise<string> => {
  const desk = { cwd: repository.folder, env: { ...gitEnvironment, NO_COLOR: "1" }, columns: 200 };
  const { out, err, status } = await atDesk(words, desk);
  expect([err, status]).toEqual(["", 0]);
  return out;
};

/** What follows from a commit by its subject: the causes behind a bar. */
async function follows(subject: string): Promise<string[]> {
  const id = repository.git("log", "--format=%H", `--grep=^${subject}$`);
  const { logbooks } = diffReport.parse(JSON.parse(await ask(["diff", `${id}~1`, id, "--json"])));
  const [{ changes, consequences }] = logbooks as [(typeof logbooks)[number]];
  return consequences
    .filter(({ isSmall }) => !isSmall)
    .map((each) => {
      const [cause] = each.changes;
      return `${each.of}: ${each.text} | ${cause === undefined ? "" : `${changes[cause]!.of} ${changes[cause]!.text}`}`;
    });
}

const history = async (...words: string[]): Promise<string[]> =>
  historyReport
    .parse(JSON.parse(await ask(["history", ...words, "--json"])))
    .commits.flatMap(({ subject, changes }) => changes.map(({ of, text }) => `${subject}: ${of} ${text}`));

describe("what follows from a commit", () => {
  test("a limit is crossed on another day, later and sooner", async () => {
    const later = "ford: nitrate: the limit at most 40 mg/L is now crossed about 14 April, not 7 April";
    const sooner = "ford: nitrate: the limit at most 40 mg/L is now crossed about 7 April, not 14 April";
    expect(await follows("Too low by a step")).toContain(`${later} | ford test: nitrate 35 -> 30`);
    expect(await follows("It was not")).toContain(`${sooner} | ford test: nitrate 30 -> 35`);
  });

  test("a dose exceeds its ceiling", async () => {
    expect(await follows("The scale said 326")).toContain(
      "q1: the dose of praziquantel on 4 March now exceeds its ceiling: 5.17 mg/L in the water, of 5 mg/L at most | q1 19:40 dose: praziquantel 126 mg -> 326 mg",
    );
  });

  test("animals by the book", async () => {
    const told = (await follows("And two were dead")).find((each) => /ramshorn by the book/.test(each))!;
    const [, was, now] = /^r4: ramshorn by the book: ~?(\d+) -> ~?(\d+) \| r4 lose ramshorn 2 found$/.exec(
      told,
    )!;
    expect(Number(was) - Number(now)).toBe(2);
  });

  test("nothing from a file that is called otherwise", async () => {
    expect(await follows("Called otherwise")).toEqual([]);
    expect(await ask(["diff", "HEAD~1", "HEAD"])).toContain("2026-03.tank is called march.tank now");
  });
});

describe("the history, through a year and a file under another name", () => {
  test("of one line", async () => {
    const line = textOf("march.tank")
      .split("\n")
      .findIndex((each) => /dose praziquantel 326 mg/.test(each));
    expect(await history(`march.tank:${line + 1}`)).toEqual([
      "The scale said 326: q1 19:40 dose: praziquantel 126 mg -> 326 mg",
      'Log of 2026-03-04: q1 19:40 dose praziquantel 126 mg "first of three"',
    ]);
  });

  test("of one value: when it changed, from what, in which commit", async () => {
    expect(await history("ford", "--value", "nitrate")).toEqual([
      ...Array.from({ length: 3 }, () => "It was not: ford test: nitrate 30 -> 35"),
      ...Array.from({ length: 3 }, () => "Too low by a step: ford test: nitrate 35 -> 30"),
      expect.stringMatching(/^The room: tank ford /),
    ]);
  });

  test("of one tank: each of its days, and what was put right", async () => {
    const told = await history("r4");
    expect(told.slice(0, 2)).toEqual([
      "And two were dead: r4 lose ramshorn 2 found",
      "Two were behind the wood: r4 count: ramshorn ~45 -> 40",
    ]);
    expect(told.at(-1)).toMatch(/^The room: /);
    expect(told.length).toBeGreaterThan(40);
  });
});
