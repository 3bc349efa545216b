import type { Line, Outcome } from "./outcome.ts";

export interface MergeOptions {
  /** How many signs a mark has; 7 unless git asks for another number. */
  readonly markSize?: number;
  /** What the two versions are called at the marks. */
  readonly ours?: string;
  readonly theirs?: string;
}

export interface MergedLog {
  readonly text: string;
  /** Places where both versions stay. */
  readonly conflicts: number;
}

/** Writes outcomes out, with marks around what both changed. */
export class Writer {
  private readonly options: MergeOptions;
  private readonly ending: string;
  private readonly parts: string[] = [];
  /** The line written last has no end yet. */
  private isOpen = false;
  private conflicts = 0;

  constructor(options: MergeOptions, ending: string) {
    this.options = options;
    this.ending = ending === "" ? "\n" : ending;
  }

  write(outcomes: readonly Outcome[]): MergedLog {
    const size = this.options.markSize ?? 7;
    for (let at = 0; at < outcomes.length; at++) {
      const each = outcomes[at]!;
      if (each.is === "lines") {
        each.lines.forEach((line) => {
          this.put(line);
        });
        continue;
      }
      // Conflicts that touch are one.
      let last = at;
      while (outcomes[last + 1]?.is === "conflict") last++;
      const all = outcomes.slice(at, last + 1).filter((outcome) => outcome.is === "conflict");
      this.mark("<", size, this.options.ours ?? "ours");
      for (const { ours } of all) for (const line of ours) this.put(line);
      this.mark("=", size, "");
      for (const { theirs } of all) for (const line of theirs) this.put(line);
      this.mark(">", size, this.options.theirs ?? "theirs");
      this.conflicts++;
      at = last;
    }
    return { text: this.parts.join(""), conflicts: this.conflicts };
  }

  /** A line that had no end, as the last of a text, gets one once something follows. */
  private put({ text, eol }: Line): void {
    if (this.isOpen) this.parts.push(this.ending);
    this.parts.push(text, eol);
    this.isOpen = eol === "";
  }

  private mark(sign: string, size: number, name: string): void {
    this.put({ text: sign.repeat(size) + (name === "" ? "" : ` ${name}`), eol: this.ending });
  }
}
