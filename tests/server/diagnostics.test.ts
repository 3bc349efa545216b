import { describe, expect, test } from "vitest";
import { readCounts } from "../../language/book/source.ts";
import { checkCounts } from "../../language/checks/check.ts";
import { deriveCounts } from "../../language/room/logbook.ts";
import { todayNotification } from "../../language/server/protocol.ts";
import { shown, TestClient, uriOf } from "./client.ts";

const cellar = `--- room.tank ---
room "Cellar"
tank dam
  volume 300 L
  limits nitrate <= 25 mg/L
tank ford
  volume 200 L
  limits nitrate <= 25 mg/L
--- 2026-02.tank ---
2026-02-27
  dam change 30 %
  ford test nitrate 30
--- 2026-03.tank ---
2026-03-01
  dam test nitrate 18
  dmm change 30 %
2026-03-02
  dam change 20 %
`;

describe("findings that are fetched", () => {
  test("come with code, place and words, for a file that is open", async () => {
    const client = await TestClient.start(cellar);
    await client.open("2026-03.tank");
    const report = await client.pull("2026-03.tank");
    expect(report.kind === "full" && report.items).toMatchObject([
      {
        code: "name/target",
        source: "standpipe",
        severity: 1,
        range: { start: { line: 2, character: 2 }, end: { line: 2, character: 5 } },
      },
    ]);
    await client.stop();
  });

  test("follow an edit, and have another name then", async () => {
    const client = await TestClient.start(cellar);
    await client.open("2026-03.tank");
    const first = await client.pull("2026-03.tank");
    expect(await client.pull("2026-03.tank", first.resultId)).toEqual({
      kind: "unchanged",
      resultId: first.resultId,
    });
    await client.edit("2026-03.tank", "dmm", "dam");
    expect(await client.found("2026-03.tank")).toEqual([]);
    await client.edit("2026-03.tank", "nitrate 18", "nitrate 48");
    expect(await client.found("2026-03.tank")).toEqual(["limit/above at 1:19"]);
    await client.stop();
  });

  test("link to the page of their code where the client has pages", async () => {
    const client = await TestClient.start(cellar, { options: { pageAddress: "page:/{code}.md" } });
    await client.open("2026-03.tank");
    const report = await client.pull("2026-03.tank");
    expect(report.kind === "full" && report.items[0]?.codeDescription).toEqual({
      href: "page:/name/target.md",
    });
    await client.stop();
  });

  test("name the other place, in whatever file it is", async () => {
    const client = await TestClient.start(cellar);
    await client.open("2026-02.tank");
    const report = await client.pull("2026-02.tank");
    expect(report.kind === "full" && report.items[0]?.relatedInformation?.[0]?.location).toEqual({
      uri: uriOf("room.tank"),
      range: { start: { line: 6, character: 9 }, end: { line: 6, character: 27 } },
    });
    await client.stop();
  });

  test("of all files come at once", async () => {
    const client = await TestClient.start(cellar);
    const { items } = await client.pullAll();
    const found = Object.fromEntries(
      items.map((item) => [item.uri, item.kind === "full" ? item.items.map(shown) : []]),
    );
    expect(found).toEqual({
      [uriOf("2026-02.tank")]: ["limit/above at 2:20"],
      [uriOf("2026-03.tank")]: ["name/target at 2:2"],
      [uriOf("room.tank")]: [],
    });
    await client.stop();
  });

  test("of all files wait for who can be kept waiting, and tell only what is new", async () => {
    const client = await TestClient.start(cellar);
    const first = await client.pullAll();
    const known = first.items.map(({ uri, resultId }) => ({ uri, value: resultId! }));
    const second = client.pullAll(known, "token");
    await client.open("room.tank");
    await client.edit("room.tank", "tank ford", "tank frod");
    const { items } = await second;
    expect(items.map(({ uri }) => uri)).toContain(uriOf("2026-02.tank"));
    expect(items.map(({ uri }) => uri)).not.toContain(uriOf("2026-03.tank"));
    await client.stop();
  });

  test("of a file that is deleted are cleared", async () => {
    const client = await TestClient.start(cellar);
    const first = await client.pullAll();
    const known = first.items.map(({ uri, resultId }) => ({ uri, value: resultId! }));
    const second = client.pullAll(known, "token");
    await client.store("2026-02.tank", undefined);
    expect((await second).items).toMatchObject([{ uri: uriOf("2026-02.tank"), kind: "full", items: [] }]);
    await client.stop();
  });

  test("of a waiting request end when it is cancelled", async () => {
    const client = await TestClient.start(cellar);
    const first = await client.pullAll();
    const known = first.items.map(({ uri, resultId }) => ({ uri, value: resultId! }));
    const { CancellationTokenSource } = await import("vscode-languageserver-protocol/node");
    const source = new CancellationTokenSource();
    const waiting = client.connection.sendRequest(
      "workspace/diagnostic",
      { previousResultIds: known, partialResultToken: "token" },
      source.token,
    );
    source.cancel();
    await expect(waiting).rejects.toMatchObject({ code: -32800 });
    await client.stop();
  });

  test("depend on the day outside unless the room says that it is finished", async () => {
    const duty = `tank dam\n  volume 100 L\n  every 7 d change 30 %\n2026-03-01\n  dam change 30 %\n`;
    const client = await TestClient.start(duty, { today: "2026-03-08" });
    await client.open("log.tank");
    expect(await client.found("log.tank")).toEqual([]);
    await client.tell(todayNotification, { day: "2026-03-12", isPinned: false });
    expect(await client.found("log.tank")).toEqual(["duty/overdue at 2:2"]);
    await client.stop();
  });

  test("are as of the day somebody asks for, whatever the room says", async () => {
    const duty = `room\n  as-of last-entry\ntank dam\n  volume 100 L\n  every 7 d change 30 %\n2026-03-01\n  dam change 30 %\n`;
    const client = await TestClient.start(duty, { today: "2026-03-20" });
    await client.open("log.tank");
    expect(await client.found("log.tank")).toEqual([]);
    await client.tell(todayNotification, { day: "2026-03-20", isPinned: true });
    expect(await client.found("log.tank")).toEqual(["duty/overdue at 4:2"]);
    await client.stop();
  });
});

