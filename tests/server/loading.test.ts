import { describe, expect, test } from "vitest";
import { CancellationTokenSource } from "vscode-languageserver-protocol/node";
import { readRequest } from "../../language/server/protocol.ts";
import { pulling, TestClient } from "./client.ts";

const many = Array.from({ length: 60 }, (_, at) => {
  const name = `log-${String(at).padStart(2, "0")}.tank`;
  return `--- ${name} ---\n2026-03-01\n  dmm change 30 %`;
}).join("\n");

const showing = { ...pulling, window: { workDoneProgress: true } };

interface Progress {
  readonly token: string | number;
  readonly value: { readonly kind: "begin" | "report" | "end"; readonly message?: string };
}

/** A client that hears of progress, and may cancel it at its first report. */
async function load(cancels: boolean): Promise<{ client: TestClient; heard: Progress["value"][] }> {
  const heard: Progress["value"][] = [];
  const client = await TestClient.start(many, {
    capabilities: showing,
    prepare: ({ connection }) => {
      connection.onRequest("window/workDoneProgress/create", () => null);
      connection.onNotification("$/progress", async ({ token, value }: Progress) => {
        heard.push(value);
        if (cancels && value.kind === "report")
          await connection.sendNotification("window/workDoneProgress/cancel", { token });
      });
    },
  });
  return { client, heard };
}

describe("many files", () => {
  test("are read some at a time, with progress", async () => {
    const { client, heard } = await load(false);
    const { items } = await client.pullAll();
    expect(items.length).toBe(60);
    expect(heard.map(({ kind }) => kind)).toEqual(["begin", "report", "report", "report", "report", "end"]);
    expect(heard.at(-2)?.message).toBe("60 of 60 files");
    await client.stop();
  });

  test("are not read on when somebody cancels; what is read counts", async () => {
    const { client, heard } = await load(true);
    const { items } = await client.pullAll();
    expect(items.length).toBeGreaterThan(0);
    expect(items.length).toBeLessThan(60);
    expect(heard.at(-1)?.kind).toBe("end");
    expect(client.logged.some((words) => words.includes("cancelled"))).toBe(true);
    expect(client.asked.filter((method) => method === readRequest.method).length).toBeLessThan(4);
    await client.stop();
  });
});

describe("a request", () => {
  test("that is cancelled while the files are read gets no answer but that", async () => {
    const client = await TestClient.start(many, { slow: true });
    await client.open("log-00.tank");
    const source = new CancellationTokenSource();
    const params = {
      textDocument: { uri: "file:///room/log-00.tank" },
      position: { line: 1, character: 3 },
    };
    const asked = client.connection.sendRequest("textDocument/hover", params, source.token);
    source.cancel();
    await expect(asked).rejects.toMatchObject({ code: -32800 });
    await client.stop();
  });

  test("about a document that is edited before the files are read is out of date", async () => {
    const client = await TestClient.start(many, { slow: true });
    await client.open("log-00.tank");
    const asked = client.request("textDocument/hover", "log-00.tank", "dm");
    await client.edit("log-00.tank", "dmm", "dam");
    await expect(asked).rejects.toMatchObject({ code: -32801 });
    await client.stop();
  });
});
