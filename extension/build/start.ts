/**
 * `npm start`: builds, prints today's report of the sample room, and opens that room in an editor with the extension:
 * in the desktop VS Code if `code` is on PATH, else in a VS Code served on this machine, for a browser.
 *
 *     npm start -- --report         builds, prints, and ends
 *     npm start -- --port 8123      where the served editor listens; any free port unless said otherwise
 *     npm start -- --served         the served editor even if there is a desktop one
 *     npm start -- --room FOLDER    another room than the sample
 *
 * Ctrl-C ends it and everything it started.
 */

import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join, relative, resolve } from "node:path";
import { parseArgs } from "node:util";
import { runAsCommand } from "./as-command.ts";
import { bundle } from "./bundle.ts";
import { leashed } from "./leashed.ts";
import { pack } from "./package.ts";
import { built, checkout, keptFolder, sampleRoom, vsix } from "./places.ts";
import { installExtension, startEditor } from "./served-editor.ts";

await runAsCommand(async () => {
  const { values } = parseArgs({
    options: {
      report: { type: "boolean" },
      port: { type: "string" },
      served: { type: "boolean" },
      room: { type: "string" },
    },
  });
  const port = Number(values.port ?? 0);
  if (!Number.isInteger(port) || port < 0 || port > 65535)
    throw new Error(`--port ${values.port}: not a port`);
  const room = resolve(values.room ?? sampleRoom);
  if (!existsSync(room)) throw new Error(`${room} is not there`);
  console.log("Building the extension and the terminal command");
  await bundle();
  report(room);
  if (values.report) return;
  const desktop = values.served ? undefined : onPath("code");
  if (desktop && (await openDesktop(desktop, room))) return;
  await serve(room, port);
});

/** Prints the report as the terminal command does; findings in the log are no failure of ours. */
function report(room: string): void {
  const name = relative(checkout, room) || ".";
  console.log(`\n$ node dist/standpipe.mjs today ${name}`);
  const { status } = spawnSync(process.execPath, [built().command, "today", room], { stdio: "inherit" });
  if (status !== 0 && status !== 1) throw new Error(`The report could not be made (exit status ${status})`);
}

/**
 * A window of its own, in a profile of its own, so that nothing of the user's VS Code is touched. False if it did not
 * open: the `code` on PATH may be that of a machine without a screen.
 */
async function openDesktop(code: string, room: string): Promise<boolean> {
  console.log(`\nOpening ${room} in the desktop VS Code (${code}). Ctrl-C here closes it.`);
  const profile = join(keptFolder, "desktop-profile");
  const window = leashed(
    code,
    [
      ...["--wait", "--new-window", "--disable-workspace-trust", "--disable-telemetry"],
      ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
      ...[`--user-data-dir=${join(profile, "data")}`, `--extensions-dir=${join(profile, "extensions")}`],
      ...[`--extensionDevelopmentPath=${built().extension}`, room],
    ],
    { output: "ours" },
  );
  const status = await untilEnded(window.ended, window.end);
  if (status !== 0) console.log(`It did not open (exit status ${status}); serving one instead.`);
  return status === 0;
}

/** The packed extension is installed, as a keeper would install it, so that the plain address of a folder works. */
async function serve(room: string, port: number): Promise<void> {
  console.log("\nPacking the extension");
  await pack();
  const profile = join(keptFolder, "profile");
  await installExtension(profile, vsix);
  const editor = await startEditor({ profile, port });
  console.log(
    `\nThe room is open at\n\n    ${editor.url(room)}\n\nfor browsers on this machine. Ctrl-C ends it.`,
  );
  const status = await untilEnded(editor.ended, editor.stop);
  if (status !== 0) throw new Error(`The served editor ended with exit status ${status}`);
}

/** Waits until the editor has ended, or ends it when we are told to end; its exit status, 0 if we ended it. */
async function untilEnded(ended: Promise<number>, end: () => Promise<void>): Promise<number> {
  const told = new Promise<"told">((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const)
      process.once(signal, () => resolve("told"));
  });
  const outcome = await Promise.race([ended, told]);
  if (outcome !== "told") return outcome;
  await end();
  return 0;
}

function onPath(program: string): string | undefined {
  const names = process.platform === "win32" ? [`${program}.cmd`, `${program}.exe`] : [program];
  const folders = (process.env.PATH ?? "").split(delimiter);
  return folders.flatMap((folder) => names.map((name) => join(folder, name))).find(existsSync);
}
