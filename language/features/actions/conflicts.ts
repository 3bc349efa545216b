import { conflictMark } from "../../syntax/conflict-mark.ts";
import { lineOfText } from "../lines.ts";
import type { Span } from "../view.ts";
import type { TextEdit } from "./laid-edits.ts";

/** The two versions that a merge left, at an offset on their marks or between them. */
export interface Conflict {
  readonly ours: Version;
  readonly theirs: Version;
  /** All of it, its marks included. */
  readonly whole: Span;
}

interface Version extends Span {
  /** What the mark calls it; may be empty. */
  readonly name: string;
}

export function conflictAt(text: string, offset: number): Conflict | undefined {
  // Looked for at every move of the cursor: by what the platform finds fastest.
  let first = text.lastIndexOf("<<<<<<<", text.lastIndexOf("\n", offset - 1) + 1);
  while (first > 0 && text[first - 1] !== "\n") first = text.lastIndexOf("<<<<<<<", first - 1);
  if (first < 0 || markAt(text, first) === undefined) return undefined;
  const marks: Span[] = [];
  for (let at = first; at < text.length; at = lineAt(text, at).end) {
    const sign = markAt(text, at)?.[0];
    if (sign === "<" && at > first) return undefined;
    if (sign !== undefined) marks.push(lineAt(text, at));
    if (sign === ">") break;
  }
  if (
    offset < first ||
    offset > marks.at(-1)!.end ||
    (offset === marks.at(-1)!.end && text[offset - 1] === "\n")
  )
    return undefined;
  const signs = marks.map(({ start }) => text[start]).join("");
  if (signs !== "<=>" && signs !== "<|=>") return undefined;
  const [open, ...rest] = marks;
  const [close, middle] = [rest.at(-1)!, rest.at(-2)!];
  return {
    ours: { start: open!.end, end: rest[0]!.start, name: nameOf(text, open!) },
    theirs: { start: middle.end, end: close.start, name: nameOf(text, close) },
    whole: { start: open!.start, end: close.end },
  };
}

/** What each way to settle it takes out of the text. */
export function settled({ ours, theirs, whole }: Conflict): readonly { title: string; edits: TextEdit[] }[] {
  const keeping = (...kept: readonly Span[]): TextEdit[] => {
    const ends = [...kept.map(({ start }) => start), whole.end];
    const starts = [whole.start, ...kept.map(({ end }) => end)];
    return starts
      .map((start, at) => ({ start, end: ends[at]!, text: "" }))
      .filter(({ start, end }) => end > start);
  };
  const called = ({ name }: Version, otherwise: string): string =>
    name === "" ? `Keep the ${otherwise} version` : `Keep the version of “${name}”`;
  return [
    { title: called(ours, "upper"), edits: keeping(ours) },
    { title: called(theirs, "lower"), edits: keeping(theirs) },
    { title: "Keep both versions", edits: keeping(ours, theirs) },
  ];
}

function lineAt(text: string, start: number): Span {
  const feed = text.indexOf("\n", start);
  return { start, end: feed < 0 ? text.length : feed + 1 };
}

const markAt = (text: string, start: number): string | undefined =>
  /[<|=>]/.test(text[start] ?? "") ? conflictMark(text.slice(start, start + 300)) : undefined;

const nameOf = (text: string, { start }: Span): string =>
  lineOfText(text, start)
    .text.replace(/^[<>]+/, "")
    .trim();
