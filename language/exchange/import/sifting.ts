import { figureText } from "./figure.ts";
import type { KnownLog } from "./known-log.ts";
import type { Mapping } from "./mapping.ts";
import type { Other, Reading } from "./read-row.ts";
import { Refused } from "./refused.ts";

/**
 * Which readings of a table a log needs: of a dense series the first of each so many hours, and of a day the lowest and highest beyond a limit of the
 * tank. Readings are given row by row; what is kept is bounded by what is needed.
 */

export interface Kept {
  readonly entry: Reading | Other;
  readonly row: number;
}

/** More readings than this are no logbook. */
export const mostKept = 400_000;

export class Sifting {
  private readonly thin: Mapping["thin"];
  private readonly log: KnownLog;
  private readonly most: number;
  private changes = 0;
  private readonly kept = new Map<string, Kept>();
  /** By tank and parameter the latest reading: a second at one time is seen without keeping all. */
  private readonly last = new Map<string, Reading>();
  private readonly newest = new Map<string, Reading>();
  private readonly limits = new Map<string, { readonly low: number; readonly high: number }>();

  constructor(thin: Mapping["thin"], log: KnownLog, most = mostKept) {
    this.thin = thin;
    this.log = log;
    this.most = most;
  }

  /** What speaks against a row: another figure at the same time. Of the same figures twice the words are empty. */
  double(entries: readonly (Reading | Other)[]): string | undefined {
    let twice = 0;
    let repeatable = 0;
    for (const [at, entry] of entries.entries()) {
      if (entry.is === "other") {
        const before = this.kept.get(placeOf(entry, -1))?.entry;
        if (isRepeatable(entry)) repeatable++;
        else if (before?.is === "other" && before.words !== entry.words)
          return `a second ${entry.means.kind} of ${entry.tank} at one time: “${before.words}” before, “${entry.words}” here`;
        else if (before !== undefined) twice++;
        continue;
      }
      const before =
        this.before(entry) ??
        entries.slice(0, at).find((each): each is Reading => each.is === "test" && isAtOnce(each, entry));
      if (before === undefined) continue;
      if (figureText(before) !== figureText(entry) || before.unit !== entry.unit)
        return `a second reading of ${entry.parameter.name} of ${entry.tank} at one time: ${figureText(before)} before, ${figureText(entry)} here`;
      twice++;
    }
    // Where all else of a row was there before, what may be done twice a day was not done twice.
    return twice > 0 && twice + repeatable === entries.length ? "" : undefined;
  }

  private before(entry: Reading): Reading | undefined {
    const series = seriesOf(entry);
    const newest = this.newest.get(series);
    // Of a series in order nothing can have been at the same time.
    if (newest === undefined || isLater(entry, newest)) return undefined;
    const latest = this.last.get(series);
    if (latest !== undefined && isAtOnce(latest, entry)) return latest;
    for (const place of [`${seriesOf(entry)} ${entry.day} ${entry.minute}`, this.windowOf(entry)]) {
      const kept = this.kept.get(place)?.entry;
      if (kept?.is === "test" && isAtOnce(kept, entry)) return kept;
    }
    return undefined;
  }

  /** Returns whether any of them is kept for now. */
  add(entries: readonly (Reading | Other)[], row: number): boolean {
    const before = this.changes;
    for (const entry of entries) {
      const kept = { entry, row };
      if (entry.is === "other") {
        this.keep(placeOf(entry, row), kept);
        continue;
      }
      const series = seriesOf(entry);
      this.last.set(series, entry);
      const newest = this.newest.get(series);
      if (newest === undefined || !isLater(newest, entry)) this.newest.set(series, entry);
      const place = this.windowOf(entry);
      const first = this.kept.get(place);
      if (first === undefined || isEarlier(entry, first.entry)) this.keep(place, kept);
      if (this.thin !== "none" && this.thin.crossings) this.crossing(entry, kept);
    }
    return this.changes > before;
  }

