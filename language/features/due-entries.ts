import { spokenDay } from "../book/dates.ts";
import { workWord } from "../book/duty-words.ts";
import { Kind, kindOf } from "../book/entries/registry.ts";
import { unitText, type Value } from "../book/reading.ts";
import type { Duty, Remedy, Station } from "../book/stations.ts";
import { days, percent } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import { courseSteps } from "../room/course-steps.ts";
import { middleOfTarget } from "../room/dose-courses.ts";
import { type DueDuty, dutiesOn, roundOrder } from "../room/due.ts";
import type { Ledger } from "../room/ledger.ts";
import { courseUntil, remedyAt } from "../room/past.ts";
import { Mark } from "../syntax/pieces.ts";
import { stepReason, stepWords } from "./course-step-words.ts";
import { type ProductText, productText } from "./dose-product.ts";
import { aimOf, byUse, type EntryWords, wordsOfRow } from "./recent.ts";
import type { View } from "./view.ts";

/** What is due on a day, as the entries that would be written when it is done. */

export interface DueEntry {
  readonly target: string;
  /** The kind and its arguments. Where a figure has to be measured or seen, the words end before it. */
  readonly words: string;
  /** What is still to be filled in, in order: behind the words, each with the words that come before it. Empty where the entry is whole. */
  readonly blanks: readonly string[];
  /** Behind the last of what is to be filled in: a unit. */
  readonly end: string;
  readonly kind: number;
  /** Whole days; 0 is due on the day. */
  readonly late: number;
  /** Why it is due: `2 days late`, `due today`. */
  readonly reason: string;
  /** The duties it fulfils. */
  readonly duties: readonly DueDuty[];
  /** The dose that it is, or the change that is owed before one. */
  readonly dose: DueDoseEntry | undefined;
}

export interface DueDoseEntry {
  readonly remedy: Remedy;
  readonly ledger: Ledger;
  /** Which dose of the course. */
  readonly number: number;
  /** In the water on the day, in the remedy's unit. */
  readonly now: number;
  /** New water owed before it, as a fraction; 0 if none. */
  readonly changeOwed: number;
}

/** The entries that are due on a day, doses first, then the most overdue. Entries of the day itself count as done. */
export function dueEntries(view: View, day: number): DueEntry[] {
  const { logbook, book } = view.checked;
  const due: DueDuty[] = [];
  const doses: DueEntry[] = [];
  for (const ledger of logbook.ledgers) {
    const stations = book.stations.filter((station) => logbook.ledgerOf(station) === ledger);
    due.push(
      ...dutiesOn(ledger, stations, day).filter((each) => each.late >= 0 && Number.isFinite(each.due)),
    );
    doses.push(...courseEntries(view, ledger, day));
  }
  const duties = dutyEntries(view, due, day).sort((a, b) => b.late - a.late || roundOf(a) - roundOf(b));
  return [...doses.sort((a, b) => b.late - a.late), ...duties];
}

/** The entries that courses in a water owe on a day: changes and doses, what is to be out, what may go back. */
export const courseEntries = (view: View, ledger: Ledger, day: number): DueEntry[] => [
  ...dueDoses(view, ledger, day),
  ...dueSteps(view, ledger, day),
];

function roundOf({ kind }: DueEntry): number {
  const at = roundOrder.indexOf(kind);
  return at < 0 ? roundOrder.length : at;
}

