import { stripVTControlCharacters } from "node:util";
import type { Terminal, Tone } from "./terminal.ts";
import { plain, widthOf, wrap } from "./text.ts";

/** Longer lines than this are hard to read, however wide the terminal is. */
const mostColumns = 100;

/** What reports are laid out with: lines that end before the edge of the terminal. Text is laid out first and painted then. */
export class Page {
  protected readonly terminal: Terminal;
  protected readonly columns: number;
  protected readonly indent = "  ";

  constructor(terminal: Terminal) {
    this.terminal = terminal;
    this.columns = Math.min(terminal.columns ?? 80, mostColumns);
  }

  /** The head of a section, with a note at the right. */
  protected section(title: string, note = "", tone: Tone = "faint"): string[] {
    if (note === "") return [this.terminal.paint("strong", title)];
    return this.ends(title, note, "strong", tone);
  }

  /** Two texts at the ends of a line; below each other where there is no room. */
  protected ends(left: string, right: string, leftTone: Tone, rightTone: Tone = "faint"): string[] {
    const { paint } = this.terminal;
    const gap = this.columns - widthOf(left) - widthOf(right);
    if (gap >= 2) return [`${paint(leftTone, left)}${" ".repeat(gap)}${paint(rightTone, right)}`];
    return [
      ...wrap(left, this.columns).map((line) => paint(leftTone, line)),
      ...wrap(right, this.columns).map((line) => paint(rightTone, line)),
    ];
  }

  /** A text from a log, wrapped; the lines after its first stand further in. */
  protected wrapped(text: string, first = this.indent): string[] {
    return wrap(plain(text), this.columns, first, first + this.indent);
  }

  /** A line that is painted already; where it is too long it is wrapped, and the paint comes off. */
  protected fitting(line: string): string[] {
    const bare = stripVTControlCharacters(line);
    return widthOf(bare) <= this.columns ? [line] : wrap(bare.trim(), this.columns, this.indent);
  }

  protected faint(text: string): string[] {
    return wrap(plain(text), this.columns, this.indent).map((line) => this.terminal.paint("faint", line));
  }
}
