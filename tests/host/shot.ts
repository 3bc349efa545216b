/**
 * Pictures of the real editor: opens a file in a served VS Code with the extension as it is in the working tree, does
 * what it is told, and takes PNGs. For the README, for looking at one's own work, and for comparing themes.
 *
 *     npx node tests/host/shot.ts --file samples/cellar/2026-03.tank --line 12:8 -o picture.png
 *
 *     --file FILE          what to open (required)
 *     --line LINE[:COLUMN] where to put the cursor
 *     --folder FOLDER      the folder of the window; the file's own unless said otherwise
 *     --theme NAME         dark (default), light, hc, hc-light
 *     --size WIDTHxHEIGHT  of the window, 1280x800 unless said otherwise
 *     --scale NUMBER       pixels of the picture for one of the window, 1 unless said otherwise
 *     --setting KEY=JSON   a setting for this window; may be repeated
 *     --bare               without side bar and activity bar
 *     --web                the extension in the web worker host instead of Node's
 *     --minify             the bundles as they ship
 *     --log                what the window wrote to its console as errors, at the end
 *
 * and, in the order in which they stand on the command line, any number of
 *
 *     --command "ID [JSON]"  run a command by its id, with one argument if it takes one
 *     --keys "KEYS"          press keys, separated by blanks: "Control+Space ArrowDown Enter"
 *     --type TEXT            type a text into what has the focus
 *     --click WHAT           click on the first visible thing that WHAT finds
 *     --hover WHAT           rest the pointer on it
 *     --wait-for WHAT        wait until it is to be seen
 *     -o FILE, --out FILE    take a picture, once nothing changes any more
 *
 * WHAT is a CSS selector or a text, looked for in the window and in all webviews. Examples:
 *
 *     --line 12:10 --command editor.action.showHover -o hover.png
 *     --command standpipe.preview.open --wait-for "Nitrate" --theme light -o preview.png
 *     --keys "Control+End Enter" --type "dam t" --keys Control+Space --wait-for .suggest-widget.visible -o list.png
 *
 * Nothing that is typed is saved. Each call has a build, a profile and a server of its own, so calls may run beside each
 * other and beside any build; a picture takes about ten seconds.
 */

import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { parseArgs } from "node:util";
import { runAsCommand } from "../../extension/build/as-command.ts";
import { bundle } from "../../extension/build/bundle.ts";
import { built, version } from "../../extension/build/places.ts";
import { startEditor } from "../../extension/build/served-editor.ts";
import { launchBrowser } from "./browser.ts";
import { type Command, EditorWindow } from "./window.ts";

const THEMES: Record<string, string> = {
  dark: "Default Dark Modern",
  light: "Default Light Modern",
  hc: "Default High Contrast",
  "hc-light": "Default High Contrast Light",
};

const ACTIVATION_LIMIT_MS = 30_000;

const options = {
  file: { type: "string" },
  line: { type: "string" },
  folder: { type: "string" },
  theme: { type: "string", default: "dark" },
  size: { type: "string", default: "1280x800" },
  scale: { type: "string", default: "1" },
  setting: { type: "string", multiple: true },
  bare: { type: "boolean", default: false },
  web: { type: "boolean", default: false },
  minify: { type: "boolean", default: false },
  log: { type: "boolean", default: false },
  command: { type: "string", multiple: true },
  keys: { type: "string", multiple: true },
  type: { type: "string", multiple: true },
  click: { type: "string", multiple: true },
  hover: { type: "string", multiple: true },
  "wait-for": { type: "string", multiple: true },
  out: { type: "string", short: "o", multiple: true },
} as const;

/** The options that are done in the order in which they stand. */
const STEPS: ReadonlySet<string> = new Set(["command", "keys", "type", "click", "hover", "wait-for", "out"]);

interface Step {
  readonly what: string;
  readonly value: string;
}

