import { Kind } from "../book/entries/registry.ts";
import type { Duty, Station } from "../book/stations.ts";
import { Series } from "./series.ts";

/** The first day of a period of whole days that ends on a day. */
export function periodStart(periodDays: number, time: number): number {
  return Math.floor(time) - Math.round(periodDays) + 1;
}

/** When each duty of some stations was done. */
export class DutyTimes {
  /** By the number of the entry kind: the duties that an entry of that kind may fulfil. */
  private readonly byKind: (Duty[] | undefined)[] = [];
  private readonly times = new Map<number, Series>();
  /** Entries that did less than a duty asks for; the tag is the part that was done. Made where there are any. */
  private readonly parts = new Map<number, Series>();
  /** Entries that took back what was done. */
  private readonly undoings = new Map<number, Series>();
  /** By the number of the station: when a gear was replaced, whether a duty asks for that or not. */
  private readonly replacements = new Map<number, Series>();
  /** The first day something was logged of a station. */
  private readonly firsts = new Map<number, number>();
  private readonly all: Series[];

  /** @param all where its series are listed too, for who marks and resets them */
  constructor(stations: readonly Station[], all: Series[]) {
    this.all = all;
    for (const station of stations) {
      for (const duty of station.duties) {
        this.list(duty.kind, duty);
        if (duty.looks !== undefined) this.list(duty.kind === Kind.check ? Kind.service : Kind.check, duty);
        this.madeIn(this.times, duty.id);
      }
    }
  }

  private list(kind: number, duty: Duty): void {
    const known = this.byKind[kind];
    if (known === undefined) this.byKind[kind] = [duty];
    else known.push(duty);
  }

  ofKind(kind: number): readonly Duty[] | undefined {
    return this.byKind[kind];
  }

  done(duty: Duty): Series {
    return this.times.get(duty.id)!;
  }

  /** Where something did less than the duty asks for; undefined where nothing ever did. */
  less(duty: Duty): Series | undefined {
    return this.parts.get(duty.id);
  }

  undone(duty: Duty): Series | undefined {
    return this.undoings.get(duty.id);
  }

  lessToAdd(duty: Duty): Series {
    return this.madeIn(this.parts, duty.id);
  }

  undoneToAdd(duty: Duty): Series {
    return this.madeIn(this.undoings, duty.id);
  }

  replacedToAdd(gear: Station): Series {
    return this.madeIn(this.replacements, gear.id);
  }

  /** The day on which a gear was replaced last, up to the end of a day; NaN if it never was. */
  lastReplaced(gear: Station, day: number): number {
    const series = this.replacements.get(gear.id);
    const at = series === undefined ? -1 : series.from(day + 1) - 1;
    return series === undefined || at < 0 ? Number.NaN : Math.floor(series.time[at]!);
  }

  seen(station: number, time: number): void {
    if (!this.firsts.has(station)) this.firsts.set(station, time);
  }

  first(station: number): number {
    return this.firsts.get(station) ?? Number.NaN;
  }

  /** Whether the first days are those they were. What was done is in the series. */
  isAs(mark: ReturnType<DutyTimes["mark"]>): boolean {
    if (mark.size !== this.firsts.size) return false;
    for (const [station, time] of mark) if (this.firsts.get(station) !== time) return false;
    return true;
  }

  /** What is counted while the log is read, and over how many days. */
  *periods(): Iterable<{ readonly done: Series; readonly days: number }> {
    for (const duties of this.byKind)
      for (const duty of duties ?? [])
        if (duty.form.when === "at most")
          yield { done: this.done(duty), days: Math.round(duty.form.periodDays) };
  }

  mark(): ReadonlyMap<number, number> {
    return new Map(this.firsts);
  }

  reset(mark: ReturnType<DutyTimes["mark"]>): void {
    this.firsts.clear();
    for (const [station, time] of mark) this.firsts.set(station, time);
  }

  private madeIn(all: Map<number, Series>, id: number): Series {
    const known = all.get(id);
    if (known !== undefined) return known;
    const made = new Series();
    all.set(id, made);
    this.all.push(made);
    return made;
  }
}
