import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  afterChange,
  afterChanges,
  afterDecay,
  afterHours,
  changesNeeded,
  daysOfDecay,
  flowForHalfLifeLPerH,
  flowThroughFraction,
  flowThroughShare,
  flowThroughVolumeL,
  fractionToReach,
  levelAfterDecay,
  newWaterFraction,
  steadyAfterChangeMgL,
  steadyBeforeChangeMgL,
  steadyFlowMgL,
  washoutMin,
} from "../../language/science/dilution.ts";
import {
  afterEvaporation,
  afterTopUps,
  drainToHold,
  steadyWithTopUpMgL,
} from "../../language/science/evaporation.ts";
import { type Figure, isOutside } from "../../language/science/result.ts";

/** What a calculation answered; a reason fails the test. */
function given(answer: Figure): number {
  if (isOutside(answer)) throw new Error(answer.outside);
  return answer;
}

const level = fc.double({ min: 0, max: 500, noNaN: true });
const fraction = fc.double({ min: 0.01, max: 0.99, noNaN: true });

describe("a batch change", () => {
  test("of a third with source water of its own", () => {
    expect(afterChange(40, 0.25, 5)).toBe(31.25);
    expect(afterChange(12, 0, 5)).toBe(12);
    expect(afterChange(12, 1, 5)).toBe(5);
  });

  test("a series of equal changes is the same change over and over", () => {
    fc.assert(
      fc.property(level, fraction, fc.nat(20), level, (start, f, count, source) => {
        let now = start;
        for (let i = 0; i < count; i++) now = afterChange(now, f, source);
        expect(afterChanges(start, f, count, source)).toBeCloseTo(now, 8);
      }),
    );
  });

  test("what is new after several changes is what is not left of the old", () => {
    fc.assert(
      fc.property(fc.array(fraction, { maxLength: 8 }), level, level, (fractions, start, source) => {
        let now = start;
        for (const f of fractions) now = afterChange(now, f, source);
        expect(afterChange(start, given(newWaterFraction(fractions)), source)).toBeCloseTo(now, 8);
      }),
    );
  });

  test("never leaves what lies between tank and source", () => {
    fc.assert(
      fc.property(level, fraction, level, (start, f, source) => {
        const after = afterChange(start, f, source);
        expect(after).toBeGreaterThanOrEqual(Math.min(start, source) - 1e-9);
        expect(after).toBeLessThanOrEqual(Math.max(start, source) + 1e-9);
      }),
    );
  });
});

describe("a flow-through change", () => {
  test("is the limit of many small batches of the same water", () => {
    for (const share of [0.1, 0.5, 1, 2]) {
      const parts = 200_000;
      const small = newWaterFraction(Array.from({ length: parts }, () => share / parts));
      expect(flowThroughFraction(share * 120, 120)).toBeCloseTo(given(small), 5);
    }
  });

  test("replaces less than a batch of the same volume", () => {
    fc.assert(
      fc.property(fraction, (f) => {
        expect(flowThroughFraction(f * 100, 100)).toBeLessThan(f);
      }),
    );
  });

  test("and its volume undo each other", () => {
    fc.assert(
      fc.property(fraction, (f) => {
        expect(flowThroughFraction(given(flowThroughVolumeL(f, 80)), 80)).toBeCloseTo(f, 12);
      }),
    );
  });
});

