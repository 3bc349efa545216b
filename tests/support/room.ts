import { dayOf } from "../../language/book/dates.ts";
import { nameOf } from "../../language/book/interner.ts";
import { parameterOf } from "../../language/book/parameters.ts";
import type { Tank } from "../../language/book/stations.ts";
import type { CheckedLogbook } from "../../language/checks/check.ts";
import { type DueDuty, dutyOn } from "../../language/room/due.ts";
import type { Ledger } from "../../language/room/ledger.ts";
import { type WaterTrend, waterTrend } from "../../language/room/water.ts";
import { lastDay, logbookOf } from "./marked.ts";

/** A log in, figures out. Days are `2026-03-01`, times may follow: `2026-03-01 08:40`. */
export class Room {
  readonly checked: CheckedLogbook;
  readonly today: number;

  constructor(log: string, today?: string) {
    this.checked = logbookOf(log);
    this.today = today === undefined ? lastDay(this.checked) : dayOf(today);
  }

  tank(name: string): Tank {
    const tank = this.checked.book.tank(name);
    if (tank === undefined) throw new Error(`the log has no tank ${name}`);
    return tank;
  }

  ledger(name: string): Ledger {
    const station = this.checked.book.stations.find((each) => each.name === name);
    if (station === undefined) throw new Error(`the log has no ${name}`);
    return this.checked.logbook.ledgerOf(station);
  }

  /** What of a remedy is in the water of a tank, in its own unit. */
  remedy(tank: string, remedy: string, at?: string): number {
    const found = this.checked.book.remedy(remedy)!;
    return (
      this.ledger(tank).solutes!.at(found, at === undefined ? this.today : timeOf(at))?.concentration ?? 0
    );
  }

  /** Animals by the book: the number, `~12`, or `?` where nothing is known. */
  animals(tank: string, species: string): string {
    const { id } = this.tank(tank);
    const holding = this.ledger(tank).stock.known(id, nameOf(species));
    if (holding === undefined || Number.isNaN(holding.animals)) return "?";
    return `${holding.isAbout ? "~" : ""}${holding.animals}`;
  }

  /** Readings in the canonical unit, in order of time: `18`, `0..5`. */
  readings(tank: string, parameter: string): string[] {
    const series = this.ledger(tank).readings[parameterOf(parameter).id];
    const figure = (value: number): string => String(Number(value.toPrecision(12)));
    return Array.from({ length: series?.length ?? 0 }, (_, at) => {
      const [low, high] = [series!.first[at]!, series!.second[at]!];
      return low === high ? figure(low) : `${figure(low)}..${figure(high)}`;
    });
  }

  /** Fractions of new water, in order of time. */
  changes(tank: string): number[] {
    const { exchanges } = this.ledger(tank);
    return Array.from({ length: exchanges.length }, (_, at) => exchanges.first[at]!);
  }

  limit(tank: string, parameter: string): string {
    const limit = this.tank(tank).limits.get(parameterOf(parameter).id);
    return limit === undefined ? "none" : `${limit.low}..${limit.high} by ${limit.by}`;
  }

  duty(station: string, act: string, on?: string): DueDuty {
    const duty = this.checked.book.duties.find(
      (each) => each.station.name === station && each.act.startsWith(act),
    );
    if (duty === undefined) throw new Error(`${station} has no duty ${act}`);
    return dutyOn(
      this.checked.logbook.ledgerOf(duty.station),
      duty,
      on === undefined ? this.today : dayOf(on),
    );
  }

  trend(tank: string, parameter: string): WaterTrend {
    const trend = waterTrend(this.ledger(tank), parameterOf(parameter), this.tank(tank), this.today);
    if (trend === undefined) throw new Error(`${parameter} of ${tank} has no trend`);
    return trend;
  }

  /** Findings of today as `code: message`, the given codes only. */
  findings(...codes: string[]): string[] {
    return this.checked
      .findings(this.today)
      .filter(({ code }) => codes.length === 0 || codes.some((each) => code.startsWith(each)))
      .map(({ code, message }) => `${code}: ${message}`);
  }
}

/** A time in days of `2026-03-01` or `2026-03-01 08:40`. */
export function timeOf(text: string): number {
  const [date, clock] = text.split(" ");
  const [hours, minutes] = (clock ?? "00:00").split(":").map(Number);
  return dayOf(date!) + (hours! * 60 + minutes!) / 1440;
}
