import { describe, expect, it } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { culturesOn } from "../../language/room/cultures.ts";
import { hatchFigures } from "../../language/room/hatch.ts";
import { Room } from "../support/room.ts";

/** Live food, from its start to its harvest. */

const foods = `food nauplii
  kind live; ready 20..28 h
food grindal
  kind live; ready 14 d
tank c1
  volume 2 L
  role culture
`;

function states(log: string, on: string): string[] {
  const room = new Room(foods + log, on);
  return culturesOn(room.checked.logbook, dayOf(on)).map(
    ({ name, is, hasBackUp }) => `${name} ${is}${hasBackUp ? ", backed up" : ""}`,
  );
}

const hatch = `2026-03-01
  08:00 c1 start nauplii 2 g salt 25 g/L at 27 C
2026-03-20
  c1 note "x"
`;

describe("a hatch", () => {
  it("grows, is ready in its window, is overdue after it, and is missed at last", () => {
    expect(states(hatch, "2026-03-01")).toEqual(["nauplii growing"]);
    expect(states(hatch, "2026-03-02")).toEqual(["nauplii ready"]);
    expect(states(hatch, "2026-03-03")).toEqual(["nauplii overdue"]);
    expect(states(hatch, "2026-03-05")).toEqual(["nauplii overdue"]);
    expect(states(hatch, "2026-03-06")).toEqual(["nauplii missed"]);
  });

  it("ends with its harvest; of two the older is harvested", () => {
    const log = `2026-03-01
  08:00 c1 start nauplii 2 g
  20:00 c1 start nauplii 2 g
2026-03-02
  08:00 c1 harvest nauplii 100 mL
`;
    expect(states(log, "2026-03-02")).toEqual(["nauplii harvested", "nauplii ready"]);
  });

  it("that was missed long ago is not what is harvested now", () => {
    const log = `${hatch}2026-03-12
  08:00 c1 start nauplii 2 g
2026-03-13
  08:00 c1 harvest nauplii 100 mL
`;
    expect(states(log, "2026-03-13")).toEqual(["nauplii missed", "nauplii harvested"]);
  });

  it("is harvested by no harvest above its start", () => {
    const log = "2026-03-01\n  c1 harvest nauplii 100 mL\n  c1 start nauplii 2 g\n";
    expect(states(log, "2026-03-03")).toEqual(["nauplii overdue"]);
  });

  it("stands beside the published ranges, with its cysts over the water of its tank", () => {
    const room = new Room(foods + hatch);
    const [culture] = culturesOn(room.checked.logbook, room.today);
    expect(hatchFigures(room.checked.logbook, culture!)).toEqual([
      { what: "temperature", value: 27, unit: "C", low: 25, high: 28, isWithin: true },
      { what: "salt", value: 25, unit: "g/L", low: 5, high: 35, isWithin: true },
      { what: "cysts", value: 1, unit: "g/L", low: 0, high: 5, isWithin: true },
    ]);
  });

  it("is none of cysts where no salt is written", () => {
    const room = new Room(`${foods}2026-03-01\n  c1 start nauplii at 30 C`);
    expect(hatchFigures(room.checked.logbook, culturesOn(room.checked.logbook, room.today)[0]!)).toEqual([]);
  });
});

describe("a culture that goes on", () => {
  it("runs from the time that its food states, and is backed up by another", () => {
    const log = "2026-03-01\n  room start grindal\n";
    expect(states(log, "2026-03-10")).toEqual(["grindal growing"]);
    expect(states(log, "2026-03-16")).toEqual(["grindal running"]);
    expect(states(`${log}  c1 start grindal\n`, "2026-03-16")).toEqual([
      "grindal running, backed up",
      "grindal running, backed up",
    ]);
  });

  it("is one in its place, however often it is begun anew", () => {
    const log =
      "2026-03-01\n  room start grindal\n2026-03-12\n  room start grindal\n  room harvest grindal 1 spoon\n";
    expect(states(log, "2026-03-13")).toEqual(["grindal running, backed up"]);
    expect(states(log, "2026-06-01")).toEqual(["grindal running"]);
  });
});
