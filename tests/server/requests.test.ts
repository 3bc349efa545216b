import { afterEach, describe, expect, test } from "vitest";
import type {
  CodeAction,
  CodeLens,
  CompletionItem,
  CompletionList,
  DocumentHighlight,
  DocumentLink,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InlayHint,
  Location,
  SelectionRange,
  SemanticTokens,
  SemanticTokensDelta,
  SignatureHelp,
  TextEdit,
  WorkspaceEdit,
  WorkspaceSymbol,
} from "vscode-languageserver-protocol/node";
import {
  boardRequest,
  calculationPageRequest,
  calculationsRequest,
  cardOfRequest,
  cardRequest,
  casebookRequest,
  codesRequest,
  type DayParams,
  dayRequest,
  dutiesRequest,
  logLinesRequest,
  pageRequest,
  statusRequest,
  todayNotification,
  whyRequest,
  workRequest,
} from "../../language/server/protocol.ts";
import { pulling, TestClient, uriOf } from "./client.ts";

const cellar = `--- room.tank ---
room "Cellar"
tank dam "Show tank"
  volume 300 L
  limits nitrate <= 25 mg/L
  every 7 d change 30 %
tank ford
  volume 200 L
species praecox
--- 2026-03.tank ---
2026-03-01 "as on 2026-02-27"
  dam   change 30 %
  dam   count praecox 14
  sheet nitrate pH
    dam  30 7.2
2026-03-02
  dam   move praecox 2 -> ford
--- 2026-02.tank ---
2026-02-27
  dam   test nitrate 18
`;

const able = {
  ...pulling,
  textDocument: {
    ...pulling.textDocument,
    rename: { prepareSupport: true },
    completion: {
      completionItem: { snippetSupport: true, insertReplaceSupport: true, labelDetailsSupport: true },
    },
  },
  workspace: { ...pulling.workspace, workspaceEdit: { documentChanges: true, changeAnnotationSupport: {} } },
};

let client: TestClient;
afterEach(() => client.stop());

async function start(settings: unknown = {}): Promise<void> {
  client = await TestClient.start(cellar, { capabilities: able, settings, today: "2026-03-09" });
  await client.open("2026-03.tank");
}

describe("going from a name", () => {
  test("to where it is defined, in another file", async () => {
    await start();
    expect(await client.request<Location[]>("textDocument/definition", "2026-03.tank", "move pra")).toEqual([
      {
        uri: uriOf("room.tank"),
        range: { start: { line: 7, character: 8 }, end: { line: 7, character: 15 } },
      },
    ]);
  });

  test("to every place it stands at, and to those in the file", async () => {
    await start();
    const places = await client.request<Location[]>("textDocument/references", "2026-03.tank", "move pra", {
      context: { includeDeclaration: true },
    });
    expect(places.map(({ uri, range }) => `${uri.split("/").at(-1)}:${range.start.line}`)).toEqual([
      "2026-03.tank:2",
      "2026-03.tank:6",
      "room.tank:7",
    ]);
    const here = await client.request<DocumentHighlight[]>(
      "textDocument/documentHighlight",
      "2026-03.tank",
      "move pra",
    );
    expect(here.map(({ range }) => range.start.line)).toEqual([2, 6]);
  });

  test("from a date in prose to its day", async () => {
    await start();
    const links = await client.request<DocumentLink[]>("textDocument/documentLink", "2026-03.tank");
    expect(links).toMatchObject([{ target: uriOf("2026-02.tank"), tooltip: "Go to 2026-02-27" }]);
  });

  test("to a wider and wider selection", async () => {
    await start();
    const [selection] = await client.request<SelectionRange[]>(
      "textDocument/selectionRange",
      "2026-03.tank",
      undefined,
      {
        positions: [client.place("2026-03.tank", "dam   cha")],
      },
    );
    const lines: number[] = [];
    for (let at = selection; at !== undefined; at = at.parent)
      lines.push(at.range.end.line - at.range.start.line);
    expect(lines.length).toBeGreaterThan(3);
    expect(lines).toEqual([...lines].sort((a, b) => a - b));
  });
});

