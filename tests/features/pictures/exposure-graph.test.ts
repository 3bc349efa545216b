import { describe, expect, test } from "vitest";
import { dayOf } from "../../../language/book/dates.ts";
import { exposureCard } from "../../../language/features/exposure-card.ts";
import type { ExposureCard } from "../../../language/features/exposure-cards.ts";
import { exposureGraph } from "../../../language/features/pictures/exposure-graph.ts";
import { lastDay, logbookOf } from "../../support/marked.ts";

const room = `species praecox
system rack-water
  sump 20 L
tank a
  volume 100 L
tank b
  volume 60 L
tank r1
  volume 20 L
  system rack-water
tank r2
  volume 20 L
  system rack-water
`;

function cardOf(days: string, tanks = ""): ExposureCard {
  const checked = logbookOf(room + tanks + days);
  return exposureCard(checked, { is: "case", name: "w-1" }, lastDay(checked))!;
}

const sick = "2026-03-20\n  a sick praecox 2 of 9 case w-1\n";
const all = `2026-03-09
  b sell praecox 1 to "x <b> & \\"y\\""
2026-03-10
  b arrive praecox 4 from "river nursery"
  b move praecox 2 -> a with net
  a change 10 % barrel b-12
  b change 10 % from a
  a carry wood -> r1
  r2 sell praecox 1 to "x <b> & \\"y\\""
  room disinfect net
${sick}`;

/** Every number of the drawing that is a place. */
const places = (svg: string): number[] =>
  [...svg.matchAll(/ (?:x|y|cx|cy|d)="([^"]*)"/g)].flatMap(([, said]) =>
    (said!.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number),
  );

describe("the picture of an exposure", () => {
  test("has a lane for each name, and an arrow for each contact, told by dashes and letter", () => {
    const card = cardOf(all);
    const { svg } = exposureGraph(card);
    expect(card.lanes.map(({ name, is }) => `${name} ${is}`)).toEqual([
      "arrival of “river nursery”, 10 March consignment",
      "barrel b-12 barrel",
      "b tank",
      "a tank",
      "r1 tank",
      "r2 tank",
      '“x <b> & "y"” party',
      "net tool",
    ]);
    expect(svg.match(/<g class="lane /g)).toHaveLength(card.lanes.length);
    expect(svg.match(/<g class="arrow /g)).toHaveLength(card.arrows.length);
    // Each kind has its own letter and its own dashes.
    const looks = new Map<string, Set<string>>();
    for (const [, kind, drawn] of svg.matchAll(/<g class="arrow (\w+) \w+">(.*?)<\/g>/g)) {
      const look = `${/stroke-dasharray="([^"]*)"/.exec(drawn!)?.[1] ?? "-"} ${/>(\w)<\/text>/.exec(drawn!)?.[1]}`;
      looks.set(kind!, (looks.get(kind!) ?? new Set()).add(look));
    }
    expect([...looks.keys()].sort()).toEqual(["animals", "barrel", "shared", "things", "tool", "water"]);
    expect([...looks.values()].every((each) => each.size === 1)).toBe(true);
    expect(new Set([...looks.values()].flatMap((each) => [...each])).size).toBe(looks.size);
    // And none is told by a colour.
    expect(svg).not.toMatch(/(?:stroke|fill)="(?!none|currentColor)/);
  });

  test("names what comes from a log as text", () => {
    const { svg, alt } = exposureGraph(cardOf(all));
    expect(svg).not.toContain("<b>");
    expect(svg).toContain("&#60;b&#62;");
    expect(alt).toContain("May have reached: ");
    expect(alt).toContain("a: first signs on 20 March.");
  });

  test("stands alone on a ground of its own", () => {
    const { svg } = exposureGraph(cardOf(all), true);
    expect(svg).toContain('fill="#ffffff"');
    expect(svg).toContain(' color="#1b1b1b"');
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
  });

  test("is drawn where nothing was reached, and says so", () => {
    const { svg, alt } = exposureGraph(cardOf(sick));
    expect(svg.match(/<g class="lane /g)).toHaveLength(1);
    expect(alt).toContain("Nothing else was reached. No contact leads to it.");
  });

  test("stays within its frame with many lanes", () => {
    const tanks = Array.from({ length: 24 }, (_, at) => `tank t${at}\n  volume 10 L\n`).join("");
    const moves = Array.from({ length: 24 }, (_, at) => `  a move praecox 1 -> t${at}\n`).join("");
    const card = cardOf(`2026-03-19\n${moves}${sick}`, tanks);
    expect(card.lanes).toHaveLength(25);
    const { svg } = exposureGraph(card);
    const height = Number(/ height="(\d+)"/.exec(svg)![1]);
    const drawn = svg.slice(0, svg.indexOf('<g class="legend">'));
    expect(Math.max(...places(drawn))).toBeLessThanOrEqual(Math.max(900, height));
    expect(Math.min(...places(drawn))).toBeGreaterThanOrEqual(0);
    // What went at once is one trunk with a head for each.
    const trunks = [...svg.matchAll(/<circle cx="([\d.]+)"/g)].map(([, at]) => at);
    expect([trunks.length, new Set(trunks).size]).toEqual([24, 1]);
  });

  test("begins with the days that are looked at", () => {
    const card = cardOf(all);
    expect([card.from, card.day]).toEqual([dayOf("2026-02-18"), dayOf("2026-03-20")]);
    expect(exposureGraph(card).svg).toContain(">18 Feb<");
  });
});
