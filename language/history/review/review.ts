import type { Book } from "../../book/book.ts";
import { Source } from "../../book/source.ts";
import { CheckedLogbook } from "../../checks/check.ts";
import { blocksOfSource } from "../log-lines.ts";
import type { LogText } from "../match-lines.ts";
import { finish, type Steps } from "../steps.ts";
import { bearing } from "./bearing.ts";
import type { Causes } from "./causes.ts";
import { type Change, type Changes, changesSteps } from "./changes.ts";
import { type Consequence, compared, type Follows, type Standing } from "./consequence.ts";
import { broods } from "./follows/broods.ts";
import { cases } from "./follows/cases.ts";
import { doses } from "./follows/doses.ts";
import { duties } from "./follows/duties.ts";
import { exposure } from "./follows/exposure.ts";
import { findingConsequences, findingsThen } from "./follows/findings.ts";
import { quarantine } from "./follows/quarantine.ts";
import { shipping } from "./follows/shipping.ts";
import { stock } from "./follows/stock.ts";
import { volumes } from "./follows/volumes.ts";
import { water } from "./follows/water.ts";

/** What changed between two states of a logbook, and what follows from it. */
export interface Review extends Changes {
  /** What is computed on this day, before and after, stands in `consequences`. */
  readonly day: number;
  /** The room's title, as it is now. */
  readonly title: string;
  readonly consequences: readonly Caused[];
  readonly before: CheckedLogbook;
  readonly after: CheckedLogbook;
}

/** A consequence with the changes in its own water, and those that reach every water. */
export interface Caused extends Consequence {
  /** Of several it is not known which of them it follows from. */
  readonly by: Causes;
}

/** What may be asked of a review. */
export interface ReviewAsked {
  /** NaN for the later of the days that are today for the two logs. */
  readonly asOf: number;
  /** Today outside. */
  readonly worldDay: number;
}

export function reviewOf(before: readonly LogText[], after: readonly LogText[], asked: ReviewAsked): Review {
  return finish(reviewSteps(before, after, asked));
}

/**
 * The same in pieces, for who does other things between them.
 * @param held the log as it is after, or much like it, where that is read already. It is not changed, and must not change meanwhile
 */
export function* reviewSteps(
  before: readonly LogText[],
  after: readonly LogText[],
  asked: ReviewAsked,
  held?: CheckedLogbook,
): Steps<Review> {
  const [was, read] = yield* logbooksOf(levelled(before, after), after, held?.logbook.sources);
  const changes = yield* changesSteps(filesOf(was), filesOf(read));
  yield;
  const day = dayOf([was, read], asked);
  const now = held !== undefined && standsFor(held, read, day) ? held : read;
  const own = Math.min(was.logbook.sources.size === 0 ? day : was.logbook.today(asked.worldDay), day);
  // What the log before told of its own last day: the rest only became so by the days since.
  let then: ReadonlySet<string> | undefined;
  if (own < day) {
    yield* was.checking(own);
    then = findingsThen(was, own);
    yield;
  }
  // Entries behind the day count on neither side.
  was.logbook.asOf = day;
  yield* was.checking(day);
  if (now !== held) {
    now.logbook.asOf = day;
    yield* now.checking(day);
  }
  const consequences = yield* consequencesOf(was, now, day, own, changes, then);
  const by = bearing(changes.list, consequences, was.book, now.book);
  yield;
  return {
    ...changes,
    day,
    title: now.book.title || was.book.title,
    consequences: consequences.map((each) => ({ ...each, by: by(each) })),
    before: was,
    after: now,
  };
}

/** Whether a log that is held has the same files as one that was read, and counts the same of them as of a day. */
function standsFor({ logbook }: CheckedLogbook, read: CheckedLogbook, day: number): boolean {
  const { sources } = read.logbook;
  const isSame = [...logbook.sources].every(([path, source]) => sources.get(path) === source);
  if (!isSame || logbook.sources.size !== sources.size || logbook.today(day) !== day) return false;
  return Object.is(logbook.asOf, day) || !logbook.blocks().some((block) => block.day > day);
}

/** A text of which only the line ends were others before, as a checkout makes them, is the same. */
function levelled(before: readonly LogText[], after: readonly LogText[]): readonly LogText[] {
  const now = new Map(after.map((file) => [file.path, file]));
  const even = (text: string): string => text.replaceAll("\r\n", "\n");
  return before.map((file) => {
    const fresh = now.get(file.path);
    if (fresh === undefined || fresh.text === file.text) return file;
    return even(fresh.text) === even(file.text) ? fresh : file;
  });
}

/** Both logs, read; a file that is the same is read once. @param held files that are read already, by path */
function* logbooksOf(
  before: readonly LogText[],
  after: readonly LogText[],
  held?: ReadonlyMap<string, Source>,
): Steps<[CheckedLogbook, CheckedLogbook]> {
  const read = new Map(held);
  const [was, now] = [new CheckedLogbook(), new CheckedLogbook()];
  for (const { path, text } of after) {
    const known = read.get(path);
    const source = known?.text === text ? known : new Source(path, text, known);
    read.set(path, source);
    now.put(source);
    yield;
  }
  for (const { path, text } of before) {
    const known = read.get(path);
    was.put(known?.text === text ? known : new Source(path, text, known));
    yield;
  }
  return [was, now];
}

/** The files of a log with their blocks, which are not cut again. */
const filesOf = ({ logbook }: CheckedLogbook): LogText[] =>
  [...logbook.sources.values()].map((source) => ({
    path: source.path,
    text: source.text,
    blocks: blocksOfSource(source),
  }));

function dayOf(logs: readonly CheckedLogbook[], { asOf, worldDay }: ReviewAsked): number {
  if (!Number.isNaN(asOf)) return asOf;
  const days = logs
    .filter(({ logbook }) => logbook.sources.size > 0)
    .map(({ logbook }) => logbook.today(worldDay));
  return days.length === 0 ? worldDay : Math.max(...days);
}

function* consequencesOf(
  was: CheckedLogbook,
  now: CheckedLogbook,
  day: number,
  own: number,
  { list, lines, files }: Changes,
  then: ReadonlySet<string> | undefined,
): Steps<Consequence[]> {
  // Of a layout, a comment and a file under another name nothing follows.
  if (list.length === 0 && files.every(({ is }) => is === "renamed")) return [];
  const found = [yield* findingConsequences(was, now, day, lines, then)];
  yield;
  const all = { water, doses, stock, cases, exposure, quarantine, shipping, broods, duties, volumes };
  for (const follows of Object.values(all) as readonly Follows<Standing>[]) {
    found.push(compared(follows, was, now, day, own));
    yield;
  }
  return found.flat();
}

/** The stations of a book in the order of a review: the room, systems, tanks, gear. */
export const stationsOf = ({ stations }: Book): readonly string[] => stations.map(({ name }) => name);

export type { Change };