describe("the changes needed", () => {
  test("as many as bring it there, and no fewer would", () => {
    fc.assert(
      fc.property(level, level, level, fraction, (start, target, source, f) => {
        const count = changesNeeded(start, target, f, source);
        fc.pre(typeof count === "number" && count < 1000);
        const lowering = start > source;
        const reached = (after: number) => (lowering ? after <= target + 1e-6 : after >= target - 1e-6);
        if ((lowering && start <= target) || (!lowering && start >= target)) expect(count).toBe(0);
        else {
          expect(reached(given(afterChanges(start, f, count as number, source)))).toBe(true);
          if ((count as number) > 1) {
            const before = given(afterChanges(start, f, (count as number) - 1, source));
            expect(lowering ? before >= target - 1e-6 : before <= target + 1e-6).toBe(true);
          }
        }
      }),
    );
  });

  test("a whole number stays that number", () => {
    expect(changesNeeded(100, 25, 0.5)).toBe(2);
    expect(changesNeeded(80, 80 * 0.7 ** 3, 0.3)).toBe(3);
  });

  test("none, when the source itself is over the target, and the reason is said", () => {
    const answer = changesNeeded(40, 5, 0.3, 6);
    expect(isOutside(answer) && answer.outside).toContain("beyond what the source water itself holds");
    expect(isOutside(fractionToReach(40, 20, 20)), "exactly at the source only a whole change").toBe(false);
    expect(fractionToReach(40, 20, 20)).toBe(1);
  });

  test("a single change reaches its target", () => {
    fc.assert(
      fc.property(level, level, level, (start, target, source) => {
        const f = fractionToReach(start, source, target);
        fc.pre(typeof f === "number" && f > 0);
        expect(f).toBeLessThanOrEqual(1);
        expect(afterChange(start, f as number, source)).toBeCloseTo(target, 6);
      }),
    );
  });

  test("raising works as lowering does: hardness from a harder source", () => {
    expect(fractionToReach(4, 12, 6)).toBe(0.25);
    expect(changesNeeded(4, 6, 0.25, 12)).toBe(1);
  });
});

describe("steady state", () => {
  test("is what a change and a period leave as it is", () => {
    fc.assert(
      fc.property(level, fraction, level, (rise, f, source) => {
        const before = steadyBeforeChangeMgL(rise, f, source) as number;
        const after = steadyAfterChangeMgL(rise, f, source) as number;
        expect(afterChange(before, f, source)).toBeCloseTo(after, 6);
        expect(after + rise).toBeCloseTo(before, 6);
      }),
    );
  });

  test("does not exist without a change or a flow", () => {
    expect(isOutside(steadyBeforeChangeMgL(5, 0))).toBe(true);
    expect(isOutside(steadyFlowMgL(5, 0))).toBe(true);
  });
});

describe("load, flow and decay together", () => {
  const stream = { volumeL: 100, loadMgPerH: 24, flowLPerH: 12, sourceMgL: 3, halfLifeH: 30 };

  test("two stretches of time are one", () => {
    const hours = fc.double({ min: 0, max: 200, noNaN: true });
    fc.assert(
      fc.property(level, hours, hours, (start, one, two) => {
        expect(given(afterHours(given(afterHours(start, one, stream)), two, stream))).toBeCloseTo(
          given(afterHours(start, one + two, stream)),
          8,
        );
      }),
    );
  });

  test("agrees with small steps of the equation", () => {
    let now = 40;
    const step = 1e-3;
    const change = (c: number) => (24 + 12 * (3 - c)) / 100 - (Math.LN2 / 30) * c;
    for (let i = 0; i < 10_000; i++) {
      const half = now + (step / 2) * change(now);
      now += step * change(half);
    }
    expect(afterHours(40, 10, stream)).toBeCloseTo(now, 6);
  });

  test("flow alone is the washout, decay alone the half-life, load alone a straight line", () => {
    expect(afterHours(40, 5, { volumeL: 100, flowLPerH: 20 })).toBeCloseTo(
      40 * (1 - flowThroughFraction(100, 100)),
      10,
    );
    expect(afterHours(40, 48, { volumeL: 100, halfLifeH: 24 })).toBeCloseTo(10, 12);
    expect(afterHours(40, 10, { volumeL: 100, loadMgPerH: 24 })).toBeCloseTo(42.4, 12);
    expect(afterHours(40, 1e6, { volumeL: 100, loadMgPerH: 24, flowLPerH: 12 })).toBeCloseTo(
      steadyFlowMgL(24, 12) as number,
      9,
    );
  });

  test("decay to a level takes the time it takes", () => {
    expect(afterDecay(2, 6, 3)).toBe(0.5);
    expect(daysOfDecay(2, 0.5, 3)).toBe(6);
    expect(daysOfDecay(0.4, 0.5, 3)).toBe(0);
  });
});

