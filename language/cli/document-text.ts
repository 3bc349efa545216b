import {
  cellText,
  cellTone,
  type Line,
  type Part,
  type Report,
  type Table,
  type Tone,
} from "../features/document.ts";
import { Page } from "./page.ts";
import type { Tone as Paint, Terminal } from "./terminal.ts";
import { padEnd, padStart, plain, widthOf, wrap } from "./text.ts";

/** A report on a terminal: within its columns, with nothing in it that a terminal would obey. */
export function reportText(report: Report, terminal: Terminal): string {
  return `${new DocumentPage(terminal).report(report).join("\n")}\n`;
}

const paints: Readonly<Record<Tone, Paint | undefined>> = {
  plain: undefined,
  strong: "strong",
  faint: "faint",
  good: "good",
  warning: "warning",
  error: "error",
};

class DocumentPage extends Page {
  report({ title, about, sections }: Report): string[] {
    const head = [...this.painted(title, "strong"), ...(about === "" ? [] : this.painted(about, "faint"))];
    return [
      ...head,
      ...sections.flatMap((section) => [
        "",
        ...this.section(plain(section.title), plain(section.note ?? "")),
        ...section.parts.flatMap((part) => this.part(part)),
      ]),
    ];
  }

  private part(part: Part): string[] {
    switch (part.is) {
      case "text":
        return this.painted(part.text, part.tone, this.indent);
      case "list":
        return part.items.flatMap((item) => this.item(item));
      case "caution":
        return this.painted(`Take care: ${part.text}`, "warning", this.indent);
      case "picture":
        return this.painted(part.alt, "faint", this.indent);
      case "table":
        return this.table(part);
    }
  }

  private item({ text, note = "", tone }: Line): string[] {
    const lines = wrap(plain(text), this.columns, this.indent, this.indent.repeat(2));
    const painted = lines.map((line) => this.paint(line, tone));
    if (note === "") return painted;
    const last = lines.at(-1) ?? "";
    if (widthOf(last) + 2 + widthOf(plain(note)) <= this.columns)
      return [...painted.slice(0, -1), `${painted.at(-1)}  ${this.paint(plain(note), "faint")}`];
    return [...painted, ...this.painted(note, "faint", this.indent.repeat(2))];
  }

  /** Columns side by side; where they are wider than the terminal, each row as a list of what its columns say. */
  private table({ columns, rows }: Table): string[] {
    if (rows.length === 0) return [];
    const heads = columns.map(({ title }) => plain(title));
    const cells = rows.map((row) => row.map((cell) => plain(cellText(cell))));
    const widths = heads.map((head, at) =>
      Math.max(widthOf(head), ...cells.map((row) => widthOf(row[at] ?? ""))),
    );
    const total = widths.reduce((sum, width) => sum + width + 2, 0);
    if (total > this.columns) return this.narrow(heads, cells);
    const laid = (text: string, at: number): string =>
      columns[at]?.isFigure === true ? padStart(text, widths[at]!) : padEnd(text, widths[at]!);
    const head = `${this.indent}${heads.map(laid).join("  ")}`.trimEnd();
    return [
      this.paint(head, "faint"),
      ...rows.map((row, index) => {
        const line = row.map((cell, at) => this.paint(laid(cells[index]![at]!, at), cellTone(cell)));
        return `${this.indent}${line.join("  ")}`.trimEnd();
      }),
    ];
  }

  private narrow(heads: readonly string[], cells: readonly (readonly string[])[]): string[] {
    return cells.flatMap(([first = "", ...rest]) => [
      ...wrap(first, this.columns, this.indent, this.indent.repeat(2)),
      ...rest.flatMap((text, at) =>
        text === ""
          ? []
          : wrap(
              `${heads[at + 1] ?? ""}: ${text}`,
              this.columns,
              this.indent.repeat(2),
              this.indent.repeat(3),
            ),
      ),
    ]);
  }

  private painted(text: string, tone: Tone = "plain", first = ""): string[] {
    return wrap(plain(text), this.columns, first, first).map((line) => this.paint(line, tone));
  }

  private paint(text: string, tone: Tone = "plain"): string {
    const paint = paints[tone];
    return paint === undefined ? text : this.terminal.paint(paint, text);
  }
}
