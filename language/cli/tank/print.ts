import { spokenDay } from "../../book/dates.ts";
import { doseCaution } from "../../checks/doses.ts";
import { bathLine } from "../../features/bath-words.ts";
import type { SpanCard, TankCard, WaterCard } from "../../features/cards.ts";
import { courseLines } from "../../features/course-words.ts";
import { lightChangeLines } from "../../features/light-words.ts";
import { namesInShort } from "../../features/names-in-short.ts";
import { gauge } from "../gauge.ts";
import { Page } from "../page.ts";
import type { Terminal, Tone } from "../terminal.ts";
import { padEnd, plain, widthOf } from "../text.ts";
import { chartOf, isDrawn } from "./chart.ts";

/** The card of a tank, for people. */
export function tankText(card: TankCard, terminal: Terminal): string {
  return `${new TankPage(card, terminal).lines().join("\n")}\n`;
}

class TankPage extends Page {
  private readonly card: TankCard;

  constructor(card: TankCard, terminal: Terminal) {
    super(terminal);
    this.card = card;
  }

  lines(): string[] {
    const sections = [
      this.cases(),
      this.duties(),
      this.water(),
      this.remedies(),
      this.light(),
      this.residents(),
      this.quarantine(),
      this.findings(),
    ];
    return [...this.head(), ...sections.flatMap((section) => (section.length === 0 ? [] : ["", ...section]))];
  }

  private head(): string[] {
    const { name, title, role, place, volumeText, system, note, day } = this.card;
    const shared =
      system === null
        ? ""
        : system.name === name
          ? `water of ${namesInShort(system.tanks)}`
          : `on ${system.name} with ${system.tanks.length - 1} others`;
    const parts = [role, place, volumeText, shared];
    return [
      ...this.ends(plain([name, title].filter(Boolean).join("  ")), spokenDay(day), "strong"),
      ...this.wrapped(parts.filter(Boolean).join(this.terminal.hasSigns ? " · " : " | "), ""),
      ...(note === "" ? [] : this.wrapped(`“${note}”`, "").map((line) => this.terminal.paint("faint", line))),
    ];
  }

  private cases(): string[] {
    const { cases, name, day } = this.card;
    if (cases.length === 0) return [];
    return [
      ...this.section("Open cases", ""),
      ...cases.flatMap((each) => {
        const isHere = each.tanks.some((tank) => tank.name === name);
        const where = isHere ? "" : `in ${each.tanks.map((tank) => tank.name).join(", ")}, of this water; `;
        return this.wrapped(`${each.name}: ${where}since ${spokenDay(each.since, day)}; ${each.text}`);
      }),
    ];
  }

  private duties(): string[] {
    const owed = this.card.duties.filter(({ form }) => form !== "at most");
    if (owed.length === 0) return [];
    const { paint } = this.terminal;
    const acts = owed.map(({ act, of }) => plain(of === this.card.name ? act : `${act} (${of})`));
    const actColumns = Math.max(...acts.map(widthOf));
    const textColumns = Math.max(...owed.map(({ text }) => widthOf(text)));
    const lines = owed.flatMap(({ text, when, late, last }, at) => {
      const tone: Tone = (late ?? -1) > 0 ? "warning" : late === 0 ? "strong" : "faint";
      const done = last === null ? "never done" : `done ${spokenDay(last, this.card.day)}`;
      const row = `  ${padEnd(acts[at]!, actColumns)}  ${padEnd(text, textColumns)}`;
      const more = `  ${when}, ${done}`;
      if (widthOf(row + more) <= this.columns) return [`${paint(tone, row)}${paint("faint", more)}`];
      return this.wrapped(`${acts[at]}: ${text}; ${when}, ${done}`).map((line) => paint(tone, line));
    });
    return [...this.section("Duties"), ...lines];
  }

  private water(): string[] {
    if (this.card.water.length === 0) return [];
    return [
      ...this.section("Water"),
      ...this.card.water.flatMap((each) => this.parameter(each)),
      ...this.rounds(),
    ];
  }

  private rounds(): string[] {
    return this.card.rounds.flatMap(({ what, text, beside, time }) => {
      const on = spokenDay(time, this.card.day);
      return this.wrapped(`${what}  ${text}, by the round of ${on}${beside === "" ? "" : `; ${beside}`}`);
    });
  }

  private parameter(water: WaterCard): string[] {
    const { paint, hasSigns } = this.terminal;
    const { day } = this.card;
    const { parameter, limit, readings, level, production, crossing, regular, holdingText, changeBackText } =
      water;
    const last = readings.at(-1);
    const is = last === undefined ? "not tested" : `${last.text} on ${spokenDay(last.time, day)}`;
    const what = `${parameter}  ${is}${limit === null ? "" : `, limit ${limit.text}`}`;
    const tone: Tone = last?.isOutside === true ? "error" : "strong";
    const gaugeColumns = 16;
    const isGauged = limit !== null && last !== undefined && widthOf(what) + gaugeColumns + 4 <= this.columns;
    const line = isGauged
      ? [
          `  ${paint(tone, what)}  ${gauge({ low: last.low, high: last.high, limits: limit }, gaugeColumns, hasSigns)}`,
        ]
      : this.wrapped(what).map((each) => paint(tone, each));
    const told = [
      level === null ? "" : `now ${level.text} by tests and changes`,
      isTold(production) ? `production ${production.text} a day` : "",
      limit === null || crossing === null ? "" : `the limit is met ${crossing.text}`,
      regular === null
        ? ""
        : `changed ${regular.text}${regular.steadyText === "" ? "" : `, which in the end holds ${regular.steadyText}`}`,
      changeBackText === "" ? "" : `${changeBackText} would bring it back`,
      holdingText === "" || crossing === null ? "" : `${holdingText} would hold it`,
    ].filter(Boolean);
    const chart = isDrawn(water, day)
      ? chartOf(water, { day, columns: Math.min(this.columns - 4, 72), hasSigns }).map(
          (each) => `    ${this.painted(each)}`,
        )
      : [];
    return [...line, ...(told.length === 0 ? [] : this.wrapped(told.join("; "), "    ")), ...chart];
  }

