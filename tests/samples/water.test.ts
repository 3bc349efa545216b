import { describe, expect, test } from "vitest";
import { simulateCellar } from "../../samples/simulation/run.ts";
import { afterDays, type Body, type Dissolved, type Regime } from "../../samples/simulation/water.ts";

const { cellar } = simulateCellar();

/** The state is volume and the masses of ammonia, nitrite and nitrate nitrogen. */
interface Plain {
  volumeL: number;
  ammonia: number;
  nitrite: number;
  nitrate: number;
}

/** One short step by the midpoint rule, from the rates alone: no exponential, nothing of the simulation's own solution. */
function step(now: Plain, regime: Regime, days: number): Plain {
  const rates = ({ ammonia, nitrite, nitrate }: Plain) => ({
    ammonia: regime.productionMgNPerDay - regime.ammoniaPerDay * ammonia,
    nitrite: regime.ammoniaPerDay * ammonia - regime.nitritePerDay * nitrite,
    nitrate: regime.nitritePerDay * nitrite - regime.uptakePerDay * nitrate,
  });
  const along = (from: Plain, slope: ReturnType<typeof rates>, time: number): Plain => ({
    volumeL: from.volumeL - regime.evaporationLPerDay * time,
    ammonia: from.ammonia + slope.ammonia * time,
    nitrite: from.nitrite + slope.nitrite * time,
    nitrate: from.nitrate + slope.nitrate * time,
  });
  return along(now, rates(along(now, rates(now), days / 2)), days);
}

const NITRATE_PER_MG_N = (14.007 + 3 * 15.999) / 14.007;
const STEP_MINUTES = 4;

/** Follows a body of water through all that was done to it, in small steps. @returns computed and simulated nitrate at each reading */
function integrate({ start, netL, events }: Body): [computed: number, simulated: number][] {
  let now: Plain = {
    volumeL: start.volumeL,
    ammonia: start.ammoniaMgN,
    nitrite: start.nitriteMgN,
    nitrate: start.nitrateMgN,
  };
  let regime: Regime | undefined;
  let minute = events[0]!.minute;
  const pairs: [number, number][] = [];
  const mix = (outL: number, inL: number, nitrateMgL: number) => {
    const kept = 1 - outL / now.volumeL;
    now = {
      volumeL: now.volumeL - outL + inL,
      ammonia: now.ammonia * kept,
      nitrite: now.nitrite * kept,
      nitrate: now.nitrate * kept + (inL * nitrateMgL) / NITRATE_PER_MG_N,
    };
  };
  for (const event of events) {
    while (regime !== undefined && minute < event.minute) {
      const minutes = Math.min(STEP_MINUTES, event.minute - minute);
      now = step(now, regime, minutes / 1440);
      minute += minutes;
    }
    minute = event.minute;
    if (event.kind === "regime") regime = event.regime;
    else if (event.kind === "batch")
      mix(event.outL, netL - (now.volumeL - event.outL), event.source.nitrateMgL);
    else if (event.kind === "top-up") mix(0, event.inL, event.source.nitrateMgL);
    else if (event.kind === "flow") {
      mix(0, netL - now.volumeL, event.source.nitrateMgL);
      // A flow is very many very small changes.
      const parts = 5000;
      for (let part = 0; part < parts; part++)
        mix(event.throughL / parts, event.throughL / parts, event.source.nitrateMgL);
    } else {
      expect(now.volumeL).toBeCloseTo(event.volumeL, 6);
      pairs.push([(now.nitrate * NITRATE_PER_MG_N) / now.volumeL, event.nitrateMgL]);
    }
  }
  return pairs;
}

describe("nitrate in the simulated room equals a fine-step integration of the same year", () => {
  for (const body of cellar.bodies.values()) {
    test(`${body.name}: to a part in a thousand at every reading`, () => {
      const pairs = integrate(body);
      expect(pairs.length).toBeGreaterThan(4);
      for (const [computed, simulated] of pairs)
        expect(Math.abs(computed / simulated - 1)).toBeLessThan(1e-3);
    });
  }
});

