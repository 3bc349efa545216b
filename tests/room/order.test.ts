import { describe, expect, it } from "vitest";
import { clockOf } from "../../language/book/dates.ts";
import { Room } from "../support/room.ts";

/** In what order things count, and which day is today. */

const definitions = "remedy r\ntank dam\n  volume 100 L\n";
/** What happened to the water of the dam, in order. */
function happened(log: string): string {
  const { exchanges, doses } = new Room(log).ledger("dam");
  const told = [exchanges, doses].flatMap((series) =>
    Array.from({ length: series.length }, (_, at) => ({
      time: series.time[at]! + series.order[at]! * 1e-8,
      text: `${clockOf(series.time[at]!)} ${series === doses ? "dose" : series.second[at]}`,
    })),
  );
  return told
    .sort((a, b) => a.time - b.time)
    .map(({ text }) => text)
    .join(", ");
}

describe("the order of entries", () => {
  it("is that of their times; without one an entry counts with the one above it", () => {
    const log = `${definitions}2026-03-01
  dam change 1 L
  09:30 dam change 2 L
  dam change 3 L
  08:00 dam change 4 L
  dam change 5 L`;
    expect(happened(log)).toBe("00:00 1, 08:00 4, 08:00 5, 09:30 2, 09:30 3");
  });

  it("at one time is that of the lines, of files by their names", () => {
    const log = `--- b.tank ---
2026-03-01
  08:00 dam change 3 L
  dam change 4 L
--- a.tank ---
${definitions}2026-03-01
  08:00 dam change 1 L
  dam change 2 L
2026-03-01 "again"
  dam dose r 5 mg`;
    expect(happened(log)).toBe("00:00 dose, 08:00 1, 08:00 2, 08:00 3, 08:00 4");
  });

  it("of days is that of their dates, wherever they stand", () => {
    const log = `2026-03-02\n  dam change 50 %\n${definitions}2026-03-01\n  dam dose r 200 mg\n`;
    expect(new Room(log).remedy("dam", "r")).toBe(1);
  });

  it("a change before a dose leaves it, a change after thins it, by lines and by times", () => {
    const left = (entries: string): number =>
      new Room(`${definitions}2026-03-01\n${entries}`).remedy("dam", "r", "2026-03-02");
    expect(left("  dam change 50 %\n  dam dose r 200 mg")).toBe(2);
    expect(left("  dam dose r 200 mg\n  dam change 50 %")).toBe(1);
    expect(left("  09:00 dam dose r 200 mg\n  08:00 dam change 50 %")).toBe(2);
  });

  it("makes a test before a change another than one after it", () => {
    const rate = (lines: (level: number) => string[]): number => {
      let level = 10;
      const days = Array.from({ length: 6 }, (_, week) => {
        const text = `2026-0${week < 4 ? 3 : 4}-${String((week % 4) * 7 + 1).padStart(2, "0")}\n${lines(level).join("\n")}`;
        level = level / 2 + 7;
        return text;
      });
      const { production } = new Room(`tank dam\n  volume 100 L\n${days.slice(0, 4).join("\n")}`).trend(
        "dam",
        "nitrate",
      );
      return "rateMgLDay" in production ? production.rateMgLDay : Number.NaN;
    };
    // A rise of 7 a week, halved each week; read before the change, or after it.
    expect(rate((level) => [`  dam test nitrate ${level}`, "  dam change 50 %"])).toBeCloseTo(1, 6);
    expect(rate((level) => ["  dam change 50 %", `  dam test nitrate ${level / 2}`])).toBeCloseTo(1, 6);
  });
});

describe("today", () => {
  const log = 'tank dam\n  volume 9 L\n2026-03-01\n  dam note "x"\n2026-03-05\n  dam note "y"\n';
  const today = (head: string): number => {
    const { logbook } = new Room(head + log).checked;
    return logbook.today(30_000) - 20_513;
  };

  it("is that of the world, or the last day of a log that is finished, or a day that is stated", () => {
    expect(today("")).toBe(30_000 - 20_513);
    expect(today('room "C"\n  as-of last-entry\n')).toBe(4);
    expect(today('room "C"\n  as-of 2026-03-03\n')).toBe(2);
  });
});

