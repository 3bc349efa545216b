import { Page } from "./page.ts";
import type { Place, WhyTree } from "./schema.ts";
import type { Terminal } from "./terminal.ts";
import { plain, widthOf, wrap } from "./text.ts";

/** A tree of reasons, for people: what each figure is, what it follows from, and where that stands. */
export function whyLines(why: WhyTree, terminal: Terminal): string[] {
  return new WhyPage(terminal).branch(why, 0);
}

class WhyPage extends Page {
  branch(why: WhyTree, depth: number): string[] {
    const { what, value, formula, source, place, from } = why;
    return [
      ...this.headline(value === "" ? what : `${what}: ${value}`, depth, place),
      ...this.note("formula", formula, depth + 1),
      ...this.note("source", source, depth + 1),
      ...from.flatMap((each) => this.branch(each, depth + 1)),
    ];
  }

  private headline(text: string, depth: number, place: Place | undefined): string[] {
    const { paint } = this.terminal;
    const pad = this.padOf(depth);
    const lines = wrap(plain(text), this.columns, pad, pad + this.indent);
    const painted = depth === 0 ? lines.map((line) => paint("strong", line)) : lines;
    if (place === undefined) return painted;
    const at = plain(`${place.file}:${place.line}:${place.column}`);
    const last = lines.at(-1) ?? "";
    if (widthOf(last) + 2 + widthOf(at) <= this.columns)
      return [...painted.slice(0, -1), `${painted.at(-1)}  ${paint("faint", at)}`];
    return [
      ...painted,
      ...wrap(at, this.columns, pad + this.indent.repeat(2)).map((line) => paint("faint", line)),
    ];
  }

  private note(name: string, text: string | undefined, depth: number): string[] {
    if (text === undefined) return [];
    const pad = this.padOf(depth);
    return wrap(plain(`${name}: ${text}`), this.columns, pad, pad + this.indent).map((line) =>
      this.terminal.paint(name === "formula" ? "information" : "faint", line),
    );
  }

  /** A deep tree in a narrow window stops going further in. */
  private padOf(depth: number): string {
    return this.indent.repeat(Math.min(depth, Math.floor(this.columns / 8)));
  }
}