/** An entry for what is due; duties that one entry does together are one. */
function dutyEntries(view: View, due: readonly DueDuty[], day: number): DueEntry[] {
  const made = new Map<string, DueEntry>();
  const tests = new Map<Station, DueDuty[]>();
  for (const each of due) {
    if (each.duty.kind === Kind.test) {
      tests.set(each.station, [...(tests.get(each.station) ?? []), each]);
      continue;
    }
    const { target, words, blanks } = wordsFor(view, each, due, day);
    const key = `${target} ${words}`;
    const known = made.get(key);
    made.set(
      key,
      together({ target, words, blanks, kind: each.duty.kind }, [...(known?.duties ?? []), each]),
    );
  }
  const of = [...tests].map(([station, duties]) => {
    const names = [
      ...new Set(duties.flatMap(({ duty }) => duty.act.replace(/^test\s*/, "").split(/\s*,\s*/))),
    ];
    const blanks = names.map((name, index) => `${index === 0 ? "" : ", "}${name} `);
    return together({ target: station.name, words: "test", blanks, kind: Kind.test }, duties);
  });
  return [...made.values(), ...of];
}

function together(
  entry: Pick<DueEntry, "target" | "words" | "blanks" | "kind">,
  duties: readonly DueDuty[],
): DueEntry {
  const latest = duties.reduce((a, b) => (b.late > a.late ? b : a));
  return { ...entry, end: "", late: latest.late, reason: reasonOf(latest), duties, dose: undefined };
}

function reasonOf({ duty, late, times }: DueDuty): string {
  if (duty.form.when !== "every")
    return `${times} of ${duty.form.times} times in ${days(duty.form.periodDays)}`;
  return late === 0 ? "due today" : `${days(late)} late`;
}

/** So many of the last times tell what is usual. */
const lastTimes = 8;

/** What is usually written for a duty, or what the duty says where nothing was yet. */
function wordsFor(
  view: View,
  { duty, station }: DueDuty,
  due: readonly DueDuty[],
  day: number,
): { target: string; words: string; blanks: readonly string[] } {
  const own = { target: station.name, ...wordsOfAct(duty) };
  if (kindOf(duty.kind).usual !== true) return own;
  const lines = linesThatDid(view, duty, day);
  // A line for a group stands for all its tanks, if all of them are due.
  const isFor = ({ target }: EntryWords): boolean =>
    !target.startsWith("@") ||
    aimOf(view.checked.book, target).stations.every((tank) =>
      due.some((each) => each.station === tank && each.duty.kind === duty.kind),
    );
  const [usual] = byUse(
    lines.map((line) => `${isFor(line) ? line.target : station.name}\n${line.kind} ${line.arguments}`.trim()),
  );
  if (usual === undefined) return own;
  const [target, words] = usual.split("\n") as [string, string];
  return { target, words, blanks: [] };
}

/** The lines that did a duty the last times up to a day, the latest first. */
export function linesThatDid({ checked }: View, duty: Duty, day: number): EntryWords[] {
  const done = checked.logbook.ledgerOf(duty.station).duties.done(duty);
  const lines: EntryWords[] = [];
  for (let at = done.from(day + 1) - 1; at >= 0 && lines.length < lastTimes; at--) {
    const words = wordsOfRow(done.block[at]!, done.row[at]!);
    // What does it by the way, or does more, is not what is asked for.
    const isOwn = words?.kind === kindOf(duty.kind).word && words.arguments.includes(workWord(duty.work));
    if (words !== undefined && isOwn) lines.push(words);
  }
  return lines;
}

/** The act of a duty as an entry: a range of amounts becomes its middle; of what is seen and counted, the figure is left open. */
export function wordsOfAct({ act, kind, form }: Duty): { words: string; blanks: readonly string[] } {
  const range = form.items.flatMap((item) => Object.values(item)).find((value) => value?.mark === Mark.range);
  const words =
    range === undefined ? act : act.replace(/[\d.]+\s*(?:\.\.|…)\s*[\d.]+(?:\s*\S+)?\s*$/, middle(range));
  const [item = {}] = form.items;
  const needsFigure =
    kindOf(kind).usual !== true &&
    kindOf(kind).slots.some((slot) => slot.required !== undefined && item[slot.name] === undefined);
  return needsFigure ? { words, blanks: [" "] } : { words, blanks: [] };
}

