import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { waterReport } from "../../language/cli/schema.ts";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

const plainDesk = { columns: 100, env: { NO_COLOR: "1" } };

const room = `room "Shed"
  capacity 5 tanks, 100 L
  flow drain 600 L/h, fill 400 L/h
  as-of last-entry
water tap "Mains"
  content KH 6 dKH, GH 12 dGH, temperature 12 C, chlorine 0.5 mg/L, chloramine 0.2 mg/L
water hot "Mains, hot"
  content KH 6 dKH, GH 12 dGH, temperature 52 C, chlorine 0.5 mg/L
water ro
  content KH 0 dKH, GH 0 dGH, temperature 12 C, chlorine 0 mg/L
water soft
  content KH 2 dKH, GH 6 dGH
  from tap, ro
  salts "CaCl2.2H2O"
tank dam
  volume 200 L
  every 7 d change 25..50 %
tank b1
  volume 100 L
  every 3 d change 20 L
tank b2
  volume 50 L
  every 7 d change 40 %
tank b3
  every 7 d change 40 %
`;
const log = `2026-03-01
  dam change 30 % flow
  dam test temperature 24
  b1 change 20 L from soft
  b2 change 40 % from dam
  b3 change 40 %
2026-03-08
  room note "x"
`;

const toldOf = async (text: string, ...words: string[]) => {
  const { status, out, err } = await atDesk(["water", "-", "--json", ...words], {
    ...plainDesk,
    input: text,
  });
  expect([status, err]).toEqual([0, ""]);
  return waterReport.parse(JSON.parse(out)).logbooks[0]!;
};
const shownOf = async (text: string, ...words: string[]): Promise<string> =>
  (await atDesk(["water", "-", ...words], { ...plainDesk, input: text })).out;

