import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { mealsOf } from "../../language/room/feeding.ts";
import { needsOn, needText, whyNeed } from "../../language/room/needs.ts";
import { rationOn } from "../../language/room/ration.ts";
import { Room } from "../support/room.ts";

/** What tanks were fed, and what their animals need. */

const foods = `food cyclops
  kind frozen; portion 1 cube = 3.5 g
food flake
  kind dry; protein 45 %
species praecox
  needs frozen at least 3 per 7 d, dry at most 2 per 7 d
  weight 2 g
species horn
  kind snail; needs grazing at least 5 per 7 d
tank dam
  volume 100 L
  grazed back-glass
tank q1
  volume 50 L
tank r1
  volume 20 L
  system rack
system rack
  sump 20 L
group show = dam, q1
`;

/** `frozen at least 3 in 7 days: 2, due`. */
function needs(log: string, tank: string, on?: string): string[] {
  const room = new Room(foods + log);
  const day = on === undefined ? room.today : dayOf(on);
  return needsOn(room.checked.logbook, room.tank(tank), day).map(
    ({ form, times, is }) => `${needText(form)}: ${times}, ${is}`,
  );
}

const fed = (tank: string, food: string, ...days: number[]): string =>
  days.map((day) => `2026-03-${String(day).padStart(2, "0")}\n  ${tank} feed ${food}\n`).join("");

describe("what a tank was fed", () => {
  it("is what was written for it, for its system, and for its groups", () => {
    const room = new Room(`${foods}2026-03-02
  09:00 r1 feed flake
  08:00 rack feed cyclops 2 cubes
  @show feed flake
  r1 feed none
  q1 feed cyclops, flake`);
    const meals = (tank: string): string[] =>
      mealsOf(room.checked.logbook, room.tank(tank), room.today, room.today).map(({ food }) => food);
    expect(meals("r1")).toEqual(["cyclops", "flake"]);
    expect(meals("dam")).toEqual(["flake"]);
    expect(meals("q1")).toEqual(["flake", "cyclops", "flake"]);
  });
});

