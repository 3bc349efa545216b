import { afterEach, describe, expect, test } from "vitest";
import { CancellationTokenSource } from "vscode-languageserver-protocol/node";
import {
  type ImportAnswer,
  type ImportParams,
  importProgress,
  importRequest,
  mostTableBytes,
} from "../../language/server/import-protocol.ts";
import { TestClient, uriOf } from "./client.ts";

/** A table imported over the wire. */

const log = `--- room.tank ---
room "Cellar"
tank q1
  volume 48 L
--- logs/2026-03.tank ---
2026-03-01
  q1 test nitrate 18
`;
const table = "Date,Nitrate (mg/L NO3),pH\n2026-03-01,18,\n2026-03-02,20,7.2\n2026-03-03,much,\n";
const open = "Date,Temp,pH\n03/04/2026,24.5,7.2\n05/04/2026,25,7\n";

let client: TestClient;
afterEach(() => client.stop());

type Step = ImportParams extends infer Each
  ? Each extends unknown
    ? Omit<Each, "uri" | "id">
    : never
  : never;
const ask = (step: Step, id = 1): Promise<ImportAnswer | null> =>
  client.ask(importRequest, { uri: uriOf("room.tank"), id, ...step } as ImportParams);
const take = (
  bytes: string | Uint8Array,
  part = 0,
  name = "lab.csv",
  of = 1 << 24,
): Promise<ImportAnswer | null> =>
  ask({ step: "take", part, name, bytes: of, base64: Buffer.from(bytes).toString("base64") });
const propose = (answers: Record<string, string> = {}, maps: { name: string; text: string }[] = []) =>
  ask({ step: "propose", answers, maps });
const proposed = async (
  answers: Record<string, string> = {},
  maps: { name: string; text: string }[] = [],
) => {
  const answer = await propose(answers, maps);
  if (answer?.is !== "proposal") throw new Error(JSON.stringify(answer));
  return { ...answer, questions: answer.decisions.filter(({ value }) => value === undefined) };
};
const start = async (): Promise<void> => {
  client = await TestClient.start(log, { today: "2026-03-09" });
};

