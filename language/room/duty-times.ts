import { Kind } from "../book/entries/registry.ts";
import type { Duty, Station } from "../book/stations.ts";
import { Series } from "./series.ts";

/** The first day of a period of whole days that ends on a day. */
export function periodStart(periodDays: number, time: number): number {
  return Math.floor(time) - Math.round(periodDays) + 1;
}

/** Lengths of series by the number of their duty, or station. */
type Lengths = readonly (readonly [number, number])[];

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

  constructor(stations: readonly Station[]) {
    for (const station of stations) {
      for (const duty of station.duties) {
        this.list(duty.kind, duty);
        if (duty.looks !== undefined) this.list(duty.kind === Kind.check ? Kind.service : Kind.check, duty);
        this.times.set(duty.id, new Series());
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
    return madeIn(this.parts, duty.id);
  }

  undoneToAdd(duty: Duty): Series {
    return madeIn(this.undoings, duty.id);
  }

  replacedToAdd(gear: Station): Series {
    return madeIn(this.replacements, gear.id);
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

  mark(): {
    readonly lengths: Lengths;
    readonly parts: Lengths;
    readonly undoings: Lengths;
    readonly replacements: Lengths;
    readonly firsts: ReadonlyMap<number, number>;
  } {
    return {
      lengths: lengthsOf(this.times),
      parts: lengthsOf(this.parts),
      undoings: lengthsOf(this.undoings),
      replacements: lengthsOf(this.replacements),
      firsts: new Map(this.firsts),
    };
  }

  reset(mark: ReturnType<DutyTimes["mark"]>): void {
    cutTo(this.times, mark.lengths);
    cutTo(this.parts, mark.parts);
    cutTo(this.undoings, mark.undoings);
    cutTo(this.replacements, mark.replacements);
    this.firsts.clear();
    for (const [station, time] of mark.firsts) this.firsts.set(station, time);
  }
}

function madeIn(all: Map<number, Series>, id: number): Series {
  const known = all.get(id);
  if (known !== undefined) return known;
  const made = new Series();
  all.set(id, made);
  return made;
}

const lengthsOf = (all: ReadonlyMap<number, Series>): Lengths =>
  [...all].map(([id, series]) => [id, series.length] as const);

/** What was not there yet is empty again. */
function cutTo(all: ReadonlyMap<number, Series>, lengths: Lengths): void {
  const known = new Map(lengths);
  for (const [id, series] of all) series.cut(known.get(id) ?? 0);
}