function middle(range: Value): string {
  const mean = (range.value + range.second) / 2;
  return `${formatNumber(mean, 2)} ${unitText(range)}`.trim();
}

/** The doses of running courses that are due on a day, each behind the change that is owed before it; a course that is long past is over. */
function dueDoses(view: View, ledger: Ledger, day: number): DueEntry[] {
  const { body } = ledger;
  if (body === undefined) return [];
  return view.checked.book.remedies.flatMap((remedy) => {
    const course = courseUntil(ledger, remedy, day + 1);
    if (course === undefined || !(course.given < remedy.repeatTimes)) return [];
    const { doses } = ledger;
    const late = day - Math.floor(doses.time[course.last]! + remedy.repeatDays);
    if (late < 0 || late > remedy.repeatDays) return [];
    // What is changed twice takes from what the first change left.
    const owed = Number.isNaN(remedy.changeBefore)
      ? 0
      : Math.max(0, 1 - (1 - remedy.changeBefore) / (1 - course.changed));
    const changeOwed = owed > 0.005 ? Math.ceil(owed * 100 - 1e-9) / 100 : 0;
    const now = remedyAt(ledger, remedy, day + 1);
    const words = wordsOfRow(doses.block[course.last]!, doses.row[course.last]!);
    const target = words?.target ?? body.name;
    const when = late === 0 ? "due today" : `${days(late)} late`;
    const dose = { remedy, ledger, number: course.given + 1, now, changeOwed };
    const common = { target, late, duties: [], dose };
    const amount = amountOwed(ledger, remedy, course.last, now * (1 - changeOwed));
    const given: DueEntry = {
      ...common,
      words: `dose ${remedy.name}${"text" in amount ? ` ${amount.text}` : ""}`,
      blanks: "text" in amount ? [] : [" "],
      end: "text" in amount ? "" : ` ${amount.unit}`,
      kind: Kind.dose,
      reason: changeOwed > 0 ? `${when}, a change of ${percent(changeOwed)} is owed first` : when,
    };
    if (changeOwed === 0) return [given];
    const change = {
      ...common,
      words: `change ${percent(changeOwed)}`,
      blanks: [],
      end: "",
      kind: Kind.change,
      reason: `owed before dose ${dose.number} of ${remedy.name}`,
    };
    return [change, given];
  });
}

/** What courses owe beside their doses, once it is due: what is to be out, the change after, what may go back. */
function dueSteps(view: View, ledger: Ledger, day: number): DueEntry[] {
  const { doses, body } = ledger;
  return courseSteps(view.checked.logbook, ledger, day)
    .filter(({ late }) => late >= 0)
    .map((step): DueEntry => {
      const { index } = step.treatment.given.at(-1)!;
      const isTest = step.is === "test";
      return {
        target: wordsOfRow(doses.block[index]!, doses.row[index]!)?.target ?? body?.name ?? "",
        words: isTest ? "test" : stepWords(step),
        blanks: isTest ? step.names.map((name, at) => `${at === 0 ? "" : ", "}${name} `) : [],
        end: "",
        kind: stepKinds[step.is],
        late: step.late,
        reason: stepReason(step),
        duties: [],
        dose: undefined,
      };
    });
}

const stepKinds = { remove: Kind.remove, test: Kind.test, change: Kind.change, return: Kind.return } as const;

/**
 * What has to be given to reach the target from what will be in the water, measured out as last time; only its unit where that cannot be said, or
 * where the target is reached.
 */
function amountOwed(ledger: Ledger, remedy: Remedy, last: number, there: number): ProductText {
  const aim = middleOfTarget(remedy);
  return productText(ledger, remedy, last, aim - there > 0.005 * aim ? aim - there : Number.NaN);
}

/** When something was last done, in words. */
export function lastDone({ last }: DueDuty): string {
  return Number.isNaN(last) ? "never done" : `last done on ${spokenDay(Math.floor(last))}`;
}