await runAsCommand(async () => {
  const { values, tokens } = parseArgs({ options, tokens: true });
  const steps: Step[] = tokens.flatMap((token) =>
    token.kind === "option" && STEPS.has(token.name) ? [{ what: token.name, value: token.value ?? "" }] : [],
  );
  if (!values.file)
    throw new Error("--file is missing; the head of tests/host/shot.ts says how this is used");
  if (!values.out) throw new Error("-o FILE is missing: where shall the picture go?");
  const file = resolve(values.file);
  if (!existsSync(file)) throw new Error(`${values.file} is not there`);
  const theme = THEMES[values.theme];
  if (!theme) throw new Error(`--theme is one of ${Object.keys(THEMES).join(", ")}`);
  const [line, column] = (values.line ?? "").split(":").map(Number);
  const [width = 1280, height = 800] = values.size.split("x").map(Number);

  const temporary = mkdtempSync(join(tmpdir(), "standpipe-shot-"));
  process.once("exit", () => rmSync(temporary, { recursive: true, force: true, maxRetries: 3 }));
  await quietly(() => bundle({ dev: !values.minify, into: temporary }));
  const profile = join(temporary, "profile");
  // Installed, not under development: the window looks as a keeper sees it.
  mkdirSync(join(profile, "extensions"), { recursive: true });
  renameSync(built(temporary).extension, join(profile, "extensions", `standpipe.standpipe-${version}`));
  const settings = {
    "workbench.colorTheme": theme,
    "editor.cursorBlinking": "solid",
    "editor.minimap.enabled": false,
    "files.hotExit": "off",
    "window.commandCenter": false,
    ...(values.bare
      ? { "workbench.activityBar.location": "hidden", "workbench.sideBar.visible": false }
      : {}),
    ...(values.web ? { "remote.extensionKind": { "standpipe.standpipe": ["web"] } } : {}),
    ...Object.fromEntries((values.setting ?? []).map(keyAndValue)),
  };
  const [editor, browser] = await Promise.all([
    startEditor({ profile, forTests: true, settings }),
    launchBrowser(),
  ]);
  try {
    const commands = steps.filter(({ what }) => what === "command").map(({ value }) => asCommand(value));
    if (values.bare) commands.push({ id: "workbench.action.closeSidebar" });
    const window = await EditorWindow.open(
      browser,
      editor,
      {
        folder: resolve(values.folder ?? dirname(file)),
        file,
        ...(line ? { line, column: column ?? 1 } : {}),
        size: { width, height },
        scale: Number(values.scale),
      },
      commands,
    );
    if (file.endsWith(".tank") && !values.web) await activated(profile);
    if (values.bare) await window.command("workbench.action.closeSidebar");
    await window.settled();
    for (const step of steps) await take(window, step);
    if (values.log) console.log(window.errors.join("\n"));
    await window.close();
  } finally {
    await browser.close();
    await editor.stop();
  }
});

async function take(window: EditorWindow, { what, value }: Step): Promise<void> {
  const { keyboard } = window.page;
  if (what === "command") await window.command(asCommand(value).id);
  if (what === "keys") for (const key of value.split(/\s+/)) await keyboard.press(key);
  if (what === "type") await keyboard.type(value, { delay: 20 });
  if (what === "click") await window.click(value);
  if (what === "hover") await window.hover(value);
  if (what === "wait-for") await window.find(value);
  if (what !== "out") return;
  await window.settled();
  const file = resolve(value);
  mkdirSync(dirname(file), { recursive: true });
  await window.page.screenshot({ path: file });
  console.log(file);
}

function asCommand(text: string): Command {
  const [, id = text, argument] = /^(\S+)\s+(.+)$/.exec(text) ?? [];
  return argument === undefined ? { id } : { id, argument: JSON.parse(argument) };
}

function keyAndValue(setting: string): [string, unknown] {
  const at = setting.indexOf("=");
  if (at < 0) throw new Error(`--setting wants KEY=JSON, not ${setting}`);
  return [setting.slice(0, at), JSON.parse(setting.slice(at + 1))];
}

/** Resolves when the extension host has told its log that the extension is being activated. */
async function activated(profile: string): Promise<void> {
  const logs = join(profile, "data", "logs");
  const deadline = Date.now() + ACTIVATION_LIMIT_MS;
  while (Date.now() < deadline) {
    const files = existsSync(logs) ? readdirSync(logs, { recursive: true, encoding: "utf8" }) : [];
    const hosts = files.filter((file) => file.endsWith("remoteexthost.log"));
    if (hosts.some((file) => readFileSync(join(logs, file), "utf8").includes("standpipe.standpipe"))) return;
    await new Promise((done) => setTimeout(done, 50));
  }
  throw new Error("The extension was not activated");
}

/** The build's table of sizes is of no interest here. */
async function quietly(work: () => Promise<void>): Promise<void> {
  const { log } = console;
  console.log = () => {};
  try {
    await work();
  } finally {
    console.log = log;
  }
}