describe("a need", () => {
  const arrived = "2026-02-01\n  dam arrive praecox 8\n";

  it("is met by so many entries in the days up to the day, by any food of the kind", () => {
    expect(needs(`${arrived}${fed("dam", "cyclops", 1, 3, 7)}`, "dam")).toEqual([
      "frozen at least 3 in 7 days: 3, met",
      "dry at most 2 in 7 days: 0, met",
    ]);
  });

  it("is due on the day on which there are too few, late from the next", () => {
    const log = `${arrived}${fed("dam", "cyclops", 1, 3, 7)}2026-03-09\n  dam note "x"\n`;
    expect(needs(log, "dam", "2026-03-08")[0]).toBe("frozen at least 3 in 7 days: 2, due");
    expect(needs(log, "dam", "2026-03-09")[0]).toBe("frozen at least 3 in 7 days: 2, late");
  });

  it("is told of a day that is past by what was known then", () => {
    const log = `${arrived}${fed("dam", "cyclops", 1, 3, 7, 8, 9)}`;
    expect(needs(log, "dam", "2026-03-07")[0]).toBe("frozen at least 3 in 7 days: 3, met");
    expect(needs(log, "dam", "2026-03-05")[0]).toBe("frozen at least 3 in 7 days: 2, late");
  });

  it("counts an entry once, whatever it lists, and two entries of a day twice", () => {
    expect(needs(`${arrived}${fed("dam", "flake, flake 2 pinches", 7)}`, "dam")[1]).toContain("1, met");
    expect(needs(`${arrived}${fed("dam", "flake", 7, 7, 7)}`, "dam")[1]).toBe(
      "dry at most 2 in 7 days: 3, over",
    );
  });

  it("is not owed to animals that are not there for as long as it counts", () => {
    const log = `${fed("dam", "cyclops", 1)}2026-03-04\n  dam arrive praecox 8\n`;
    expect(needs(`${log}2026-03-09\n  dam note "x"`, "dam")[0]).toContain("0, young");
    expect(needs(`${log}2026-03-10\n  dam note "x"`, "dam")[0]).toContain("0, due");
    expect(needs(`${log}2026-03-11\n  dam note "x"`, "dam")[0]).toContain("0, late");
  });

  it("goes with the animals", () => {
    const log = `${arrived}2026-03-01\n  dam move praecox 8 -> q1\n2026-03-09\n  dam note "x"`;
    expect(needs(log, "dam")).toEqual([]);
    expect(needs(log, "q1")[0]).toContain("late");
    expect(needs(log, "dam", "2026-02-20")[0]).toContain("late");
  });

  it("of grazing is met by days on which a surface was left", () => {
    const log = `2026-02-01\n  dam arrive horn 8\n${[1, 2, 3].map((day) => `2026-03-0${day}\n  dam clean back-glass\n`).join("")}2026-03-07\n  dam clean\n`;
    expect(needs(log, "dam")).toEqual(["grazing at least 5 in 7 days: 4, late"]);
    expect(needs(log.replace("back-glass", "front-glass"), "dam")).toEqual([
      "grazing at least 5 in 7 days: 5, met",
    ]);
    expect(
      needs(log.replace("back-glass", "front-glass").replace("back-glass", "glass"), "dam")[0],
    ).toContain("5, met");
  });

  it("tells why: the entries and the words of the species", () => {
    const room = new Room(`${foods}${arrived}${fed("dam", "cyclops", 1, 3)}`);
    const [frozen] = needsOn(room.checked.logbook, room.tank("dam"), room.today);
    expect(whyNeed(frozen!).from.map(({ what }) => what)).toEqual([
      "2026-03-01 dam feed cyclops",
      "2026-03-03 dam feed cyclops",
      "stated: frozen at least 3 per 7 d",
    ]);
  });

  it("counts as many entries as lie in the window, whatever the days", () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 40 }), { maxLength: 30 }),
        fc.integer({ min: 0, max: 40 }),
        (days, on) => {
          const first = dayOf("2026-03-01");
          const log = [...days].map((day) => `${isoOf(first + day)}\n  dam feed cyclops 1 cube\n`).join("");
          const [line] = needs(`${arrived}${log}`, "dam", isoOf(first + on));
          const within = days.filter((day) => day <= on && day > on - 7).length;
          expect(line).toContain(`: ${within}, ${within >= 3 ? "met" : ""}`);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("a ration", () => {
  it("is what was fed a day by weight over what the animals weigh", () => {
    const room = new Room(
      `${foods}2026-02-01\n  dam arrive praecox 10\n${fed("dam", "cyclops 1 cube", 1, 3, 5)}`,
    );
    const ration = rationOn(room.checked.logbook, room.tank("dam"), room.today, 7);
    expect(ration.gramsADay).toBeCloseTo((3 * 3.5) / 7, 12);
    expect(ration.share).toBeCloseTo((3 * 3.5) / 7 / 20, 12);
    expect(ration.unknown).toEqual([]);
  });

  it("tells the ammonia of what states its protein: 10 g at 45 % leave 0.414 g of nitrogen", () => {
    const room = new Room(`${foods}2026-03-01\n  dam feed flake 10 g`);
    expect(rationOn(room.checked.logbook, room.tank("dam"), room.today, 1).ammoniaGN).toBeCloseTo(0.414, 12);
  });

  it("says what it cannot weigh", () => {
    const room = new Room(`${foods}2026-03-01\n  dam feed flake 1 pinch, cyclops`);
    const ration = rationOn(room.checked.logbook, room.tank("dam"), room.today, 7);
    expect(ration.unknown).toEqual([
      "what a pinch of flake weighs is not stated: portion 1 pinch = ... g",
      "cyclops: no amount is written",
    ]);
    expect(ration.gramsADay).toBeNaN();
  });
});
