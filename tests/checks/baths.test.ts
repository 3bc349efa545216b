import { describe, expect, test } from "vitest";
import { releaseOn } from "../../language/room/release.ts";
import { Room } from "../support/room.ts";

/** Baths and dips: how strong, how long, whom they harm; what they withhold; and that the tank's water knows nothing of them. */

const definitions = `species praecox
species horn
  kind snail
remedy salt
  target 1 g/L; ceiling 3 g/L
  bath 10..30 g/L for 1..10 min
  withdrawal 3 d
remedy drops
  strength 10 mg/mL; drop 0.05 mL
  bath 20 mg/L for 30 min
tank q1
  volume 50 L
tank r1
  volume 50 L
group both = q1, r1
2026-03-01
  q1 arrive praecox 6
  r1 arrive praecox 6
`;
const room = (entries: string, today?: string): Room => new Room(definitions + entries, today);
const said = (bath: string): string[] =>
  room(`  q1 bath ${bath}\n`)
    .findings("bath/")
    .map((text) => text.replace(/ Computed from what.*/, ""));

describe("how strong", () => {
  // 120 g in 8 L are 15 g/L.
  test("by mass and the volume of the vessel", () => {
    expect(said("praecox 3 with salt 120 g for 5 min volume 8 L")).toEqual([]);
    expect(said("praecox 3 with salt 320 g for 5 min volume 8 L")).toEqual([
      "bath/above: a bath of 40 g/L salt: above the 10..30 g/L you stated.",
    ]);
    expect(said("praecox 3 with salt 120 g for 5 min")).toEqual([
      "bath/unknown: how strong this bath is cannot be computed: the volume of the bath is not stated",
    ]);
  });
  // 40 drops of 0.05 mL at 10 mg/mL are 20 mg, in 1 L 20 mg/L; by 5 % more or less it is as stated.
  test("by drops, against one figure", () => {
    expect(said("praecox 3 with drops 40 drops for 30 min volume 1 L")).toEqual([]);
    expect(said("praecox 3 with drops 42 drops for 30 min volume 1 L")).toEqual([]);
    expect(said("praecox 3 with drops 43 drops for 30 min volume 1 L")).toHaveLength(1);
    expect(said("praecox 3 with drops 37 drops for 30 min volume 1 L")).toHaveLength(1);
  });
  test("the ceiling is for the tank and says nothing of a bath", () => {
    const log = new Room(
      `remedy salt\n  ceiling 3 g/L\nspecies p\ntank q1\n  volume 50 L\n2026-03-01\n  q1 bath p 1 with salt 15 g/L for 60 min\n`,
    );
    expect(log.findings("bath/", "dose/")).toEqual([]);
  });
});

test("how long: of a range its longest", () => {
  expect(said("praecox 3 with salt 15 g/L for 10 min")).toEqual([]);
  expect(said("praecox 3 with salt 15 g/L for 5..12 min")).toEqual([
    "bath/too-long: a bath of 12 min in salt: longer than the 10 min you stated.",
  ]);
});

describe("more than there are", () => {
  test("by the book just before the bath", () => {
    expect(said("praecox 6 with salt 15 g/L for 5 min")).toEqual([]);
    expect(said("praecox 7 with salt 15 g/L for 5 min")).toEqual([
      "bath/not-there: 7 praecox of q1 were bathed; the book has 6 there",
    ]);
    // What is moved out below the bath was there for it.
    const moved = "  q1 bath praecox 6 with salt 15 g/L for 5 min\n  q1 move praecox 6 -> r1\n";
    expect(room(moved).findings("bath/")).toEqual([]);
  });
  test("of a group in each tank; what the book never had is not told", () => {
    expect(
      room("  @both bath praecox 7 with salt 15 g/L for 5 min\n").findings("bath/not-there"),
    ).toHaveLength(2);
    expect(said("horn 7 with salt 15 g/L for 5 min")).toEqual([]);
  });
  test("an estimate that agrees", () => {
    expect(
      room("  q1 count praecox ~10\n  q1 bath praecox 11 with salt 15 g/L for 5 min\n").findings("bath/"),
    ).toEqual([]);
  });
});

test("a bath adds nothing to the water of the tank, and begins no course", () => {
  const log = room("  q1 bath praecox 3 with salt 15 g/L for 5 min\n");
  expect(log.remedy("q1", "salt")).toBe(0);
  expect(log.ledger("q1").doses.length).toBe(0);
});

describe("withdrawal", () => {
  const until = (entries: string, today: string, tank = "q1", species = "praecox"): string[] => {
    const log = room(entries, today);
    return releaseOn(log.checked.logbook, log.today)
      .filter((each) => each.tank.name === tank && each.species === species)
      .flatMap(({ reasons }) => reasons.filter(({ is }) => is === "withdrawal").map(({ name }) => name));
  };
  const bath = "  q1 arrive horn 2\n  q1 bath praecox 3 with salt 15 g/L for 5 min\n";
  test("counts from the bath, for the species of that tank", () => {
    expect(until(bath, "2026-03-03")).toEqual(["salt"]);
    expect(until(bath, "2026-03-04")).toEqual([]);
    expect(until(bath, "2026-03-03", "q1", "horn")).toEqual([]);
    expect(until(bath, "2026-03-03", "r1")).toEqual([]);
  });
  test("is told where they are sent", () => {
    const sent = `${bath}2026-03-03\n  q1 ship praecox 2 to "a buyer"\n`;
    expect(room(sent).findings("ship/treated")).toHaveLength(1);
    const above = '  q1 ship praecox 2 to "a buyer"\n  q1 bath praecox 3 with salt 15 g/L for 5 min\n';
    expect(room(above).findings("ship/treated")).toEqual([]);
  });
});