describe("a new name", () => {
  test("is asked for at the exact place, and written in all files with a word of what it comes to", async () => {
    await start();
    const place = await client.request("textDocument/prepareRename", "2026-03.tank", "move pra");
    expect(place).toEqual({
      range: { start: { line: 6, character: 13 }, end: { line: 6, character: 20 } },
      placeholder: "praecox",
    });
    const edit = await client.request<WorkspaceEdit>("textDocument/rename", "2026-03.tank", "move pra", {
      newName: "boesemani",
    });
    expect(edit.documentChanges).toMatchObject([
      {
        textDocument: { uri: uriOf("2026-03.tank"), version: 1 },
        edits: [{ newText: "boesemani" }, { newText: "boesemani" }],
      },
      { textDocument: { uri: uriOf("room.tank"), version: null }, edits: [{ newText: "boesemani" }] },
    ]);
    expect(Object.values(edit.changeAnnotations ?? {})).toMatchObject([
      { label: "Rename to boesemani", description: "3 places in 2 files" },
    ]);
  });

  test("that is taken is refused with the reason", async () => {
    await start();
    const asked = client.request("textDocument/rename", "2026-03.tank", "move pra", { newName: "ford" });
    await expect(asked).rejects.toThrow("“ford” is the name of a tank already");
  });
});

describe("the shape of a file", () => {
  test("its days with their entries, its folds, and names over all files", async () => {
    await start();
    const symbols = await client.request<DocumentSymbol[]>("textDocument/documentSymbol", "2026-03.tank");
    expect(symbols.map(({ name, children }) => [name, children?.length])).toEqual([
      ["2026-03-01", 3],
      ["2026-03-02", 1],
    ]);
    const folds = await client.request<FoldingRange[]>("textDocument/foldingRange", "2026-03.tank");
    expect(folds.map(({ startLine, endLine }) => [startLine, endLine])).toEqual([
      [0, 4],
      [3, 4],
      [5, 6],
    ]);
    const found = await client.connection.sendRequest<WorkspaceSymbol[]>("workspace/symbol", { query: "fo" });
    expect(found.map(({ name, location }) => [name, location.uri])).toEqual([["ford", uriOf("room.tank")]]);
  });
});

describe("layout", () => {
  test("is white space only, of all or of the lines asked for", async () => {
    await start();
    const all = await client.request<TextEdit[]>("textDocument/formatting", "2026-03.tank", undefined, {
      options: {},
    });
    expect(all.length).toBeGreaterThan(0);
    expect(all.every(({ newText }) => newText.trim() === "")).toBe(true);
    const some = await client.request<TextEdit[]>("textDocument/rangeFormatting", "2026-03.tank", undefined, {
      options: {},
      range: { start: { line: 5, character: 0 }, end: { line: 6, character: 0 } },
    });
    expect(some.every(({ range }) => range.start.line >= 5)).toBe(true);
  });

  test("of a new line is the line above", async () => {
    await start();
    await client.edit("2026-03.tank", "move praecox 2 -> ford", "move   praecox 2 -> ford\n");
    const edits = await client.request<TextEdit[]>(
      "textDocument/onTypeFormatting",
      "2026-03.tank",
      undefined,
      {
        position: { line: 7, character: 0 },
        ch: "\n",
        options: {},
      },
    );
    expect(edits.every(({ range }) => range.start.line === 6 || range.start.line === 7)).toBe(true);
    expect(edits.length).toBeGreaterThan(0);
  });
});

