import { describe, expect, it } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { dosesOn } from "../../language/room/due.ts";
import { Room } from "../support/room.ts";

/** Doses: what they add, the course they belong to, and what is said of them. */

const room = (remedy: string, entries: string, units = ""): Room =>
  new Room(
    `room "Cellar"\n  ${units === "" ? "quarantine 28 d" : units}\nremedy r\n  ${remedy}\ntank q1\n  volume 50 L\n2026-03-01\n  ${entries}`,
  );
/** What one dose makes, in the remedy's unit, or why that is not known. */
function adds(remedy: string, dose: string, units = ""): number | string {
  const made = room(remedy, `q1 dose r ${dose}`, units);
  const added = made.ledger("q1").doses.first[0]!;
  if (!Number.isNaN(added)) return Number(added.toPrecision(10));
  return (
    made.findings("dose/unknown")[0]?.replace(/^dose\/unknown: what this adds cannot be computed: /, "") ??
    "?"
  );
}

describe("a dose adds", () => {
  it.each([
    ["target 2 mg/L", "100 mg", 2],
    ["target 2 mg/L", "0.1 g", 2],
    ["target 2 mg/L", "1 grain", 64.79891 / 50],
    ["target 2 mg/L; strength 25 %", "400 mg", 2],
    ["target 2 mg/L", "2 mg/L", 2],
    ["target 2 mg/L", "2000 ug/L", 2],
    ["target 2 mg/L; strength 10 mg/mL", "10 mL", 2],
    ["target 2 mg/L; strength 10 g/L", "0.01 L", 2],
    ["target 2 mg/L; strength 10 mg/mL", "1 US fl oz", (29.5735295625 * 10) / 50],
    ["target 2 mg/L; strength 10 mg/mL; drop 0.05 mL", "40 drops", (40 * 0.05 * 10) / 50],
    ["target 20 uL/L", "1 mL", 20],
    ["target 20 uL/L", "20 uL/L", 20],
    ["target 20 uL/L; drop 0.05 mL", "20 drops", 20],
    ["target 2 g/L", "100 g", 2000],
  ])("with %s, by %s", (remedy, dose, concentration) => {
    expect(adds(remedy, dose)).toBeCloseTo(concentration, 6);
  });

  it("in units that the room settles", () => {
    expect(adds("target 2 mg/L", "2 ppm", "units ppm mg/L")).toBe(2);
    expect(adds("target 20 ppm", "1 mL", "units ppm uL/L")).toBe(20);
    expect(adds("target 20 ppm", "20 ppm", "units ppm uL/L")).toBe(20);
    expect(adds("strength 10 mg/mL", "1 tsp", "units spoon metric")).toBe(1);
    expect(adds("target 2 mg/L", "1 oz")).toBeCloseTo(28349.523125 / 50, 5);
  });

  it("nothing that is known, and says why", () => {
    expect(adds("target 2 mg/L", "5 mL")).toBe("the strength of r is not stated in mg/mL");
    expect(adds("target 2 mg/L; strength 80 %", "5 mL")).toBe("the strength of r is not stated in mg/mL");
    expect(adds("target 2 mg/L; strength 10 mg/mL", "5 drops")).toBe("the drop of r is not stated");
    expect(adds("target 2 mg/L; strength 10 mg/mL", "100 mg")).toBe(
      "r is stated as a liquid (mg/mL) and dosed by mass",
    );
    expect(adds("target 2 mg/L", "2 uL/L")).toBe("r is stated in mg/L, the dose in uL/L");
    expect(adds("target 20 uL/L", "100 mg")).toBe("r is stated in uL/L and dosed by mass");
    expect(adds("target 2 mg/L", "3 scoops")).toBe("a scoop of r is no measure");
  });

  it("nothing while its unit may mean several", () => {
    expect(room("target 2 mg/L", "q1 dose r 2 ppm").findings("unit/ambiguous")).toEqual([
      "unit/ambiguous: “ppm” may be mg/L or uL/L: write which, or declare it in the units line of the room",
    ]);
    // Ounces may be a mass or, where the gallon is declared, a volume.
    expect(
      room("target 2 mg/L", "q1 dose r 1 oz", "units gallon US").findings("unit/ambiguous"),
    ).toHaveLength(1);
  });

  it("nothing that is known to what is not known: that stays so", () => {
    const log = room("target 2 mg/L", "q1 dose r 5 mL\n2026-03-20\n  q1 dose r 100 mg");
    expect(log.findings("dose/unknown").at(-1)).toBe(
      "dose/unknown: what this adds cannot be computed: what is left of an earlier dose is not known",
    );
  });
});

