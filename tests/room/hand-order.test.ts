import { describe, expect, it, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import type { Tank } from "../../language/book/stations.ts";
import { casesUntil } from "../../language/room/cases.ts";
import { handOrder } from "../../language/room/hand-order.ts";
import { handCases } from "../../language/room/reached-by-cases.ts";
import { logbookOf } from "../support/marked.ts";

const room = `room "Cellar"
  quarantine 28 d
species praecox
remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
tank h1
  volume 30 L
  role hospital
tank q1
  volume 50 L
  role quarantine
tank dam
  volume 300 L
tank sill
  volume 90 L
tank b1
  volume 60 L
tank fry
  volume 20 L
  role grow-out
system rack
  sump 40 L
tank r1
  volume 24 L
  system rack
tank r2
  volume 24 L
  system rack
tank r3
  volume 24 L
  until 2026-03-20
2026-02-01
  dam count praecox 40
  sill count praecox 8
  fry count praecox 60
  r1 count praecox 4
  r2 count praecox 4
`;

function order(entries: string, day: string, isReached?: (tank: Tank) => readonly string[]): string[] {
  const { logbook } = logbookOf(room + entries);
  const on = dayOf(day);
  const cases =
    isReached === undefined ? handCases(logbook, on) : { open: casesUntil(logbook, on), isReached };
  return handOrder(logbook, on, cases).map(({ tank, is, reason }) => `${tank.name} ${is}: ${reason}`);
}

describe("a round goes from the clean to the dirty", () => {
  it("fry, the healthy, quarantine, the hospital; each in the order of the definitions", () => {
    expect(order("2026-03-01\n  q1 arrive praecox 4", "2026-03-10")).toEqual([
      "fry fry: young fish grow up in it",
      "dam healthy: nothing is known against it",
      "sill healthy: nothing is known against it",
      "b1 healthy: nothing is known against it",
      "r1 healthy: nothing is known against it",
      "r2 healthy: nothing is known against it",
      "r3 healthy: nothing is known against it",
      "q1 quarantine: quarantine until 29 March",
      "h1 hospital: a hospital tank",
    ]);
  });

  it("the sick last, with what shares their water, and before them whom the case may have reached", () => {
    const sick = "2026-03-05\n  r2 sick praecox 2 of 4 case flukes-1";
    expect(order(sick, "2026-03-10", ({ name }) => (name === "sill" ? ["flukes-1"] : []))).toEqual([
      "fry fry: young fish grow up in it",
      "dam healthy: nothing is known against it",
      "b1 healthy: nothing is known against it",
      "r3 healthy: nothing is known against it",
      "sill exposed: case flukes-1 may have reached it",
      "q1 quarantine: a quarantine tank",
      "h1 hospital: a hospital tank",
      "r1 sick: one water with r2: case flukes-1 is open",
      "r2 sick: case flukes-1 is open",
    ]);
  });

  it("what is out of service is left out, and what is treated is with the sick", () => {
    const told = order("2026-03-25\n  dam dose prazi 600 mg", "2026-03-26");
    expect(told.at(-1)).toBe("dam sick: a course of prazi runs");
    expect(told.some((each) => each.startsWith("r3"))).toBe(false);
  });

  it("a tank with new animals is with quarantine until their time has passed", () => {
    const log = "2026-03-01\n  b1 arrive praecox 4";
    expect(order(log, "2026-03-28")).toContain("b1 quarantine: new animals of 1 March, apart until 29 March");
    expect(order(log, "2026-03-29")).toContain("b1 healthy: nothing is known against it");
  });

  it("signs without a case, and a fry tank that is reached, are no longer clean", () => {
    expect(order('2026-03-05\n  sill sick praecox 1 signs "thin"', "2026-03-06").at(-1)).toBe(
      "sill sick: signs of disease",
    );
    expect(order("", "2026-03-06", ({ name }) => (name === "fry" ? ["c-1"] : []))[0]).toBe(
      "dam healthy: nothing is known against it",
    );
  });
});

test("a tank that animals of an open case were moved to is among those it may have reached", () => {
  const sick =
    "2026-03-01\n  dam move praecox 4 -> b1\n2026-03-05\n  dam sick praecox 2 of 36 case flukes-1\n";
  const told = order(sick, "2026-03-06");
  expect(told).toContain("b1 exposed: case flukes-1 may have reached it");
  expect(told.at(-1)).toBe("dam sick: case flukes-1 is open");
  expect(order(`${sick}2026-03-20\n  dam close flukes-1 recovered`, "2026-03-21")).toContain(
    "b1 healthy: nothing is known against it",
  );
});
