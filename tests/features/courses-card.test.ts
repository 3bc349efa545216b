import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import type { CourseCard, CoursesCard } from "../../language/features/course-cards.ts";
import { coursesCard } from "../../language/features/courses-card.ts";
import { coursesSections } from "../../language/features/courses-report.ts";
import { reportHtml } from "../../language/features/document-html.ts";
import { courseCurve, courseCurveWords } from "../../language/features/pictures/course-curve.ts";
import { Room } from "../support/room.ts";

const definitions = `species praecox
remedy prazi "Flatworm remedy"
  target 2 mg/L
  ceiling 3 mg/L
  repeat 3 times every 7 d
  change-before 25 %
  change-after 50 %
  without carbon
  withdrawal 10 d
  active "praziquantel"
remedy salt
  bath 10..30 g/L for 1..10 min
tank q1
  volume 50 L
`;
const cardOf = (entries: string, today?: string, defined = definitions): CoursesCard => {
  const log = new Room(defined + entries, today);
  return coursesCard(log.checked.logbook, log.tank("q1"), log.today);
};
const one = (entries: string, today?: string): CourseCard => cardOf(entries, today).courses[0]!;

describe("a course in figures", () => {
  // Worked by hand, 2 mg/L from the first minute of 1 March on, half changed and 1 mg/L added on the 5th: 2 mg/L all the time to the end of
  // 8 March, 8 days: 2 x 8 x 24 = 384 mg h/L, all of it within 1.5..2.5 mg/L (a quarter to either side of 2).
  const entries =
    '2026-03-01\n  q1 remove carbon\n  q1 dose prazi 100 mg\n2026-03-05\n  q1 change 50 %\n  q1 dose prazi 50 mg\n2026-03-08\n  q1 note "x"\n';
  test("exposure, days inside the target, the highest, the ceiling", () => {
    const { figures, stateText, parts, withdrawalEnd } = one(entries);
    expect(figures.exposure).toBeCloseTo(384, 4);
    expect(figures.exposureText).toBe("384 mg·h/L");
    expect(figures.insideText).toBe("8 of 8 days within 1.5..2.5 mg/L");
    expect(figures.highestText).toBe("2 mg/L on 1 March");
    expect(figures.aboveText).toBe("never above the ceiling");
    expect(stateText).toBe("2 of 3 doses given, the next is due on 12 March");
    expect(parts.map(({ text }) => text)).toEqual(["carbon out since 1 March"]);
    expect(isoOf(withdrawalEnd!)).toBe("2026-03-15");
  });

  // 200 mg in 50 L are 4 mg/L, above the ceiling of 3 until half is changed two days later: 2 mg/L.
  test("above the ceiling, and when", () => {
    const { figures } = one("2026-03-01\n  q1 dose prazi 200 mg\n2026-03-03\n  q1 change 50 %\n");
    expect(figures.aboveText).toBe("above the ceiling from 1 March to 3 March, 2 days");
    expect(figures.insideDays).toBeCloseTo(1, 6);
  });

  test("the doses to come, measured out as last time, with the change before each", () => {
    const [, , third] = one(entries).doses;
    // 2 mg/L less a quarter is 1.5 mg/L: 0.5 mg/L x 50 L = 25 mg.
    expect([third!.amount, third!.isPlanned, third!.changeOwed, third!.after]).toEqual([
      "25 mg",
      true,
      0.25,
      2,
    ]);
    expect(third!.text).toBe("2 mg/L, of it 0.5 mg/L from this dose");
  });

  // Target x litres replaced: 2 mg/L x 15 L = 30 mg after 30 %. As DOSE-023 of the reference set: 2 mg/L, 25 % of 100 L, 50 mg; here of 50 L 25 mg.
  test("how much to add after a change", () => {
    expect(one(entries).topUps).toEqual([
      { fraction: 0.1, text: "10 mg" },
      { fraction: 0.25, text: "25 mg" },
      { fraction: 0.3, text: "30 mg" },
      { fraction: 0.5, text: "50 mg" },
    ]);
  });
  // DOSE-023 and DOSE-024 themselves.
  test.each([
    ["2 mg/L", "100 L", 0.25, "50 mg"],
    ["4 mg/L", "60 L", 0.5, "120 mg"],
  ])("reference: %s in %s, %d changed: %s", (target, volume, share, mass) => {
    const defined = `remedy prazi\n  target ${target}\ntank q1\n  volume ${volume}\n`;
    const [course] = cardOf("2026-03-01\n  q1 dose prazi 1 mg\n", undefined, defined).courses;
    expect(course!.topUps.find(({ fraction }) => fraction === share)!.text).toBe(mass);
  });

  test("what cannot be computed is said, and is no number", () => {
    const [course] = cardOf("2026-03-01\n  q1 dose prazi 5 mL\n").courses;
    expect(course!.figures).toMatchObject({
      exposure: null,
      exposureText: "cannot be computed",
      insideDays: null,
      highest: null,
      aboveText: "not known whether above the ceiling",
    });
    expect(JSON.parse(JSON.stringify(course))).toEqual(course);
    expect(courseCurve(course!)).toBe("");
    expect(
      reportHtml({
        title: "t",
        about: "",
        sections: coursesSections(cardOf("2026-03-01\n  q1 dose prazi 5 mL\n")),
      }),
    ).toContain("cannot be computed");
  });

  test("as of an earlier day", () => {
    expect(one(entries, "2026-03-04").stateText).toBe("1 of 3 doses given, the next is due on 8 March");
    expect(cardOf(entries, "2026-02-01").courses).toEqual([]);
  });
});

