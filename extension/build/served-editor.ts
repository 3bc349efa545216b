/**
 * A real VS Code served on 127.0.0.1, for `npm start` where no desktop VS Code is installed and for the host tests:
 * the editor's own server as the code-server project builds and publishes it to the npm registry. Only that server
 * is used, not code-server's front.
 */

import { randomBytes } from "node:crypto";
import { createWriteStream, existsSync, readFileSync } from "node:fs";
import { copyFile, mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fetched, npm, runVisibly } from "./fetched.ts";
import { type Leashed, leashed } from "./leashed.ts";

const CODE_SERVER = "4.139.1";
const INTEGRITY =
  "sha512-fUYvJVdz4ZoVJfakGiGWXFMpF8K1ObsrpGvX17ZxNpKOzdNHs7lANT670JTr4ZhA8DnWqyvvmFG/d3HV9Yy6ew==";
/** The server inside code-server's package. */
const SERVER = join("node_modules", "code-server", "lib", "vscode");
const START_LIMIT_MS = 60_000;

/** Settings of a profile nobody has touched yet: no welcome, no questions, nothing that calls home. */
const QUIET_SETTINGS = {
  "chat.disableAIFeatures": true,
  "extensions.autoCheckUpdates": false,
  "extensions.autoUpdate": false,
  "extensions.ignoreRecommendations": true,
  "files.autoSave": "off",
  "git.openRepositoryInParentFolders": "never",
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "update.showReleaseNotes": false,
  "workbench.enableExperiments": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
};

/** No gallery of extensions, so that nothing asks the network for anything; each address has to be put out by name. */
const NO_GALLERY = {
  serviceUrl: "",
  itemUrl: "",
  publisherUrl: "",
  resourceUrlTemplate: "",
  extensionUrlTemplate: "",
  controlUrl: "",
  nlsBaseUrl: "",
  recommendationsUrl: "",
};

export interface EditorOptions {
  /** Holds everything this editor writes: settings, installed extensions, state, its log. */
  readonly profile: string;
  /** Zero or absent: any free port. */
  readonly port?: number;
  /** Added to the settings of a new profile; an existing profile keeps its own. */
  readonly settings?: Record<string, unknown>;
  /** Lets a page name an extension under development and a test suite in its address. */
  readonly forTests?: boolean;
  /** Folders are not trusted before somebody says so; else all are. */
  readonly asksTrust?: boolean;
}

export interface ServedEditor {
  readonly profile: string;
  /** `127.0.0.1:PORT`, as it also stands in `vscode-remote://` addresses. */
  readonly authority: string;
  /** The address of a window on a folder; `payload` are the window's options. */
  url(folder: string, payload?: readonly (readonly [string, string])[]): string;
  /** Ends the server and every process it started; resolves when they are gone. */
  stop(): Promise<void>;
  /** The server's exit status, once it has ended, by itself or by `stop`. */
  readonly ended: Promise<number>;
}

/** Starts the served editor and resolves once it listens. */
export async function startEditor(options: EditorOptions): Promise<ServedEditor> {
  const program = await editorProgram();
  await prepareProfile(options);
  const token = randomBytes(16).toString("hex");
  const server = leashed(
    process.execPath,
    [
      ...[program, ...profileArguments(options.profile)],
      ...["--host", "127.0.0.1", "--port", String(options.port ?? 0), "--connection-token", token],
      ...["--telemetry-level", "off", ...(options.asksTrust ? [] : ["--disable-workspace-trust"])],
      ...(options.forTests ? ["--enable-smoke-test-driver"] : []),
    ],
    { output: "piped", environment: cleanEnvironment() },
  );
  try {
    const port = await listeningPort(server, join(options.profile, "server.log"));
    const authority = `127.0.0.1:${port}`;
    const url = (folder: string, payload?: readonly (readonly [string, string])[]) => {
      const query = new URLSearchParams({ tkn: token, folder });
      if (payload) query.set("payload", JSON.stringify(payload));
      return `http://${authority}/?${query}`;
    };
    return { profile: options.profile, authority, url, stop: server.end, ended: server.ended };
  } catch (error) {
    await server.end();
    throw error;
  }
}

