import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { levelOn } from "../../language/room/concentration-curve.ts";
import { type Treatment, treatmentsOf } from "../../language/room/treatments.ts";
import { Room } from "../support/room.ts";

const definitions = `remedy prazi
  target 2 mg/L
  ceiling 5 mg/L
  repeat 3 times every 7 d
  change-before 25 %
  change-after 50 %
  without carbon, light
  withdrawal 10 d
tank q1
  volume 50 L
`;

function treatments(
  entries: string,
  today?: string,
  water = "q1",
  defined = definitions,
): readonly Treatment[] {
  const log = new Room(defined + entries, today);
  return treatmentsOf(log.checked.logbook, log.ledger(water), log.today);
}
const day = (iso: string): number => dayOf(iso);

describe("a course as a plan", () => {
  // 100 mg in 50 L are 2 mg/L. 25 % changed before each repeat leaves 1.5 mg/L, so that 0.5 mg/L, 25 mg, reach 2 mg/L again.
  test("what is still to come, with the change before and what reaches the target after it", () => {
    const [course] = treatments("2026-03-01\n  q1 dose prazi 100 mg\n");
    expect(course!.state).toBe("running");
    expect(
      course!.planned.map((dose) => [dose.number, isoOf(dose.due), dose.changeOwed, dose.added]),
    ).toEqual([
      [2, "2026-03-08", 0.25, 0.5],
      [3, "2026-03-15", 0.25, 0.5],
    ]);
    expect(isoOf(course!.end)).toBe("2026-03-22");
    expect(isoOf(course!.withdrawalEnd)).toBe("2026-03-11");
    expect(course!.changeAfter).toEqual({ owed: 0.5, done: 0, due: day("2026-03-22") });
    // On the eve of the second dose 2 mg/L, after its change and dose 2 again; half of it is left at the end.
    const level = (iso: string): number => levelOn(course!.curve, day(iso) + 0.5, Number.NaN);
    expect(level("2026-03-07")).toBe(2);
    expect(level("2026-03-15")).toBe(2);
    expect(level("2026-03-22")).toBe(1);
    expect(course!.curve.map(({ isPlanned }) => isPlanned)).toEqual([false, true, true, true, true]);
  });

  // 10 % changed already: of the 90 % old water so much is to go that 75 % is left: 1 - 0.75 / 0.9 = 0.1667.
  test("a part of the change was done", () => {
    const [course] = treatments("2026-03-01\n  q1 dose prazi 100 mg\n2026-03-04\n  q1 change 10 %\n");
    expect(course!.planned[0]!.changeOwed).toBeCloseTo(1 / 6, 9);
    expect(course!.planned[0]!.added).toBeCloseTo(0.5, 9);
  });

  test("late, its interval counts from when it can be given", () => {
    const [course] = treatments('2026-03-01\n  q1 dose prazi 100 mg\n2026-03-10\n  q1 note "forgot"\n');
    expect(course!.planned.map(({ due }) => isoOf(due))).toEqual(["2026-03-08", "2026-03-18"]);
    // The third can be given on 18 March at the earliest, and is over a week later.
    expect(isoOf(course!.end)).toBe("2026-03-25");
  });

  test("as of a day that is past, what came later is not known", () => {
    const entries =
      "2026-03-01\n  q1 dose prazi 100 mg\n2026-03-08\n  q1 change 25 %\n  q1 dose prazi 25 mg\n";
    expect(treatments(entries, "2026-03-07")[0]!.planned).toHaveLength(2);
    expect(treatments(entries, "2026-03-08")[0]!.planned).toHaveLength(1);
  });

  test("cut short: nothing is planned, and the next dose is another course", () => {
    const entries = '2026-03-01\n  q1 dose prazi 100 mg\n2026-03-20\n  q1 note "stopped"\n';
    const [cut] = treatments(entries);
    expect([cut!.state, cut!.planned.length, isoOf(cut!.end)]).toEqual(["cut", 0, "2026-03-08"]);
    const both = treatments(`${entries}2026-04-01\n  q1 dose prazi 50 mg\n`);
    expect(both.map(({ state, given }) => [state, given.length])).toEqual([
      ["cut", 1],
      ["running", 1],
    ]);
    // The first one's curve ends where the second begins.
    expect(both[0]!.curve.at(-1)!.to).toBeCloseTo(day("2026-04-01"), 6);
  });

  test("complete: the change that is owed after it", () => {
    const all = ["01", "08", "15"]
      .map((on) => `2026-03-${on}\n  q1 change 25 %\n  q1 dose prazi 25 mg\n`)
      .join("");
    const [owed] = treatments(`${all}2026-03-18\n  q1 change 20 %\n`);
    expect([owed!.state, owed!.changeAfter!.done.toFixed(4)]).toEqual(["complete", "0.2000"]);
    // 20 % and 40 % renew 1 - 0.8 x 0.6 = 52 %.
    const [done] = treatments(`${all}2026-03-18\n  q1 change 20 %\n2026-03-23\n  q1 change 40 %\n`);
    expect(done!.changeAfter!.done).toBeCloseTo(0.52, 9);
    expect(done!.curve.some(({ isPlanned, level }) => isPlanned && level > 2)).toBe(false);
  });

  test("a dose divided over a day, or given into several tanks of one water, is one of the course", () => {
    const shared = `system rack\n  sump 50 L\ntank r1\n  volume 25 L\n  system rack\ntank r2\n  volume 25 L\n  system rack\n${definitions}`;
    const [course] = treatments(
      "2026-03-01\n  r1 dose prazi 100 mg\n  r2 dose prazi 100 mg\n",
      undefined,
      "rack",
      shared,
    );
    expect(course!.given.map(({ number, added }) => [number, added])).toEqual([
      [1, 1],
      [1, 1],
    ]);
    expect(course!.planned.map(({ number }) => number)).toEqual([2, 3]);
  });

  test("without a repeat a course lasts as long as something of it is left", () => {
    const salt = "remedy salt\n  target 1 g/L\ntank q1\n  volume 50 L\n";
    const entries =
      "2026-03-01\n  q1 dose salt 25 g\n2026-03-02\n  q1 dose salt 25 g\n2026-03-09\n  q1 change 100 %\n2026-03-20\n  q1 dose salt 50 g\n";
    const courses = treatments(entries, undefined, "q1", salt);
    expect(courses.map(({ given, state }) => [given.length, state])).toEqual([
      [2, "complete"],
      [1, "complete"],
    ]);
  });

  // 2 mg/L by halves of a day: after log2(100) = 6.644 days a hundredth of it is left, and a day more is drawn.
  test("of a course that is past the curve ends where next to none is left", () => {
    const short = "remedy quick\n  target 2 mg/L\n  half-life 1 d\ntank q1\n  volume 50 L\n";
    const weeks = Array.from(
      { length: 20 },
      (_, at) => `2026-04-${String(at + 1).padStart(2, "0")}\n  q1 change 10 %\n`,
    );
    const [course] = treatments(
      `2026-03-01\n  q1 dose quick 100 mg\n${weeks.join("")}`,
      undefined,
      "q1",
      short,
    );
    expect(course!.curve.at(-1)!.to - day("2026-03-01")).toBeCloseTo(Math.log2(100) + 1, 6);
    expect(course!.steps).toHaveLength(1);
  });

  test("a dose that cannot be computed leaves its figures open", () => {
    const unknown = definitions.replace("  volume 50 L\n", "");
    const [course] = treatments("2026-03-01\n  q1 dose prazi 100 mg\n", undefined, "q1", unknown);
    expect(course!.planned.map(({ added }) => added)).toEqual([Number.NaN, Number.NaN]);
    expect(course!.curve.every(({ level }) => Number.isNaN(level))).toBe(true);
  });
});