describe("units of a room", () => {
  const read = (units: string, entry: string, parameter: string): string =>
    new Room(`room "C"\n  units ${units}\ntank dam\n  volume 9 L\n2026-03-01\n  dam test ${entry}`).readings(
      "dam",
      parameter,
    )[0]!;

  it("are what a number without one means", () => {
    expect(read("temperature F", "temperature 77", "temperature")).toBe("25");
    expect(Number(read("nitrate mg/L N", "nitrate 10", "nitrate"))).toBeCloseTo(44.27, 2);
    expect(Number(read("conductivity mS/cm", "conductivity 0.5", "conductivity"))).toBeCloseTo(500, 9);
    expect(Number(read("concentration ug/L", "iron 50", "iron"))).toBeCloseTo(0.05, 9);
    expect(Number(read("alkalinity mg/L CaCO3", "KH 100", "KH"))).toBeCloseTo(100 / 50.043, 6);
    expect(Number(read("hardness fH", "GH 10", "GH"))).toBeCloseTo(100 / 50.043, 6);
    expect(Number(read("hardness fH", "KH 5", "KH"))).toBeCloseTo((5 * 10) / 28.0385, 6);
  });

  it("settle what may mean several", () => {
    expect(read("temperature F", "temperature 77 deg", "temperature")).toBe("25");
    expect(Number(read("alkalinity mg/L CaCO3", "KH 100 ppm", "KH"))).toBeCloseTo(100 / 50.043, 6);
    const changed = (gallon: string): number =>
      new Room(
        `room "C"\n  units gallon ${gallon}\ntank dam\n  volume 100 L\n2026-03-01\n  dam change 5 gal`,
      ).changes("dam")[0]!;
    expect(changed("US")).toBeCloseTo((5 * 3.785411784) / 100, 15);
    expect(changed("imperial")).toBeCloseTo((5 * 4.54609) / 100, 15);
  });

  it("leave open what they do not settle, in each number of an entry and in definitions", () => {
    const open = (line: string): string[] =>
      new Room(
        `room "C"\n  quarantine 28 d\ntank dam\n  volume 100 L\nwater tap\n2026-03-01\n  dam ${line}`,
      ).findings("unit/ambiguous");
    expect(open("change 5 gal")).toHaveLength(1);
    expect(open("change 30 % at 75 deg")).toHaveLength(1);
    expect(open("test KH 100 ppm")).toHaveLength(1);
    expect(new Room("tank dam\n  volume 30 gal").findings("unit/ambiguous")).toHaveLength(1);
    expect(new Room("water tap\n  content KH 90 ppm").findings("unit/ambiguous")).toHaveLength(1);
    expect(
      new Room("system s\n  sump 20 gal\ntank r1\n  volume 9 L\n  system s").findings("unit/ambiguous"),
    ).toHaveLength(1);
    expect(new Room('room "C"\n  capacity 7 tanks, 100 gal').findings("unit/ambiguous")).toHaveLength(1);
  });

  it("declare what can be declared", () => {
    const said = (units: string): string[] =>
      new Room(`room "C"\n  units ${units}`).findings("definition/units");
    expect(said("temperature F, gallon US, ppm mg/L, ammonia mg/L N, spoon metric, salinity ppt")).toEqual(
      [],
    );
    for (const wrong of [
      "temperature mg/L",
      "gallon metric",
      "nitrate mg/L P",
      "colour L",
      "concentration mg/L N",
      "volume",
    ])
      expect(said(wrong), wrong).toHaveLength(1);
  });

  it("say what one keeper can do in a day", () => {
    const { capacity } = new Room('room "C"\n  units gallon US\n  capacity 7 tanks, 100 gal, 2 h').checked
      .book;
    expect(capacity).toEqual({ tanks: 7, litres: expect.closeTo(378.5411784, 9), minutes: 120 });
  });
});
