import { pageOf } from "../../checks/codes.ts";
import type { Finding, Severity } from "../../checks/finding.ts";
import type { Opened } from "../open.ts";
import { type LinePlace, linePlace, lineText } from "../place.ts";
import type { Terminal } from "../terminal.ts";
import { cut, plain, plainLine, plural, widthOf, wrap } from "../text.ts";

/** Findings for people: the place, the writer's own line with the part marked, what is wrong, what to do. */
export class FindingPrinter {
  private readonly terminal: Terminal;
  private readonly columns: number;
  /** What to do about a code is said once. */
  private readonly told = new Set<string>();

  constructor(terminal: Terminal) {
    this.terminal = terminal;
    this.columns = terminal.columns ?? Number.POSITIVE_INFINITY;
  }

  print(opened: Opened, finding: Finding): string {
    const { terminal, columns } = this;
    const { code, severity, block } = finding;
    const { file } = block;
    const place = linePlace(file, block.start + finding.start, block.start + finding.end);
    const at = `${plain(opened.shown(file))}:${place.line}:${place.column}`;
    const isWide = widthOf(`${at}  ${severity}  ${code}`) <= columns;
    const what = `${terminal.paint(severity, severity)}  ${terminal.paint("faint", code)}`;
    const head = isWide
      ? [`${terminal.paint("strong", at)}  ${what}`]
      : [...wrap(at, columns).map((line) => terminal.paint("strong", line)), what];
    const lines = [...head, ...this.marked(lineText(file, place.line), place, severity)];
    lines.push(...wrap(plain(finding.message), columns, "  "));
    const arrow = terminal.hasSigns ? "→" : "->";
    for (const each of this.toDo(finding)) {
      const [first, ...rest] = wrap(plain(each), columns, `  ${arrow} `, " ".repeat(3 + widthOf(arrow)));
      lines.push(terminal.paint("good", first ?? ""), ...rest.map((line) => terminal.paint("good", line)));
    }
    for (const { place: there, message } of finding.related) {
      const { file: other } = there.block;
      const line = linePlace(other, there.block.start + there.start, there.block.start + there.end);
      const text = `${plain(message)}: ${plain(opened.shown(other))}:${line.line}:${line.column}`;
      lines.push(...wrap(text, columns, "    ").map((each) => terminal.paint("faint", each)));
    }
    return `${lines.join("\n")}\n`;
  }

  private toDo({ code, fixes }: Finding): string[] {
    if (fixes.length > 0) return [fixes.map(({ title }) => title).join(", or ")];
    if (this.told.has(code)) return [];
    this.told.add(code);
    return [pageOf(code).whatToDo];
  }

  /** The line and the marks below it, moved so far that the marked part is on the terminal. */
  private marked(text: string, place: LinePlace, severity: Severity): string[] {
    const indent = "    ";
    const lead = /^\s*/.exec(text)?.[0].length ?? 0;
    const from = Math.max(lead, place.column - 1);
    const to = place.endLine > place.line ? text.length : place.endColumn - 1;
    const line = plainLine(text);
    let before = line.slice(Math.min(lead, from), from);
    const part = line.slice(from, Math.max(from, to));
    const room = this.columns - indent.length;
    // Some of what stands before gives way if the part would begin beyond the edge.
    const most = Math.max(0, room - Math.min(widthOf(part), Math.floor(room / 2)) - 4);
    while (widthOf(before) > most) before = `…${before.slice(2)}`;
    const shown = before + line.slice(from);
    const left = Math.max(1, room - widthOf(before));
    const written = Number.isFinite(room) ? cut(shown.trimEnd(), room) : shown.trimEnd();
    const behind = before.length + part.length;
    const painted =
      written.slice(0, before.length) +
      this.terminal.paint(severity, written.slice(before.length, behind)) +
      written.slice(behind);
    // Of a line that is meant as a whole nothing is pointed out.
    if (before === "" && behind >= shown.trimEnd().length) return [indent + painted];
    const marks = "^".repeat(Math.max(1, Math.min(widthOf(part), left)));
    return [indent + painted, indent + " ".repeat(widthOf(before)) + this.terminal.paint(severity, marks)];
  }
}

/** `1 error, 7 warnings, 2 for information`; empty for none, hints apart. */
export function countsText(counts: Readonly<Record<Severity, number>>, terminal: Terminal): string {
  const { error, warning, information } = counts;
  return [
    error > 0 ? terminal.paint("error", plural(error, "error")) : "",
    warning > 0 ? terminal.paint("warning", plural(warning, "warning")) : "",
    information > 0 ? terminal.paint("information", `${information} for information`) : "",
  ]
    .filter((each) => each !== "")
    .join(", ");
}
