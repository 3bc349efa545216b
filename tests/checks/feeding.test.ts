import { describe, expect, it } from "vitest";
import { expectMarks, findingsOf } from "../support/marked.ts";

/** Findings about feeding, one by one. */

const foods = `food cyclops
  kind frozen
food flake
  kind dry
species praecox
  needs frozen at least 2 per 7 d, dry at most 1 per 7 d, spinach at most 0 per 7 d
food spinach
  kind fresh
tank dam
  volume 100 L
`;

describe("a need", () => {
  it("is for information on the day on which it falls due, a warning from the next", () => {
    const log = `${foods}2026-03-01
  dam count praecox 8
  dam feed cyclops
2026-03-07
  dam feed cyclops
2026-03-09
  dam note "x"`;
    const severities = (today: string): string[] =>
      findingsOf(log, today)
        .filter(({ code }) => code === "feed/short")
        .map(({ severity, message }) => `${severity}: ${message}`);
    expect(severities("2026-03-07")).toEqual([]);
    expect(severities("2026-03-08")).toEqual([
      "information: dam: frozen once in the last 7 days, at least 2 for praecox",
    ]);
    expect(severities("2026-03-09")).toEqual([
      "warning: dam: frozen once in the last 7 days, at least 2 for praecox",
    ]);
  });

  it("is not told of while the tank fasts, or where no food is written at all", () => {
    expectMarks(
      `${foods}2026-03-01
  dam count praecox 8
  dam feed cyclops
2026-03-20
  dam feed none`,
      "feed",
    );
    expectMarks(`${foods}2026-03-01\n  dam count praecox 8\n2026-03-20\n  dam note "x"`, "feed");
  });

  it("that a duty of the tank states too is left to the duty", () => {
    expectMarks(
      `food flake
  kind dry
species praecox
  needs dry at most 1 per 7 d
tank dam
  volume 100 L
  at most 1 per 7 d feed dry
2026-03-01
  dam count praecox 8
  dam feed flake
  dam feed flake
# ^^^^^^^^^^^^^^ duty/too-often`,
      "feed",
      "duty",
    );
  });

  it("of never is broken by once", () => {
    expectMarks(
      `${foods}2026-03-01
  dam count praecox 8
  dam feed spinach 1 leaf
#          ^^^^^^^ feed/too-often`,
      "feed",
    );
  });
});

describe("a surface that is left for grazing", () => {
  const sill = "tank sill\n  volume 50 L\n  grazed back-glass, wood\ngroup all = sill\n";
  it("is not to be cleaned, alone, with all glass, or with all", () => {
    expectMarks(
      `${sill}2026-03-01
  sill clean
  sill clean front-glass, gravel
  sill clean front-glass, wood
#                         ^^^^ feed/grazed
  sill clean glass
#            ^^^^^ feed/grazed
  @all clean all
#            ^^^ feed/grazed`,
      "feed",
    );
  });
});

describe("a food", () => {
  it("that is past its day and on hand is told of where it is defined", () => {
    expectMarks(
      `food flake
#    ^^^^^ feed/expired
  kind dry; expires 2026-02-20
tank dam
  volume 50 L
2026-01-01
  room left flake 40 g
2026-03-01
  dam note "x"`,
      "feed",
    );
  });

  it("that is dry and open for longer than three months is told of where it was fed last", () => {
    expectMarks(
      `food flake
  kind dry; opened 2026-01-01
tank dam
  volume 50 L
2026-04-02
  dam feed flake
2026-04-04
  dam feed flake
#          ^^^^^ feed/opened-long`,
      "feed",
    );
  });
});
