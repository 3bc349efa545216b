import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import type { TankCard } from "../../language/features/cards.ts";
import { tankCard } from "../../language/features/tank-card.ts";
import { cellarView } from "../support/cellar.ts";
import { logbookOf } from "../support/marked.ts";

const room = `room "Shed"
  units temperature F
  as-of last-entry
water tap
  content nitrate 10 mg/L
system shared "Two on one sump"
  sump 40 L
tank r1 "Left"
  volume 30 L
  system shared
tank r2 "Right"
  volume 30 L
  system shared
tank dam "Show tank"
  inside 100 x 50 x 50 cm; filled 40 cm
  role show
  place "left wall"
  limits nitrate <= 40 mg/L, temperature 73..81 F
  every 7 d change 30 %
  at most 2 per 7 d feed dry
  note "heater on the left"
gear canister
  on dam
  every 28 d service
food flake
  kind dry
species horn "Horned nerite"
  kind snail
remedy prazi
  target 2 mg/L
  ceiling 5 mg/L
  repeat 3 times every 7 d
  change-before 25 %
  half-life 3 d
`;

function cardOf(days: string, name = "dam"): TankCard {
  const checked = logbookOf(room + days);
  return tankCard(checked, checked.book.stations.find((each) => each.name === name)!, 0);
}

const waterOf = (card: TankCard, parameter: string) =>
  card.water.find((each) => each.parameter === parameter)!;

test("a tank says what it is", () => {
  expect(cardOf('2026-03-01\n  dam note "filled"')).toMatchObject({
    is: "tank",
    name: "dam",
    title: "Show tank",
    day: dayOf("2026-03-01"),
    role: "show",
    place: "left wall",
    note: "heater on the left",
    volumeL: 200,
    system: null,
  });
});

describe("water", () => {
  test("readings are in the room's unit, censored ones with all that they may be", () => {
    const card = cardOf(
      "2026-03-01\n  dam test temperature 77, nitrate <5\n2026-03-02\n  dam test nitrate >100\n",
    );
    expect(waterOf(card, "temperature").readings).toMatchObject([
      { low: 77, high: 77, text: "77 F", isOutside: false },
    ]);
    expect(waterOf(card, "nitrate").readings).toMatchObject([
      { low: 0, high: 5, text: "<5 mg/L", isOutside: false },
      { low: 100, high: null, text: ">100 mg/L", isOutside: true },
    ]);
    expect(waterOf(card, "temperature").limit).toMatchObject({ text: "73..81 F", by: "tank dam" });
    expect(waterOf(card, "temperature").limit!.low).toBeCloseTo(73, 9);
  });

  test("a limit without a reading has its card too; what is neither limited nor tested has none", () => {
    const card = cardOf("2026-03-01\n  dam test KH 4\n");
    expect(card.water.map(({ parameter }) => parameter)).toEqual(["temperature", "nitrate", "KH"]);
  });

  test("where it heads: what is made a day, the day the limit is met, the level in the long run", () => {
    // One mg/L a day is made; a tenth is changed each week with water that holds ten.
    const rising = [15, 21.5, 27.35, 32.615, 37.3535].map(
      (nitrate, week) => `${iso("2026-02-01", 7 * week)}\n  dam test nitrate ${nitrate}\n  dam change 10 %\n`,
    );
    const nitrate = waterOf(cardOf(rising.join("")), "nitrate");
    expect(nitrate.production!.best).toBeCloseTo(1, 3);
    // 34.6 after the change of 1 March, one more by its end; the limit of 40 is met before the change of 8 March.
    expect(nitrate.level!.best).toBeCloseTo(35.62, 2);
    expect(nitrate.crossing).toMatchObject({ day: dayOf("2026-03-06"), text: "about 6 March" });
    expect(nitrate.regular).toMatchObject({ everyDays: 7, fraction: 0.3, text: "30 % every 7 days" });
    expect(nitrate.regular!.steady).toBeCloseTo(10 + 7 / 0.3, 2);
    // 7 / (40 - 10) each week is less than what is stated.
    expect(nitrate.holdingText).toBe("");
    expect(nitrate.course.at(-1)!.value).toBe(nitrate.level!.best);
    expect(nitrate.ahead[0]!.best).toBe(nitrate.level!.best);
    expect(nitrate.why!.what).toBe("nitrate today");
  });

  test("too few readings make no production, and the card says so", () => {
    const nitrate = waterOf(cardOf("2026-03-01\n  dam test nitrate 20\n"), "nitrate");
    expect(nitrate).toMatchObject({ production: null, level: null, crossing: null, course: [], ahead: [] });
    expect(nitrate.productionUnknown).toBe("too few readings: 1 of 4");
  });

  test("what hardly moves is next to nothing", () => {
    const steady = [0, 7, 14, 21, 28].map((days) => `${iso("2026-02-01", days)}\n  dam test KH 5\n`);
    const hardness = waterOf(cardOf(steady.join("")), "KH");
    expect(hardness.production).toBeNull();
    expect(hardness.productionUnknown).toBe("Next to nothing is made or used up");
  });

  test("changes and top-ups of the last year, with their share and litres", () => {
    const card = cardOf("2025-01-01\n  dam change 50 %\n2026-03-01\n  dam change 30 %\n  dam top-up 4 L\n");
    expect(card.changes).toMatchObject([
      { fraction: 0.3, litres: 60, text: "30 %, 60 L" },
      { fraction: 0, litres: 4, text: "topped up, 4 L" },
    ]);
  });
});