  /** What is kept, each once, in order of rows. */
  all(): Kept[] {
    const once = new Map<Reading | Other, Kept>();
    for (const kept of this.kept.values()) once.set(kept.entry, kept);
    const byMinute = new Map<string, Kept>();
    const all: Kept[] = [];
    for (const kept of [...once.values()].sort((a, b) => a.row - b.row)) {
      const { entry } = kept;
      // Two of one minute, as the lowest and the first of its hours, would be two readings at one time.
      const key = entry.is === "test" ? `${seriesOf(entry)} ${entry.day} ${entry.minute}` : "";
      if (key !== "" && byMinute.has(key)) continue;
      if (key !== "") byMinute.set(key, kept);
      all.push(kept);
    }
    return all;
  }

  private windowOf(entry: Reading): string {
    const { thin } = this;
    const at =
      thin === "none" || Number.isNaN(entry.minute)
        ? entry.minute
        : `h${Math.floor(entry.minute / 60 / thin.hours)}`;
    return `${seriesOf(entry)} ${entry.day} ${at}`;
  }

  private crossing(entry: Reading, kept: Kept): void {
    const series = seriesOf(entry);
    let bounds = this.limits.get(series);
    if (bounds === undefined) {
      const limit = this.log.limitOf(entry.tank, entry.parameter);
      bounds = { low: limit?.low ?? Number.NEGATIVE_INFINITY, high: limit?.high ?? Number.POSITIVE_INFINITY };
      this.limits.set(series, bounds);
    }
    const value = this.log.canonical(entry);
    const furthest = (side: string, isFurther: (than: number) => boolean): void => {
      const place = `${series} ${entry.day} ${side}`;
      const before = this.kept.get(place)?.entry;
      if (before === undefined || (before.is === "test" && isFurther(this.log.canonical(before))))
        this.keep(place, kept);
    };
    if (value < bounds.low) furthest("low", (than) => value < than);
    if (value > bounds.high) furthest("high", (than) => value > than);
  }

  private keep(place: string, kept: Kept): void {
    this.changes++;
    this.kept.set(place, kept);
    if (this.kept.size > this.most) this.refuseSoMany();
  }

  private refuseSoMany(): never {
    const most = this.most.toLocaleString("en");
    const others = [...this.kept.values()].filter(({ entry }) => entry.is === "other").length;
    // Only readings are thinned.
    if (others > this.most / 2)
      throw new Refused(
        `more than ${most} entries are left, most of them no readings: more than a log should hold; leave a column of notes, feeds or counts out (parameter:HEAD=ignore)`,
      );
    throw new Refused(
      `more than ${most} readings are left: more than a log should hold; thin them (thin=12h)`,
    );
  }
}

/** Feeds and losses of a day without a time are as many as there are rows. */
const isRepeatable = ({ minute, means: { kind } }: Other): boolean =>
  Number.isNaN(minute) && (kind === "feed" || kind === "lose");

/** Where an entry is kept: of a count and a change there is one at a time. */
function placeOf(entry: Other, row: number): string {
  const { tank, day, minute, words, means } = entry;
  const isOne = means.kind === "count" || means.kind === "change";
  const what = isOne ? `${means.kind} ${means.subject}` : words;
  return `other ${tank} ${day} ${minute} ${what}${isRepeatable(entry) ? ` ${row}` : ""}`;
}

const seriesOf = ({ tank, parameter }: Reading): string => `${tank} ${parameter.id}`;

const isAtOnce = (a: Reading, b: Reading): boolean =>
  a.day === b.day && Object.is(a.minute, b.minute) && a.second === b.second && seriesOf(a) === seriesOf(b);

/** Of a day without a time is before all times of that day. */
function isLater(a: Reading, b: Reading): boolean {
  if (a.day !== b.day) return a.day > b.day;
  const [ofA, ofB] = [a, b].map(({ minute }) => (Number.isNaN(minute) ? -1 : minute)) as [number, number];
  return ofA === ofB ? a.second > b.second : ofA > ofB;
}

const isEarlier = (a: Reading, b: Reading | Other): boolean =>
  a.minute < b.minute || (a.minute === b.minute && a.second < b.second);
