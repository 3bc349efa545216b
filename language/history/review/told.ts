import { spokenDay } from "../../book/dates.ts";
import { namesInShort } from "../../features/names-in-short.ts";
import type { Location } from "../../features/view.ts";
import type { Change, Side } from "./changes.ts";
import { type ChangeGroup, changeGroups, followGroups, kindsOf } from "./groups.ts";
import type { Caused, Review } from "./review.ts";
import {
  causeText,
  changeText,
  countsText,
  fileText,
  findingLead,
  grouped,
  marks,
  toneMarks,
} from "./words.ts";

/** A review as it is told: the same lines on a terminal, in Markdown and in a tree. */
export interface ToldReview {
  readonly title: string;
  /** As of which the figures are. */
  readonly day: string;
  /** `3 corrected, 21 added`; empty where nothing is another. */
  readonly counts: string;
  readonly files: readonly string[];
  readonly follows: readonly ToldFollows[];
  /** The one day of all that happened; empty where it is of several. */
  readonly onDay: string;
  /** Consequences that were left out as small. */
  readonly small: number;
  readonly groups: readonly ToldGroup[];
}

export interface ToldFollows {
  /** `dam`, `r9 to r12`. */
  readonly title: string;
  readonly items: readonly ToldConsequence[];
}

export interface ToldConsequence {
  readonly mark: string;
  /** `new error limit/above`; empty for what is no finding. */
  readonly lead: string;
  readonly text: string;
  readonly is: Caused["is"];
  readonly tone: Caused["tone"];
  readonly severity: Caused["severity"];
  readonly code: string;
  /** The changes it may follow from, the nearest first, as many as are told. */
  readonly causes: readonly ToldCause[];
  /** How many more there are. */
  readonly more: number;
  readonly at: Location | null;
  readonly side: "before" | "after";
}

export interface ToldCause extends Pick<ToldLine, "before" | "after"> {
  readonly text: string;
}

export interface ToldGroup {
  readonly name: string;
  readonly title: string;
  readonly isDefinition: boolean;
  readonly count: number;
  readonly days: readonly ToldDay[];
}

export interface ToldDay {
  /** `1 March`; empty for a definition, for lines of many days, and where all are of one. */
  readonly title: string;
  readonly lines: readonly ToldLine[];
}

export interface ToldLine {
  readonly is: Change["is"];
  readonly mark: string;
  readonly text: string;
  /** Undefined for lines that stand for many. */
  readonly before: Side | undefined;
  readonly after: Side | undefined;
}

export interface Telling {
  /** Every entry and every consequence, however many. */
  readonly all: boolean;
  /** How a file is told; by its path unless said otherwise. */
  readonly shown?: (path: string) => string;
}

/** From so many changes on, entries that are no more than new are counted and not listed. */
const many = 120;
const causesTold = 2;

export function toldReview(review: Review, { all, shown = (path) => path }: Telling): ToldReview {
  const { title, day, counts, files, list, consequences } = review;
  const wanted = consequences.filter(({ isSmall }) => all || !isSmall);
  const isShort = !all && list.length > many;
  const days = new Set(list.flatMap((change) => (change.definition === "" ? [change.day] : [])));
  const [only] = days.size === 1 ? days : [];
  const onDay = only === undefined || Number.isNaN(only) ? "" : spokenDay(only, day);
  return {
    title,
    day: spokenDay(day),
    onDay,
    counts: countsText(counts),
    files: files.map((file) => fileText(file, shown)),
    small: consequences.length - wanted.length,
    follows: followGroups(wanted, review).map(({ of, consequences: told }) => ({
      title: namesInShort([...of]),
      items: told.map((each) => consequenceOf(each, list, day)),
    })),
    groups: changeGroups(review).map((group) => groupOf(group, list, day, isShort, onDay)),
  };
}

function consequenceOf(each: Caused, list: readonly Change[], day: number): ToldConsequence {
  const { text, is, tone, severity, code, by, at, side } = each;
  const shown = by.list(by.near > 0 ? Math.min(by.near, causesTold) : causesTold);
  const told = shown.map((index): ToldCause => {
    const { before, after } = list[index]!;
    return { text: causeText(list[index]!, day), before, after };
  });
  return {
    mark: toneMarks[tone],
    lead: findingLead(each),
    text,
    is,
    tone,
    severity,
    code,
    causes: told,
    more: by.count - told.length,
    at,
    side,
  };
}

function groupOf(
  { name, title, isDefinition, days }: ChangeGroup,
  list: readonly Change[],
  near: number,
  isShort: boolean,
  onDay: string,
): ToldGroup {
  const count = days.reduce((sum, { changes }) => sum + changes.length, 0);
  const added = days
    .flatMap(({ changes }) => changes)
    .filter((at) => list[at]!.is === "added" && list[at]!.what === "entry");
  const isCounted = isShort && added.length > 3;
  const counted = new Set(isCounted ? added : []);
  const told = days.flatMap(({ day, changes }): ToldDay[] => {
    const shown = changes.filter((at) => !counted.has(at));
    if (shown.length === 0) return [];
    return [
      {
        title: Number.isNaN(day) || onDay !== "" ? "" : spokenDay(day, near),
        lines: shown.map((at) => lineOf(list[at]!, near)),
      },
    ];
  });
  if (isCounted)
    told.push({
      title: "",
      lines: [
        summaryOf(
          added.map((at) => list[at]!),
          near,
        ),
      ],
    });
  return { name, title, isDefinition, count, days: told };
}

function lineOf(change: Change, near: number): ToldLine {
  const { is, before, after } = change;
  return { is, mark: marks[is], text: changeText(change, near), before, after };
}

function summaryOf(changes: readonly Change[], near: number): ToldLine {
  const days = changes.map(({ day }) => day);
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const when =
    first === last
      ? `on ${spokenDay(first, near)}`
      : `from ${spokenDay(first, near)} to ${spokenDay(last, near)}`;
  return {
    is: "added",
    mark: marks.added,
    text: `${grouped(changes.length)} entries ${when}: ${kindsOf(changes)}`,
    before: undefined,
    after: undefined,
  };
}