  /** A line of a chart: readings strong, limits in the colour of warnings. */
  private painted(line: string): string {
    const { paint, hasSigns } = this.terminal;
    if (!hasSigns) return line;
    return line
      .split(/([●▽△]+|╌+|[\u2801-\u28ff]+)/)
      .map((part) => {
        if (/^[●▽△]/.test(part)) return paint("strong", part);
        if (part.startsWith("╌")) return paint("warning", part);
        return /^[\u2800-\u28ff]/.test(part) ? paint("information", part) : paint("faint", part);
      })
      .join("");
  }

  private remedies(): string[] {
    const { remedies, baths, day } = this.card;
    if (remedies.length === 0 && baths.length === 0) return [];
    const lines = remedies.flatMap(({ name, nowText, target, ceilingText, next, doses, plan }) => {
      const last = doses.at(-1);
      const stated = [
        target === null ? "" : `target ${target.text}`,
        ceilingText === "" ? "" : `ceiling ${ceilingText}`,
      ];
      const parts = [
        nowText === "" ? "cannot be computed" : `${nowText} in the water`,
        ...stated,
        last === undefined ? "" : `last dose ${spokenDay(last.time, this.card.day)}`,
        next === null ? "" : `next: ${next.text}`,
      ].filter(Boolean);
      return [
        ...this.wrapped(`${name}  ${parts.join("; ")}`),
        ...(plan === null ? [] : courseLines(plan, day).flatMap((line) => this.faint(line))),
      ];
    });
    const dips = baths.flatMap((bath) => this.wrapped(bathLine(bath, day)));
    return [...this.section("Remedies"), ...lines, ...dips, ...this.faint(doseCaution)];
  }

  private light(): string[] {
    const { light, day } = this.card;
    if (light === null) return [];
    const { text, since, algae, trims, changes } = light;
    const on = (time: number): string => spokenDay(Math.floor(time), day);
    const last = trims.at(-1);
    const told = changes.slice(0, 2);
    const older = changes.length - told.length;
    const remark = told.find((change) => change.remark !== "")?.remark ?? "";
    return [
      ...this.section(
        "Light, algae, plants",
        since === null ? "" : [text, `since ${spokenDay(since, day)}`].join(" "),
      ),
      ...algae.flatMap(({ title, ratings }) =>
        this.wrapped(
          `${title}  ${ratings
            .slice(-6)
            .map((rating) => `${rating.text} on ${on(rating.time)}`)
            .join(", ")}`,
        ),
      ),
      ...(last === undefined
        ? []
        : this.wrapped(
            `trimmed  ${on(last.time)}: ${last.text}${last.growthText === "" ? "" : `; ${last.growthText} since the trimming before`}`,
          )),
      ...told.flatMap((change) =>
        lightChangeLines(change, day).flatMap((line, at) =>
          this.wrapped(line, at === 0 ? this.indent : "    "),
        ),
      ),
      ...(older > 0 ? this.wrapped(`and ${older} more before, see --json`) : []),
      ...(remark === "" ? [] : this.faint(remark)),
    ];
  }

  private quarantine(): string[] {
    const { quarantine, day } = this.card;
    if (quarantine === null) return [];
    const { text, dayText, putOff, arrivals } = quarantine;
    return [
      ...this.section("Quarantine", dayText),
      ...this.wrapped(text),
      ...putOff.flatMap((each) => this.wrapped(`${each.text}: put off to ${spokenDay(each.to, day)}`)),
      ...arrivals.flatMap((each) =>
        this.wrapped(`${each.text}: own clock until ${spokenDay(each.end, day)}`),
      ),
    ];
  }

  private residents(): string[] {
    const { residents, day } = this.card;
    if (residents.length === 0) return [];
    const lines = residents.flatMap(({ species, title, text, counted }) => {
      const when = counted === null ? "never counted" : `counted ${spokenDay(counted, day)}`;
      return this.wrapped(`${text} ${species}${title === "" ? "" : ` (${title})`}, ${when}`);
    });
    return [...this.section("Animals, by the book"), ...lines];
  }

  private findings(): string[] {
    const { findings } = this.card;
    const shown = findings.filter(({ severity }) => severity !== "hint");
    if (shown.length === 0) return [];
    const lines = shown.flatMap(({ severity, message, day }) => {
      const when = day === null ? "" : `${spokenDay(day, this.card.day)}: `;
      const [first = "", ...rest] = this.wrapped(`${severity}  ${when}${message}`);
      return [first.replace(severity, this.terminal.paint(severity, severity)), ...rest];
    });
    return [...this.section("Findings"), ...lines];
  }
}

/** A production that may as well be none is no news. */
function isTold(production: WaterCard["production"]): production is SpanCard {
  if (production === null) return false;
  return production.low === null || production.high === null || production.low > 0 || production.high < 0;
}