describe("colours", () => {
  test("by difference and by stretch are those of the whole", async () => {
    await start();
    const first = await client.request<SemanticTokens>("textDocument/semanticTokens/full", "2026-03.tank");
    await client.edit("2026-03.tank", "change 30 %", "change 30 % from tap");
    const delta = await client.request<SemanticTokensDelta>(
      "textDocument/semanticTokens/full/delta",
      "2026-03.tank",
      undefined,
      {
        previousResultId: first.resultId,
      },
    );
    const data = [...first.data];
    for (const { start, deleteCount, data: fresh } of delta.edits)
      data.splice(start, deleteCount, ...(fresh ?? []));
    const whole = await client.request<SemanticTokens>("textDocument/semanticTokens/full", "2026-03.tank");
    expect(data).toEqual(whole.data);
    const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const part = await client.request<SemanticTokens>(
      "textDocument/semanticTokens/range",
      "2026-03.tank",
      undefined,
      { range },
    );
    expect(part.data).toEqual(whole.data);
  });
});

describe("hints", () => {
  const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const ask = () =>
    client.request<InlayHint[]>("textDocument/inlayHint", "2026-03.tank", undefined, { range });

  test("stand at the ends of lines and say why when somebody points at one", async () => {
    await start();
    const hints = await ask();
    const change = hints.find(({ position }) => position.line === 1);
    expect(change?.position).toEqual({ line: 1, character: 19 });
    expect(String(change?.label)).toContain("90 L");
    const resolved = await client.connection.sendRequest<InlayHint>("inlayHint/resolve", change!);
    expect(resolved.tooltip).toMatchObject({ kind: "markdown", value: expect.stringContaining("90 L") });
  });

  test("of a kind, or all, are turned off by a setting at once", async () => {
    await start({ hints: { change: false } });
    expect((await ask()).map(({ position }) => position.line)).not.toContain(1);
    client.settings = { hints: { enabled: false } };
    await client.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
    await client.pullAll();
    expect(await ask()).toEqual([]);
  });
});

describe("hover, lenses and signature help", () => {
  test("tell of a tank, with links to its lines", async () => {
    await start();
    const told = await client.request<Hover>("textDocument/hover", "2026-03.tank", "  da");
    expect(told.range).toEqual({ start: { line: 1, character: 2 }, end: { line: 1, character: 5 } });
    expect(JSON.stringify(told.contents)).toContain("Show tank");
  });

  test("stand above days, with titles for those in sight", async () => {
    await start();
    const lenses = await client.request<CodeLens[]>("textDocument/codeLens", "2026-03.tank");
    expect(lenses.map(({ range }) => range.start.line)).toEqual([0, 5]);
    const resolved = await client.connection.sendRequest<CodeLens>("codeLens/resolve", lenses[0]!);
    expect(resolved.command?.title).toMatch(/3 entries|entries/);
    // This client says that it has no commands: nothing to click on.
    expect(resolved.command?.command).toBe("");
  });

  test("say what the line takes", async () => {
    await start();
    const help = await client.request<SignatureHelp>(
      "textDocument/signatureHelp",
      "2026-03.tank",
      "dam   change ",
    );
    const [{ label, parameters }] = help.signatures as [SignatureHelp["signatures"][0]];
    const [from, to] = parameters![help.activeParameter!]!.label as [number, number];
    expect(label.slice(from, to)).toBe("amount");
  });
});

describe("completion", () => {
  test("fits the place, puts in or takes the place of the word, and tells more when asked", async () => {
    await start();
    await client.edit("2026-03.tank", "-> ford", "-> ford\n  dam fee");
    const list = await client.request<CompletionList>("textDocument/completion", "2026-03.tank", "dam fee");
    const item = list.items.find(({ label }) => label === "feed");
    expect(item?.textEdit).toMatchObject({
      newText: expect.stringMatching(/^feed/),
      insert: { start: { line: 7, character: 6 }, end: { line: 7, character: 9 } },
    });
    const resolved = await client.connection.sendRequest<CompletionItem>("completionItem/resolve", item!);
    expect(resolved.documentation).toMatchObject({ kind: "markdown" });
  });

  test("offers whole entries that are due, first", async () => {
    await start();
    await client.replace(
      "2026-03.tank",
      client.textOf("2026-03.tank").length,
      client.textOf("2026-03.tank").length,
      "\n2026-03-09\n  ",
    );
    const list = await client.request<CompletionList>(
      "textDocument/completion",
      "2026-03.tank",
      "\n2026-03-09\n  ",
    );
    expect(list.items[0]?.label).toMatch(/dam.*change/);
  });

  test("offers nothing in prose", async () => {
    await start();
    const list = await client.request<CompletionList>("textDocument/completion", "2026-03.tank", '"as on');
    expect(list.items).toEqual([]);
  });
});