describe("standpipe water", () => {
  test("tells what each change takes, as the tank was changed last, and in what time", async () => {
    const { days } = await toldOf(room + log);
    const [dam, b1, b2, b3] = days[0]!.changes;
    // Both at once: 200 L x -ln(1 - 0.25) = 57.54 L, 200 L x ln 2 = 138.63 L; at the slower 400 L/h 8.63 min.
    expect(dam).toMatchObject({ at: "dam", method: "flow", source: "tap", isUsual: true, late: 0 });
    expect(dam!.litres!.low).toBeCloseTo(57.54, 2);
    expect(dam!.litres!.high).toBeCloseTo(138.63, 2);
    expect(dam!.minutes!.low).toBeCloseTo(8.63, 2);
    // One after the other: 20 L / 600 L/h + 20 L / 400 L/h = 2 + 3 min. Of every 3 days since the 1st, due on the 4th.
    expect(b1).toMatchObject({ method: "batch", source: "soft", late: 4, litres: { low: 20, high: 20 } });
    expect(b1!.minutes!.high).toBeCloseTo(5, 9);
    expect(b2).toMatchObject({ source: "dam", isFromTank: true, share: { low: 0.4, high: 0.4 } });
    expect(b3!.problem).toBe("the volume of b3 is not stated: volume, below tank b3");
    // Water of a tank is not prepared: 57.54 + 20 to 138.63 + 20.
    expect(days[0]!.litres!.low).toBeCloseTo(77.54, 2);
    expect(days[0]!.litres!.high).toBeCloseTo(158.63, 2);
  });

  test("tells of what a water is made, and what conditions it", async () => {
    const { days } = await toldOf(room + log);
    const [tap, ro, soft] = days[0]!.waters;
    // KH 2 of 6: a third of tap. Its GH is 4 then; 2 dGH are 0.35665 mmol/L of calcium, x 147.01 = 52.43 mg/L, x 20 L = 1.049 g.
    expect(soft).toMatchObject({ water: "soft", litres: { low: 20, high: 20 }, into: [] });
    expect(soft!.made!.isStated).toBe(true);
    expect(soft!.made!.parts.map(({ water, litres }) => [water, litres.low.toFixed(3)])).toEqual([
      ["tap", "6.667"],
      ["ro", "13.333"],
    ]);
    expect(soft!.made!.salts[0]!.grams.low).toBeCloseTo(1.049, 3);
    expect(ro).toMatchObject({ water: "ro", into: ["soft"], conditioner: null });
    // 57.54 + 6.67 = 64.20 L of 0.5 mg/L: 32.1 mg of chlorine, x 7.00 = 224.7 mg; the most 145.30 L: 508.6 mg.
    expect(tap!.conditioner!.thiosulfateMg.low).toBeCloseTo(224.7, 0);
    expect(tap!.conditioner!.thiosulfateMg.high).toBeCloseTo(508.6, 0);
    expect(tap!.direct!.low).toBeCloseTo(57.54, 2);
    const shown = await shownOf(room + log);
    expect(shown).toContain("tap: 64 to 145 L, of it 6.7 L for soft");
    expect(shown).toContain("ro: 13 L, for soft");
    // 0.2 mg/L as Cl2 x 14.007 / 70.90
    expect(shown).toContain("its chloramine leaves 0.0395 mg/L of ammonia as N in the new water");
    expect(shown).toContain("CaCl2.2H2O: 1.05 g, dissolved in soft");
    expect(shown).toContain("Take care: It has to be in before the fish meet the water.");
    expect(shown).toContain("78 to 159 L of 100 L a day");
    expect(shown).toContain("At the most more than the 100 L that the room states for a day.");
  });

  test("tells what unmatched water does to a tank, and the mix that matches it", async () => {
    const { days } = await toldOf(room + log);
    // (12 - 24) x 25 % = -3, x 50 % = -6; hot (24 - 12) / (52 - 12) = 30 % of what runs through.
    const { temperature } = days[0]!.changes[0]!;
    expect(temperature).toMatchObject({ tank: 24, read: "2026-03-01", source: 12 });
    expect(temperature!.change!.low).toBeCloseTo(-3, 9);
    expect(temperature!.change!.high).toBeCloseTo(-6, 9);
    expect(temperature!.mix).toMatchObject({ water: "hot" });
    expect(temperature!.mix!.share).toBeCloseTo(0.3, 9);
    expect(temperature!.mix!.litres.low).toBeCloseTo(0.3 * 57.54, 2);
    expect(await shownOf(room + log)).toContain("unmatched it cools the tank by 3 to 6 C");
    // Of Fahrenheit a difference of 3 to 6 C is 5.4 to 10.8 F.
    const f = (room + log)
      .replace("capacity", "units temperature F\n  capacity")
      .replace("temperature 24", "temperature 24 C");
    expect(await shownOf(f)).toContain("unmatched it cools the tank by 5.4 to 11 F");
  });

  test("tells the days after, each done when it falls due", async () => {
    const { days } = await toldOf(room + log, "--days", "8");
    const on = days.map(({ day, changes }) => `${day.slice(8)} ${changes.map(({ at }) => at).join(" ")}`);
    expect(on).toEqual(["08 dam b1 b2 b3", "09 ", "10 ", "11 b1", "12 ", "13 ", "14 b1", "15 dam b2 b3"]);
    const still = room.replaceAll("tank dam\n", "tank dam\n  until 2026-03-10\n");
    const later = await toldOf(still + log, "--days", "8");
    expect(later.days[7]!.changes.map(({ at }) => at)).toEqual(["b2", "b3"]);
  });

  test("a change that a course owes goes before the smaller of a duty", async () => {
    const course = `remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
  change-before 60 %
`;
    const { days } = await toldOf(`${room}${course}${log.replace("  b1", "  b1 dose prazi 2 mg/L\n  b1")}`);
    const b1 = days[0]!.changes.find(({ at }) => at === "b1")!;
    expect(b1.act).toMatch(/^change 20 L, and change \d+ % before the next dose of prazi$/);
    expect(b1.litres!.low).toBeGreaterThan(20);
  });

  test("says what is not stated, and where to state it", async () => {
    const bare = `tank dam\n  volume 100 L\n  every 7 d change 30 %\n2026-03-01\n  dam change 30 %\n`;
    const { notStated, days, capacity } = await toldOf(bare, "--as-of", "2026-03-08");
    expect(capacity).toBeNull();
    expect(days[0]!.changes[0]).toMatchObject({ source: "", minutes: null, litres: { low: 30, high: 30 } });
    expect(notStated).toEqual([
      "what goes in: water tap, and below it its content: content KH 5 dKH, GH 9 dGH, temperature 14 C",
      "how fast water runs: flow drain 600 L/h, fill 400 L/h, below the room",
      "how much water a day may take: capacity 400 L, below the room",
      "how warm dam is: dam test temperature 24.6, under a day",
    ]);
    const tap = `water tap\n  content KH 5 dKH\n${bare}`;
    expect((await toldOf(tap, "--as-of", "2026-03-08")).notStated).toEqual([
      "how fast water runs: flow drain 600 L/h, fill 400 L/h, below the room",
      "how much water a day may take: capacity 400 L, below the room",
      "how warm tap is: content temperature 14 C, below water tap",
      "chlorine of tap, so that no conditioner is reckoned: content chlorine 0.2 mg/L, 0 where there is none, below water tap",
      "how warm dam is: dam test temperature 24.6, under a day",
    ]);
  });

  test("a water that lies between two others may be made of them; of what is stated it is said why it cannot", async () => {
    const inferred = room.replace("  from tap, ro\n", "").replace("GH 6 dGH\n  salts", "GH 4 dGH\n  salts");
    const { days, notStated } = await toldOf(inferred + log);
    const soft = days[0]!.waters.find(({ water }) => water === "soft")!;
    expect(soft.made).toMatchObject({ isStated: false, salts: [] });
    expect(soft.made!.parts.map(({ water }) => water)).toEqual(["tap", "ro"]);
    expect(notStated).toContain("of what soft is made: from tap, ro, below water soft");
    const shown = await shownOf(room.replace("CaCl2.2H2O", "pixie dust") + log);
    expect(shown).toContain("soft cannot be made as it is stated: salts: “pixie dust” is no formula");
    const over = await shownOf(room.replace("KH 2 dKH", "KH 9 dKH") + log);
    expect(over).toContain("KH 9 dKH is stated and not reached");
    // Made of each other: told once each, not for ever.
    const round = room.replace("water ro\n", "water ro\n  from soft\n");
    expect((await toldOf(round + log)).days[0]!.waters.map(({ water }) => water)).toEqual([
      "tap",
      "ro",
      "soft",
    ]);
  });

  test("a flow that a duty names is what runs through", async () => {
    const text = `tank dam\n  volume 100 L\n  every 7 d change 50 % flow\n2026-03-01\n  dam change 50 % flow\n`;
    const { days } = await toldOf(text, "--as-of", "2026-03-08");
    // 1 - exp(-0.5) = 39.35 %
    expect(days[0]!.changes[0]).toMatchObject({ method: "flow", litres: { low: 50, high: 50 } });
    expect(days[0]!.changes[0]!.share!.low).toBeCloseTo(0.3935, 4);
    const all = text.replace("change 50 % flow\n2026", "change 100 %\n2026");
    expect((await toldOf(all, "--as-of", "2026-03-08")).days[0]!.changes[0]!.problem).toBe(
      "a flow never replaces all of the water",
    );
  });

  test("without a change says how one is made a duty", async () => {
    expect(await shownOf("tank dam\n  volume 100 L\n")).toContain("No change is due in these days.");
  });

  test("tells the sample, in every form", async () => {
    const { out } = await atDesk(["water", cellar], { ...plainDesk, columns: 80 });
    expect(out).toContain("14 to 32 L of 420 L a day");
    expect(out).toMatch(/b5, q1 +tap 16 to 32 L, soft 5\.4 to 12 L +21 to 44 L/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    const { out: page } = await standpipe(["water", cellar, "--format", "html"]);
    expect(page).toMatch(/^<!DOCTYPE html>/);
    const { out: markdown } = await standpipe(["water", cellar, "--format", "markdown"]);
    expect(markdown).toMatch(/^# Water to prepare\n/);
  });

  test("says what is wrong with a call", async () => {
    const { status, err } = await atDesk(["water", "--days", "0"], {
      ...plainDesk,
      cwd: folderOf({ "room.tank": room }),
    });
    expect([status, err.trim()]).toEqual([
      2,
      "standpipe: --days takes a whole number of days from 1 to 92, not “0”",
    ]);
  });
});

test("whatever the figures: the least is not more than the most, shares are whole, parts add up", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 1, max: 100 }),
      fc.integer({ min: 0, max: 100 }),
      fc.constantFrom("batch", "flow"),
      fc.constantFrom("tap", "hot", "ro", "soft", "dam", "none"),
      fc.integer({ min: 0, max: 20 }),
      async (low, more, method, source, hardness) => {
        const text = room
          .replace("change 20 L", `change ${low}..${Math.min(100, low + more)} %`)
          .replace("GH 6 dGH", `GH ${hardness} dGH`);
        const { days } = await toldOf(text + log.replace("20 L from soft", `20 L ${method} from ${source}`));
        for (const { changes, waters } of days) {
          for (const { litres, share, problem } of changes) {
            expect(litres === null).toBe(problem !== "");
            if (litres === null) continue;
            expect(litres.low).toBeLessThanOrEqual(litres.high + 1e-9);
            expect(share!.high).toBeLessThanOrEqual(1 + 1e-9);
          }
          for (const { made, litres } of waters)
            if (made !== null)
              expect(made.parts.reduce((sum, part) => sum + part.litres.high, 0)).toBeCloseTo(litres.high, 6);
        }
      },
    ),
    { numRuns: 60 },
  );
});