describe("what is to be out", () => {
  const states = (entries: string, today?: string): string[] =>
    treatments(entries, today)[0]!.parts.map(({ part, is, since }) =>
      Number.isNaN(since) ? `${part} ${is}` : `${part} ${is} ${isoOf(Math.floor(since))}`,
    );
  test("nothing says that it was taken out", () => {
    expect(states("2026-03-01\n  q1 dose prazi 100 mg\n")).toEqual(["carbon in", "light in"]);
  });
  test("taken out on the day, be it below the dose; put back early, or after the end", () => {
    const begin = "2026-03-01\n  q1 dose prazi 100 mg\n  q1 remove carbon, light\n";
    expect(states(begin)).toEqual(["carbon out 2026-03-01", "light out 2026-03-01"]);
    expect(states(`${begin}2026-03-05\n  q1 return light\n`)).toEqual([
      "carbon out 2026-03-01",
      "light back early 2026-03-05",
    ]);
    expect(states(`${begin}2026-03-05\n  q1 return light\n`, "2026-03-04")[1]).toBe("light out 2026-03-01");
    // Of one dose of three given, the course is over when the next two could have been waited for no longer.
    expect(states(`${begin}2026-03-25\n  q1 return carbon\n`)[0]).toBe("carbon back 2026-03-25");
  });
  test("taken out for a course before and put back since", () => {
    expect(
      states(
        "2026-02-01\n  q1 remove carbon\n2026-02-20\n  q1 return carbon\n2026-03-01\n  q1 dose prazi 100 mg\n",
      )[0],
    ).toBe("carbon in");
  });
  test("a gear of the kind is the part", () => {
    const geared = `gear lamp-1\n  kind lamp\n  on q1\n${definitions}`;
    const [course] = treatments(
      "2026-03-01\n  q1 remove lamp-1\n  q1 dose prazi 100 mg\n",
      undefined,
      "q1",
      geared,
    );
    expect(course!.parts.map(({ is }) => is)).toEqual(["in", "out"]);
  });
});