describe("tanks that share water", () => {
  const days =
    "2026-03-01\n  r1 test nitrate 20\n  r2 count horn 3\n  r1 count horn 2\n  shared change 20 L\n";

  test("show one water, and say where a test was taken", () => {
    const card = cardOf(days, "r2");
    expect(card.system).toMatchObject({ name: "shared", volumeL: 100, tanks: ["r1", "r2"] });
    expect(waterOf(card, "nitrate").readings).toMatchObject([{ of: "r1" }]);
    expect(card.changes).toMatchObject([{ fraction: 0.2, litres: 20 }]);
    expect(card.residents).toMatchObject([{ species: "horn", animals: 3, of: "r2" }]);
  });

  test("the system has a card of its own, with all that lives in it", () => {
    const card = cardOf(days, "shared");
    expect(card).toMatchObject({ name: "shared", role: "system", volumeL: 100 });
    expect(card.residents.map(({ of, text }) => `${of} ${text}`)).toEqual(["r2 3", "r1 2"]);
  });

  test("of several limits of its tanks the system bears the strictest", () => {
    const limited = logbookOf(
      `${room}tank r3\n  volume 30 L\n  system shared\n  limits nitrate <= 15 mg/L\ngroup both = r1, r2\n  limits nitrate <= 30 mg/L\n${days}`,
    );
    const limitOf = (name: string) => {
      const station = limited.book.stations.find((each) => each.name === name)!;
      return waterOf(tankCard(limited, station, 0), "nitrate").limit!.text;
    };
    expect(limitOf("shared")).toBe("at most 15 mg/L");
    expect(limitOf("r1")).toBe("at most 30 mg/L");
  });
});

test("a remedy: its course by dilution and half-life, and the dose that is next", () => {
  const card = cardOf(
    '2026-03-01\n  dam dose prazi 400 mg\n2026-03-04\n  dam change 50 %\n2026-03-05\n  dam note "eats"\n',
  );
  const [prazi] = card.remedies;
  expect(prazi).toMatchObject({ name: "prazi", unit: "mg/L", ceiling: 5, target: { low: 2, high: 2 } });
  expect(prazi!.doses).toMatchObject([{ after: 2 }]);
  // Three days are a half-life, then half is changed, then two days more: 2 / 2 / 2 * 2^(-2/3).
  expect(prazi!.now).toBeCloseTo(0.5 * 2 ** (-2 / 3), 5);
  const at = dayOf("2026-03-04");
  const around = prazi!.course.filter(({ time }) => Math.abs(time - at) < 1e-3).map(({ value }) => value);
  expect(Math.max(...around)).toBeCloseTo(1, 5);
  expect(Math.min(...around)).toBeCloseTo(0.5, 5);
  expect(prazi!.next).toMatchObject({ number: 2, of: 3, day: dayOf("2026-03-08"), changeOwed: 0 });
  expect(prazi!.caution).toContain("veterinarian");
});

test("residents by the book, estimates marked, with the day they were counted", () => {
  const card = cardOf("2026-03-01\n  dam count horn ~20\n2026-03-02\n  dam lose horn 1\n");
  expect(card.residents).toMatchObject([
    { species: "horn", title: "Horned nerite", text: "~19", isAbout: true, counted: dayOf("2026-03-01") },
  ]);
});

test("duties of the tank and its gear, the latest first", () => {
  const card = cardOf(
    '2026-03-01\n  dam change 30 %\n  dam service canister\n  dam feed flake\n2026-03-10\n  dam note "away"\n',
  );
  expect(card.duties.map(({ of, act, text }) => `${of} ${act}: ${text}`)).toEqual([
    "dam change 30 %: 2 days late",
    "canister service: in 19 days",
    "dam feed dry: 0 of 2",
  ]);
  expect(card.duties[0]).toMatchObject({
    late: 2,
    due: dayOf("2026-03-08"),
    form: "every",
    when: "every 7 days",
  });
});

test("findings about the tank and its water, the gravest first; none about its neighbours", () => {
  const card = cardOf("2026-03-01\n  dam test nitrate 60\n  dam test pH 72\n  r1 test pH 72\n");
  expect(card.findings.map(({ code, severity }) => [code, severity])).toEqual([
    ["value/impossible", "error"],
    ["limit/above", "warning"],
  ]);
});

test("a card of any tank of the sample is plain JSON: nothing is lost on a wire", () => {
  const { checked, worldDay } = cellarView("room.tank");
  for (const tank of checked.book.tanks) {
    const card = tankCard(checked, tank, worldDay);
    expect(JSON.parse(JSON.stringify(card))).toEqual(card);
  }
});

const iso = (from: string, days: number): string =>
  new Date((dayOf(from) + days) * 86_400_000).toISOString().slice(0, 10);
