import { afterEach, describe, expect, test } from "vitest";
import { CancellationTokenSource, LSPErrorCodes } from "vscode-languageserver-protocol/node";
import { statusRequest } from "../../language/server/protocol.ts";
import {
  lineHistoryRequest,
  lineOriginRequest,
  type NameHistoryParams,
  nameHistoryRequest,
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
    expect((await ask({ before: [{ uri: march, text: null }] }))!.files).toEqual(["2026-03.tank is new"]);
    await client.stop();
    expect(await ask({})).toMatchObject({ counts: "", files: [], groups: [], follows: [] });
  });

  test("of one logbook of several leaves the others out, and takes in files from before the room was there", async () => {
    const room = 'room "Shed"\n  as-of last-entry\ntank dam\n  volume 100 L\n';
    const day = "2026-03-01\n  dam clean\n";
    client = await TestClient.start(
      `--- a/room.tank ---\n${room}--- a/logs/2026.tank ---\n${day}--- b/room.tank ---\n${room}--- b/2026.tank ---\n${day}`,
      { today: "2026-03-09" },
    );
    const reviewed = (before: ReviewParams["before"]) =>
      client.ask(reviewRequest, {
        uri: uriOf("a/logs/2026.tank"),
        before,
        after: [],
        from: "",
        to: "",
        all: false,
      });
    const others = [
      { uri: uriOf("b/2026.tank"), text: "2026-03-01\n  dam feed flake\n" },
      { uri: uriOf("b/gone.tank"), text: day },
    ];
    expect(await reviewed(others)).toMatchObject({ counts: "", files: [], groups: [] });
    const corrected = await reviewed([
      ...others,
      { uri: uriOf("a/logs/2026.tank"), text: "2026-03-01\n  dam clean glass\n" },
    ]);
    expect(corrected).toMatchObject({ counts: "1 corrected", files: [] });
    const fresh = await reviewed([{ uri: uriOf("a/room.tank"), text: null }]);
    expect(fresh).toMatchObject({ counts: "4 added", files: ["room.tank is new"] });
  });

  test("of very many changes of one tank lists some, and counts the rest", async () => {
    const feeds = (grams: number): string => `2026-03-01\n${`  dam feed flake ${grams} g\n`.repeat(1000)}`;
    client = await TestClient.start(
      `${cellar.slice(0, cellar.indexOf("--- 2026"))}--- 2026-03.tank ---\n${feeds(2)}`,
      {
        today: "2026-03-09",
      },
    );
    const params = { uri: march, before: [{ uri: march, text: feeds(1) }], after: [], from: "", to: "" };
    const lines = async (all: boolean) => {
      const { counts, groups } = (await client.ask(reviewRequest, { ...params, all }))!;
      const [group] = groups;
      return [counts, group!.count, group!.days.flatMap((day) => day.lines).length, group!.left];
    };
    expect(await lines(false)).toEqual(["1,000 corrected", 1000, 400, 600]);
    expect(await lines(true)).toEqual(["1,000 corrected", 1000, 1000, 0]);
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

describe("a review of years", () => {
  const years = Array.from({ length: 300 }, (_, at) => {
    const date = new Date(Date.UTC(2025, 4, 1 + at)).toISOString().slice(0, 10);
    const line = (tank: number): string => `  dam test nitrate ${10 + ((at + tank) % 30)}\n`;
    return `${date}\n${Array.from({ length: 30 }, (__, tank) => line(tank)).join("")}`;
  });
  const uri = uriOf("log.tank");
  const params: ReviewParams = {
    uri,
    before: [{ uri, text: years.map((day) => day.replace("nitrate 12", "nitrate 13")).join("") }],
    after: [],
    from: "HEAD",
    to: "now",
    all: false,
  };
  const start = async (): Promise<void> => {
    const room = cellar.slice(0, cellar.indexOf("--- 2026"));
    client = await TestClient.start(`${room}--- log.tank ---\n${years.join("")}`, { today: "2026-03-09" });
  };

  test("answers others meanwhile", async () => {
    await start();
    const done: string[] = [];
    const review = client.ask(reviewRequest, params).then((answer) => {
      done.push("review");
      return answer;
    });
    await client.ask(statusRequest, { uri }).then(() => done.push("status"));
    expect((await review)!.counts).toMatch(/^\d+ corrected$/);
    expect(done).toEqual(["status", "review"]);
  });

  test("that is edited meanwhile is of what is there then", async () => {
    await start();
    await client.open("log.tank");
    const review = client.ask(reviewRequest, params);
    await client.edit("log.tank", "2025-05-01\n", "2025-05-01\n  dam clean\n");
    expect((await review)!.counts).toMatch(/ corrected, 1 added$/);
  });

  test("that is made anew after an edit leads to where the lines are then", async () => {
    await start();
    await client.open("log.tank");
    const places = async () => {
      const { groups } = (await client.ask(reviewRequest, params))!;
      return groups[0]!.days.flatMap(({ lines }) => lines).map(({ after }) => after!.range);
    };
    const [first] = await places();
    await client.edit("log.tank", "2025-05-01\n", "# A\n# B, a longer one\n2025-05-01\n");
    const [again] = await places();
    expect(again).toEqual({
      start: { ...first!.start, line: first!.start.line + 2 },
      end: { ...first!.end, line: first!.end.line + 2 },
    });
  });

  test("is given up where nobody waits any more", async () => {
    await start();
    const source = new CancellationTokenSource();
    const review = client.connection.sendRequest(reviewRequest.method, params, source.token);
    const ended = expect(review).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    source.cancel();
    await ended;
  });

  test("leaves what is held as it is, entries after its day included", async () => {
    await start();
    await client.store("log.tank", `${years.join("")}2030-01-01\n  dam clean\n`);
    const before = await client.ask(statusRequest, { uri });
    await client.ask(reviewRequest, params);
    expect(await client.ask(statusRequest, { uri })).toEqual(before);
  });
});

describe("the history of a tank", () => {
  const history = async (name: string, steps: NameHistoryParams["steps"], uri = march) => {
    client = await TestClient.start(cellar.replace("tank dam", "tank r1\ngroup wet = dam\ntank dam"), {
      today: "2026-03-09",
    });
    return client.ask(nameHistoryRequest, { uri, name, steps });
  };
  const was = (...lines: string[]) => [
    { uri: march, text: `2026-03-01\n${lines.map((each) => `  ${each}\n`).join("")}` },
  ];

  test("time by time: its entries, those of its groups, its definition, and nothing of others", async () => {
    const steps = [
      { before: was("dam   test nitrate 20"), after: null },
      { before: was("dam test nitrate 10"), after: was("dam test nitrate 20", "@wet clean", "r1 clean") },
      { before: was("r1 clean"), after: was("r1 clean glass") },
      {
        before: [{ uri: uriOf("room.tank"), text: "tank dam\n  volume 90 L\n" }],
        after: [{ uri: uriOf("room.tank"), text: null }],
      },
    ];
    const told = await history("dam", steps);
    expect(told!.map((changes) => changes.map(({ of, text }) => `${of}: ${text}`))).toEqual([
      ["1 March dam: ~ test: nitrate 20 -> 40"],
      ["1 March dam: ~ test: nitrate 10 -> 20", "1 March @wet: + clean"],
      [],
      ["tank dam: - tank dam", "tank dam: - volume 90 L"],
    ]);
    expect(told![0]![0]).toMatchObject({ before: { uri: march, line: 1 }, after: { uri: march, line: 1 } });
    expect(told![1]![1]).toMatchObject({ before: null, after: { uri: march, line: 2 } });
  });

  test("in one logbook of several: a tank of that name in another is another", async () => {
    const room = 'room "Shed"\ntank dam\n  volume 100 L\n';
    client = await TestClient.start(`--- a/room.tank ---\n${room}--- b/room.tank ---\n${room}`, {
      today: "2026-03-09",
    });
    const text = "2026-03-01\n  dam clean\n";
    const after = ["a/1.tank", "b/room.tank", "b/gone.tank", "old/gone.tank"].map((name) => ({
      uri: uriOf(name),
      text,
    }));
    const told = await client.ask(nameHistoryRequest, {
      uri: uriOf("a/room.tank"),
      name: "dam",
      steps: [{ before: [], after }],
    });
    expect(told![0]!.map((change) => change.after!.uri)).toEqual(["a/1.tank", "old/gone.tank"].map(uriOf));
  });

  test("of a file of no logbook, or of what is not as it should be, there is none", async () => {
    expect(await history("dam", [], uriOf("none.tank"))).toBeNull();
    await client.stop();
    expect(await history("dam", [{ before: 3 as never, after: null }])).toBeNull();
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
    const { steps, first } = (await history(2, texts))!;
    expect(first).toEqual({ at: 2, line: 1 });
    expect(steps.map(({ at, text, lineBefore }) => [at, text, lineBefore])).toEqual([
      [1, "~ test: nitrate 20 -> 40", 1],
      [2, "+ test nitrate 20, pH 7", null],
    ]);
    await client.stop();
    expect(await history(2, texts, "pH")).toEqual({ steps: [], first: { at: 2, line: 1 } });
    await client.stop();
    expect((await history(2, texts.slice(0, 2)))!.first).toBeNull();
  });

  test("of a line that says nothing, or is not there", async () => {
    expect(await history(1, ["2026-03-01\n\n", null])).toBeNull();
    await client.stop();
    expect(await history(9, [day("dam clean"), null])).toBeNull();
  });

  test("that came from another file, as it was and put right on the way", async () => {
    client = await TestClient.start(cellar, { today: "2026-03-09" });
    const other = uriOf("old.tank");
    const origin = (before: string, after: string | null, value = "") =>
      client.ask(lineOriginRequest, {
        uri: march,
        line: 1,
        before: [
          { uri: other, text: before },
          { uri: march, text: null },
        ],
        after: after === null ? null : [{ uri: march, text: after }],
        value,
      });
    const old = day("dam clean", "dam test nitrate 40");
    expect(await origin(old, null)).toEqual({ uri: other, line: 2, change: null });
    expect(await origin(old, day("dam test nitrate 20"))).toEqual({
      uri: other,
      line: 2,
      change: { is: "corrected", text: "~ test: nitrate 40 -> 20" },
    });
    expect((await origin(old, day("dam test nitrate 20"), "pH"))!.change).toBeNull();
    expect(await origin(day("dam clean"), null)).toBeNull();
  });
});