describe("target and ceiling", () => {
  const said = (remedy: string, dose: string): string[] =>
    room(remedy, `q1 dose r ${dose}`)
      .findings("dose/")
      .map((text) => text.split(":")[0]!);

  it("are met at their ends", () => {
    expect(said("target 2 mg/L; ceiling 5 mg/L", "100 mg")).toEqual([]);
    expect(said("target 1..3 mg/L; ceiling 5 mg/L", "250 mg")).toEqual([]);
    expect(said("target 1..3 mg/L; ceiling 5 mg/L", "251 mg")).toEqual(["dose/above-ceiling"]);
    expect(said("target 2 mg/L", "95 mg")).toEqual([]);
    expect(said("target 2 mg/L", "94 mg")).toEqual(["dose/below-target"]);
    // At most so much has no lower end, at least so much has one.
    expect(said("target <= 2 mg/L", "10 mg")).toEqual([]);
    expect(said("target >= 2 mg/L", "10 mg")).toEqual(["dose/below-target"]);
  });

  it("stated in two kinds of concentration do not fit each other", () => {
    expect(room("target 2 mg/L; ceiling 5 uL/L", 'q1 note "x"').findings("unit/wrong-kind")).toHaveLength(1);
  });
});

describe("a course", () => {
  const course = (entries: string): Room =>
    room("target 2 mg/L; repeat 3 times every 7 d; change-before 25 %", entries);
  const codes = (entries: string): string[] =>
    course(entries)
      .findings("dose/")
      .map((text) => text.split(":")[0]!);

  it("given on its days with the changes owed is as it should be, whatever the hours", () => {
    expect(
      codes(`20:00 q1 dose r 100 mg
2026-03-08
  06:00 q1 change 30 %
  06:10 q1 dose r 30 mg
2026-03-15
  23:00 q1 change 30 %
  23:10 q1 dose r 30 mg
2026-04-20
  q1 note "well"`),
    ).toEqual([]);
  });

  it("is too early a day before", () => {
    expect(
      codes("06:00 q1 dose r 100 mg\n2026-03-07\n  23:00 q1 change 50 %\n  23:30 q1 dose r 50 mg"),
    ).toEqual(["dose/too-early"]);
  });

  it("by the hour is early by more than an hour", () => {
    const hours = (time: string): string[] =>
      room(
        "repeat 3 times every 36 h",
        `08:00 q1 dose r 100 mg\n2026-03-02\n  ${time} q1 dose r 100 mg`,
      ).findings("dose/too-early");
    expect(hours("18:30")).toHaveLength(1);
    expect(hours("19:30")).toEqual([]);
  });

  it("owes what the changes between left owing", () => {
    expect(codes("q1 dose r 100 mg\n2026-03-08\n  q1 change 20 %\n  q1 dose r 20 mg")).toEqual([
      "dose/change-owed",
    ]);
    // Two changes of 15 % are 27.75 %.
    expect(
      codes(
        "q1 dose r 100 mg\n2026-03-05\n  q1 change 15 %\n2026-03-08\n  q1 change 15 %\n  q1 dose r 30 mg",
      ),
    ).toEqual([]);
    // A change behind the dose is not before it.
    expect(codes("q1 dose r 100 mg\n2026-03-08\n  q1 dose r 20 mg\n  q1 change 90 %")).toEqual([
      "dose/change-owed",
    ]);
  });

  it("is due on its day, overdue the day after, missed when another interval has passed", () => {
    const on = (day: string): string[] =>
      new Room(
        `remedy r\n  repeat 3 times every 7 d\ntank q1\n  volume 50 L\n2026-03-01\n  q1 dose r 100 mg`,
        day,
      )
        .findings("dose/")
        .map((text) => text.split(".")[0]!);
    expect(on("2026-03-08")).toEqual([]);
    expect(on("2026-03-09")).toEqual(["dose/overdue: dose 2 of 3 of r was due on 8 March, 1 day ago"]);
    expect(on("2026-03-15")).toEqual(["dose/overdue: dose 2 of 3 of r was due on 8 March, 7 days ago"]);
    expect(on("2026-03-16")).toEqual([
      "dose/missed: 1 of 3 doses of r was given; the next was due on 8 March 2026",
    ]);
  });

  it("tells what change is owed before the next", () => {
    const made = course("q1 dose r 100 mg\n2026-03-04\n  q1 change 10 %");
    const [due] = dosesOn(made.ledger("q1"), dayOf("2026-03-08"));
    expect(due).toMatchObject({ due: dayOf("2026-03-08"), late: 0 });
    // 25 % owed and 10 % done: 15 % more would renew 1 - 0.9 x 0.85 = 23.5 % only; 1 - 0.75 / 0.9 is what is missing.
    expect(due!.changeOwed).toBeCloseTo(1 / 6, 12);
  });

  it("that is complete, or long past, is followed by a new one", () => {
    const given = (entries: string): number =>
      course(entries).ledger("q1").solutes!.all(dayOf("2026-06-01"))[0]!.given;
    const weekly = [1, 8, 15, 22]
      .map((day) => `2026-03-${String(day).padStart(2, "0")}\n  q1 change 50 %\n  q1 dose r 50 mg`)
      .join("\n");
    expect(given(`q1 note "x"\n${weekly}`)).toBe(1);
    expect(given("q1 dose r 100 mg\n2026-03-15\n  q1 dose r 100 mg")).toBe(2);
    expect(given("q1 dose r 100 mg\n2026-03-16\n  q1 dose r 100 mg")).toBe(1);
  });
});