describe("findings that are sent, to a client that cannot fetch", () => {
  test("come by themselves and follow edits; fetching is not offered", async () => {
    const client = await TestClient.start(cellar, { capabilities: {} });
    expect(client.capabilities?.capabilities.diagnosticProvider).toBeUndefined();
    await until(
      () => client.published.has(uriOf("2026-02.tank")) && client.published.has(uriOf("2026-03.tank")),
    );
    expect(client.published.get(uriOf("2026-03.tank"))?.diagnostics.map(shown)).toEqual([
      "name/target at 2:2",
    ]);
    expect(client.published.has(uriOf("room.tank"))).toBe(false);
    await client.open("2026-03.tank");
    await client.edit("2026-03.tank", "dmm", "dam");
    await until(() => client.published.get(uriOf("2026-03.tank"))?.diagnostics.length === 0);
    await client.store("2026-02.tank", undefined);
    await until(() => client.published.get(uriOf("2026-02.tank"))?.diagnostics.length === 0);
    await client.stop();
  });

  test("are never sent to one that fetches", async () => {
    const client = await TestClient.start(cellar);
    await client.open("2026-03.tank");
    await client.found("2026-03.tank");
    await new Promise((resolve) => setTimeout(resolve, 600));
    expect(client.published.size).toBe(0);
    await client.stop();
  });
});

describe("a keystroke", () => {
  test("reads its block, derives the one ledger its line names, and checks no more", async () => {
    const client = await TestClient.start(cellar);
    await client.open("2026-03.tank");
    await client.found("2026-03.tank");
    const before = {
      ...readCounts,
      ...deriveCounts,
      checkedBlocks: checkCounts.blocks,
      checkedLedgers: checkCounts.ledgers,
    };
    await client.edit("2026-03.tank", "change 20 %", "change 25 %");
    await client.found("2026-03.tank");
    // Its own block and the one above, which a line that loses its indentation may come to belong to.
    expect(readCounts.blocks - before.blocks).toBeLessThanOrEqual(2);
    expect(deriveCounts.books - before.books).toBe(0);
    expect(deriveCounts.ledgers - before.ledgers).toBe(1);
    expect(checkCounts.blocks - before.checkedBlocks).toBe(1);
    expect(checkCounts.ledgers - before.checkedLedgers).toBe(1);
    await client.stop();
  });

  test("that changes only a comment derives nothing", async () => {
    const client = await TestClient.start(cellar);
    await client.open("2026-03.tank");
    await client.found("2026-03.tank");
    const before = { ...deriveCounts };
    await client.edit("2026-03.tank", "change 20 %", "change 20 %  # new");
    await client.found("2026-03.tank");
    expect(deriveCounts).toEqual(before);
    await client.stop();
  });
});

async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 10));
}