/** Installs a packed extension into a profile, replacing an older or equal version. */
export async function installExtension(profile: string, vsixFile: string): Promise<void> {
  const program = await editorProgram();
  await mkdir(profile, { recursive: true });
  const args = [program, ...profileArguments(profile), "--install-extension", vsixFile, "--force"];
  await runVisibly("Installing the packed extension", process.execPath, args);
}

function profileArguments(profile: string): string[] {
  return ["--server-data-dir", profile, "--accept-server-license-terms"];
}

async function prepareProfile(options: EditorOptions): Promise<void> {
  const settingsFile = join(options.profile, "data", "User", "settings.json");
  if (existsSync(settingsFile)) return;
  await mkdir(join(options.profile, "data", "User"), { recursive: true });
  await writeFile(settingsFile, JSON.stringify({ ...QUIET_SETTINGS, ...options.settings }, null, 2));
}

/** Started from a terminal inside VS Code, the server must not take itself for a part of that window. */
function cleanEnvironment(): NodeJS.ProcessEnv {
  const ours = Object.entries(process.env).filter(
    ([name]) => !/^(VSCODE_|ELECTRON_|NODE_OPTIONS$)/.test(name),
  );
  return { ...Object.fromEntries(ours), EXTENSIONS_GALLERY: JSON.stringify(NO_GALLERY) };
}

async function listeningPort({ stdout, stderr, ended }: Leashed, logFile: string): Promise<number> {
  const log = createWriteStream(logFile);
  stderr?.pipe(log, { end: false });
  let said = "";
  let timer: NodeJS.Timeout | undefined;
  try {
    return await new Promise<number>((resolve, reject) => {
      stdout?.on("data", (data) => {
        log.write(data);
        if (said.length > 100_000) return;
        said += data;
        const port = /Extension host agent listening on (\d+)/.exec(said)?.[1];
        if (port) resolve(Number(port));
      });
      const fail = (why: string) => {
        const words = existsSync(logFile) ? readFileSync(logFile, "utf8").slice(-4000) : said;
        reject(new Error(`The served editor ${why}. It said:\n${words}`));
      };
      ended.then(() => fail("ended before it listened"), reject);
      timer = setTimeout(fail, START_LIMIT_MS, "did not listen in time");
    });
  } finally {
    clearTimeout(timer);
  }
}

/** The server's main script, fetched on first use. */
async function editorProgram(): Promise<string> {
  const folder = await fetched(`code-server-${CODE_SERVER}`, async (unfinished) => {
    console.log(
      `Fetching a VS Code to serve (code-server ${CODE_SERVER}, about 600 MB unpacked; first use only)`,
    );
    await npm(
      "1 of 2: the editor",
      unfinished,
      ...["install", "--ignore-scripts", "--save-exact", `code-server@${CODE_SERVER}`],
    );
    const lock = JSON.parse(await readFile(join(unfinished, "package-lock.json"), "utf8"));
    const found = lock.packages["node_modules/code-server"]?.integrity;
    if (found !== INTEGRITY) throw new Error(`code-server ${CODE_SERVER} is not what it was: ${found}`);
    const server = join(unfinished, SERVER);
    await npm("2 of 2: its libraries", server, "install", "--ignore-scripts", "--omit=dev");
    await replaceNativeModules(join(server, "node_modules"));
  });
  return join(folder, SERVER, "out", "server-main.js");
}

/**
 * Nothing is compiled. The terminal, the file watcher and the search come prebuilt; of the rest a window needs two
 * modules, both replaced here: the one that writes logs and output channels, and one that ends an extension host
 * whose server is gone, for which the host has a second way.
 */
async function replaceNativeModules(modules: string): Promise<void> {
  const log = join(import.meta.dirname, "log-stand-in.cjs");
  await copyFile(log, join(modules, "@vscode", "spdlog", "index.js"));
  await writeFile(join(modules, "@vscode", "native-watchdog", "index.js"), "exports.start = () => {};\n");
}
