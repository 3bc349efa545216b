import { afterEach, describe, expect, test } from "vitest";
import { CancellationToken, CancellationTokenSource } from "vscode-languageserver-protocol/node";
import type { Face } from "../../language/features/grid/grid-model.ts";
import {
  type GridChange,
  type GridPage,
  type GridWritten,
  gridChangeRequest,
  gridChoicesRequest,
  gridCompletionRequest,
  gridCopyRequest,
  gridFindRequest,
  gridPlaceRequest,
  gridProgressNotification,
  gridRequest,
  gridSummaryRequest,
  type RowRange,
} from "../../language/server/grid-protocol.ts";
import { TestClient, uriOf } from "./client.ts";

let client: TestClient | undefined;
afterEach(async () => {
  await client?.stop();
  client = undefined;
});

const room = `--- room.tank ---
room "Shed"
tank pond
  volume 300 L
  limits nitrate <= 50 mg/L
tank tub
  volume 80 L
--- 2026-03.tank ---
2026-03-01
  pond  test nitrate 60    # high
  tub   test nitrate 10
2026-03-08
  pond  test nitrate <10
`;
const uri = uriOf("2026-03.tank");
const march: Face = { is: "entries", path: uri };
const view = { sort: [], filter: {}, turn: 1 };

async function start(): Promise<TestClient> {
  client = await TestClient.start(room);
  await client.open("2026-03.tank");
  return client;
}

const pageOf = async (from: TestClient, face: Face = march, more: object = {}): Promise<GridPage> =>
  (await from.ask(gridRequest, { uri, face, query: { ...view, from: 0, count: 50 }, ...more }))!;

const texts = ({ rows }: GridPage): string[] =>
  rows.map(({ cells }) => cells.map(({ text }) => text).join("|"));

const rangeOf = (page: GridPage, top: number, bottom: number, columns: readonly string[]): RowRange => ({
  view,
  from: top,
  count: bottom - top + 1,
  first: page.rows[top]!.id,
  last: page.rows[bottom]!.id,
  columns,
});

/** The text of a file once the edits are made. */
async function textAfter(from: TestClient, change: GridChange, face: Face = march): Promise<string> {
  const made = (await from.ask(gridChangeRequest, { uri, face, change })) as GridWritten;
  if (made.is === "refused") return `refused: ${made.message}`;
  expect(made.files.map((file) => [file.uri, file.version, file.isNew])).toEqual([[uri, 1, false]]);
  const lines = from.textOf("2026-03.tank").split("\n");
  for (const { range, newText } of [...made.files[0]!.edits].reverse()) {
    expect(range.start.line).toBe(range.end.line);
    const line = lines[range.start.line]!;
    lines[range.start.line] =
      line.slice(0, range.start.character) + newText + line.slice(range.end.character);
  }
  return lines.join("\n");
}

describe("windows of rows", () => {
  test("have the cells without what is empty in them, with their lines and findings", async () => {
    const page = await pageOf(await start());
    expect(page.version).toBe(1);
    expect(page.total).toBe(5);
    expect(texts(page)[1]).toBe("2026-03-01||pond|test|nitrate 60||high");
    expect(page.rows.map(({ line }) => line)).toEqual([0, 1, 2, 3, 4]);
    const values = page.rows[1]!.cells[4]!;
    expect(Object.keys(values).sort()).toEqual(["marks", "text"]);
    expect(values.marks!.length).toBeGreaterThan(0);
    expect(Object.keys(page.rows[2]!.cells[4]!)).toEqual(["text"]);
  });

  test("are found by a line of the text, and a row by what it is called, wherever it went", async () => {
    const from = await start();
    const page = await pageOf(from, march, { place: { line: 4, character: 0 } });
    expect(page.placedAt).toBe(4);
    const row = page.rows.at(-1)!.id;
    await from.edit("2026-03.tank", "  tub ", "  pond change 20 %\n  tub ");
    const after = await pageOf(from, march, { track: row });
    expect(after.trackedAt).toBe(5);
    expect(after.rows[5]!.id).toBe(row);
    const far = await from.ask(gridRequest, {
      uri,
      face: march,
      query: { ...view, from: 0, count: 1 },
      track: row,
    });
    expect(far!.trackedAt).toBe(5);
  });

  test("are given of a text that is no file of the workspace", async () => {
    const from = await start();
    const page = await from.ask(gridRequest, {
      uri: "git:/old.tank",
      face: march,
      query: { ...view, from: 0, count: 5 },
    });
    expect(page).toBeNull();
    const old = await from.ask(gridRequest, {
      uri: "git:/old.tank",
      text: "2025-01-01\n  pond change 10 %\n",
      face: { is: "entries", path: "git:/old.tank" },
      query: { ...view, from: 0, count: 5 },
    });
    expect(texts(old!)).toEqual(["2025-01-01||||||", "2025-01-01||pond|change|10 %||"]);
  });
});

