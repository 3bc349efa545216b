import { dayOf, spokenDay, weekdayName } from "../../book/dates.ts";
import { actsInShort } from "../../features/acts-in-short.ts";
import { namesInShort } from "../../features/names-in-short.ts";
import { Page } from "../page.ts";
import type { DayReport } from "../schema.ts";
import type { Terminal } from "../terminal.ts";
import { cut, padStart, plain, plural, widthOf, wrap } from "../text.ts";

/** A text beside others has at least so many columns, or stands below them. */
export const leastBeside = 16;

/** What the report of a day says of other days: of absences, and of what is good no longer. */
export class DaysPage extends Page {
  protected readonly report: DayReport;
  protected readonly today: number;

  constructor(report: DayReport, terminal: Terminal) {
    super(terminal);
    this.report = report;
    this.today = dayOf(report.today);
  }

  /** That nobody is here, and what goes on all the same. */
  protected away(): string[] {
    const { away } = this.report;
    if (away === null) return [];
    const why = away.why === "" ? "" : `: ${away.why}`;
    const until =
      away.until === this.report.today
        ? "Today is the last day away"
        : `Away until ${this.spoken(away.until)}`;
    return this.wrapped(`${until}${why}. ${coveredText(away.covered)}`).map((line) =>
      this.terminal.paint("strong", line),
    );
  }

  protected unseen(): string[] {
    const { unseen } = this.report;
    if (unseen.length === 0) return [];
    return [
      ...this.section("Not seen for long"),
      ...unseen.flatMap(({ at, text }) => this.wrapped(`${at}  ${text}`)),
    ];
  }

  protected expiring(): string[] {
    // What is due to be replaced for its age stands in the round.
    const told = this.report.expiring.filter(({ by, late }) => by !== "lasts" || late < 0);
    if (told.length === 0) return [];
    const lines = told.flatMap(({ name, sort, late, text }) => {
      const when =
        late > 0 ? `${plural(late, "day")} ago` : late === 0 ? "today" : `in ${plural(-late, "day")}`;
      const made = this.wrapped(`${name} (${sort})  ${text}, ${when}`);
      return late > 0 ? made.map((line) => this.terminal.paint("warning", line)) : made;
    });
    return [...this.section("To replace"), ...lines];
  }

  protected before(): string[] {
    return this.report.before.flatMap((each) => {
      const { from, until, why, covered, days, meanwhile, doses, steps, orders } = each;
      const comes = [...each.hatches, ...each.cultures, ...each.quarantines, ...each.results];
      const lines = [
        ...days.flatMap(({ day, work }) => this.dayLine(shortDay(dayOf(day)), plain(actsInShort(work)))),
        ...doses.flatMap(({ at, remedy, number, of, due }) =>
          this.wrapped(`${at}  dose ${number} of ${of} of ${remedy} is due on ${this.spoken(due)}`),
        ),
        ...steps.flatMap(({ at, act, due }) => this.wrapped(`${at}  ${act} is due by ${this.spoken(due)}`)),
        ...orders.flatMap(({ order, due }) => this.wrapped(`order ${order} is due on ${this.spoken(due)}`)),
        ...comes.flatMap(({ text }) => this.wrapped(text)),
        ...this.meanwhile(meanwhile),
      ];
      if (lines.length === 0) return [];
      const span = from === until ? this.spoken(from) : `${this.spoken(from)} to ${this.spoken(until)}`;
      const note = [span, why, covered.length === 0 ? "" : `${covered.join(", ")} by someone else`];
      return [...this.section("Before you go", note.filter((part) => part !== "").join(", ")), ...lines];
    });
  }

  private meanwhile(all: DayReport["before"][number]["meanwhile"]): string[] {
    if (all.length === 0) return [];
    const byAct = new Map<string, string[]>();
    for (const { at, act, days } of all) {
      const said = `${act} every ${plural(days, "day")}`;
      byAct.set(said, [...(byAct.get(said) ?? []), at]);
    }
    const told = [...byAct].map(([said, at]) => `${namesInShort([...new Set(at)])} ${said}`);
    return this.wrapped(`nobody does meanwhile, unless you ask someone (covered): ${told.join("; ")}`).map(
      (line) => this.terminal.paint("warning", line),
    );
  }

  /** What is due on one day, beside its date. */
  private dayLine(day: string, acts: string): string[] {
    const left = `${this.indent}${day}  `;
    if (this.columns - widthOf(left) < leastBeside) return this.wrapped(`${day} ${acts}`);
    const [first = "", ...rest] = this.hung(acts, widthOf(left));
    return [`${left}${first}`, ...rest];
  }

  /** A text beside something that takes some columns, in two lines at most. */
  protected hung(text: string, columns: number): string[] {
    const lead = " ".repeat(columns);
    const [first = "", ...rest] = wrap(text, this.columns, lead).map((line) => line.slice(columns));
    if (rest.length === 0) return [first];
    return [first, lead + cut(rest.join(" "), this.columns - columns, this.terminal.hasSigns ? "…" : "...")];
  }

  protected spoken(iso: string): string {
    return spokenDay(dayOf(iso), this.today);
  }
}

const coveredText = (covered: readonly string[]): string =>
  covered.length === 0
    ? "Nothing is due until the first day back, but what was late before."
    : `Someone else does ${covered.join(", ")}; all else is due on the first day back.`;

/** `Tue 31 Mar`. */
export function shortDay(day: number): string {
  const [date, month] = spokenDay(day).split(" ");
  return `${weekdayName(day).slice(0, 3)} ${padStart(date!, 2)} ${month!.slice(0, 3)}`;
}