describe("actions", () => {
  const ask = (only?: string[]) => {
    const range = {
      start: client.place("2026-03.tank", "dam  30"),
      end: client.place("2026-03.tank", "dam  30 7"),
    };
    return client.request<CodeAction[]>("textDocument/codeAction", "2026-03.tank", undefined, {
      range,
      context: { diagnostics: [], ...(only === undefined ? {} : { only }) },
    });
  };
  const mending = {
    ...able,
    textDocument: { ...able.textDocument, codeAction: { resolveSupport: { properties: ["edit"] } } },
  };

  test("are listed without their edits, which come when one is chosen", async () => {
    client = await TestClient.start(cellar, { capabilities: mending, today: "2026-03-09" });
    await client.open("2026-03.tank");
    await client.edit("2026-03.tank", "move praecox 2", "mvoe praecox 2");
    const range = { start: client.place("2026-03.tank", "mv"), end: client.place("2026-03.tank", "mv") };
    const all = await client.request<CodeAction[]>("textDocument/codeAction", "2026-03.tank", undefined, {
      range,
      context: { diagnostics: [], only: ["quickfix"] },
    });
    expect(all[0]).toMatchObject({ title: "Write “move”", kind: "quickfix", isPreferred: true });
    expect(all[0]?.edit).toBeUndefined();
    const { edit } = await client.connection.sendRequest<CodeAction>("codeAction/resolve", all[0]!);
    expect(edit?.documentChanges).toMatchObject([
      { textDocument: { version: 2 }, edits: [expect.anything()] },
    ]);
  });

  test("come with their edits where the client does not ask again; only the kinds that are asked for", async () => {
    await start();
    const all = await ask(["refactor.rewrite"]);
    expect(all.map(({ title }) => title)).toEqual(["Write this sheet as entries"]);
    expect(all[0]?.edit?.documentChanges).toHaveLength(1);
    expect((await ask(["source.organizeImports"])).length).toBe(0);
  });

  test("begin today", async () => {
    await start();
    const all = await client.request<CodeAction[]>("textDocument/codeAction", "2026-03.tank", undefined, {
      range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
      context: { diagnostics: [], only: ["refactor"] },
    });
    const found = all.find(({ title }) => title.startsWith("Start today"));
    expect(found?.edit?.documentChanges).toMatchObject([
      {
        textDocument: { uri: uriOf("2026-03.tank") },
        edits: [{ newText: expect.stringContaining("2026-03-09") }],
      },
    ]);
  });
});

describe("writing into today", () => {
  const uri = uriOf("2026-03.tank");
  const write = (params: Omit<DayParams, "uri">) => client.ask(dayRequest, { uri, ...params });

  test("begins it at the end of its month's file", async () => {
    await start();
    const edit = await write({ write: "start" });
    expect(edit).toMatchObject({ uri, isNew: false, snippet: "  ", position: { line: 8, character: 0 } });
    expect(edit?.edits.map(({ newText }) => newText).join("")).toBe("\n2026-03-09\n");
  });

  test("begins a file for a new month where there is one a month", async () => {
    await start();
    await client.tell(todayNotification, { day: "2026-04-01", isPinned: false });
    expect(await write({ write: "start" })).toMatchObject({ uri: uriOf("2026-04.tank"), isNew: true });
  });

  test("goes on where today is begun", async () => {
    await start();
    await client.tell(todayNotification, { day: "2026-03-02", isPinned: false });
    const edit = await write({ write: "entry", entry: "dam change $1 %" });
    expect(edit).toEqual({
      uri,
      isNew: false,
      edits: [],
      position: { line: 6, character: 30 },
      snippet: "\n  dam change $1 %",
    });
  });

  test("writes a round of what is due, to be filled in", async () => {
    await start();
    expect(await write({ write: "sheet" })).toBeNull();
    await client.open("room.tank");
    await client.edit("room.tank", "every 7 d change 30 %", "every 7 d test nitrate, pH");
    const edit = await write({ write: "sheet" });
    expect(edit?.snippet).toBe("  sheet  nitrate  pH\n    dam  $".concat("{1:-}        $", "{2:-}"));
  });

  test("writes the round sheet, to be typed in, in one step", async () => {
    await start();
    const edit = await write({ write: "round" });
    expect(edit).toMatchObject({ uri, isNew: false, edits: [] });
    expect(edit?.snippet).toMatch(/2026-03-09\n {2}sheet .*nitrate/);
    expect(edit?.snippet).toContain("$".concat("{1:-}"));
  });
});