describe("animals that a remedy is stated to harm", () => {
  const log = (species: string, harms: string, entries: string): string[] =>
    new Room(
      `species ${species}\nremedy r\n  harms ${harms}\nsystem rack-water\n  sump 9 L\ntank r1\n  volume 24 L\n  system rack-water\ntank r2\n  volume 24 L\n  system rack-water\n2026-03-01\n  ${entries}`,
    ).findings("dose/harms");

  it("are told by kind, trait or name", () => {
    expect(log("horn\n  kind snail", "snail", "r1 arrive horn 3\n  r1 dose r 9 mg")).toHaveLength(1);
    expect(
      log("loach\n  traits fry, scaleless", "shrimp, scaleless", "r1 arrive loach 3\n  r1 dose r 9 mg"),
    ).toHaveLength(1);
    expect(log("horn\n  kind snail", "horn", "r1 arrive horn 3\n  r1 dose r 9 mg")).toHaveLength(1);
    expect(log("horn\n  kind snail", "shrimp", "r1 arrive horn 3\n  r1 dose r 9 mg")).toEqual([]);
  });

  it("in any tank of the same water, while they are there", () => {
    expect(log("horn\n  kind snail", "snail", "r2 arrive horn 3\n  r1 dose r 9 mg")).toHaveLength(1);
    expect(
      log("horn\n  kind snail", "snail", "r2 arrive horn 3\n  r2 lose horn 3 found\n  r1 dose r 9 mg"),
    ).toEqual([]);
    expect(log("horn\n  kind snail", "snail", "r1 dose r 9 mg\n  r2 arrive horn 3")).toEqual([]);
  });
});
