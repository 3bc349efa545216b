import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Inputs } from "../published/inputs.ts";
import { answerOf, asked, plain } from "./asked.ts";
import { holdRows, type Scaled } from "./held.ts";

const percent = (share: number): string => `${plain(100 * share)} %`;
const level = (given: Inputs, key: string): string => `${given.text(key)} mg/L`;

const equalChanges = (given: Inputs, figure: string): Scaled => ({
  calculation: "change",
  texts: {
    level: given.has("C0_mg_L") ? level(given, "C0_mg_L") : "1 mg/L",
    source: given.has("Cin_mg_L") ? level(given, "Cin_mg_L") : "0",
    change: percent(given.number("fraction")),
    count: given.text("n"),
  },
  figure,
});

/** By litres with a flow and a time, or in turnovers of any tank. */
function replaced(given: Inputs): Record<string, string> {
  if (given.has("Qt_over_V"))
    return { volume: "100 L", litres: `${plain(100 * given.number("Qt_over_V"))} L` };
  const flow = given.has("Q_L_min") ? `${given.text("Q_L_min")} L/min` : `${given.text("Q_L_h")} L/h`;
  const time = given.has("t_min") ? `${given.text("t_min")} min` : `${given.text("t_h")} h`;
  return { volume: `${given.text("V_L")} L`, flow, time };
}

/** Top-ups of a tenth are 10 L of 100. */
const ofHundred = (share: number): string => `${plain(100 * share)} L`;

holdRows(
  /(08|14)-[a-z-]+\.csv$/,
  {
    washout_time_min: (given) => ({
      calculation: "washout",
      texts: { removed: percent(given.number("removed_fraction")), exchanges: given.text("exchanges_per_h") },
      figure: "time",
    }),
    flow_through_fraction_replaced: (given) => ({
      calculation: "flow-through",
      texts: replaced(given),
      figure: "share",
    }),
    // What is left of a level of 1 when the water run in holds none.
    washout_remaining_at_tau: (given) => ({
      calculation: "change",
      texts: { level: "1 mg/L", change: percent(given.number("Qt_over_V")), how: "flow-through" },
      figure: "after",
      times: 1,
    }),
    flow_from_half_life: (given) => ({
      calculation: "flow-through",
      texts: { volume: `${given.text("V_m3")} m3`, share: "50 %", time: `${given.text("t_half_h")} h` },
      figure: "flow",
    }),
    batch_change_series_conc: (given) => equalChanges(given, "after"),
    batch_series_fraction_new: (given) => equalChanges(given, "new"),
    batch_changes_needed: (given) => ({
      calculation: "change-to-reach",
      texts: {
        level: level(given, "C0_mg_L"),
        target: level(given, "Ctarget_mg_L"),
        source: level(given, "Cin_mg_L"),
        change: percent(given.number("fraction")),
      },
      figure: "changes",
    }),
    periodic_change_steady_state: (given) => ({
      calculation: "steady",
      texts: {
        rise: `${given.text("rise_per_period_mg_L")} mg/L/d`,
        every: "1 d",
        change: percent(given.number("fraction")),
        source: level(given, "Cin_mg_L"),
      },
      figure: given.text("sample"),
    }),
    // In 24 L a milligram an hour is a milligram a litre a day.
    continuous_steady_state: (given) => ({
      calculation: "steady-flow",
      texts: {
        rise: `${given.text("load_mg_h")} mg/L/d`,
        volume: "24 L",
        flow: `${given.text("Q_L_h")} L/h`,
        source: level(given, "Cin_mg_L"),
      },
      figure: "at-rest",
    }),
    conc_after_evaporation: (given) => ({
      calculation: "evaporation",
      texts: {
        volume: `${given.text("V0_L")} L`,
        lost: `${plain(given.number("V0_L") - given.number("V_L"))} L`,
        level: level(given, "C0_mg_L"),
      },
      figure: "now",
    }),
    conc_after_topoff: (given) => ({
      calculation: "top-up",
      texts: {
        level: level(given, "C0_mg_L"),
        volume: "100 L",
        litres: ofHundred(given.number("evap_fraction_per_cycle")),
        "top-up": level(given, "Ctopoff_mg_L"),
        count: given.text("n"),
      },
      figure: "after",
    }),
    steady_state_with_topoff_and_changes: (given) => ({
      calculation: "top-up",
      texts: {
        level: "0",
        volume: "100 L",
        litres: ofHundred(given.number("evap_fraction_per_period")),
        "top-up": level(given, "Cin_mg_L"),
        source: level(given, "Cin_mg_L"),
        change: percent(given.number("change_fraction")),
      },
      figure: given.text("sample") === "before_change" ? "rest-before" : "rest-after",
    }),
    cycles_from_ppm: (given) => ({
      calculation: "evaporation",
      texts: {
        volume: "100 L",
        lost: "0",
        level: `${given.text("C_system")} mg/L`,
        fill: `${given.text("C_makeup")} mg/L`,
      },
      figure: "times",
    }),
    // The rows are of an hour of a cooling tower, in gallons: the same of litres.
    blowdown: (given) => ({
      calculation: "evaporation",
      texts: { volume: "1000000 L", lost: `${given.text("evap")} L`, cycles: given.text("cycles") },
      figure: "drain",
    }),
  },
  // A molarity, a cooling tower by its load, a year of it.
  ["dilution_c1v1", "evaporation_gph", "makeup_per_year"],
);

