import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { editorTimes } from "./editor.ts";
import { generate } from "./generate.ts";
import { journal } from "./journal.ts";
import { medianRun, type Run } from "./measure.ts";
import { plannedLogTimes } from "./planned-log.ts";
import { plannerTimes } from "./planner.ts";
import { reviewed } from "./reviewed.ts";

/**
 * Speed and memory beside named references, in one run: `npm run bench [-- --json] [--sizes 10000,438000] [--times 5]`.
 * The unit of `ratio` is JSON.parse of the same facts, with sums, as a process of its own.
 */

interface Row {
  readonly name: string;
  readonly entries: number;
  readonly wall_ms: number;
  readonly peak_mib: number;
  readonly ratio: number;
}

const { values } = parseArgs({
  options: { json: { type: "boolean" }, sizes: { type: "string" }, times: { type: "string" } },
});
const sizes = (values.sizes ?? "10000,100000,438000").split(",").map(Number);
const times = Number(values.times ?? 5);
const root = fileURLToPath(new URL("../..", import.meta.url));
const terminal = join(root, "dist/standpipe.mjs");
const server = join(root, "dist/extension/server-node.cjs");
for (const built of [terminal, server]) {
  if (!existsSync(built)) throw new Error(`${built} is not there: run npm run build first`);
}
const references = fileURLToPath(new URL("references.ts", import.meta.url));
const { execPath: node } = process;
const rows: Row[] = [];
const folder = mkdtempSync(join(tmpdir(), "standpipe-bench-"));
try {
  for (const size of sizes) await measure(size);
  planner();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
if (values.json) process.stdout.write(`${JSON.stringify(rows, undefined, 2)}\n`);

async function measure(size: number): Promise<void> {
  const logbook = generate(size);
  const { entries } = logbook;
  const here = join(folder, String(size));
  const logs = join(here, "logs");
  mkdirSync(logs, { recursive: true });
  for (const { path, text } of logbook.files) writeFileSync(join(logs, path), text);
  const facts = join(here, "facts.json");
  writeFileSync(facts, JSON.stringify(logbook.facts));
  say(`\n${entries} entries, ${logbook.files.length} files, ${megabytes(logbook.files)} MB`);

  const json = await medianRun(node, [references, "json", facts], times);
  const add = (name: string, wallMs: number, peakMiB: number): void => {
    const row = {
      name,
      entries,
      wall_ms: round(wallMs),
      peak_mib: round(peakMiB),
      ratio: round(wallMs / json.wallMs),
    };
    rows.push(row);
    say(
      `${name.padEnd(44)} ${String(row.wall_ms).padStart(9)} ms ${String(row.peak_mib).padStart(7)} MiB  x ${row.ratio}`,
    );
  };
  const addRun = (name: string, run: Run): void => add(name, run.wallMs, run.peakMiB);

  addRun("reference: JSON.parse of the same facts", json);
  addRun("reference: start of node", await medianRun(node, ["-e", "0"], times));
  addRun("reference: split into lines", await medianRun(node, [references, "lines", logs], times));
  addRun("reference: a regular expression a line", await medianRun(node, [references, "scan", logs], times));
  addRun("standpipe check, cold", await medianRun(node, [terminal, "check", logs], times));
  addRun("standpipe today, cold", await medianRun(node, [terminal, "today", logs], times));

  // Three edits in a thousand entries, all over the years; and every fifth.
  for (const share of [0.003, 0.2]) {
    const review = reviewed(size, share);
    const words = ["-C", review.folder, "diff", "--word-diff"];
    addRun(`reference: git diff --word-diff, ${review.edits} edits`, await medianRun("git", words, times));
    const diff = [terminal, "diff", "HEAD", review.folder];
    addRun(`standpipe diff, ${review.edits} edits`, await medianRun(node, diff, times));
    review.remove();
  }

  const editor = await editorTimes(server, logs, 200);
  add("editor: start to first findings", editor.firstFindingsMs, editor.peakMiB);
  const feel = (name: string, ms: number): void => add(name, ms, editor.peakMiB);
  feel("editor: keystroke to findings, p50", editor.keystrokeP50Ms);
  feel("editor: keystroke to findings, p95", editor.keystrokeP95Ms);
  feel("editor: keystroke in an early month, p95", editor.earlyKeystrokeP95Ms);
  feel("editor: hover, p95", editor.hoverP95Ms);
  feel("editor: completion, p95", editor.completionP95Ms);
  feel("editor: hints of a screen, p95", editor.hintsP95Ms);

  for (const [peer, args] of [
    ["ledger", ["-f", "", "balance", "room"]],
    ["hledger", ["-f", "", "check"]],
  ] as const) {
    if (spawnSync(peer, ["--version"]).status !== 0 || !existsSync("/usr/bin/time")) {
      say(`${peer} is not installed: left out`);
      continue;
    }
    const file = join(here, "facts.journal");
    if (!existsSync(file)) writeFileSync(file, journal(logbook.facts));
    const run = await medianRun(
      peer,
      args.map((arg) => (arg === "" ? file : arg)),
      peer === "hledger" ? 1 : Math.min(3, times),
    );
    if (run.status === 0) addRun(`reference: ${peer} ${args[2]}`, run);
    else say(`${peer} failed with status ${run.status}`);
  }
}

/** Plans of invented rooms: of no log, so with nothing to compare to but the bound. */
function planner(): void {
  say("\nplans of 14 days, two of them away");
  for (const tanks of [24, 200]) {
    for (const load of [0.4, 0.6, 0.85, 1, 1.1]) {
      const { medianMs, cost, bound, ratio, worst } = plannerTimes(tanks, load);
      const name = `plan: ${tanks} tanks, ${Math.round(load * 100)} % of what days hold`;
      rows.push({ name, entries: 0, wall_ms: round(medianMs), peak_mib: Number.NaN, ratio: Number.NaN });
      const waits = `waiting a duty ${cost.toFixed(4)}, no plan below ${bound.toFixed(4)}, ${ratio.toFixed(2)} times, ${worst.toFixed(2)} at most`;
      say(`${name.padEnd(44)} ${String(round(medianMs)).padStart(9)} ms  ${waits}`);
    }
  }
  for (const load of [0.6, 0.85, 1]) {
    const { firstMs, afterEntryMs } = plannedLogTimes(200, load);
    for (const [what, ms] of [
      ["with yesterday's", firstMs],
      ["after an entry", afterEntryMs],
    ] as const) {
      const name = `plan of a log: 200 tanks, ${Math.round(load * 100)} %, ${what}`;
      rows.push({ name, entries: 0, wall_ms: round(ms), peak_mib: Number.NaN, ratio: Number.NaN });
      say(`${name.padEnd(44)} ${String(round(ms)).padStart(9)} ms`);
    }
  }
}

function say(line: string): void {
  if (!values.json) process.stdout.write(`${line}\n`);
}

function round(value: number): number {
  return Number.isFinite(value) ? Number(value.toPrecision(value >= 100 ? 4 : 3)) : value;
}

function megabytes(files: readonly { readonly text: string }[]): string {
  return (files.reduce((sum, { text }) => sum + text.length, 0) / 1e6).toFixed(1);
}
