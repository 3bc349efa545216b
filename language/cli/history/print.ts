import { spokenDay } from "../../book/dates.ts";
import type { Change } from "../../history/review/changes.ts";
import { changeText, marks } from "../../history/review/words.ts";
import { Page } from "../page.ts";
import type { Commit } from "../repository/parse.ts";
import type { Terminal, Tone } from "../terminal.ts";
import { plain, plural, wrap } from "../text.ts";
import type { Found } from "./walk.ts";

/** So many changes of one commit are listed. */
const listed = 12;

const paints: Readonly<Record<Change["is"], Tone>> = {
  added: "good",
  removed: "error",
  corrected: "warning",
  moved: "information",
};

/** @param near the year of which needs no saying */
export function historyText(
  title: string,
  found: readonly Found[],
  { all, isShallow, near }: { readonly all: boolean; readonly isShallow: boolean; readonly near: number },
  terminal: Terminal,
): string {
  const page = new HistoryPage(terminal);
  return `${page.lines(title, found, all, isShallow, near).join("\n")}\n`;
}

class HistoryPage extends Page {
  lines(title: string, found: readonly Found[], all: boolean, isShallow: boolean, near: number): string[] {
    const lines = wrap(plain(title), this.columns).map((line) => this.terminal.paint("strong", line));
    if (found.length === 0) lines.push(...this.wrapped("No commit changed it."));
    for (const each of found) lines.push(...this.found(each, all, near));
    if (isShallow)
      lines.push(
        ...this.faint("This clone holds only the last commits; git fetch --unshallow brings the rest."),
      );
    return lines;
  }

  private found({ commit, changes }: Found, all: boolean, near: number): string[] {
    const head =
      commit === undefined
        ? ["not committed yet"]
        : [`${spokenDay(commitDay(commit))}  ${commit.id.slice(0, 8)}  ${commit.subject}`];
    const shown = all ? changes : changes.slice(0, listed);
    const rest = changes.length - shown.length;
    return [
      ...head.flatMap((text) => this.faint(text)),
      ...shown.flatMap((change) => this.change(change, near)),
      ...(rest > 0 ? this.faint(`  and ${plural(rest, "more change")}: --all lists them`) : []),
    ];
  }

  private change(change: Change, near: number): string[] {
    const where = change.definition || change.station;
    const on = change.definition !== "" || Number.isNaN(change.day) ? "" : `${spokenDay(change.day, near)} `;
    const said = changeText(change, near);
    // The head of a definition says itself of what it is.
    const lead = where === "" || said === where || said.startsWith(`${where} `) ? "" : `${where} `;
    const text = `${marks[change.is]} ${on}${lead}${said}`;
    const first = this.indent.repeat(2);
    return wrap(plain(text), this.columns, first, `${first}    `).map((line) =>
      this.terminal.paint(paints[change.is], line),
    );
  }
}

/** The day on which a commit was written, where it was written. */
export const commitDay = ({ time, zone }: Commit): number => Math.floor((time + zone * 60) / 86_400);
