import { isoOf } from "../book/dates.ts";
import type { Block, Source } from "../book/source.ts";
import type { Finding, Fix } from "../checks/finding.ts";
import { conflictAt, settled } from "./actions/conflicts.ts";
import { laidEdits, type TextEdit } from "./actions/laid-edits.ts";
import { sheetAsEntries, sheetForDue, testsAsSheet } from "./actions/sheets.ts";
import { type DayStart, dayToStart, startDay } from "./actions/start-day.ts";
import { blocksOn } from "./definition.ts";
import { type DueEntry, dueEntries } from "./due-entries.ts";
import { dutiesAt } from "./duty-entries.ts";
import { lineEndOf, lineOfText, ownEnd } from "./lines.ts";
import { blockAt, type Edit, type Location, type Span, type View } from "./view.ts";

export { type DayStart, startToday } from "./actions/start-day.ts";

export type ActionKind = "quickfix" | "source.fixAll.standpipe" | "refactor" | "refactor.rewrite";

/** Something that can be done at a place, as edits whose result is laid out. */
export interface CodeAction {
  readonly title: string;
  readonly kind: ActionKind;
  /** The one to take without asking. */
  readonly isPreferred: boolean;
  /** In order of files and offsets; of a file that is to be made, all its text. */
  readonly edits: readonly Edit[];
  readonly newFile: string | undefined;
  /** What it mends. */
  readonly finding: Finding | undefined;
  /** Where the next entry is written after it, in the text as it is then. */
  readonly cursor: Location | undefined;
}

/**
 * What can be done at a stretch of a file: a version of what a merge left; fixes of its findings, those of one code in the whole file, all that are sure; a day, a sheet or an entry for
 * what is due; sheets and tests turned into one another.
 * @param only kinds that are asked for, all where none is
 */
export function codeActions(view: View, span: Span, only: readonly string[] = []): CodeAction[] {
  const isAsked = (kind: ActionKind): boolean =>
    only.length === 0
      ? kind !== "source.fixAll.standpipe"
      : only.some((each) => kind === each || kind.startsWith(`${each}.`));
  const actions: CodeAction[] = [];
  if (isAsked("quickfix")) actions.push(...ofConflict(view, span), ...quickFixes(view, span));
  if (isAsked("source.fixAll.standpipe")) actions.push(...fixAll(view));
  if (isAsked("refactor")) actions.push(...forWhatIsDue(view, span));
  if (isAsked("refactor.rewrite")) actions.push(...rewrites(view, span));
  return actions;
}

/** One of the versions that a merge left, or both, without the marks: letter for letter. */
function ofConflict({ source }: View, { start }: Span): CodeAction[] {
  const conflict = conflictAt(source.text, start);
  if (conflict === undefined) return [];
  return settled(conflict).map(({ title, edits }) => ({
    ...plainAction(title, "quickfix"),
    edits: edits.map((edit) => ({ path: source.path, ...edit })),
  }));
}

/** The fixes of the findings that a stretch touches, and of each code that is found more often in the file one for all. */
function quickFixes(view: View, span: Span): CodeAction[] {
  const { checked, source, worldDay } = view;
  const blocks = source.blocks.filter(
    (block) => block.start <= span.end && block.start + block.text.length >= span.start,
  );
  const found = blocks
    .flatMap((block) => checked.findingsOn(block, worldDay))
    .filter((each) => each.block.start + each.start <= span.end && each.block.start + each.end >= span.start)
    .filter((finding) => finding.fixes.length > 0);
  if (found.length === 0) return [];
  const fixes = found.flatMap((finding) =>
    finding.fixes.map((fix, at) => ({
      ...plainAction(fix.title, "quickfix"),
      isPreferred: fix.isSure && at === 0,
      edits: editsOfFixes([fix]),
      finding,
    })),
  );
  const all = checked.findingsIn(source, worldDay);
  const codes = new Set(found.map((finding) => finding.code));
  return [...fixes, ...[...codes].flatMap((code) => fixCode(all, code))];
}

function fixCode(all: readonly Finding[], code: string): CodeAction[] {
  const sure = sureFixes(all.filter((finding) => finding.code === code));
  if (sure.length < 2) return [];
  const action = plainAction(`Fix all ${sure.length} of “${code}” in this file`, "quickfix");
  return [{ ...action, edits: editsOfFixes(sure) }];
}

/** All fixes of a file that need no asking. */
function fixAll(view: View): CodeAction[] {
  const sure = sureFixes(view.checked.findingsIn(view.source, view.worldDay));
  if (sure.length === 0) return [];
  return [
    {
      ...plainAction("Fix all that is sure in this file", "source.fixAll.standpipe"),
      edits: editsOfFixes(sure),
    },
  ];
}

/** The sure fix of each finding; of two that meet the first. */
function sureFixes(findings: readonly Finding[]): Fix[] {
  const taken: { block: Block; start: number; end: number }[] = [];
  return findings.flatMap((finding) => {
    const [fix] = finding.fixes;
    if (fix?.isSure !== true) return [];
    const meets = fix.edits.some((edit) =>
      taken.some((other) => other.block === edit.block && edit.start <= other.end && edit.end >= other.start),
    );
    if (meets) return [];
    taken.push(...fix.edits);
    return [fix];
  });
}

function editsOfFixes(fixes: readonly Fix[]): Edit[] {
  const byFile = new Map<Source, TextEdit[]>();
  for (const { block, start, end, text } of fixes.flatMap((fix) => fix.edits)) {
    const edit = { start: block.start + start, end: block.start + end, text };
    byFile.set(block.file, [...(byFile.get(block.file) ?? []), edit]);
  }
  return [...byFile].flatMap(([source, edits]) => laidOutIn(source, withLineEnds(source, edits)));
}