describe("what is published", () => {
  test("stands beside, with its caution, by the active substance or the name", () => {
    const published = one("2026-03-01\n  q1 dose prazi 100 mg\n").published!;
    expect(published.substance).toBe("praziquantel");
    expect(published.ranges[0]!.text).toMatch(/^bath 2 mg\/L, 30 h/);
    expect(published.caution).toMatch(/no advice/);
    const [salt] = cardOf("2026-03-01\n  q1 dose salt 50 g\n").courses;
    expect(salt!.published!.substance).toBe("sodium chloride");
  });
  test("nothing is checked against it and nothing filled from it", () => {
    // 20 mg/L of what is published at 2..10 mg/L.
    const log = new Room(
      "remedy praziquantel\ntank q1\n  volume 50 L\n2026-03-01\n  q1 dose praziquantel 1000 mg\n",
    );
    expect(log.findings("dose/")).toEqual([]);
    const [course] = coursesCard(log.checked.logbook, log.tank("q1"), log.today).courses;
    expect([course!.target, course!.ceiling, course!.topUps]).toEqual([null, null, []]);
  });
});

describe("of a case", () => {
  const entries = `tank r1
  volume 20 L
2026-03-01
  q1 sick praecox 2 signs "flashing" case flukes
  q1 dose prazi 100 mg
  r1 dose prazi 40 mg case flukes
2026-03-02
  q1 bath praecox 2 with salt 120 g for 5 min volume 8 L
  r1 dose salt 20 g
`;
  test("the courses and baths that belong to it, in whatever water", () => {
    const log = new Room(definitions + entries);
    const card = coursesCard(log.checked.logbook, { case: "flukes" }, log.today);
    expect(card.courses.map(({ water, remedy }) => `${remedy} in ${water}`)).toEqual([
      "prazi in q1",
      "prazi in r1",
    ]);
    expect(card.baths.map(({ text, stated, tank }) => [text, stated, tank])).toEqual([
      ["15 g/L for 5 min", "10..30 g/L for 1..10 min", "q1"],
    ]);
  });
});

describe("the picture", () => {
  const course = one("2026-03-01\n  q1 dose prazi 100 mg\n");
  test("what is planned is dashed, doses to come are hollow, the ceiling has its word", () => {
    const svg = courseCurve(course);
    expect(svg.match(/-4 -8h8Z" fill="#111"/g)).toHaveLength(1);
    expect(svg.match(/-4 -8h8Z" stroke="#111" fill="#fff"/g)).toHaveLength(2);
    expect(svg).toMatch(/stroke-width="1.4" stroke-dasharray="4 3"/);
    expect(svg).toContain("ceiling 3 mg/L");
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });
  test("in words", () => {
    expect(courseCurveWords(course)).toBe(
      "prazi in q1: 1 dose given, 2 to come, dashed; target 2 mg/L; ceiling 3 mg/L; highest 2 mg/L on 1 March; never above the ceiling",
    );
  });
  test("what comes from the log is text", () => {
    const html = reportHtml({
      title: "t",
      about: "",
      sections: coursesSections(
        cardOf(
          "2026-03-01\n  q1 dose prazi 100 mg\n",
          undefined,
          definitions.replace("Flatworm remedy", "<b>x</b>"),
        ),
      ),
    });
    expect(html).not.toContain("<b>x</b>");
  });
});

test("nothing to tell is said", () => {
  const card = cardOf('2026-03-01\n  q1 note "x"\n');
  expect(coursesSections(card)).toEqual([
    { title: "Treatments", parts: [{ is: "text", text: "No dose and no bath is written." }] },
  ]);
  expect(card.day).toBe(dayOf("2026-03-01"));
});