const amount = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
const figure = (name: string, texts: Record<string, string>, of: string): number =>
  asked(name, texts, of).best!;

describe("two sides of one question", () => {
  it("the change at once brings the level there, with the water's own content", () => {
    fc.assert(
      fc.property(amount(20, 200), amount(0, 9), amount(10, 19), (now, source, target) => {
        const levels = { level: plain(now), source: plain(source) };
        const change = figure("change-to-reach", { ...levels, target: plain(target) }, "at-once");
        expect(figure("change", { ...levels, change: plain(change) }, "after")).toBeCloseTo(target, 8);
      }),
    );
  });

  it("a row of equal changes is so many changes, and a run of half changes is a half-life each", () => {
    const row = { steps: "30 %, 30 %, 30 %", volume: "54 L", level: "80", source: "10" };
    const three = { level: "80", source: "10", change: "30 %", count: "3" };
    expect(figure("dilution", row, "after-3")).toBeCloseTo(figure("change", three, "after"), 12);
    const decay = { steps: "dose 4 mg/L, 20 d", volume: "54 L", "half-life": "10 d" };
    expect(figure("dilution", decay, "after-2")).toBeCloseTo(1, 12);
  });

  it("changes and days a hundred times over come to the steady level", () => {
    const steps = Array.from({ length: 100 }, () => "7 d, 25 %").join(", ");
    const after = figure("dilution", { steps, volume: "54 L", made: "1", source: "5" }, "after-200");
    const held = { rise: "1", every: "7 d", change: "25 %", source: "5" };
    expect(after).toBeCloseTo(figure("steady", held, "after"), 6);
  });

  it("a change that holds a limit holds it, and one that is a tenth smaller does not", () => {
    fc.assert(
      fc.property(amount(0.2, 2), amount(2, 10), (rise, every) => {
        const tank = { rise: plain(rise), every: `${plain(every)} d` };
        const holds = figure("steady", { ...tank, limit: "40", change: "50 %" }, "holds");
        const days = (change: number) =>
          figure("limit-day", { ...tank, level: "0", limit: "40", change: plain(change) }, "with-changes");
        expect(days(holds * 1.001)).toBe(Number.POSITIVE_INFINITY);
        expect(days(holds * 0.9)).toBeLessThan(3653);
      }),
    );
  });

  it("hot and cold water mixed as told are as warm as wanted", () => {
    fc.assert(
      fc.property(amount(40, 65), amount(2, 18), amount(20, 30), (hot, cold, wanted) => {
        const share = figure(
          "hot-and-cold",
          { hot: plain(hot), cold: plain(cold), wanted: plain(wanted) },
          "hot-share",
        );
        const bucket = { temperature: plain(cold), source: plain(hot), change: plain(share) };
        expect(figure("mix-temperature", bucket, "after")).toBeCloseTo(wanted, 8);
      }),
    );
  });

  it("what evaporates and is topped up with pure water is as it was", () => {
    const lost = figure("evaporation", { volume: "60 L", lost: "6 L", level: "300" }, "now");
    expect(lost).toBeCloseTo(300 / 0.9, 9);
    const filled = { level: "300", volume: "60 L", litres: "6 L", "top-up": "0" };
    expect(figure("top-up", filled, "after")).toBe(300);
  });
});