describe("the case", () => {
  test("that the dose names, else one open in the water", () => {
    expect(treatments("2026-03-01\n  q1 dose prazi 100 mg case c-1\n")[0]!.case).toBe("c-1");
    const open = 'species praecox\n2026-02-27\n  q1 sick praecox 2 signs "flashing" case c-2\n';
    expect(treatments(`${open}2026-03-01\n  q1 dose prazi 100 mg\n`)[0]!.case).toBe("c-2");
    const closed = `${open}2026-02-28\n  q1 close c-2\n`;
    expect(treatments(`${closed}2026-03-01\n  q1 dose prazi 100 mg\n`)[0]!.case).toBe("");
  });
});

// Whatever was given and changed before: after every dose that is planned the water is at the target, or above it if it was before.
test("what is planned reaches the target", () => {
  const entry = fc.record({
    on: fc.integer({ min: 1, max: 14 }),
    text: fc.oneof(
      fc.integer({ min: 10, max: 200 }).map((mg) => `dose prazi ${mg} mg`),
      fc.integer({ min: 1, max: 90 }).map((percent) => `change ${percent} %`),
    ),
  });
  fc.assert(
    fc.property(fc.array(entry, { maxLength: 8 }), (entries) => {
      const lines = [...entries].sort((a, b) => a.on - b.on);
      const log = lines
        .map(({ on, text }) => `2026-03-${String(on).padStart(2, "0")}\n  q1 ${text}\n`)
        .join("");
      for (const course of treatments(`2026-03-01\n  q1 dose prazi 100 mg\n${log}`)) {
        for (const step of course.steps)
          if (step.isPlanned && step.is === "dose") expect(step.after).toBeGreaterThanOrEqual(2 - 1e-9);
        expect(course.given.length > 0 && course.end > course.begin).toBe(true);
        expect(course.planned.length === 0 || course.state === "running").toBe(true);
        for (const { changeOwed } of course.planned) expect(changeOwed).toBeLessThanOrEqual(0.25);
      }
    }),
  );
});
