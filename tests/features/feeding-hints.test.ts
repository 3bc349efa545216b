import { describe, expect, it } from "vitest";
import { inlayHints } from "../../language/features/hints.ts";
import { lastDay, logbookOf } from "../support/marked.ts";

/** Hints on lines about food. */

const foods = `food flake
  kind dry
food cyclops
  kind frozen; portion 1 cube = 3.5 g
food nauplii
  kind live; ready 20..28 h
species praecox
  needs dry at most 2 per 7 d, cyclops at most 3 per 1 d
tank dam
  volume 100 L
tank q1
  volume 50 L
group show = dam, q1
`;

/** `2026-03-05 dam feed flake  third dry in 7 days, at most 2`. */
function hints(days: string): string[] {
  const checked = logbookOf(foods + days);
  const [source] = [...checked.logbook.sources.values()];
  const view = { checked, source: source!, worldDay: lastDay(checked) };
  return inlayHints(view, 0, source!.text.length)
    .filter(({ kind }) => kind === "feed")
    .map(({ label, offset }) => {
      const begin = source!.text.lastIndexOf("\n", offset - 1) + 1;
      return `${source!.text.slice(begin, offset).trim()}  ${label}`;
    });
}

const arrived = "2026-02-01\n  @show arrive praecox 8\n";

describe("a hint on a feeding", () => {
  it("counts what the animals should get less of, as it was just then", () => {
    expect(
      hints(`${arrived}2026-03-01
  dam feed flake
2026-03-03
  @show feed flake 1 pinch
2026-03-05
  dam feed cyclops
  dam feed flake 2 pinches
2026-03-09
  dam feed flake`),
    ).toEqual([
      "dam feed flake 2 pinches  third dry in 7 days, at most 2",
      "dam feed flake  third dry in 7 days, at most 2",
    ]);
  });

  it("of a group names the tanks", () => {
    expect(
      hints(`${arrived}2026-03-01
  dam feed flake
  dam feed flake
2026-03-03
  @show feed flake`),
    ).toEqual(["@show feed flake  dam: third dry in 7 days, at most 2"]);
  });

  it("says nothing of a tank without the animals", () => {
    expect(hints("2026-03-01\n  dam feed flake\n  dam feed flake\n  dam feed flake")).toEqual([]);
  });

  it("says what is left, where that is little", () => {
    const weeks = ["2026-02-01", "2026-02-08", "2026-02-15", "2026-02-22"].map(
      (day) => `${day}\n  dam feed cyclops 2 cubes\n`,
    );
    expect(hints(`2026-01-31\n  room left cyclops 31 g\n${weeks.join("")}`)).toEqual([
      "dam feed cyclops 2 cubes  cyclops for about 3 days more",
    ]);
    expect(hints("2026-02-01\n  room left cyclops 7 g\n  dam feed cyclops 2 cubes")).toEqual([
      "dam feed cyclops 2 cubes  no cyclops left by the log",
    ]);
  });
});

describe("a hint on what is on hand", () => {
  it("sets a weighing against the reckoning, and adds what was bought", () => {
    expect(
      hints(`2026-02-01
  room left cyclops 100 g
2026-02-02
  dam feed cyclops 4 cubes
  room buy cyclops 50 g
  room left cyclops 130 g
  room left cyclops 130 g`),
    ).toEqual([
      "room buy cyclops 50 g  136 g on hand",
      "room left cyclops 130 g  6 g less than reckoned",
      "room left cyclops 130 g  as reckoned",
    ]);
  });
});

describe("a hint on a culture", () => {
  it("tells its window, what lies out of the published ranges, and the age at the harvest", () => {
    expect(
      hints(`2026-03-01
  08:00 dam start nauplii 2 g salt 25 g/L at 30 C
2026-03-02
  08:30 dam harvest nauplii 100 mL`),
    ).toEqual([
      "08:00 dam start nauplii 2 g salt 25 g/L at 30 C  ready 2 March 04:00 to 12:00 · temperature 30 C, published 25..28",
      "08:30 dam harvest nauplii 100 mL  24.5 h after its start",
    ]);
  });
});
