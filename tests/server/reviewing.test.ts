import { afterEach, describe, expect, test } from "vitest";
import {
  lineHistoryRequest,
  type ReviewParams,
  reviewRequest,
} from "../../language/server/review-protocol.ts";
import { TestClient, uriOf } from "./client.ts";

const cellar = `--- room.tank ---
room "Cellar"
  as-of last-entry
tank dam
  volume 300 L
  limits nitrate <= 25 mg/L
--- 2026-03.tank ---
2026-03-01
  dam   test nitrate 40
`;

const march = uriOf("2026-03.tank");
let client: TestClient;
afterEach(() => client.stop());

const ask = async (params: Partial<ReviewParams>) => {
  client = await TestClient.start(cellar, { today: "2026-03-09" });
  return client.ask(reviewRequest, {
    uri: march,
    before: [],
    after: [],
    from: "HEAD",
    to: "now",
    all: false,
    ...params,
  });
};

describe("a review", () => {
  test("of a version of which one file is another", async () => {
    const answer = await ask({ before: [{ uri: march, text: "2026-03-01\n  dam test nitrate 20\n" }] });
    expect(answer!.counts).toBe("1 corrected");
    const [change] = answer!.groups[0]!.days[0]!.lines;
    expect(change).toMatchObject({
      mark: "~",
      text: "test: nitrate 20 -> 40",
      before: { uri: march, range: { start: { line: 1, character: 2 } } },
      after: { uri: march, range: { start: { line: 1, character: 2 }, end: { line: 1, character: 23 } } },
    });
    expect(answer!.follows[0]!.items[0]).toMatchObject({
      lead: "new warning limit/above",
      at: { uri: march, range: { start: { line: 1 } } },
    });
    expect(answer!.page).toContain("From HEAD to now.");
  });

  test("of a version without a file, and of none that is another", async () => {
    expect((await ask({ before: [{ uri: march, text: null }] }))!.files).toEqual([`${march} is new`]);
    await client.stop();
    expect(await ask({})).toMatchObject({ counts: "", files: [], groups: [], follows: [] });
  });

  test("of what is not as it should be gives nothing", async () => {
    expect(await ask({ before: [{ uri: march, text: 3 as never }] })).toBeNull();
  });

  test("does not touch the log that is open", async () => {
    await ask({
      before: [{ uri: march, text: "2026-01-01\n  dam test nitrate 20\n" }],
      after: [{ uri: march, text: null }],
    });
    const after = await client.ask(reviewRequest, {
      uri: march,
      before: [],
      after: [],
      from: "a",
      to: "b",
      all: false,
    });
    expect(after!.counts).toBe("");
  });
});

describe("the history of a line", () => {
  const history = async (line: number, texts: (string | null)[], value = "") => {
    client = await TestClient.start(cellar, { today: "2026-03-09" });
    return client.ask(lineHistoryRequest, { uri: march, line, texts, value });
  };
  const day = (...lines: string[]): string => `2026-03-01\n${lines.map((each) => `  ${each}\n`).join("")}`;

  test("from version to version, to where it was not there", async () => {
    const texts = [
      day("dam clean", "dam test nitrate 40, pH 7"),
      day("dam test nitrate 40, pH 7"),
      day("dam test nitrate 20, pH 7"),
      day("dam feed flake"),
      null,
    ];
    expect((await history(2, texts))!.map(({ at, text, lineBefore }) => [at, text, lineBefore])).toEqual([
      [1, "~ test: nitrate 20 -> 40", 1],
      [2, "+ test nitrate 20, pH 7", null],
    ]);
    await client.stop();
    expect(await history(2, texts, "pH")).toEqual([]);
  });

  test("of a line that says nothing, or is not there", async () => {
    expect(await history(1, ["2026-03-01\n\n", null])).toBeNull();
    await client.stop();
    expect(await history(9, [day("dam clean"), null])).toBeNull();
  });
});
