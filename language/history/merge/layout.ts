import { nextLine } from "../../syntax/blocks.ts";
import type { Line } from "./outcome.ts";

/** What a text is written with: its byte order mark and the ends of its lines. */

export function markOf(text: string): string {
  return text.startsWith("\ufeff") ? "\ufeff" : "";
}

/** Whether the last line has an end. An empty text has no line without one. */
export function endsOf(text: string): boolean {
  return text === "" || /[\r\n]$/.test(text);
}

export function splitLines(text: string): Line[] {
  const lines: Line[] = [];
  for (let start = 0; start < text.length; ) {
    const next = nextLine(text, start);
    const written = text.slice(start, next);
    const line = written.replace(/(?:\r\n|\n|\r)$/, "");
    lines.push({ text: line, eol: written.slice(line.length) });
    start = next;
  }
  return lines;
}

/** The one end that all lines have; empty for none, `mixed` for several. */
function oneEnding(text: string): string {
  const isWindows = text.includes("\r\n");
  const rest = isWindows ? text.replaceAll("\r\n", "") : text;
  if (rest.includes("\r") || (isWindows && rest.includes("\n"))) return "mixed";
  return isWindows ? "\r\n" : rest.includes("\n") ? "\n" : "";
}

/** The end that all lines of the result should have; empty where they keep their own. */
export function endingOf(base: string, ours: string, theirs: string): string {
  const [old, own, other] = [base, ours, theirs].map(oneEnding);
  const all = [old, own, other].filter((each) => each !== "");
  if (all.includes("mixed")) return "";
  if (own === "" || other === "") return own || other || "";
  return own === old ? other! : own!;
}

export function inOneEnding(text: string, ending: string): string {
  return ending === "" ? text : text.replace(/\r\n|\n|\r/g, ending);
}
