import type { Conflict, Line, Outcome } from "./outcome.ts";

export interface MergeOptions {
  /** How many signs a mark has; 7 unless git asks for another number. */
  readonly markSize?: number;
  /** What the two versions are called at the marks, and what both were made of. */
  readonly ours?: string;
  readonly theirs?: string;
  readonly base?: string;
  /** Whether what both were made of stands between them, as by git's `merge.conflictStyle` of `diff3` and `zdiff3`. */
  readonly showsBase?: boolean;
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
    for (let at = 0; at < outcomes.length; at++) {
      const each = outcomes[at]!;
      if (each.is === "lines") {
        each.lines.forEach((line) => {
          this.put(line);
        });
        continue;
      }
      // Conflicts that touch are one.
      const all = [each];
      for (let next = outcomes[at + 1]; isOneWith(each, next); next = outcomes[at + 1]) {
        all.push(next);
        at++;
      }
      this.conflict(all);
    }
    return { text: this.parts.join(""), conflicts: this.conflicts };
  }

  private conflict(all: readonly Conflict[]): void {
    const { markSize: size = 7, showsBase = false, ...names } = this.options;
    const [base, ours, theirs] = (["base", "ours", "theirs"] as const).map((side) =>
      all.flatMap((each) => each[side]),
    );
    const write = (some: readonly Line[]): void => {
      for (const line of some) this.put(line);
    };
    this.mark("<", size, names.ours ?? "ours");
    write(ours!);
    if (showsBase) {
      this.mark("|", size, names.base ?? "base");
      write(base!);
    }
    this.mark("=", size, "");
    write(theirs!);
    this.mark(">", size, names.theirs ?? "theirs");
    this.conflicts++;
  }

  /** A line that had no end, as the last of a text, gets one once something follows. */
  private put({ text, eol }: Line): void {
    if (this.isOpen) this.parts.push(this.ending);
    this.parts.push(text, eol);
    this.isOpen = eol === "";
  }

  private mark(sign: string, size: number, name: string): void {
    const said = name.replace(/\s+/g, " ").trim();
    this.put({ text: sign.repeat(size) + (said === "" ? "" : ` ${said}`), eol: this.ending });
  }
}

function isOneWith(conflict: Conflict, next: Outcome | undefined): next is Conflict {
  return next?.is === "conflict" && conflict.isBlock !== true && next.isBlock !== true;
}