describe("what no water can do gives a reason, and the input is named", () => {
  const water = { volumeL: 100 };
  test.each([
    [afterChanges(40, 1.5, 2), "share of the water changed 1.5 is not within 0 to 1"],
    [afterChanges(40, Number.NaN, 2), "share of the water changed NaN is not within 0 to 1"],
    [afterChanges(-1, 0.5, 2), "level -1 mg/L is not a figure of 0 or more"],
    [afterChanges(40, 0.5, 2, -3), "source water -3 mg/L is not a figure of 0 or more"],
    [afterChanges(40, 0.5, 1.5), "number of changes 1.5 is not whole"],
    [newWaterFraction([0.2, -0.1]), "share of the water changed -0.1 is not within 0 to 1"],
    [flowThroughShare(-5, 100), "water run through -5 L is not a figure of 0 or more"],
    [flowThroughShare(5, 0), "volume 0 L is not a figure of more than 0"],
    [flowThroughVolumeL(1, 100), "a flow never replaces all of the water"],
    [flowThroughVolumeL(0.5, -100), "volume -100 L is not a figure of more than 0"],
    [washoutMin(1.2, 4), "share of the water replaced 1.2 is not within 0 to 1"],
    [washoutMin(0.9, 0), "exchanges an hour 0 is not a figure of more than 0"],
    [flowForHalfLifeLPerH(100, 0), "half-life 0 h is not a figure of more than 0"],
    [changesNeeded(40, 10, 1.5), "share of the water changed 1.5 is not within 0 to 1"],
    [changesNeeded(40, 10, 0), "no water is changed"],
    [changesNeeded(40, 5, 0.5, 5), "only a whole change brings it to the source water itself"],
    [changesNeeded(Number.NaN, 5, 0.5), "level NaN mg/L is not a figure of 0 or more"],
    [fractionToReach(40, 5, -1), "target -1 mg/L is not a figure of 0 or more"],
    [steadyBeforeChangeMgL(Number.NaN, 0.5), "rise NaN mg/L is no figure"],
    [steadyBeforeChangeMgL(5, 1.5), "share of the water changed 1.5 is not within 0 to 1"],
    [steadyAfterChangeMgL(-9, 0.25, 20), "more is used up than the changes bring"],
    [steadyFlowMgL(-5, 10), "load -5 mg/h is not a figure of 0 or more"],
    [levelAfterDecay(2, -1, 3), "time -1 days is not a figure of 0 or more"],
    [levelAfterDecay(2, 1, 0), "half-life 0 days is not a figure of more than 0"],
    [daysOfDecay(2, 0, 3), "by halves it never comes to nothing"],
    [afterHours(2, 1, { volumeL: 0 }), "volume 0 L is not a figure of more than 0"],
    [afterHours(2, 1, { ...water, flowLPerH: -1 }), "flow -1 L/h is not a figure of 0 or more"],
    [afterHours(2, 1, { ...water, halfLifeH: 0 }), "half-life 0 h is not a figure of more than 0"],
  ])("%#: %s", (answer, why) => expect(answer).toEqual({ outside: why }));

  test("and what can be is what the plain functions of the ledgers give", () => {
    fc.assert(
      fc.property(level, fraction, level, (start, f, source) => {
        expect(afterChanges(start, f, 1, source)).toBeCloseTo(afterChange(start, f, source), 9);
        expect(flowThroughShare(f * 50, 80)).toBe(flowThroughFraction(f * 50, 80));
        expect(levelAfterDecay(start, f * 9, 3)).toBe(afterDecay(start, f * 9, 3));
      }),
    );
  });

  test("a plant's use, less than the changes bring, has a steady state", () => {
    expect(steadyBeforeChangeMgL(-2, 0.5, 10)).toBe(6);
    expect(steadyAfterChangeMgL(-2, 0.5, 10)).toBe(8);
  });
});

describe("evaporation", () => {
  test("leaves the salt: a tenth less water holds a ninth more", () => {
    expect(afterEvaporation(300, 100, 90)).toBeCloseTo(333.333, 3);
    expect(isOutside(afterEvaporation(300, 100, 0))).toBe(true);
  });

  test("topped up with tap water only ever grows, until changes hold it", () => {
    expect(afterTopUps(100, 0.1, 10, 100)).toBe(200);
    expect(isOutside(steadyWithTopUpMgL(100, 0, 0.1))).toBe(true);
    let before = 100;
    for (let week = 0; week < 400; week++) {
      before = afterTopUps(afterChange(before, 0.25, 100), 0.05, 1, 100) as number;
    }
    expect(before).toBeCloseTo(steadyWithTopUpMgL(100, 0.25, 0.05) as number, 9);
  });

  test("draining holds the cycles asked for", () => {
    expect(drainToHold(10, 3)).toBe(5);
    expect(isOutside(drainToHold(10, 1))).toBe(true);
  });
});