describe("the exact step", () => {
  const regime: Regime = {
    productionMgNPerDay: 60,
    ammoniaPerDay: 2,
    nitritePerDay: 3,
    uptakePerDay: 0,
    evaporationLPerDay: 1,
    calcareous: 0,
  };
  const start: Dissolved = {
    volumeL: 100,
    ammoniaMgN: 10,
    nitriteMgN: 5,
    nitrateMgN: 300,
    alkalinityDkhL: 500,
    hardnessDghL: 900,
  };

  test("nitrogen is neither made nor lost but by the animals", () => {
    const later = afterDays(start, regime, 2.5);
    expect(later.ammoniaMgN + later.nitriteMgN + later.nitrateMgN).toBeCloseTo(315 + 60 * 2.5, 9);
  });

  test("two steps are one", () => {
    const twice = afterDays(
      afterDays(start, { ...regime, uptakePerDay: 0.05 }, 1.2),
      { ...regime, uptakePerDay: 0.05 },
      0.8,
    );
    const once = afterDays(start, { ...regime, uptakePerDay: 0.05 }, 2);
    for (const key of Object.keys(once) as (keyof Dissolved)[]) expect(twice[key]).toBeCloseTo(once[key], 9);
  });

  test("oxidising a milligram of ammonia nitrogen in a litre takes 0.4 degrees of alkalinity", () => {
    const later = afterDays(start, regime, 2.5);
    const oxidised = 10 + 60 * 2.5 - later.ammoniaMgN;
    // 2 mol of acid a mol of nitrogen: 2 * 50.04 / 14.007 = 7.145 mg CaCO3 a mg, and 17.85 mg CaCO3 are one degree.
    expect((500 - later.alkalinityDkhL) / oxidised).toBeCloseTo(7.145 / 17.85, 3);
  });
});

describe("what was meant to happen to the waters", () => {
  const readings = (name: string) =>
    cellar.bodies.get(name)!.events.flatMap((event) => (event.kind === "read" ? [event] : []));

  test("nitrate of the ford has risen for three months and is still below its limit", () => {
    const all = readings("ford").map(({ nitrateMgL }) => nitrateMgL);
    const months = [all.slice(-27, -18), all.slice(-18, -9), all.slice(-9)].map((part) => Math.max(...part));
    expect(months[0]!).toBeLessThan(months[1]!);
    expect(months[1]!).toBeLessThan(months[2]!);
    expect(months[2]!).toBeLessThan(40);
    expect(months[2]!).toBeGreaterThan(34);
  });

  test("it will pass 40 mg/L before a change within three weeks, with the same animals and the same changes", () => {
    const body = cellar.bodies.get("ford")!;
    const regime = body.events.flatMap((event) => (event.kind === "regime" ? [event.regime] : [])).at(-1)!;
    const last = body.events.at(-1)!.minute;
    let now = { ...body.at(last) };
    const peaks: number[] = [];
    // The next change is on Wednesday, a day after the last, and then every week: 30 % from the mains.
    for (let week = 0; week < 4; week++) {
      now = afterDays(now, { ...regime, evaporationLPerDay: 0 }, week === 0 ? 1 : 7);
      peaks.push((now.nitrateMgN * NITRATE_PER_MG_N) / now.volumeL);
      now = { ...now, nitrateMgN: now.nitrateMgN * 0.7 + (0.3 * now.volumeL * 6) / NITRATE_PER_MG_N };
    }
    expect(peaks[0]!).toBeLessThan(40);
    expect(Math.max(...peaks.slice(0, 4))).toBeGreaterThan(40);
  });

  test("no other water comes near its limit in the last month", () => {
    for (const body of cellar.bodies.values()) {
      if (body.name === "ford") continue;
      for (const { nitrateMgL } of readings(body.name).slice(-4))
        expect(nitrateMgL, body.name).toBeLessThan(32);
    }
  });
});
