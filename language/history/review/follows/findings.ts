import { isoOf } from "../../../book/dates.ts";
import { entryKinds } from "../../../book/entries/registry.ts";
import { lineAt } from "../../../book/entry.ts";
import { Col, intsPerRow } from "../../../book/facts.ts";
import { wordOf } from "../../../book/interner.ts";
import { parameters } from "../../../book/parameters.ts";
import type { CheckedLogbook } from "../../../checks/check.ts";
import type { Finding } from "../../../checks/finding.ts";
import { locationOf } from "../../../features/view.ts";
import { fill, Queues } from "../../fill.ts";
import { paused, type Steps } from "../../steps.ts";
import type { Consequence, Tone } from "../consequence.ts";
import type { LineMap } from "../line-map.ts";

/** Findings that are new, gone, or say another thing of the same line. */

/** So many are compared between two pauses. */
const atOnce = 1000;

/** @param lines where a line of the log then stands now */
export function* findingConsequences(
  before: CheckedLogbook,
  after: CheckedLogbook,
  day: number,
  lines: LineMap,
  then: ReadonlySet<string> | undefined,
): Steps<Consequence[]> {
  const terms = termsOf(before.book, after.book);
  const told: Consequence[] = [];
  const tell = (now: Finding | undefined, was: Finding | undefined): void => {
    const each = consequence(now, was, terms);
    const isSince = now === undefined && then !== undefined && !then.has(roughly(was!));
    told.push(isSince ? { ...each, isSmall: true } : each);
  };
  const was = new Map<string, Finding[]>();
  yield* paused(yield* before.finding(day), atOnce, (finding) => {
    fill(was, [finding], (each) => keyOf(each, lines));
  });
  const fresh: Finding[] = [];
  const differing: [key: string, finding: Finding][] = [];
  // What says the same of the same line is taken out first.
  yield* paused(yield* after.finding(day), atOnce, (finding) => {
    const key = keyOf(finding, undefined);
    const old = was.get(key);
    const same =
      old?.findIndex(
        ({ message, severity }) => message === finding.message && severity === finding.severity,
      ) ?? -1;
    if (same >= 0) old!.splice(same, 1);
    else differing.push([key, finding]);
  });
  for (const [key, finding] of differing) {
    const old = was.get(key)?.shift();
    if (old === undefined) fresh.push(finding);
    else tell(finding, old);
  }
  // A finding whose line is gone may be told of another line in the same words: then nothing is new.
  const gone = new Queues<Finding>();
  for (const findings of was.values()) for (const finding of findings) gone.add(wordsOf(finding), finding);
  const same = new Set<Finding>();
  for (const finding of fresh) {
    const old = gone.take(wordsOf(finding));
    if (old === undefined) tell(finding, undefined);
    else same.add(old);
  }
  for (const findings of was.values())
    for (const finding of findings) if (!same.has(finding)) tell(undefined, finding);
  return told.sort(byGravity);
}

/** The line of a finding as it stands now, and what it is about. */
function keyOf(finding: Finding, lines: LineMap | undefined): string {
  const { path } = finding.block.file;
  const start = finding.block.start + lineStart(finding);
  const at = lines === undefined ? { path, start } : (lines.now(path, start) ?? { path: "", start });
  return `${finding.code} ${finding.about?.name ?? ""} ${at.start} ${at.path}`;
}

/** The offset in its block of the first letter of the line a finding stands on. */
function lineStart({ block, start }: Finding): number {
  let at = start;
  while (at > 0 && block.text.charCodeAt(at - 1) !== 0x0a && block.text.charCodeAt(at - 1) !== 0x0d) at--;
  while (at < block.text.length && /[ \t\u00a0]/.test(block.text[at]!)) at++;
  return at;
}

const wordsOf = (finding: Finding): string =>
  JSON.stringify([finding.code, finding.severity, finding.message, stationOf(finding)]);

/** What was found on the last day of a log, by what and where. */
export function findingsThen(before: CheckedLogbook, day: number): Set<string> {
  return new Set(before.findings(day).map(roughly));
}

const roughly = (finding: Finding): string => `${finding.code} ${stationOf(finding)}`;

/** Told by the duties and the water themselves, with the figure of before. */
const toldElsewhere: ReadonlySet<string> = new Set(["duty/overdue", "trend/crosses"]);

/** What a finding may be about: kinds of entries, parameters, species and remedies. */
function termsOf(...books: readonly CheckedLogbook["book"][]): ReadonlySet<string> {
  return new Set([
    ...entryKinds.map(({ word }) => word),
    ...parameters.map(({ name }) => name),
    ...books.flatMap(({ species, remedies }) => [...species.keys(), ...remedies.map(({ name }) => name)]),
  ]);
}

function consequence(
  now: Finding | undefined,
  was: Finding | undefined,
  terms: ReadonlySet<string>,
): Consequence {
  const finding = (now ?? was)!;
  const { code, severity } = finding;
  const at = locationOf(finding);
  const words = [...finding.message.matchAll(/\p{L}[\p{L}\p{N}_-]*/gu)].flatMap(([word]) =>
    terms.has(word) ? [word] : [],
  );
  const isOther = now !== undefined && was !== undefined && now.message !== was.message;
  const text = isOther ? `${now.message} (it was: ${was.message})` : finding.message;
  const tone: Tone =
    was === undefined ? "worse" : now === undefined ? "better" : rank(now) < rank(was) ? "worse" : "plain";
  return {
    is: "finding",
    of: stationOf(finding),
    text: Number.isNaN(finding.block.day) ? text : `${isoOf(finding.block.day)}: ${text}`,
    before: was?.message ?? "",
    after: now?.message ?? "",
    tone,
    code,
    severity,
    // The same trouble in other figures is told with the figures.
    isSmall:
      severity === "information" ||
      severity === "hint" ||
      toldElsewhere.has(code) ||
      (isOther && now.severity === was.severity),
    at,
    side: now === undefined ? "before" : "after",
    from: [at],
    terms: [...words, code.split("/", 1)[0]!],
    reach: "water",
  };
}

const order = ["error", "warning", "information", "hint"];
const rank = ({ severity }: { readonly severity: string }): number => order.indexOf(severity);
const byGravity = (a: Consequence, b: Consequence): number => rank(a) - rank(b);

/** What a finding is about: by what it says, by the target of its line, by its definition; else the room. */
function stationOf({ about, block, start }: Finding): string {
  if (about !== undefined) return about.name;
  if (block.kind !== "day") return block.definition?.name || "room";
  const named = targetAt(block, start);
  if (named !== undefined) return named < 0 ? `@${wordOf(~named)}` : wordOf(named);
  const line = lineAt(block, start);
  const target = line === undefined || line.is === "sheet" ? undefined : line.target;
  if (target === undefined) return "room";
  const isGroup = block.text.startsWith("@", target.start);
  return isGroup ? `@${target.text.replace(/^@/, "")}` : target.text;
}

/** The target of the row that holds an offset, without reading its day again; undefined where no row does. */
function targetAt({ facts: { ints, count } }: Finding["block"], offset: number): number | undefined {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ints[middle * intsPerRow + Col.end]! < offset) low = middle + 1;
    else high = middle;
  }
  const isIn = low < count && ints[low * intsPerRow + Col.start]! <= offset;
  return isIn ? ints[low * intsPerRow + Col.target] : undefined;
}
