/**
 * The marks that git leaves around two versions of the same lines: seven signs or more in column 0, then a space and a name, or nothing. They
 * open no block and end none, so that the lines of both versions are read where they stand.
 */
const mark = /^(?:<{7,}|={7,}|>{7,}|\|{7,})(?=[ \t\r\n]|$)[^\r\n]*/;

/** The mark that a line begins with, to the end of the line; undefined for any other line. @param line from its column 0 on */
export function conflictMark(line: string): string | undefined {
  return mark.exec(line)?.[0];
}

/** What a mark says, for people. */
export function conflictWords(written: string): string {
  const name = written.replace(/^[<=>|]+/, "").trim();
  const from = name === "" ? "one side" : `“${name}”`;
  const toDo = "keep the lines that are right and delete the marks";
  switch (written[0]) {
    case "<":
      return `a merge left two versions of the lines below: this one from ${from}, the other behind the line of “=”; both count as they stand: ${toDo}`;
    case "|":
      return `left over from a merge: below stands what both versions were made of; it counts as it stands: ${toDo}`;
    case "=":
      return `left over from a merge: above stands one version of these lines, below the other: ${toDo}`;
    default:
      return `left over from a merge: here ends the second version, from ${from}: ${toDo}`;
  }
}
