import { spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from "vscode-jsonrpc/node";
import { filesRequest, readRequest } from "../../language/server/protocol.ts";
import { quantile } from "./measure.ts";

/** What an editor feels in a logbook, through the real server over stdio: milliseconds from the key to the answer. */
export interface EditorTimes {
  readonly firstFindingsMs: number;
  readonly keystrokeP50Ms: number;
  readonly keystrokeP95Ms: number;
  readonly earlyKeystrokeP95Ms: number;
  readonly hoverP95Ms: number;
  readonly completionP95Ms: number;
  readonly hintsP95Ms: number;
  readonly peakMiB: number;
}

/** @param server the bundled server @param folder of the logbook, one file a month */
export async function editorTimes(server: string, folder: string, keystrokes: number): Promise<EditorTimes> {
  const names = readdirSync(folder)
    .filter((name) => name.endsWith(".tank"))
    .sort();
  const uriOf = (name: string): string => pathToFileURL(join(folder, name)).href;
  const months = names.filter((name) => /^\d/.test(name));
  const child = spawn(process.execPath, [server, "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  connection.onRequest(filesRequest.method, () => names.map(uriOf));
  connection.onRequest(readRequest.method, ({ uris }: { uris: string[] }) =>
    uris.map((uri) => readFileSync(new URL(uri), "utf8")),
  );
  connection.onRequest("workspace/configuration", ({ items }: { items: unknown[] }) => items.map(() => null));
  for (const method of [
    "client/registerCapability",
    "window/workDoneProgress/create",
    "workspace/diagnostic/refresh",
    "workspace/inlayHint/refresh",
    "workspace/codeLens/refresh",
    "workspace/semanticTokens/refresh",
  ]) {
    connection.onRequest(method, () => null);
  }
  connection.listen();
  try {
    const begun = performance.now();
    await connection.sendRequest("initialize", {
      processId: process.pid,
      rootUri: pathToFileURL(folder).href,
      workspaceFolders: [{ uri: pathToFileURL(folder).href, name: "bench" }],
      capabilities: {
        textDocument: {
          diagnostic: { dynamicRegistration: false },
          hover: { contentFormat: ["markdown"] },
          completion: { completionItem: { snippetSupport: true } },
          inlayHint: {},
        },
        workspace: { workspaceFolders: true },
      },
      initializationOptions: { givesFiles: true },
    });
    await connection.sendNotification("initialized", {});
    const late = await open(connection, uriOf(months.at(-1)!));
    await connection.sendRequest("textDocument/diagnostic", { textDocument: { uri: late.uri } });
    const firstFindingsMs = performance.now() - begun;
    const early = await open(connection, uriOf(months[Math.floor(months.length / 4)]!));
    const late95 = await type(connection, late, keystrokes);
    const early95 = await type(connection, early, keystrokes);
    const ask = async (method: string, paramsAt: (line: number) => object): Promise<number> => {
      const times: number[] = [];
      for (let at = 0; at < keystrokes; at++) {
        const line = late.lines.length - 3 - ((at * 7) % 100);
        const started = performance.now();
        await connection.sendRequest(method, { textDocument: { uri: late.uri }, ...paramsAt(line) });
        times.push(performance.now() - started);
      }
      return quantile(times, 0.95);
    };
    const hoverP95Ms = await ask("textDocument/hover", (line) => ({ position: { line, character: 4 } }));
    const completionP95Ms = await ask("textDocument/completion", (line) => ({
      position: { line, character: late.lines[line]!.length },
    }));
    const hintsP95Ms = await ask("textDocument/inlayHint", (line) => ({
      range: { start: { line: Math.max(0, line - 40), character: 0 }, end: { line, character: 0 } },
    }));
    const peakMiB = peakOf(child.pid);
    await connection.sendRequest("shutdown");
    await connection.sendNotification("exit");
    return {
      firstFindingsMs,
      keystrokeP50Ms: quantile(late95, 0.5),
      keystrokeP95Ms: quantile(late95, 0.95),
      earlyKeystrokeP95Ms: quantile(early95, 0.95),
      hoverP95Ms,
      completionP95Ms,
      hintsP95Ms,
      peakMiB,
    };
  } finally {
    connection.dispose();
    child.kill();
  }
}

interface OpenFile {
  readonly uri: string;
  readonly lines: string[];
  version: number;
}

type Connection = ReturnType<typeof createMessageConnection>;

async function open(connection: Connection, uri: string): Promise<OpenFile> {
  const text = readFileSync(new URL(uri), "utf8");
  await connection.sendNotification("textDocument/didOpen", {
    textDocument: { uri, languageId: "standpipe", version: 1, text },
  });
  return { uri, lines: text.split("\n"), version: 1 };
}

/** Types digits into the number of a test and takes them back; each time until the findings of the file are there. */
async function type(connection: Connection, file: OpenFile, keystrokes: number): Promise<number[]> {
  const tests = file.lines.flatMap((line, at) => (/ test nitrate \d/.test(line) ? [at] : []));
  const times: number[] = [];
  for (let at = 0; at < keystrokes; at++) {
    const line = tests[(at * 13) % tests.length]!;
    const character = /test nitrate \d/.exec(file.lines[line]!)!.index + "test nitrate ".length + 1;
    for (const isTyped of [true, false]) {
      const start = { line, character };
      const end = isTyped ? start : { line, character: character + 1 };
      const started = performance.now();
      await connection.sendNotification("textDocument/didChange", {
        textDocument: { uri: file.uri, version: ++file.version },
        contentChanges: [{ range: { start, end }, text: isTyped ? "1" : "" }],
      });
      await connection.sendRequest("textDocument/diagnostic", { textDocument: { uri: file.uri } });
      times.push(performance.now() - started);
    }
  }
  return times;
}

/** The peak of a running process's memory, as Linux tells it; NaN elsewhere. */
function peakOf(pid: number | undefined): number {
  try {
    const status = readFileSync(`/proc/${pid}/status`, "utf8");
    return Number(/VmHWM:\s+(\d+)/.exec(status)?.[1]) / 1024;
  } catch {
    return Number.NaN;
  }
}
