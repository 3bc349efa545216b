/**
 * The marks that git leaves around two versions of the same lines: seven signs or more in column 0, then a space and a name, or nothing. They
 * open no block and end none. Until one version is chosen the upper one counts, which is the log as it stood here before: both at once
 * would be a log that nobody wrote.
 */
const mark = /^(?:<{7,}|={7,}|>{7,}|\|{7,})(?=[ \t\r\n]|$)[^\r\n]*/;

/** The mark that a line begins with, to the end of the line; undefined for any other line. @param line from its column 0 on */
export function conflictMark(line: string): string | undefined {
  return mark.exec(line)?.[0];
}

/** Whether any line may begin with marks; quick, as it is asked at every key. */
export const mayHoldMarks = (text: string): boolean => text.includes("<<<<<<<") && /^\ufeff?<{7}/m.test(text);

/** A stretch that does not count: from below the mark that ends the upper version up to the last mark. */
export interface Uncounted {
  readonly start: number;
  readonly end: number;
}

/** What of a text does not count, in order; of marks that are not whole nothing. */
export function uncountedIn(text: string): Uncounted[] {
  if (!mayHoldMarks(text)) return [];
  const found: Uncounted[] = [];
  let start = -1;
  let signs = "";
  for (let at = 0; at < text.length; ) {
    const feed = text.indexOf("\n", at);
    const next = feed < 0 ? text.length : feed + 1;
    if (at === 0 && text.charCodeAt(0) === 0xfeff) at = 1;
    const sign = text[at]!;
    if ((sign === "<" || sign === "|" || sign === "=" || sign === ">") && mark.test(text.slice(at, next))) {
      signs = sign === "<" ? "<" : signs + sign;
      if (signs === "<=" || signs === "<|") start = next;
      if (signs === "<=>" || signs === "<|=>") found.push({ start, end: at });
    }
    at = next;
  }
  return found;
}

/** A text with what does not count blanked out, and its marks and ends of lines left, so that all else stands where it stood. */
export function countedOf(text: string, uncounted: readonly Uncounted[] = uncountedIn(text)): string {
  let made = "";
  let from = 0;
  for (const { start, end } of uncounted) {
    const lines = text.slice(start, end).split(/(?<=\n)/);
    made += text.slice(from, start) + lines.map((line) => (mark.test(line) ? line : blank(line))).join("");
    from = end;
  }
  return from === 0 ? text : made + text.slice(from);
}

const blank = (line: string): string => line.replace(/[^\r\n]/g, " ");

/** What a mark says, for people. */
export function conflictWords(written: string): string {
  const name = written.replace(/^[<=>|]+/, "").trim();
  const from = name === "" ? "one side" : `“${name}”`;
  const toDo = "keep the lines that are right and delete the marks";
  switch (written[0]) {
    case "<":
      return `a merge left two versions of the lines below: this one, from ${from}, counts until you choose, the other, behind the line of “=”, does not: ${toDo}`;
    case "|":
      return `left over from a merge: below stands what both versions were made of; it does not count: ${toDo}`;
    case "=":
      return `left over from a merge: above stands one version of these lines, below the other, which does not count: ${toDo}`;
    default:
      return `left over from a merge: here ends the second version, from ${from}: ${toDo}`;
  }
}
