import { isoOf, spokenDay } from "../../book/dates.ts";
import type { Change, ChangeCounts, ChangeKind, Side } from "./changes.ts";
import type { FileChange } from "./files-changed.ts";
import { type Part, partText } from "./parts.ts";
import type { Caused } from "./review.ts";

/** Changes and what follows from them in words. They hold what the log holds: each way of showing escapes it. */

/** What stands before a change: told by letter and by word, never by colour alone. */
export const marks: Readonly<Record<ChangeKind, string>> = {
  added: "+",
  removed: "-",
  corrected: "~",
  moved: ">",
};

/** What a change says, its station and day left out. */
export function changeText(change: Change, near: number): string {
  const { is, what, word, before, after, parts } = change;
  const side = (after ?? before)!;
  const unread = what === "line" ? " (cannot be read)" : "";
  if (is === "added" || is === "removed") return `${timed(side)}${sideText(change, side)}${unread}`;
  const told = parts.map((part) => partWords(part, near));
  const isProperty = what === "property" || what === "definition" || what === "day" || what === "line";
  if (is === "moved") {
    const said = parts.every(({ about }) => moves.has(about)) ? [] : told.slice(1);
    return `${sideText(change, side)}: ${[movedWords(change, near), ...said].join("; ")}`;
  }
  const lead = isProperty || parts.some(({ about }) => about === "kind") ? "" : `${word}: `;
  const time = parts.some(({ about }) => about === "time") ? "" : timed(side);
  return `${time}${lead}${told.join("; ")}${unread}`;
}

const timed = ({ time }: Side): string => (time === "" ? "" : `${time} `);
const moves = new Set(["day", "time", "below"]);

function sideText({ what }: Change, { text }: Side): string {
  return what === "day" ? `day ${text.slice(10).trim()}` : text;
}

/** Of a line that says the same elsewhere: from where to where. */
function movedWords({ before, after, parts }: Change, near: number): string {
  const [was, now] = [before!, after!];
  const isTime = parts.some(({ about }) => about === "time");
  const clock = isTime ? [was.time, now.time].map((time) => (time === "" ? "no time" : time)) : ["", ""];
  if (was.definition !== now.definition)
    return `from ${was.definition || isoOf(was.day)} to ${now.definition || isoOf(now.day)}`;
  if (Object.is(was.day, now.day)) return clock.join(" -> ");
  const at = (side: Side, time: string): string =>
    [Number.isNaN(side.day) ? "no day" : spokenDay(side.day, near), time].filter(Boolean).join(" ");
  return `from ${at(was, clock[0]!)} to ${at(now, clock[1]!)}`;
}

function partWords(part: Part, near: number): string {
  const spoken = (iso: string | undefined): string | undefined =>
    iso !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(iso) ? isoSpoken(iso, near) : iso;
  if (part.about !== "day") return partText(part);
  return partText({ about: "day", before: spoken(part.before), after: spoken(part.after) });
}

function isoSpoken(iso: string, near: number): string {
  return spokenDay(Date.parse(`${iso}T00:00:00Z`) / 86_400_000, near);
}

/** `3 corrected, 21 added, 1 removed; comments of 2 lines; layout of 1`. Empty where nothing is another. */
export function countsText({
  added,
  removed,
  corrected,
  moved,
  comments,
  layout,
  refiled,
}: ChangeCounts): string {
  const of = (count: number, word: string): string[] => (count === 0 ? [] : [`${grouped(count)} ${word}`]);
  const first = [
    ...of(corrected, "corrected"),
    ...of(added, "added"),
    ...of(removed, "removed"),
    ...of(moved, "moved in time"),
  ].join(", ");
  return [
    first,
    comments === 0 ? "" : `comments at ${lines(comments)}`,
    layout === 0 ? "" : `only the layout of ${lines(layout)}`,
    refiled === 0 ? "" : `${lines(refiled)} in another file`,
  ]
    .filter((part) => part !== "")
    .join("; ");
}

const lines = (count: number): string => `${grouped(count)} ${count === 1 ? "line" : "lines"}`;
export const grouped = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/g, ",");

/** @param shown how a path is told */
export function fileText({ is, path, from }: FileChange, shown: (path: string) => string): string {
  if (is === "renamed") return `${shown(from)} is called ${shown(path)} now`;
  return `${shown(path)} is ${is === "added" ? "new" : "gone"}`;
}

/** What a consequence says of itself before its words: `new error limit/above`. Empty for what is no finding. */
export function findingLead({ is, code, severity, before, after }: Caused): string {
  if (is !== "finding") return "";
  const state = before === "" ? "new" : after === "" ? "gone" : "now";
  return `${state} ${severity} ${code}`;
}

/** What stands before a consequence. */
export const toneMarks: Readonly<Record<Caused["tone"], string>> = { worse: "!", better: "*", plain: "=" };

/** Where a change is told: `sheet: pH 7.2 -> 7.4 on 1 March`. */
export function causeText(change: Change, near: number): string {
  const { day, definition, station } = change;
  const where =
    definition !== "" ? `of ${definition}` : Number.isNaN(day) ? "" : `on ${spokenDay(day, near)}`;
  const is = change.is === "added" ? "" : change.is === "removed" ? "without " : "";
  return [`${is}${station === "" ? "" : `${station} `}${changeText(change, near)}`, where]
    .filter(Boolean)
    .join(" ");
}