describe("a table that is imported", () => {
  test("is proposed: what its columns are, and what is open, with values to decide by", async () => {
    await start();
    expect(await take(open)).toEqual({ is: "taken", folder: "file:///room/" });
    const { columns, questions, mapping, rows } = await proposed();
    expect(rows).toBe(2);
    expect(columns.map(({ head, as }) => `${head}: ${as}`)).toContain("Temp: temperature, unit open");
    expect(mapping).toBeNull();
    expect(questions.find(({ id }) => id === "unit:Temp")).toMatchObject({ samples: ["24.5", "25"] });
    expect(questions.find(({ id }) => id === "date-order")).toMatchObject({
      samples: ["03/04/2026", "05/04/2026"],
    });
  });

  test("is settled by answers, and one that is none is refused", async () => {
    await start();
    await take(open);
    const answers = { tank: "q1", "unit:Temp": "C", "date-order": "dmy" };
    const { questions, mapping } = await proposed(answers);
    expect(questions).toEqual([]);
    expect(JSON.parse(mapping!)).toMatchObject({ standpipe: "import", tank: { name: "q1" } });
    // What is none is told beside its question, and an answer that nothing asks for is passed over.
    const wrong = await proposed({ ...answers, tank: "q7", "basis:gone": "N" });
    expect(wrong.mapping).toBeNull();
    expect(wrong.questions).toMatchObject([{ id: "tank", problem: expect.stringContaining("tank=q7") }]);
  });

  test("becomes edits of the files of the log, and its rows add up", async () => {
    await start();
    await take(table);
    const mapping = (await proposed({ tank: "q1" })).mapping!;
    const answer = await ask({ step: "write", mapping });
    expect(answer).toMatchObject({
      is: "writing",
      rows: { read: 3, imported: 1, skipped: 1, known: 1, rejected: 1 },
      files: [{ uri: uriOf("logs/2026-03.tank"), isNew: false, version: null, lines: 1 }],
      rejects: expect.stringContaining("2026-03-03,much,"),
    });
    const [file] = (answer as Extract<ImportAnswer, { is: "writing" }>).files;
    expect(file!.edits.map(({ newText }) => newText).join("")).toMatch(
      /2026-03-02\n {2}q1 +test nitrate 20 mg\/L NO3, pH 7\.2\n/,
    );
  });

  test("is shown row by row beside what it would write, and counted before it is written", async () => {
    await start();
    await take(`${table}2026-03-04,,\n`);
    expect((await proposed()).preview.map(({ is }) => is)).toEqual(["open", "open", "open", "open"]);
    const { preview, mapping } = await proposed({ tank: "q1" });
    expect(preview).toEqual([
      { line: 2, raw: "2026-03-01,18,", is: "known", why: "", day: "", lines: [] },
      {
        line: 3,
        raw: "2026-03-02,20,7.2",
        is: "imported",
        why: "",
        day: "2026-03-02",
        lines: ["q1 test nitrate 20 mg/L NO3, pH 7.2"],
      },
      {
        line: 4,
        raw: "2026-03-03,much,",
        is: "rejected",
        why: "“much” in “Nitrate (mg/L NO3)” is no number",
        day: "",
        lines: [],
      },
      { line: 5, raw: "2026-03-04,,", is: "empty", why: "", day: "", lines: [] },
    ]);
    expect(await ask({ step: "count", mapping: mapping! })).toEqual({
      is: "counts",
      rows: expect.objectContaining({ read: 4, imported: 1, known: 1, empty: 1, rejected: 1 }),
      files: [{ uri: uriOf("logs/2026-03.tank"), isNew: false, lines: 1 }],
      rejects: [{ line: 4, why: "“much” in “Nitrate (mg/L NO3)” is no number" }],
    });
    expect(await ask({ step: "leave" })).toEqual({ is: "left" });
    expect(await propose()).toBeNull();
  });

  test("is decided otherwise: what a column is, its unit, its basis, its tank", async () => {
    await start();
    await take("Date,NO3 (mg/L),pH\n2026-03-05,10,7\n");
    const answers = {
      tank: "q1",
      "parameter:NO3 (mg/L)": "nitrite",
      "unit:NO3 (mg/L)": "ug/L",
      "basis:NO3 (mg/L)": "N",
      "parameter:pH": "ignore",
    };
    const { preview, mapping } = await proposed(answers);
    expect(preview[0]!.lines).toEqual(["q1 test nitrite 0.010 mg/L N"]);
    // A mapping that was kept is as its answers.
    const again = await ask({ step: "propose", answers: {}, maps: [], by: mapping! });
    expect(again).toMatchObject({ is: "proposal", answers: expect.objectContaining(answers), mapping });
    // One that no answers lead to is taken as it is.
    const byHand = JSON.stringify({ ...JSON.parse(mapping!), thin: { hours: 5, crossings: false } });
    expect(await ask({ step: "propose", answers: {}, maps: [], by: byHand })).toMatchObject({
      decisions: [],
      mapping: expect.stringContaining('"hours": 5'),
    });
  });

  test("is refused while a part of the log is not known: a file that cannot be read, marks of a merge", async () => {
    await start();
    await take(table);
    client.stored.set(uriOf("logs/2026-02.tank"), "2026-02-01\n");
    expect(await take(table)).toMatchObject({
      is: "refused",
      why: "2026-02.tank cannot be read; nothing is imported before it can, as what stands in it would be written twice",
    });
    client.stored.delete(uriOf("logs/2026-02.tank"));
    await take(table);
    const mapping = (await proposed({ tank: "q1" })).mapping!;
    await client.open("room.tank");
    await client.edit(
      "room.tank",
      "  volume 48 L",
      "<<<<<<< HEAD\n  volume 48 L\n=======\n  volume 50 L\n>>>>>>> other",
    );
    for (const step of ["count", "write"] as const)
      expect(await ask({ step, mapping })).toMatchObject({
        is: "refused",
        why: expect.stringContaining("room.tank:3: a merge left two versions here"),
      });
  });

  test("makes the file of a month that has none", async () => {
    await start();
    await take("Date,pH\n2026-04-02,7.2\n");
    const mapping = (await proposed({ tank: "q1" })).mapping!;
    expect(await ask({ step: "write", mapping })).toMatchObject({
      files: [
        {
          uri: uriOf("logs/2026-04.tank"),
          isNew: true,
          edits: [{ newText: expect.stringMatching(/^2026-04-02\n {2}q1 +test pH 7\.2\n$/) }],
        },
      ],
      rejects: null,
    });
  });

  test("is for the mappings beside the log that have its columns and a tank of the log", async () => {
    await start();
    await take(table);
    const text = (await proposed({ tank: "q1" })).mapping!;
    const { fits } = await proposed({}, [
      { name: "lab.map.json", text },
      { name: "gone.map.json", text: text.replace('"q1"', '"q9"') },
      { name: "other.map.json", text: text.replaceAll("Nitrate (mg/L NO3)", "NO3") },
      { name: "broken.map.json", text: "{" },
    ]);
    expect(fits).toEqual(["lab.map.json"]);
  });

  test("is refused where it is none: empty, an archive, a mapping for other columns", async () => {
    await start();
    await take("");
    expect(await propose()).toEqual({ is: "refused", why: "the file is empty" });
    await take(Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 20, 0, 0, 0));
    expect(await propose()).toMatchObject({ is: "refused", why: expect.stringContaining("zip archive") });
    await take(table);
    const mapping = (await proposed({ tank: "q1" })).mapping!;
    await take(open);
    expect(await ask({ step: "write", mapping })).toMatchObject({
      is: "refused",
      why: expect.stringContaining("other columns"),
    });
    expect(await ask({ step: "write", mapping: "[]" })).toMatchObject({ is: "refused" });
  });

  test("comes in parts, in order, and is that of this import only", async () => {
    await start();
    const bytes = new TextEncoder().encode(table);
    await take(bytes.subarray(0, 40));
    expect(await take(bytes.subarray(40), 2)).toBeNull();
    await take(bytes.subarray(40), 1);
    expect((await proposed({ tank: "q1" })).rows).toBe(3);
    expect(await ask({ step: "propose", answers: {}, maps: [] }, 2)).toBeNull();
    expect(await take("1", 0, "lab.csv", mostTableBytes + 1)).toMatchObject({
      is: "refused",
      why: expect.stringContaining("too large"),
    });
    // More than was told is not what was told.
    expect(await take("12", 0, "lab.csv", 1)).toBeNull();
  });

  test("is not written into a log that was edited meanwhile; it tells how far it is, and stops when it is told to", async () => {
    await start();
    await client.open("room.tank");
    const rows = Array.from({ length: 60_000 }, (_, at) => `2026-03-02,${at % 9},7.2`);
    await take(`Date,Nitrate (mg/L NO3),pH\n2026-03-02,20,7.2\n${rows.join("\n")}\n`);
    const mapping = (await proposed({ tank: "q1" })).mapping;
    expect(mapping).not.toBeNull();
    const told: number[] = [];
    client.connection.onNotification(importProgress.method, ({ percent }: { percent: number }) => {
      // Half read, the keeper types.
      if (told.length === 0) void client.edit("room.tank", "Cellar", "Attic");
      told.push(percent);
    });
    expect(await ask({ step: "write", mapping: mapping! })).toEqual({ is: "outdated" });
    expect(told.length).toBeGreaterThan(1);
    expect(await ask({ step: "write", mapping: mapping! })).toMatchObject({ is: "writing" });
    const stop = new CancellationTokenSource();
    client.connection.onNotification(importProgress.method, () => stop.cancel());
    const params = { uri: uriOf("room.tank"), id: 1, step: "write", mapping };
    await expect(client.connection.sendRequest(importRequest.method, params, stop.token)).rejects.toThrow(
      "cancelled",
    );
  });
});