/** Text of several lines with the line ends of the file that it goes to. */
function withLineEnds(source: Source, edits: readonly TextEdit[]): TextEdit[] {
  const end = lineEndOf(source.text);
  return edits.map((edit) => ({ ...edit, text: edit.text.replace(/\r\n|\n/g, end) }));
}

function laidOutIn(source: Source, edits: readonly TextEdit[]): Edit[] {
  return laidEdits(source, edits).map((edit) => ({ path: source.path, ...edit }));
}

/**
 * A day for today, a sheet for the tests that are due, entries for what else is. On a blank line, at the head of a block and behind the last line of
 * one: nobody wants to be asked at every line. At an entry what is due for its target.
 */
function forWhatIsDue(view: View, { start }: Span): CodeAction[] {
  const actions: CodeAction[] = [];
  const found = blockAt(view, start);
  const line = lineOfText(view.source.text, start);
  const isOpen = line.text.trim() === "" || line.start === found?.block.start;
  const today = view.checked.logbook.today(view.worldDay);
  const fresh = dayToStart(view);
  if (fresh !== undefined && isOpen) {
    const title = fresh === today ? `Start today, ${isoOf(fresh)}` : `Start the next day, ${isoOf(fresh)}`;
    actions.push(startAction(title, startDay(view, fresh)));
  }
  if (found === undefined) return actions;
  const { block, at } = found;
  if (block.kind === "definition") return [...actions, ...entriesForDuty(view, start)];
  // What was due on a day long past is no matter now.
  if (block.kind !== "day" || !(block.day > today - daysOfInterest)) return actions;
  const sheet = isOpen ? sheetForDue(view, block) : undefined;
  if (sheet !== undefined) {
    const title = `Sheet for what is due: ${sheet.tanks === 1 ? "one tank" : `${sheet.tanks} tanks`}`;
    actions.push(addLines(title, view, block, at, sheet.lines));
  }
  const [first] = line.text.trim().split(/\s+/);
  const due = dueEntries(view, block.day).filter(
    (each) => each.blanks.length === 0 && (isOpen || each.target === first),
  );
  for (const each of due.slice(0, mostEntries))
    actions.push(addLines(entryTitle(each), view, block, at, [`  ${each.target} ${each.words}`]));
  return actions;
}

const daysOfInterest = 7;

/** More would bury the others. */
const mostEntries = 8;

function entryTitle({ target, words, reason, dose }: DueEntry): string {
  const caution =
    dose === undefined ? "" : "; computed from what you stated, follow the label and a veterinarian";
  return `Write “${target} ${words}” (${reason}${caution})`;
}

/** From a duty that is due to its entry in today's block. */
function entriesForDuty(view: View, offset: number): CodeAction[] {
  const duties = new Set(dutiesAt(view, offset));
  if (duties.size === 0) return [];
  const today = view.checked.logbook.today(view.worldDay);
  return dueEntries(view, today)
    .filter((each) => each.blanks.length === 0 && each.duties.some(({ duty }) => duties.has(duty)))
    .slice(0, mostEntries)
    .map((each) => {
      const line = `  ${each.target} ${each.words}`;
      const block = blocksOn(view, today).at(-1);
      return block === undefined
        ? startAction(entryTitle(each), startDay(view, today, [line]))
        : addLines(entryTitle(each), { ...view, source: block.file }, block, block.text.length, [line]);
    });
}

function startAction(title: string, start: DayStart): CodeAction {
  return {
    ...plainAction(title, "refactor"),
    edits: start.edits.map((edit) => ({ path: start.path, ...edit })),
    newFile: start.isNewFile ? start.path : undefined,
    cursor: { path: start.path, start: start.cursor, end: start.cursor },
  };
}

/** Puts lines into a block: on the blank line of the cursor, else behind its last line. */
function addLines(
  title: string,
  { source }: View,
  block: Block,
  at: number,
  lines: readonly string[],
): CodeAction {
  const end = lineEndOf(source.text);
  const here = lineOfText(block.text, Math.min(at, block.text.length));
  const content = ownEnd(block.text);
  const isBlank = here.text.trim() === "" && here.start > 0 && here.start < content;
  const edit: TextEdit = isBlank
    ? { start: block.start + here.start, end: block.start + here.end, text: lines.join(end) }
    : { start: block.start + content, end: block.start + content, text: end + lines.join(end) };
  return { ...plainAction(title, "refactor"), edits: laidOutIn(source, [edit]) };
}

/** A sheet as entries, tests as a sheet. */
function rewrites(view: View, { start }: Span): CodeAction[] {
  const found = blockAt(view, start);
  if (found === undefined || found.block.kind !== "day") return [];
  const { block, at } = found;
  const made = (title: string, edit: TextEdit | undefined): CodeAction[] => {
    if (edit === undefined) return [];
    const moved = { ...edit, start: block.start + edit.start, end: block.start + edit.end };
    return [{ ...plainAction(title, "refactor.rewrite"), edits: laidOutIn(view.source, [moved]) }];
  };
  return [
    ...made("Write this sheet as entries", sheetAsEntries(block, at)),
    ...made("Gather these tests in a sheet", testsAsSheet(block, at)),
  ];
}

function plainAction(title: string, kind: ActionKind): CodeAction {
  return {
    title,
    kind,
    isPreferred: false,
    edits: [],
    newFile: undefined,
    finding: undefined,
    cursor: undefined,
  };
}