describe("requests of our own", () => {
  const uri = uriOf("2026-03.tank");

  test("how the logbook stands, and what is due", async () => {
    await start();
    expect(await client.ask(statusRequest, { uri })).toEqual({
      title: "Cellar",
      today: "2026-03-09",
      due: 0,
      late: 1,
      findings: { error: 0, warning: 1, information: expect.any(Number), hint: expect.any(Number) },
    });
    expect(await client.ask(dutiesRequest, { uri })).toMatchObject([
      {
        what: "dam change 30 %",
        when: "1 day late",
        late: 1,
        uri: uriOf("room.tank"),
        range: { start: { line: 4 } },
      },
    ]);
  });

  test("the board, and lines into today and out again", async () => {
    await start();
    const board = await client.ask(boardRequest, { uri });
    expect(board).toMatchObject({
      title: "Cellar",
      stops: [{ at: "dam", tasks: [{ target: "dam", late: 1, place: { uri: uriOf("room.tank") } }] }],
    });
    const lines = ["dam change 30 %"];
    const logged = await client.ask(logLinesRequest, { uri, lines });
    expect(logged).toMatchObject({
      isNew: false,
      written: lines,
      edits: [{ newText: expect.stringContaining("change 30 %") }],
    });
    expect(await client.ask(logLinesRequest, { uri, lines, takeBack: true })).toEqual({
      refused: [{ line: 0, message: "this line was changed since, or is gone" }],
    });
    expect(await client.ask(logLinesRequest, { uri, lines: ["dmm clean"] })).toMatchObject({
      refused: [{ line: 0, message: expect.stringContaining("dmm") }],
    });
    expect(await client.ask(boardRequest, { uri: uriOf("no.tank") })).toBeNull();
  });

  test("the card of the tank or the day at a place, with places of the log as the protocol has them", async () => {
    await start();
    const tank = await client.ask(cardRequest, { uri, position: client.place("2026-03.tank", "  dam") });
    expect(tank).toMatchObject({
      is: "tank",
      name: "dam",
      at: { uri: uriOf("room.tank"), range: { start: { line: 1 } } },
    });
    const day = await client.ask(cardRequest, { uri, position: { line: 0, character: 2 } });
    expect(day).toMatchObject({ is: "day", at: { uri, range: { start: { line: 0, character: 0 } } } });
    expect(
      await client.ask(cardRequest, { uri: uriOf("no.tank"), position: { line: 0, character: 0 } }),
    ).toBeNull();
  });

  test("the casebook, and a case by its name, with places of the log as the protocol has them", async () => {
    await start();
    expect(await client.ask(casebookRequest, { uri })).toMatchObject({ open: [], closed: [] });
    await client.open(
      "2026-02.tank",
      `2026-02-01
  dam  sick horn 1 of 4 case c-1
2026-02-02
  dam  close c-1 recovered
2026-02-05
  dam  sick horn 2 of 4 signs "flashing" case c-1
`,
    );
    const book = await client.ask(casebookRequest, { uri });
    expect(book?.open).toMatchObject([{ name: "c-1", episode: 2, target: "dam" }]);
    expect(book?.closed).toMatchObject([
      {
        name: "c-1",
        episode: 1,
        outcome: "recovered",
        at: { uri: uriOf("2026-02.tank"), range: { start: { line: 1 } } },
      },
    ]);
    expect(await client.ask(cardOfRequest, { uri, case: "c-1" })).toMatchObject({
      is: "case",
      episode: 2,
      ever: 2,
    });
    expect(await client.ask(cardOfRequest, { uri, case: "c-1", episode: 1 })).toMatchObject({ ever: 1 });
    expect(await client.ask(cardOfRequest, { uri, case: "c-9" })).toBeNull();
    const position = client.place("2026-02.tank", "c-1");
    expect(await client.ask(cardRequest, { uri: uriOf("2026-02.tank"), position })).toMatchObject({
      is: "case",
    });
    expect(await client.ask(casebookRequest, { uri: uriOf("no.tank") })).toBeNull();
  });

  test("why a figure is what it is", async () => {
    await start();
    const why = await client.ask(whyRequest, { uri, position: client.place("2026-03.tank", "change 30") });
    expect(why?.from.length).toBeGreaterThan(0);
  });

  test("the page of a finding", async () => {
    await start();
    const codes = await client.ask(codesRequest, null);
    expect(codes.length).toBeGreaterThan(20);
    for (const { code, title } of codes) expect(await client.ask(pageRequest, { code })).toContain(title);
    expect(await client.ask(pageRequest, { code: "no/such" })).toBeNull();
  });
});

