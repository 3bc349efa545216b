import { readFileSync } from "node:fs";
import * as z from "zod/mini";
import type { Finding } from "../../checks/finding.ts";
import { conflictMark } from "../../syntax/conflict-mark.ts";
import type { Shown } from "../files.ts";
import { type BaselineEntry, baselineFile } from "../schema/baseline.ts";
import { writeWhole } from "../whole-file.ts";
import { Trouble, troubleWith } from "../world.ts";

/**
 * Findings that are known and do not count: a file that `check --write-baseline` writes and `check --baseline` reads. A finding is known by
 * its code, station, day and line, never by the number of the line, so that a log may grow above it. Of equal ones as many are known as
 * were written down.
 */

/** What a finding is known by. */
export function identityOf({ code, block, start }: Finding): Omit<BaselineEntry, "count"> {
  const { definition, kind, text } = block;
  const line = lineAt(text, start);
  const isDay = kind === "day" && !Number.isNaN(block.day);
  const words = line.replace(/^\d{1,2}:\d{2} /, "").split(" ");
  const ofDefinition = definition === undefined ? "" : `${definition.word} ${definition.name}`.trim();
  return {
    code,
    station: isDay ? (words[0] ?? "") : ofDefinition,
    day: isDay ? text.replace(/^\ufeff/, "").slice(0, 10) : "",
    text: line,
  };
}

function lineAt(text: string, offset: number): string {
  const from = Math.max(text.lastIndexOf("\n", offset - 1), text.lastIndexOf("\r", offset - 1)) + 1;
  const rest = /^[^\r\n]*/.exec(text.slice(from))![0].replace(/^\ufeff/, "");
  return rest
    .replace(/(?<!\S)#.*$/, "")
    .trim()
    .replace(/\s+/g, " ");
}

const keyOf = ({ code, station, day, text }: Omit<BaselineEntry, "count">): string =>
  [code, station, day, text].join("\0");

export function baselineOf(findings: readonly Finding[]): BaselineEntry[] {
  const found = new Map<string, BaselineEntry>();
  for (const finding of findings) {
    const identity = identityOf(finding);
    const known = found.get(keyOf(identity));
    found.set(keyOf(identity), { ...identity, count: (known?.count ?? 0) + 1 });
  }
  return [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, each]) => each);
}

export interface Sorted<T> {
  readonly fresh: readonly T[];
  /** How many are known. */
  readonly known: number;
  /** What is written down and occurs no more, or less often. */
  readonly gone: readonly BaselineEntry[];
}

/** Parts findings into those that are known and those that are new. */
export function sortByBaseline<T>(
  found: readonly T[],
  findingOf: (each: T) => Finding,
  baseline: readonly BaselineEntry[],
): Sorted<T> {
  const left = new Map<string, number>();
  for (const each of baseline) left.set(keyOf(each), (left.get(keyOf(each)) ?? 0) + each.count);
  const fresh = found.filter((each) => {
    const key = keyOf(identityOf(findingOf(each)));
    const count = left.get(key) ?? 0;
    if (count > 0) left.set(key, count - 1);
    return count === 0;
  });
  const gone: BaselineEntry[] = [];
  for (const each of baseline) {
    const count = Math.min(each.count, left.get(keyOf(each)) ?? 0);
    if (count === 0) continue;
    left.set(keyOf(each), (left.get(keyOf(each)) ?? 0) - count);
    gone.push({ ...each, count });
  }
  return { fresh, known: found.length - fresh.length, gone };
}

/** Reads a baseline. Throws `Trouble` that says what in it is wrong. */
export function readBaseline(path: string, shown: Shown): readonly BaselineEntry[] {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    throw new Trouble(`${troubleWith(shown(path), error)}; check --write-baseline FILE writes one`);
  }
  let data: unknown;
  try {
    data = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch (error) {
    if (text.split("\n").some((line) => conflictMark(line) !== undefined))
      throw new Trouble(
        `${shown(path)}: a merge left two versions in it; keep the lines of both between the marks, or write it anew with check --write-baseline`,
      );
    throw new Trouble(`${shown(path)}: this is no JSON: ${(error as Error).message}`);
  }
  const version = z.safeParse(z.object({ standpipe: z.number() }), data);
  if (version.success && version.data.standpipe > 1)
    throw new Trouble(
      `${shown(path)}: this baseline is of version ${version.data.standpipe}, and this tool reads version 1: a later one wrote it`,
    );
  const read = z.safeParse(baselineFile, data);
  if (read.success) return read.data.baseline;
  const [issue] = read.error.issues;
  const where = issue!.path
    .map((each) => (typeof each === "number" ? `[${each}]` : `.${String(each)}`))
    .join("");
  // The library says only "Invalid input" of what is missing or of another kind.
  const why =
    issue!.code === "invalid_type"
      ? `${kinds[issue!.expected] ?? issue!.expected} is wanted here`
      : issue!.message;
  throw new Trouble(
    `${shown(path)}: this is no baseline: ${where === "" ? "the whole" : where.replace(/^\./, "")}: ${why}; check --write-baseline writes one`,
  );
}

const kinds: Readonly<Record<string, string>> = {
  object: "an object of JSON",
  array: "a list",
  string: "a text",
  number: "a number",
};

/** Writes a baseline, one finding a line, so that its changes read well. */
export function writeBaseline(path: string, shown: Shown, baseline: readonly BaselineEntry[]): void {
  writeWhole(path, shown(path), (write) => {
    write('{\n  "standpipe": 1,\n  "baseline": [');
    baseline.forEach((each, at) => {
      write(`${at === 0 ? "" : ","}\n    ${JSON.stringify(each)}`);
    });
    write(`${baseline.length === 0 ? "" : "\n  "}]\n}\n`);
  });
}
