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
  /** The first day something was logged of a station. */
  private readonly firsts = new Map<number, number>();

  constructor(stations: readonly Station[]) {
    for (const station of stations) {
      for (const duty of station.duties) {
        const known = this.byKind[duty.kind];
        if (known === undefined) this.byKind[duty.kind] = [duty];
        else known.push(duty);
        this.times.set(duty.id, new Series());
      }
    }
  }

  ofKind(kind: number): readonly Duty[] | undefined {
    return this.byKind[kind];
  }

  done(duty: Duty): Series {
    return this.times.get(duty.id)!;
  }

  seen(station: number, time: number): void {
    if (!this.firsts.has(station)) this.firsts.set(station, time);
  }

  first(station: number): number {
    return this.firsts.get(station) ?? Number.NaN;
  }

  mark(): {
    readonly lengths: readonly (readonly [number, number])[];
    readonly firsts: ReadonlyMap<number, number>;
  } {
    return {
      lengths: [...this.times].map(([id, series]) => [id, series.length] as const),
      firsts: new Map(this.firsts),
    };
  }

  reset(mark: ReturnType<DutyTimes["mark"]>): void {
    for (const [id, length] of mark.lengths) this.times.get(id)?.cut(length);
    this.firsts.clear();
    for (const [station, time] of mark.firsts) this.firsts.set(station, time);
  }
}