describe("what goes wrong", () => {
  test("is no crash: a file that is not known, a place outside, a resolve of nonsense", async () => {
    await start();
    expect(
      await client.request("textDocument/hover", "no.tank", undefined, {
        position: { line: 0, character: 0 },
      }),
    ).toBeNull();
    const far = { position: { line: 9999, character: 9999 } };
    for (const method of [
      "hover",
      "definition",
      "completion",
      "signatureHelp",
      "prepareRename",
      "documentHighlight",
    ])
      await client.request(`textDocument/${method}`, "2026-03.tank", undefined, far);
    const nonsense = { label: "x", data: { uri: 7 } };
    expect(await client.connection.sendRequest("completionItem/resolve", nonsense)).toMatchObject({
      label: "x",
    });
    expect(
      await client.connection.sendRequest("inlayHint/resolve", { position: far.position, label: "x" }),
    ).toMatchObject({ label: "x" });
    expect(client.logged.some((words) => words.includes("a hint"))).toBe(true);
    expect(await client.found("2026-03.tank")).toEqual(["limit/above at 4:9"]);
  });
});

describe("working something out", () => {
  test("lists what there is, works it out from the tank at a place, and has a page of it", async () => {
    await start();
    const all = await client.connection.sendRequest<{ name: string }[]>(calculationsRequest.method, null);
    expect(all.map(({ name }) => name)).toContain("free-ammonia");
    const worked = await client.connection.sendRequest<{
      tank: string;
      inputs: { text: string }[];
      figures: unknown[];
    }>(workRequest.method, {
      calculation: "free-ammonia",
      given: { total: "0.5", temperature: "25" },
      uri: uriOf("2026-03.tank"),
      position: { line: 1, character: 4 },
    });
    expect(worked.tank).toBe("dam");
    expect(worked.inputs[1]).toMatchObject({ text: "7.2", from: "test of 1 March" });
    expect(worked.figures.length).toBeGreaterThan(0);
    expect(
      await client.connection.sendRequest(workRequest.method, { calculation: "none", given: {} }),
    ).toBeNull();
    expect(
      await client.connection.sendRequest(calculationPageRequest.method, { name: "free-ammonia" }),
    ).toContain("# Free ammonia");
    expect(await client.connection.sendRequest(calculationPageRequest.method, { name: "none" })).toBeNull();
  });
});