describe("changes of cells", () => {
  test("come to the smallest edit of the line", async () => {
    const from = await start();
    const page = await pageOf(from);
    const cells = [{ row: page.rows[1]!.id, column: "values", text: "nitrate 55", was: "nitrate 60" }];
    expect(await textAfter(from, { is: "cells", cells })).toBe(
      from.textOf("2026-03.tank").replace("nitrate 60", "nitrate 55"),
    );
  });

  test("are refused where the cell says something else by now, and not where the row only moved", async () => {
    const from = await start();
    const page = await pageOf(from);
    const cells = [{ row: page.rows[2]!.id, column: "values", text: "nitrate 12", was: "nitrate 10" }];
    await from.edit("2026-03.tank", "2026-03-01\n", "2026-03-01\n  pond change 20 %\n");
    const made = (await from.ask(gridChangeRequest, {
      uri,
      face: march,
      change: { is: "cells", cells },
    })) as GridWritten & { is: "edits" };
    expect(made.files[0]!.edits[0]!.range.start.line).toBe(3);
    await from.edit("2026-03.tank", "nitrate 10", "nitrate 11");
    const late = await from.ask(gridChangeRequest, { uri, face: march, change: { is: "cells", cells } });
    expect(late).toMatchObject({ is: "refused", message: expect.stringContaining("says “nitrate 11” now") });
  });

  test("are refused while a merge has left two versions in the file", async () => {
    const from = await start();
    const page = await pageOf(from);
    const cells = [{ row: page.rows[2]!.id, column: "values", text: "nitrate 12", was: "nitrate 10" }];
    await from.edit("2026-03.tank", "2026-03-01\n", "2026-03-01\n<<<<<<< HEAD\n=======\n>>>>>>> holiday\n");
    expect(await textAfter(from, { is: "cells", cells })).toBe(
      "refused: a merge left two versions in 2026-03.tank: choose one first, there, as text; nothing was written",
    );
  });

  test("over rows that are others by now are refused", async () => {
    const from = await start();
    const over = rangeOf(await pageOf(from), 1, 2, ["values"]);
    await from.edit("2026-03.tank", "2026-03-01\n", "2026-03-01\n  pond change 20 %\n");
    for (const change of [
      { is: "clear", over },
      { is: "down", over },
      { is: "delete", over },
      { is: "paste", over, cells: [["x"], ["y"]] },
    ] as const)
      expect(await textAfter(from, change)).toMatch(/^refused: the rows were moved/);
  });

  test("fill down, go on as a series, are pasted and emptied, where they can be", async () => {
    const from = await start();
    const page = await pageOf(from);
    const text = from.textOf("2026-03.tank");
    const over = rangeOf(page, 1, 2, ["values"]);
    expect(await textAfter(from, { is: "down", over })).toBe(text.replace("nitrate 10", "nitrate 60"));
    expect(await textAfter(from, { is: "paste", over, cells: [["pH 7"], ["pH 8"]] })).toMatch(
      /test pH 7 +# high\n {2}tub {3}test pH 8\n/,
    );
    const comments = rangeOf(page, 0, 2, ["comment"]);
    expect(await textAfter(from, { is: "clear", over: comments })).toBe(text.replace(/ +# high/, ""));
    const dates = rangeOf(page, 1, 2, ["date"]);
    expect(await textAfter(from, { is: "clear", over: dates })).toMatch(/^refused: /);
  });
});

test("a selection is copied as a table and summed up, censored readings by their ends", async () => {
  const from = await start();
  const tank: Face = { is: "rounds", of: "tank", name: "pond" };
  const page = await pageOf(from, tank);
  const over = rangeOf(page, 0, 1, ["date", "test nitrate"]);
  expect(await from.ask(gridCopyRequest, { uri, face: tank, over })).toBe(
    "2026-03-01\t60\r\n2026-03-08\t<10",
  );
  const sum = await from.ask(gridSummaryRequest, {
    uri,
    face: tank,
    over: { ...over, columns: ["test nitrate"] },
  });
  expect(Object.fromEntries(sum.map(({ name, text }) => [name, text]))).toMatchObject({
    count: "2, 1 of them open",
    mean: "30 to 35 mg/L",
    range: "0 to 60 mg/L",
  });
});

test("a text is found in all rows, in the order in which they are shown", async () => {
  const from = await start();
  const found = await from.ask(gridFindRequest, {
    uri,
    face: march,
    view: { ...view, sort: [{ column: "tank", isDown: true }] },
    text: "NITRATE",
    isCaseSensitive: false,
  });
  // Of the columns the values are the fifth.
  expect(found!.places).toEqual([
    [0, 4],
    [1, 4],
    [2, 4],
  ]);
});

test("a text is replaced in all rows at once, and what cannot be edited is counted", async () => {
  const from = await start();
  const replace = { is: "replace", view, text: "Nitrate", isCaseSensitive: false, by: "pH" } as const;
  expect((await textAfter(from, replace)).match(/test pH/g)).toHaveLength(3);
  const dates: Face = { is: "rounds", of: "tank", name: "pond" };
  const made = await from.ask(gridChangeRequest, {
    uri,
    face: dates,
    change: { ...replace, text: "2026", by: "2027" },
  });
  expect(made).toMatchObject({ is: "edits", cells: 0, left: 2, files: [] });
});

describe("a long paste", () => {
  const cellsOf = (rows: number) =>
    Array.from({ length: rows }, (_, at) => ["pond", "test", `nitrate ${at % 50}`]);
  const begin = async (from: TestClient, token: CancellationToken, ticket = 1, rows = 5000) => {
    const page = await pageOf(from);
    const over = rangeOf(page, 1, 1, ["tank", "what", "values"]);
    const change: GridChange = { is: "paste", over, cells: cellsOf(rows) };
    return from.connection.sendRequest<GridWritten>(
      gridChangeRequest.method,
      { uri, face: march, change, ticket },
      token,
    );
  };

  test("is one edit, and tells how much of it is done", async () => {
    const from = await start();
    const shares: number[] = [];
    from.connection.onNotification(gridProgressNotification.method, ({ ticket, share }) => {
      expect(ticket).toBe(7);
      shares.push(share);
    });
    const made = await begin(from, CancellationToken.None, 7);
    if (made.is === "refused") throw new Error(made.message);
    expect(made.cells).toBe(15_000);
    expect(made.files.flatMap(({ edits }) => edits).length).toBeLessThan(4);
    expect(shares.length).toBeGreaterThan(0);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.every((share) => share > 0 && share < 1)).toBe(true);
  });

  test("is given up where nobody wants it any more, and nothing comes of it", async () => {
    const from = await start();
    const source = new CancellationTokenSource();
    from.connection.onNotification(gridProgressNotification.method, () => source.cancel());
    // Far more than is done by the time that the word arrives.
    expect(await begin(from, source.token, 1, 30_000)).toEqual({
      is: "refused",
      message: "given up: nothing was written",
    });
  });

  test("begins anew where the text is another meanwhile", async () => {
    const from = await start();
    // On the wire right behind the question.
    const send = from.connection.sendRequest.bind(from.connection);
    from.connection.sendRequest = ((...args: Parameters<typeof send>) => {
      const sent = send(...args);
      if (String(args[0]) === gridChangeRequest.method)
        void from.edit("2026-03.tank", "nitrate <10", "nitrate 44");
      return sent;
    }) as typeof send;
    const made = await begin(from, CancellationToken.None);
    if (made.is === "refused") throw new Error(made.message);
    expect(made.files[0]!.version).toBe(2);
  });
});

test("a cell has its place in the text, its offers, and the faces their choices", async () => {
  const from = await start();
  const page = await pageOf(from);
  const row = page.rows[2]!.id;
  const place = await from.ask(gridPlaceRequest, { uri, face: march, cell: { row, column: "values" } });
  expect(place).toEqual({
    uri,
    range: { start: { line: 2, character: 13 }, end: { line: 2, character: 23 } },
  });
  const offers = await from.ask(gridCompletionRequest, {
    uri,
    face: march,
    column: "tank",
    typed: "po",
    caret: 2,
    of: { row },
  });
  expect(offers.map(({ text }) => text)).toContain("pond");
  const choices = await from.ask(gridChoicesRequest, { uri });
  expect(choices!.places.map(({ name }) => name)).toEqual(["pond", "tub"]);
  expect(choices!.kinds.map(({ word }) => word)).toContain("test");
  expect(choices!.lastDay! - choices!.firstDay!).toBe(7);
});
