import type { ToldConsequence, ToldReview } from "../../history/review/told.ts";
import { grouped } from "../../history/review/words.ts";
import { Page } from "../page.ts";
import type { Terminal, Tone } from "../terminal.ts";
import { plain, widthOf, wrap } from "../text.ts";

/** A review on a terminal: what follows first, then what changed, by tank and day. */
export function reviewText(
  review: ToldReview,
  names: { readonly from: string; readonly to: string; readonly folder: string },
  terminal: Terminal,
): string {
  return `${new ReviewPage(terminal).lines(review, names).join("\n")}\n`;
}

const paints: Readonly<Record<string, Tone>> = {
  added: "good",
  removed: "error",
  corrected: "warning",
  moved: "information",
};

class ReviewPage extends Page {
  lines(
    review: ToldReview,
    { from, to, folder }: { readonly from: string; readonly to: string; readonly folder: string },
  ): string[] {
    const { title, counts, files, day } = review;
    const head = [
      ...this.ends(plain(title === "" ? folder : title), `as of ${day}`, "strong"),
      ...this.faintly(`${from} -> ${to}`),
    ];
    if (counts === "" && files.length === 0) return [...head, "Nothing changed."];
    return [
      ...head,
      ...(counts === "" ? [] : wrap(plain(counts), this.columns)),
      ...files.flatMap((file) => this.wrapped(file, "")),
      "",
      ...this.follows(review),
      ...this.changes(review),
    ];
  }

  private faintly(text: string): string[] {
    return wrap(plain(text), this.columns).map((line) => this.terminal.paint("faint", line));
  }

  private follows({ follows, small }: ToldReview): string[] {
    const lines = this.section("What follows from it");
    if (follows.length === 0)
      lines.push(
        ...this.wrapped(small === 0 ? "Nothing that is computed is another." : "Nothing of weight."),
      );
    for (const { title, items } of follows) {
      if (title !== "") lines.push(...this.titled(title));
      for (const item of items) lines.push(...this.consequence(item));
    }
    if (small > 0)
      lines.push(
        ...this.faint(
          `${grouped(small)} smaller ${small === 1 ? "difference" : "differences"}: --all lists ${small === 1 ? "it" : "them"}`,
        ),
      );
    return lines;
  }

  private consequence({ mark, lead, text, tone, severity, causes, more }: ToldConsequence): string[] {
    const paint: Tone | undefined =
      tone === "worse"
        ? severity === "error"
          ? "error"
          : "warning"
        : tone === "better"
          ? "good"
          : undefined;
    const first = `${this.indent.repeat(2)}${mark} `;
    const rest = " ".repeat(first.length);
    const told = wrap(plain(lead === "" ? text : `${lead}  ${text}`), this.columns, first, rest);
    const painted = told.map((line) => (paint === undefined ? line : this.terminal.paint(paint, line)));
    if (causes.length === 0) return painted;
    const others = more > 0 ? [`and ${grouped(more)} more in its water`] : [];
    const by = `with ${[...causes.map((cause) => cause.text), ...others].join("; ")}`;
    return [
      ...painted,
      ...wrap(plain(by), this.columns, `${rest}  `, `${rest}    `).map((line) =>
        this.terminal.paint("faint", line),
      ),
    ];
  }

  private changes({ groups, onDay }: ToldReview): string[] {
    if (groups.length === 0) return [];
    const lines = ["", ...this.section("Entries and definitions", onDay)];
    for (const { name, title, days } of groups) {
      lines.push(...this.titled(name, title));
      for (const { title: day, lines: told } of days) {
        if (day !== "") lines.push(`${this.indent.repeat(2)}${this.terminal.paint("faint", day)}`);
        for (const { is, mark, text } of told) {
          const first = `${this.indent.repeat(2)}${mark} `;
          const wrapped = wrap(plain(text), this.columns, first, " ".repeat(first.length + 2));
          lines.push(...wrapped.map((line) => this.terminal.paint(paints[is]!, line)));
        }
      }
    }
    return lines;
  }

  private titled(name: string, title = ""): string[] {
    const whole = title === "" ? name : `${name}, ${title}`;
    if (widthOf(plain(whole)) + 2 > this.columns) return this.wrapped(whole);
    const behind = title === "" ? "" : this.terminal.paint("faint", `, ${plain(title)}`);
    return [`${this.indent}${this.terminal.paint("strong", plain(name))}${behind}`];
  }
}
