import { expect, test } from "vitest";
import type { TankCard, WaterCard } from "../../../extension/views/preview/shown.ts";
import { factsOf, isPressing, stopsOf } from "../../../extension/views/preview/water.ts";
import { logbookOf } from "../../support/marked.ts";
import { placedCard } from "./placed.ts";

const room = `room "Shed"
  as-of last-entry
water tap
  content nitrate 10 mg/L
tank dam
  volume 100 L
  limits nitrate <= 40 mg/L, pH 6.5..8
  every 7 d change 10 %
`;

/** One mg/L a day is made; a tenth is changed each week with water that holds ten. */
const rising = ["02-01", "02-08", "02-15", "02-22", "03-01"]
  .map(
    (day, at) =>
      `2026-${day}\n  dam test nitrate ${[15, 21.5, 27.35, 32.615, 37.3535][at]}\n  dam change 10 %\n`,
  )
  .join("");

function water(days: string, parameter: string): { card: TankCard; water: WaterCard } {
  const card = placedCard(logbookOf(room + days), "dam");
  return { card, water: card.water.find((each) => each.parameter === parameter)! };
}

test("what will be outside its limit before long presses, and so does what is outside now", () => {
  const ahead = water(rising, "nitrate");
  expect(isPressing(ahead.water, ahead.card.day)).toBe(true);
  const outside = water("2026-03-01\n  dam test pH 8.4\n", "pH");
  expect(isPressing(outside.water, outside.card.day)).toBe(true);
  const within = water("2026-03-01\n  dam test pH 7.2\n", "pH");
  expect(isPressing(within.water, within.card.day)).toBe(false);
  const untested = water('2026-03-01\n  dam note "a"\n', "pH");
  expect(isPressing(untested.water, untested.card.day)).toBe(false);
});

test("what follows is said in words: when the limit is met, what would hold it, what is made a day", () => {
  const facts = Object.fromEntries(factsOf(water(rising, "nitrate").water));
  expect(facts).toMatchObject({
    "meets its limit": "about 6 March",
    // 7 mg/L a week over 40 - 10.
    "a change that holds it": "23.3 % every 7 days",
    "in the long run at 10 % every 7 days": "80 mg/L before a change",
  });
  expect(facts["made a day"]).toMatch(/^1 mg\/L/);
});

test("of a parameter that does not mix nothing is computed, and nothing said", () => {
  expect(factsOf(water("2026-03-01\n  dam test pH 7.2\n", "pH").water)).toEqual([]);
});

test("the cursor stops at each reading, at today, and where the limit is met", () => {
  const { card, water: nitrate } = water(rising, "nitrate");
  const stops = stopsOf(card, nitrate);
  expect(stops.map(({ remark }) => remark)).toEqual([
    "",
    "",
    "",
    "",
    "",
    "computed for today",
    "meets its limit about 6 March",
  ]);
  expect(stops[0]!.at).toMatchObject({ uri: "log.tank", range: { start: { line: 9 } } });
  expect(stops[5]!.at).toBeNull();
});

test("a reading outside its limit says so where it is stopped at; one taken in a neighbour says where", () => {
  const { card, water: ph } = water("2026-03-01\n  dam test pH 8.4\n", "pH");
  expect(stopsOf(card, ph)[0]).toMatchObject({ text: "8.4", remark: "outside the limit" });
  const shared = { ...ph, readings: ph.readings.map((reading) => ({ ...reading, of: "r4" })) };
  expect(stopsOf(card, shared)[0]!.remark).toBe("outside the limit, tested in r4");
});