describe("a change that cannot reach a level", () => {
  it("of water that holds more than the tank, or of one that holds too much", () => {
    const reason = (texts: Record<string, string>, name = "change-to-reach") => answerOf(name, texts).outside;
    expect(reason({ level: "50", target: "45", source: "60" })).toContain("leads away");
    expect(reason({ level: "50", target: "60", source: "10" })).toContain("leads away");
    expect(reason({ level: "50", target: "5", source: "10" })).toContain("beyond what the source water");
    expect(reason({ level: "50", target: "20", source: "60" }, "nitrate-change")).toContain("leads away");
    // Under a limit already is no such case.
    expect(asked("nitrate-change", { level: "15", target: "20", source: "60" }, "at-once").best).toBe(0);
  });
});

describe("steps in words", () => {
  const through = (steps: string, more: Record<string, string> = {}) =>
    answerOf("dilution", { steps, volume: "100 L", level: "10", ...more });

  it("reads each kind, both ways round", () => {
    const last = (steps: string) => through(steps, { source: "2" }).figures.at(-1)?.best;
    expect(last("30 %")).toBeCloseTo(7.6, 12);
    expect(last("change 30 %")).toBeCloseTo(7.6, 12);
    expect(last("30 L change")).toBeCloseTo(7.6, 12);
    expect(last("30 %, 0 %")).toBeCloseTo(7.6, 12);
    expect(last("30 % with 0 mg/L")).toBeCloseTo(7, 12);
    expect(last("flow 100 L")).toBeCloseTo(2 + 8 * Math.exp(-1), 12);
    expect(last("100 % flow")).toBeCloseTo(2 + 8 * Math.exp(-1), 12);
    expect(last("dose 5 mg/L")).toBe(15);
    expect(last("dose 0.5 g")).toBe(15);
    expect(last("top-up 10 L")).toBeCloseTo(10.2, 12);
    expect(last("10 % top-up with 0 mg/L")).toBe(10);
    expect(last("1 w")).toBe(10);
    expect(last("5 US gal")).toBeCloseTo(10 - 8 * 0.18927, 4);
  });

  it("names what does not read, and the step", () => {
    for (const [steps, reason] of [
      ["30", "steps: “30” is no step"],
      ["water 30 %", "steps: “water 30 %” is no step"],
      ["dose", "steps: “dose” is no step"],
      ["dose 5 parsecs", "there is no unit “parsecs”"],
      ["dose 5 mg/L with 3", "a dose has no water with it"],
      ["7 d with 3 mg/L", "is no step"],
      ["3 gal", "may mean US gal or imp gal"],
      ["20..30 %", "has to be one figure"],
      ["-5 d", "is no step"],
      ["dose 1 mg/L, 120 %", "step 2: share of the water changed 1.2"],
      [",,", "steps: there is none"],
    ] as const)
      expect(through(steps).outside, steps).toContain(reason);
  });
});
