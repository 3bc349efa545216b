import { parquetReadObjects } from "hyparquet";
import { afterEach, describe, expect, test } from "vitest";
import { bytesOfBase64 } from "../../language/server/base64.ts";
import { type ExportParams, exportRequest } from "../../language/server/protocol.ts";
import { TestClient, uriOf } from "./client.ts";

/** A logbook exported over the wire. */

const log = `--- room.tank ---
room "Cellar"
tank q1
  volume 48 L
--- logs/2026-03.tank ---
2026-03-01
  q1 test nitrate 18
`;

let client: TestClient;
afterEach(() => client.stop());

const uri = uriOf("room.tank");
const ask = (params: Omit<ExportParams, "uri" | "part">, part = 0) =>
  client.ask(exportRequest, { uri, part, ...params });

describe("a log that is exported", () => {
  test("is all files of the logbook, their paths as from its folder", async () => {
    client = await TestClient.start(log, { today: "2026-03-09" });
    const answer = await ask({ form: "json" });
    expect(answer).toMatchObject({ filesDone: 2, files: 2, isLast: true, unread: [] });
    const items = JSON.parse(answer!.text) as { is: string; path?: string }[];
    expect(items.filter(({ is }) => is === "file").map(({ path }) => path)).toEqual([
      "logs/2026-03.tank",
      "room.tank",
    ]);
  });

  test("is one table as CSV", async () => {
    client = await TestClient.start(log, { today: "2026-03-09" });
    const answer = await ask({ form: "csv", table: "entry_tanks" });
    expect(answer?.text).toBe("entry_id,tank\r\n1,q1\r\n");
  });

  test("comes in parts where it is long, and not at all once the log is another", async () => {
    const days = Array.from(
      { length: 28 },
      (_, at) => `2026-02-${String(at + 1).padStart(2, "0")}\n${"  q1 test nitrate 18\n".repeat(400)}`,
    );
    client = await TestClient.start(`${log}--- more.tank ---\n${days.join("")}`, { today: "2026-03-09" });
    const first = await ask({ form: "ndjson" });
    expect(first?.isLast).toBe(false);
    const second = await ask({ form: "ndjson" }, 1);
    expect(second?.isLast).toBe(true);
    expect((first!.text + second!.text).trimEnd().split("\n")).toHaveLength(11_200 + 28 + 3 + 1 + 5);
    await client.open("room.tank");
    await ask({ form: "ndjson" });
    await client.edit("room.tank", "Cellar", "Attic");
    expect(await ask({ form: "ndjson" }, 1)).toBeNull();
  });

  test("is one table as Parquet, its bytes in base64, in as many parts as it takes", async () => {
    const days = Array.from({ length: 28 }, (_, at) => `2026-02-${String(at + 1).padStart(2, "0")}\n`);
    const many = days.map((day) => `${day}${"  q1 test nitrate 18\n".repeat(400)}`).join("");
    client = await TestClient.start(`${log}--- more.tank ---\n${many}`, { today: "2026-03-09" });
    const bytes: number[] = [];
    let parts = 0;
    for (let isLast = false; !isLast; parts++) {
      const answer = await ask({ form: "parquet", table: "entries" }, parts);
      bytes.push(...bytesOfBase64(answer!.text));
      isLast = answer!.isLast;
    }
    expect(parts).toBe(2);
    const rows = await parquetReadObjects({ file: new Uint8Array(bytes).buffer });
    expect(rows).toHaveLength(11_201);
    expect(rows[0]).toMatchObject({ entry_id: 1, file: "logs/2026-03.tank", at: "q1", entry: "test" });
  });

  test("says that there was nothing to tell", async () => {
    client = await TestClient.start('--- room.tank ---\nroom "Cellar"\n', { today: "2026-03-09" });
    expect(await ask({ form: "csv", table: "values" })).toMatchObject({ told: 0, isLast: true });
    expect(await ask({ form: "json" })).toMatchObject({ told: 1, isLast: true });
    await client.open("room.tank", "\n");
    for (const form of ["json", "ndjson"] as const) expect(await ask({ form })).toMatchObject({ told: 0 });
  });

  test("comes no further where it was given up, or a file came in meanwhile", async () => {
    client = await TestClient.start(log, { today: "2026-03-09" });
    expect(await ask({ form: "csv", table: "entries" })).toMatchObject({ isLast: true });
    const days = Array.from({ length: 28 }, (_, at) => `2026-02-${String(at + 1).padStart(2, "0")}\n`);
    const many = days.map((day) => `${day}${"  q1 test nitrate 18\n".repeat(400)}`).join("");
    await client.open("more.tank", many);
    expect((await ask({ form: "csv", table: "values" }))?.isLast).toBe(false);
    expect(await ask({ form: "csv", table: "values" }, -1)).toBeNull();
    expect(await ask({ form: "csv", table: "values" }, 1)).toBeNull();
    expect((await ask({ form: "csv", table: "values" }))?.isLast).toBe(false);
    await client.open("other.tank", "2026-03-02\n  q1 clean\n");
    expect(await ask({ form: "csv", table: "values" }, 1)).toBeNull();
  });

  test("says which of its files cannot be read", async () => {
    client = await TestClient.start(log, {
      today: "2026-03-09",
      prepare: (made) => made.stored.set(uriOf("logs/two days.tank"), undefined as never),
    });
    const answer = await ask({ form: "ndjson" });
    expect(answer).toMatchObject({ isLast: true, unread: ["two days.tank"] });
  });
});
