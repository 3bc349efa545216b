import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { type ExposureAsked, exposureCard, openExposures } from "../../language/features/exposure-card.ts";
import type { ExposureCard } from "../../language/features/exposure-cards.ts";
import { lastDay, logbookOf } from "../support/marked.ts";

const room = `room "Cellar"
  trace 30 d
species praecox
system rack-water
  sump 20 L
tank a
  volume 100 L
tank b
  volume 60 L
tank c
  volume 60 L
tank r1
  volume 20 L
  system rack-water
tank r2
  volume 20 L
  system rack-water
`;

function cardOf(days: string, name = "w-1", asked?: ExposureAsked): ExposureCard | undefined {
  const checked = logbookOf(room + days);
  return exposureCard(checked, { is: "case", name }, lastDay(checked), asked);
}

const held = (card: ExposureCard): string[] =>
  card.hold.map(({ tank, kind, why }) => `${tank} (${kind}): ${why}`);
const sick = "2026-03-20\n  a sick praecox 2 of 9 case w-1\n";

describe("the card of an exposure", () => {
  test("has the tanks to hold in order: signs, animals, water, things, tools; then links, then days", () => {
    const card = cardOf(`2026-03-10
  a clean with net
  b clean with net
2026-03-11
  a carry wood -> c
2026-03-12
  a move praecox 1 -> r1
${sick}`)!;
    expect(held(card)).toEqual([
      "a (signs): first signs on 20 March",
      "r1 (animals): praecox moved from a to r1, 12 March",
      "r2 (water): shares the water of r1; praecox moved from a to r1, 12 March",
      "c (plants, wood, media): wood from a into c, 11 March",
      "b (tools): net used in b, 10 March (a > net > b)",
    ]);
    expect(card.tools.map(({ name }) => name)).toEqual(["net"]);
  });

  test("tells by what a tank is held, and by what it was reached first", () => {
    const card = cardOf(`2026-03-10
  a clean with net
  b clean with net
2026-03-12
  a move praecox 1 -> b
${sick}`)!;
    expect(held(card)[1]).toBe(
      "b (animals): praecox moved from a to b, 12 March; first net used in b, 10 March",
    );
  });

  test("tells of tanks that share the water of the sick one, and of what came in by another of them", () => {
    const card = cardOf(`2026-03-10
  b move praecox 2 -> r2
2026-03-20
  r1 sick praecox 2 of 9 case w-1
2026-03-21
  r2 move praecox 1 -> c
`)!;
    expect(held(card)).toEqual([
      "r1 (signs): first signs on 20 March",
      "r2 (water): shares the water of r1",
      "c (water): praecox moved from r2 to c, 21 March (r1 > r2 > c)",
    ]);
    expect(card.back.map(({ name, path }) => `${name}: ${path}`)).toEqual(["b: b > r2 > r1"]);
  });

  test("names who may have sent back what they bought, and not who only sold", () => {
    const card = cardOf(`2026-03-10
  b sell praecox 1 to "a neighbour"
2026-03-12
  a arrive praecox 1 from "a neighbour"
  a arrive praecox 5 from "river nursery"
${sick}`)!;
    expect(card.back.map(({ name, is }) => `${name} ${is}`)).toEqual([
      "arrival of “river nursery”, 12 March consignment",
      "arrival of “a neighbour”, 12 March consignment",
      "“a neighbour” party",
      "b tank",
    ]);
  });

  test("does not name a tool that was nowhere else before", () => {
    expect(cardOf(`2026-03-10\n  a clean with net\n${sick}`)!.back).toEqual([]);
    expect(
      cardOf(`2026-03-10\n  b clean with net\n  a clean with net\n${sick}`)!.back.map(({ name }) => name),
    ).toEqual(["net", "b"]);
  });

  test("tells what was ended at all that it names, also before the first sign", () => {
    const card = cardOf(`2026-03-05
  a disinfect with "chlorine"
2026-03-10
  a move praecox 1 -> b
2026-03-12
  b lose praecox 1 culled
  b change 100 %
2026-03-13
  c disinfect
${sick}`)!;
    expect(card.cuts.map(({ text }) => text)).toEqual([
      "a disinfected on 5 March",
      "b emptied and refilled on 12 March; what lives in filter and gravel may outlast that",
    ]);
    expect(card.ended).toMatchObject([{ tank: "b", since: dayOf("2026-03-10"), ended: dayOf("2026-03-12") }]);
    expect(card.hold.map(({ tank, since }) => [tank, since])).toEqual([["a", dayOf("2026-03-05")]]);
  });

  test("tells apart what was not reached again for longer than the window", () => {
    const card = cardOf(`2026-03-10\n  a move praecox 1 -> b\n${sick}2026-04-15\n  a move praecox 1 -> c\n`)!;
    expect(card.hold.map(({ tank }) => tank)).toEqual(["a", "c"]);
    expect(card.past.map(({ tank }) => tank)).toEqual(["b"]);
  });

  test("is plain JSON", () => {
    const card = cardOf(`2026-03-10\n  a move praecox 1 -> r1\n${sick}`)!;
    expect(JSON.parse(JSON.stringify(card))).toEqual(card);
  });

  test("is of the latest opening of a case, and there is none where there is nothing to begin at", () => {
    const days = `2026-01-10
  b sick praecox 1 case w-1
2026-01-12
  b close w-1 recovered
${sick}`;
    expect(cardOf(days)!.origins.map(({ place }) => place)).toEqual(["a"]);
    expect(cardOf(days, "w-2")).toBeUndefined();
    expect(cardOf(days, "w-1", { days: Number.NaN, by: "result" })).toBeUndefined();
    expect(cardOf("2026-03-10\n  a sample gill 2 case w-1\n")).toBeUndefined();
  });

  test("is made of each open case, and of fresh signs without one", () => {
    const checked = logbookOf(`${room}2026-03-01
  b sick praecox 1
2026-03-18
  c sick praecox 1
${sick}`);
    expect(openExposures(checked, lastDay(checked)).map(({ title }) => title)).toEqual([
      "Signs of disease in c",
      "Case w-1",
    ]);
  });

  test("of a tank that is asked for begins at the end of the day, and there is none of tomorrow", () => {
    const checked = logbookOf(`${room}2026-03-10\n  b move praecox 1 -> a\n  a note x\n`);
    const station = checked.book.tank("a")!;
    const day = dayOf("2026-03-10");
    const card = exposureCard(checked, { is: "station", station, day }, day)!;
    expect(card.back.map(({ name }) => name)).toEqual(["b"]);
    expect(exposureCard(checked, { is: "station", station, day: day + 1 }, day)).toBeUndefined();
  });
});
