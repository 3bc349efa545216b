import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { kindOf } from "../../language/book/entries/registry.ts";
import { type Case, casesUntil, threadsUntil } from "../../language/room/cases.ts";
import { logbookOf } from "../support/marked.ts";

const tanks = `tank b3
  volume 45 L
tank h1
  volume 20 L
group both = b3, h1
`;

function cases(days: string, until = "2026-12-31"): Case[] {
  return casesUntil(logbookOf(tanks + days).logbook, dayOf(until));
}

const shown = ({ name, since, stations, closed }: Case): string =>
  `${name || "(none)"} ${isoOf(since)} ${stations.map((each) => each.name).join(",")} ${Number.isNaN(closed) ? "open" : isoOf(closed)}`;

const outbreak = `2026-10-02
  b3 sick woworae 2 of 18 signs "flashing" case flukes-1
2026-10-05
  h1 sick woworae 3 of 18 case flukes-1
  h1 sample gill 2 kept formalin case flukes-1
2026-10-09
  h1 result flukes-1 positive
2026-11-02
  b3 close flukes-1 recovered
`;

describe("a case", () => {
  test("runs through the log from the first signs until it is closed", () => {
    expect(cases(outbreak).map(shown)).toEqual(["flukes-1 2026-10-02 b3,h1 2026-11-02"]);
    expect(cases(outbreak)[0]!.entries.map((each) => isoOf(each.day))).toEqual([
      "2026-10-02",
      "2026-10-05",
      "2026-10-05",
      "2026-10-09",
      "2026-11-02",
    ]);
  });

  test("is open on a day before it was closed", () => {
    expect(cases(outbreak, "2026-10-31").map(shown)).toEqual(["flukes-1 2026-10-02 b3,h1 open"]);
  });

  test("tells the latest count of the sick", () => {
    const { latest } = cases(outbreak)[0]!;
    expect([latest?.species, latest?.affected, latest?.atRisk, isoOf(latest!.day)]).toEqual([
      "woworae",
      3,
      18,
      "2026-10-05",
    ]);
  });

  test("that comes back is opened again", () => {
    const again = `${outbreak}2026-12-01\n  b3 sick woworae 1 case flukes-1\n`;
    expect(cases(again).map(shown)).toEqual([
      "flukes-1 2026-10-02 b3,h1 2026-11-02",
      "flukes-1 2026-12-01 b3 open",
    ]);
  });

  test("needs no name: each entry is one of its own", () => {
    const two = "2026-10-02\n  b3 sick woworae 1\n2026-10-03\n  @both sick woworae 2\n";
    expect(cases(two).map(shown)).toEqual(["(none) 2026-10-02 b3 open", "(none) 2026-10-03 b3,h1 open"]);
  });

  test("is not opened by its close", () => {
    expect(cases("2026-10-02\n  b3 close flukes-1 recovered\n")).toEqual([]);
  });

  test("is opened by a sample, but not by a result, a dose or a loss", () => {
    const screened =
      "2026-10-02\n  b3 sample faeces 1 case screen-1\n2026-10-04\n  b3 result screen-1 negative\n";
    expect(cases(screened).map((each) => [shown(each), each.entries.length, each.latest])).toEqual([
      ["screen-1 2026-10-02  open", 2, undefined],
    ]);
    const stray =
      "2026-10-02\n  b3 result x-1 negative\n  b3 dose prazi 9 mg case x-1\n  b3 lose woworae 1 found case x-1\n";
    expect(cases(stray)).toEqual([]);
    expect(
      threadsUntil(logbookOf(tanks + stray).logbook, dayOf("2026-12-31")).strays.map(({ name }) => name),
    ).toEqual(["x-1", "x-1", "x-1"]);
  });

  test("takes in what names it above the signs of the same day", () => {
    const day = "2026-10-02\n  b3 lose woworae 1 found case c-1\n  b3 sick woworae 2 case c-1\n";
    expect(cases(day).map(({ entries }) => entries.length)).toEqual([2]);
  });

  test("holds what came after it was closed apart, and is not opened by it", () => {
    const late = `${outbreak}2026-11-20\n  h1 result flukes-1 positive "histology"\n`;
    expect(cases(late).map((each) => [shown(each), each.afterwards.length])).toEqual([
      ["flukes-1 2026-10-02 b3,h1 2026-11-02", 1],
    ]);
  });

  test("names a bath and a dose that are given for it", () => {
    const treated = `remedy salt
  target 1 g/L
${"2026-10-02\n  b3 sick woworae 2 case c-1\n  b3 bath woworae 2 with salt 15 g/L for 10 min case c-1\n  b3 dose salt 45 g case c-1\n"}`;
    expect(cases(treated)[0]!.entries.map(({ kind }) => kindOf(kind).word)).toEqual(["sick", "bath", "dose"]);
  });
});
