import { dayOf, spokenDay, weekdayName } from "../../book/dates.ts";
import { doseCaution } from "../../checks/doses.ts";
import { actsInShort } from "../../features/acts-in-short.ts";
import { litresText } from "../../features/litres-text.ts";
import { namesInShort } from "../../features/names-in-short.ts";
import { formatNumber } from "../../quantity/format.ts";
import { countsText } from "../check/print.ts";
import { gauge } from "../gauge.ts";
import type { DayReport } from "../schema.ts";
import type { Terminal, Tone } from "../terminal.ts";
import { padEnd, padStart, plain, plural, widthOf, wrap } from "../text.ts";
import { DaysPage, leastBeside, shortDay } from "./days-page.ts";
import { type MergedStop, mergeStops } from "./merge.ts";

const indent = "  ";

/** The report of a day, for people: what to do in the order of doing it, then what to know. */
export function dayText(report: DayReport, terminal: Terminal): string {
  const page = new DayPage(report, terminal);
  return `${page.lines().join("\n")}\n`;
}

class DayPage extends DaysPage {
  lines(): string[] {
    const { report } = this;
    const head = [...this.head(), ...this.glance()];
    if (report.tanks === 0 && report.entries === 0)
      return [
        ...head,
        "",
        ...this.wrapped(
          "No tank is defined yet; a logbook begins with one: tank dam, and below it its volume.",
        ),
      ];
    const sections = [
      this.away(),
      this.round(),
      this.doses(),
      this.water(),
      this.sick(),
      this.quarantine(),
      this.hatches(),
      this.orders(),
      this.unseen(),
      this.expiring(),
      this.before(),
      this.coming(),
      this.findings(),
    ];
    return [...head, ...sections.flatMap((section) => (section.length === 0 ? [] : ["", ...section]))];
  }

  private head(): string[] {
    const { title, folder } = this.report;
    return this.ends(
      plain(title === "" ? folder : title),
      `${weekdayName(this.today)} ${spokenDay(this.today)}`,
      "strong",
    );
  }

  private glance(): string[] {
    const { tanks, entriesToday, round } = this.report;
    const work = round.flatMap((stop) => stop.work);
    const late = work.filter((each) => each.late > 0).length;
    const parts: [Tone, string][] = [["faint", plural(tanks, "tank")]];
    parts.push([
      "faint",
      entriesToday === 0 ? "nothing written today" : `${plural(entriesToday, "entry", "entries")} today`,
    ]);
    if (late > 0) parts.push(["warning", `${late} late`]);
    if (work.length > late) parts.push(["strong", `${work.length - late} due today`]);
    const dot = this.terminal.hasSigns ? " · " : " | ";
    const text = parts.map(([, part]) => part).join(dot);
    if (widthOf(text) > this.columns) return this.wrapped(text, "");
    return [parts.map(([tone, part]) => this.terminal.paint(tone, part)).join(dot)];
  }

  private round(): string[] {
    const { round, prepare, capacity } = this.report;
    if (round.length === 0) return [...this.section("The round"), ...this.wrapped("Nothing is due.")];
    const tanks = round.filter(({ kind }) => kind === "tank").length;
    const aDay = (most: number | null): string => (most === null ? "" : ` (${formatNumber(most)} a day)`);
    const notes = [
      tanks === 0 ? "" : `${plural(tanks, "tank")}${aDay(capacity.tanks)}`,
      prepare === null ? "" : `${litresText(prepare)} of new water${aDay(capacity.litres)}`,
    ].filter((note) => note !== "");
    const isTooMuch =
      tanks > (capacity.tanks ?? Number.POSITIVE_INFINITY) ||
      (prepare?.low ?? 0) > (capacity.litres ?? Number.POSITIVE_INFINITY);
    const stops = mergeStops(round);
    const hasStages = new Set(stops.map(({ stage }) => stage)).size > 1;
    const rows = stops.map((stop, at) => [
      ...((hasStages || stop.before !== "") && stop.stage !== stops[at - 1]?.stage ? this.stage(stop) : []),
      ...this.stop(stop, stops),
    ]);
    return [...this.section("The round", notes.join(", "), isTooMuch ? "warning" : "faint"), ...rows.flat()];
  }

  /** The head of a stage: why its places are in it, and what to do before them. */
  private stage({ stage, before }: MergedStop): string[] {
    const title = stageTitles[stage];
    if (before === "") return this.faint(title);
    const reasons = new Map<string, string[]>();
    for (const { at, reason } of this.report.round.filter((each) => each.stage === stage))
      reasons.set(reason, [...(reasons.get(reason) ?? []), at]);
    const why = [...reasons].map(([reason, at]) => `${namesInShort(at)} ${reason}`);
    return [...this.faint(`${title}: ${before}`), ...why.flatMap((each) => this.faint(each))];
  }

