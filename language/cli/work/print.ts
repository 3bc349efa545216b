import type { Calculation } from "../../calculations/calculation.ts";
import { measured } from "../../calculations/page.ts";
import { Page } from "../page.ts";
import type { WorkedReport } from "../schema.ts";
import type { Terminal } from "../terminal.ts";
import { padEnd, plain, widthOf, wrap } from "../text.ts";

/** What `work` says, for people. */

export function workedText(report: WorkedReport, terminal: Terminal): string {
  return `${new WorkPage(terminal).worked(report).join("\n")}\n`;
}

/** The list of calculations by groups. @param isFull with what each takes */
export function listText(all: readonly Calculation[], isFull: boolean, terminal: Terminal): string {
  return `${new WorkPage(terminal).list(all, isFull).join("\n")}\n`;
}

class WorkPage extends Page {
  worked({
    title,
    inputs,
    figures,
    outside,
    entry,
    formula,
    range,
    sources,
    caution,
  }: WorkedReport): string[] {
    const { paint } = this.terminal;
    const given = inputs.map(
      ({ title: name, text, assumed, from }) =>
        [name, text, assumed ? "taken, as nothing was given" : (from ?? "")] as const,
    );
    const found = figures.map(({ title: name, text }) => [name, text, ""] as const);
    const longest = Math.max(0, ...[...given, ...found].map(([name]) => widthOf(name)));
    const widest = Math.min(longest, Math.floor(this.columns / 2));
    return [
      paint("strong", title),
      ...given.flatMap(([name, text, from]) => this.row(name, text, from, widest, "faint")),
      "",
      ...(outside === undefined
        ? figures.flatMap(({ title: name, text, outside: reason }) =>
            this.row(name, text, "", widest, reason === undefined ? "strong" : "warning"),
          )
        : wrap(plain(`No figure: ${outside}${/[.?!]$/.test(outside) ? "" : "."}`), this.columns).map((line) =>
            paint("warning", line),
          )),
      "",
      ...formula.flatMap((each) => this.said(each, "information")),
      ...this.said(`Holds for: ${range}`, "faint"),
      ...sources.flatMap((each) => this.said(`Source: ${each}`, "faint")),
      ...(caution === undefined ? [] : this.said(`Take care: ${caution}`, "warning")),
      ...(entry === undefined ? [] : this.said(`In a log: TANK ${entry}`, "faint")),
    ];
  }

  list(all: readonly Calculation[], isFull: boolean): string[] {
    const { paint } = this.terminal;
    const widest = Math.max(...all.map(({ name }) => name.length));
    const lines: string[] = [];
    let group = "";
    for (const each of all) {
      if (each.group !== group) {
        if (lines.length > 0) lines.push("");
        lines.push(paint("strong", each.group));
        group = each.group;
      }
      if (!isFull) {
        lines.push(
          ...wrap(each.title, this.columns, `  ${padEnd(each.name, widest)}  `, " ".repeat(widest + 4)),
        );
        continue;
      }
      lines.push(`  ${paint("information", each.name)}  ${each.title}`);
      for (const [name, input] of Object.entries(each.inputs)) {
        const rest =
          input.otherwise === undefined
            ? input.optional === true
              ? ", may be left out"
              : ""
            : `, else ${input.otherwise}`;
        const title = input.title === name ? "" : `${input.title}, `;
        lines.push(
          ...wrap(`${name}=  ${title}${measured(input)}${rest}`, this.columns, "      ", "          "),
        );
      }
    }
    return lines;
  }

  private row(
    name: string,
    text: string,
    from: string,
    widest: number,
    tone: "faint" | "strong" | "warning",
  ): string[] {
    const { paint } = this.terminal;
    // A name that leaves no room for its value stands above it.
    const isLong = widthOf(name) > widest;
    const above = isLong ? wrap(plain(name), this.columns, "  ", "    ") : [];
    const head = isLong ? " ".repeat(widest + 4) : `  ${padEnd(plain(name), widest)}  `;
    const lines = wrap(plain(text), this.columns, head, " ".repeat(widest + 4));
    const painted = lines.map((line, at) =>
      at === 0 ? `${head}${paint(tone, line.slice(head.length))}` : paint(tone, line),
    );
    painted.unshift(...above);
    if (from === "") return painted;
    const last = lines.at(-1) ?? "";
    if (widthOf(last) + 2 + widthOf(from) <= this.columns)
      return [...painted.slice(0, -1), `${painted.at(-1)}  ${paint("faint", plain(from))}`];
    return [...painted, paint("faint", `${" ".repeat(widest + 4)}${plain(from)}`)];
  }

  private said(text: string, tone: "information" | "faint" | "warning"): string[] {
    return wrap(plain(text), this.columns, "", this.indent).map((line) => this.terminal.paint(tone, line));
  }
}