  private stop(stop: MergedStop, all: readonly MergedStop[]): string[] {
    const { paint } = this.terminal;
    const work = all.flatMap((each) => each.work);
    const nameColumns = Math.min(16, Math.max(...all.map(({ names }) => widthOf(names))));
    const actColumns = Math.max(...work.map(({ act }) => widthOf(act)));
    const litresColumns = Math.max(...work.map(({ litres }) => widthOf(litresText(litres))));
    const textColumns = Math.max(...work.map(({ text }) => widthOf(text)));
    return stop.work.flatMap((each, at) => {
      const tone: Tone = each.late > 0 ? "warning" : "strong";
      const last = each.last === null ? "never done" : `done ${this.spoken(each.last)}`;
      const name = at === 0 ? plain(stop.names) : "";
      const left = `${indent}${padEnd(name, nameColumns)}  ${padEnd(plain(each.act), actColumns)}  ${padStart(litresText(each.litres), litresColumns)}`;
      const right = `  ${padStart(each.text, textColumns)}`;
      if (widthOf(name) <= nameColumns && widthOf(left + right) + 2 + widthOf(last) <= this.columns)
        return [`${left}${paint(tone, right)}  ${paint("faint", last)}`, ...this.note(each.note)];
      const text = [each.act, litresText(each.litres), each.text, last]
        .filter((part) => part !== "")
        .join(", ");
      return [
        ...wrap(plain(`${stop.names}: ${text}`), this.columns, indent, indent.repeat(2)),
        ...this.note(each.note),
      ];
    });
  }

  /** What there is to say of a duty beside when it is due. */
  private note(note: string): string[] {
    if (note === "") return [];
    const lines = wrap(plain(note), this.columns, indent.repeat(3));
    return lines.map((line) => this.terminal.paint("faint", line));
  }

  private doses(): string[] {
    const { doses, remedies, courseSteps } = this.report;
    if (doses.length + remedies.length + courseSteps.length === 0) return [];
    const there = remedies.filter((each) => !doses.some((dose) => isSame(dose, each)));
    const lines = [...doses, ...there].flatMap((each) => {
      const dose = doses.find((other) => isSame(other, each));
      const rest = remedies.find((other) => isSame(other, each));
      const parts = [
        rest === undefined
          ? ""
          : `${rest.now === null ? "what is in the water cannot be computed" : `${rest.text} in the water`}, last dose ${this.spoken(rest.last)}`,
        dose === undefined ? "" : `dose ${dose.text}`,
        rest === undefined || rest.withdrawalUntil === null
          ? ""
          : `not to be shipped before ${this.spoken(rest.withdrawalUntil)}, as you stated`,
      ].filter((part) => part !== "");
      const tone: Tone | undefined =
        dose === undefined || dose.late < 0 ? undefined : dose.late > 0 ? "warning" : "strong";
      const made = this.wrapped(`${each.at}  ${each.remedy} ${parts.join("; ")}`);
      return tone === undefined ? made : made.map((line) => this.terminal.paint(tone, line));
    });
    const steps = courseSteps.flatMap(({ at, act, reason, due, late }) => {
      const when = late > 0 ? `${plural(late, "day")} late` : late === 0 ? "today" : `by ${this.spoken(due)}`;
      const made = this.wrapped(`${at}  ${act}, ${reason}: ${when}`);
      return late < 0 ? made : made.map((line) => this.terminal.paint(late > 0 ? "warning" : "strong", line));
    });
    return [...this.section("Remedies"), ...lines, ...steps, ...this.faint(doseCaution)];
  }

  private water(): string[] {
    const { water } = this.report;
    if (water.length === 0)
      return [
        ...this.section("Water"),
        ...this.wrapped("No last reading is out of its limits, and none is heading there."),
      ];
    return [...this.section("Water"), ...water.flatMap((each) => this.reading(each))];
  }

  private reading(each: DayReport["water"][number]): string[] {
    const { paint, hasSigns } = this.terminal;
    const { at, parameter, reading, limit, level, crossing, regular, holding, changeBack } = each;
    const what = `${indent}${at}  ${parameter} ${reading}, limit ${limit.text}`;
    const tone: Tone = each.is === "heading" ? "warning" : "error";
    const gaugeColumns = 24;
    const line =
      widthOf(what) + 2 + gaugeColumns <= this.columns
        ? [
            `${paint("strong", what)}  ${paint(tone, gauge({ ...each, limits: limit }, gaugeColumns, hasSigns))}`,
          ]
        : wrap(what.trim(), this.columns, indent, indent.repeat(2)).map((part) => paint("strong", part));
    const told = [
      `read ${this.spoken(each.day)}`,
      level === "" ? "" : `now about ${level} by tests and changes`,
      each.is !== "heading" || crossing === null ? "" : `meets it ${crossing.text}`,
      regular === "" ? "" : `stated are ${regular}`,
      changeBack === "" ? "" : `${changeBack} would bring it back`,
      holding === "" ? "" : `${holding} would hold it`,
    ].filter((part) => part !== "");
    return [...line, ...wrap(told.join("; "), this.columns, indent.repeat(2))];
  }

  private orders(): string[] {
    const { orders } = this.report;
    if (orders.length === 0) return [];
    const lines = orders.flatMap(({ order, buyer, text, unfed, late }) => {
      const whom = buyer === "" ? order : `${order} (${buyer})`;
      const [first = "", ...rest] = this.wrapped(`${whom} ${text}`);
      return [
        late > 0 ? this.terminal.paint("warning", first) : first,
        ...rest,
        ...(unfed.length === 0
          ? []
          : this.faint(`  do not feed ${namesInShort(unfed)}: to be packed fasted`)),
      ];
    });
    return [...this.section("Orders to pack"), ...lines];
  }

  private quarantine(): string[] {
    const { quarantine } = this.report;
    if (quarantine.length === 0) return [];
    const lines = quarantine.flatMap(({ tanks, animals, dayText, text, putOff, isOver }) => {
      const last = putOff.at(-1);
      const parts = [
        dayText,
        text,
        animals.map(({ species, text: many }) => `${many} ${species}`).join(", "),
        last === undefined ? "" : `put off by ${last.text}`,
      ].filter((part) => part !== "");
      const told = this.wrapped(`${namesInShort(tanks)}  ${parts.join("; ")}`);
      return isOver ? told.map((line) => this.terminal.paint("strong", line)) : told;
    });
    return [...this.section("Quarantine"), ...lines];
  }

  private hatches(): string[] {
    const { hatches } = this.report;
    if (hatches.length === 0) return [];
    const lines = hatches.flatMap(({ brood, at, species, stage, is, text }) => {
      const what = brood.startsWith(`${species} in `) ? brood : `${brood} (${species}, ${at})`;
      const told = this.wrapped(`${what}: ${is} to ${stage}, ${text}`);
      return is === "late" ? told.map((line) => this.terminal.paint("warning", line)) : told;
    });
    return [...this.section("Broods"), ...lines];
  }

  private sick(): string[] {
    const { sick } = this.report;
    if (sick.length === 0) return [];
    const lines = sick.flatMap(({ case: name, at, since, species, affected, atRisk, signs, latest }) => {
      const count =
        affected === null
          ? ""
          : ` ${formatNumber(affected, 6)}${atRisk === null ? "" : ` of ${formatNumber(atRisk, 6)}`}`;
      const again = latest === null || latest === since ? "" : `, last seen ${this.spoken(latest)}`;
      const said = signs === "" ? "" : `: “${signs}”`;
      const where = at.length === 0 ? "" : ` in ${namesInShort(at)}`;
      return this.wrapped(
        `${name === "" ? "no case" : name}  ${species}${count}${where} since ${this.spoken(since)}${again}${said}`,
      );
    });
    return [...this.section("Sick"), ...lines];
  }

  private coming(): string[] {
    const { coming } = this.report;
    const days = coming.filter(({ work }) => work.length > 0);
    if (days.length === 0) return [];
    const rows = days.map(({ day, work, litres, capacity }) => ({
      day: shortDay(dayOf(day)),
      litres: litresText(litres),
      isTooMuch: (litres?.low ?? 0) > (capacity.litres ?? Number.POSITIVE_INFINITY),
      acts: plain(actsInShort(work)),
    }));
    const dayColumns = Math.max(...rows.map(({ day }) => day.length));
    const litresColumns = Math.max(...rows.map(({ litres }) => litres.length));
    const lines = rows.flatMap(({ day, litres, acts, isTooMuch }) => {
      const left = `${indent}${padEnd(day, dayColumns)}  `;
      const middle = litresColumns === 0 ? "" : `${padStart(litres, litresColumns)}  `;
      if (this.columns - widthOf(left + middle) < leastBeside)
        return this.wrapped([day, litres, acts].filter((part) => part !== "").join(" "));
      const [first = "", ...rest] = this.hung(acts, widthOf(left + middle));
      return [`${left}${this.terminal.paint(isTooMuch ? "warning" : "faint", middle)}${first}`, ...rest];
    });
    return [...this.section("Coming"), ...lines];
  }

  private findings(): string[] {
    const { findings, folder } = this.report;
    const found = countsText(findings, this.terminal);
    const command = `standpipe check ${/^[\w./-]+$/.test(folder) ? folder : "DIR"}`;
    const text = found === "" ? this.terminal.paint("good", "none") : found;
    return [
      ...this.section("Findings"),
      ...this.fitting(`${indent}${text}`),
      ...(found === "" ? [] : this.faint(command)),
    ];
  }
}

const isSame = (a: { at: string; remedy: string }, b: { at: string; remedy: string }): boolean =>
  a.at === b.at && a.remedy === b.remedy;

const stageTitles: Readonly<Record<DayReport["round"][number]["stage"], string>> = {
  fry: "fry first",
  healthy: "healthy",
  exposed: "exposed",
  quarantine: "quarantine",
  hospital: "hospital",
  sick: "sick last",
};
