import { page } from "./code.ts";

/** The pages of what a course owes beside its doses. */

const prelude = `remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
  without carbon, light
  change-after 50 %
tank q1
  volume 50 L
`;

const whole = `2026-03-01
  q1 remove carbon, light
  q1 dose prazi 100 mg
2026-03-08
  q1 change 50 %
  q1 dose prazi 50 mg
2026-03-15
  q1 change 50 %
  q1 dose prazi 50 mg
`;

const filterPrelude = `remedy blue
  target 2 mg/L
  harms filter-bacteria
tank q1
  volume 50 L
2026-03-01
  q1 dose blue 100 mg
`;

export const coursePages = [
  page({
    code: "course/not-removed",
    severity: "information",
    since: "0.3",
    title: "Not taken out for the course",
    says: "You stated that the remedy is given without this, and nothing says that it was taken out, or switched off, on the day of the first dose, or that was only later. Activated carbon takes most remedies out of the water, and light breaks some down: then what this tool reckons to be in the water is not there. An entry of any tank of one water counts.",
    whatToDo: "Take it out and write it down: q1 remove carbon. If it never was in, write that once.",
    raises: `${prelude}2026-03-01
  q1 remove light
  q1 dose prazi 100 mg
#         ^^^^^ course/not-removed`,
    fine: `${prelude}2026-03-01
  q1 dose prazi 100 mg
  q1 remove carbon, light`,
    source: "Common practice: activated carbon and ultraviolet light are out while a remedy is in the water.",
  }),
  page({
    code: "course/returned-early",
    severity: "warning",
    since: "0.3",
    title: "Put back before the course is over",
    says: "What you stated is to be out was put back while the course ran. A course runs until the interval after its last dose is over; while doses are still to come, until that of the last of them. A remedy without a repeat has a course of one day, a choice of this tool.",
    whatToDo:
      "Take it out again, and ask what that did to the dose: carbon may have taken it out of the water.",
    raises: `${prelude}2026-03-01
  q1 remove carbon, light
  q1 dose prazi 100 mg
2026-03-05
  q1 return carbon
#           ^^^^^^ course/returned-early`,
    fine: `${prelude}${whole}2026-03-22
  q1 change 50 %
  q1 return carbon, light`,
  }),
  page({
    code: "course/change-after",
    severity: "warning",
    since: "0.3",
    title: "The change after the course is owed",
    says: "The interval after the last dose is over and less water was changed since that dose than you stated is owed after a course; or the next course began without it.",
    whatToDo: "Change the water and write it down. Then put back what was taken out.",
    raises: `${prelude}${whole.trimEnd()}
# ^^^^^^^^^^^^^^^^^^^ course/change-after
2026-03-22
  q1 change 20 %
2026-03-23
  q1 note "looks well"`,
    fine: `${prelude}${whole}2026-03-22
  q1 note "looks well"`,
  }),
  page({
    code: "course/filter-tests",
    severity: "information",
    since: "0.3",
    title: "Ammonia and nitrite were not tested",
    says: "You stated that the remedy harms the bacteria of the filter, and ammonia or nitrite was not tested in the seven days after a dose. A filter that is harmed shows it in days, and the animals, weak as they are, meet it first. It is told once a course, when the seven days are over.",
    whatToDo: "Test both for a week after such a dose; feed little, and change water where they rise.",
    raises: `${filterPrelude.trimEnd()}
#         ^^^^ course/filter-tests
2026-03-04
  q1 test ammonia 0 mg/L
2026-03-09
  q1 note "a week later"`,
    fine: `${filterPrelude}2026-03-04
  q1 test ammonia 0 mg/L, nitrite 0 mg/L
2026-03-09
  q1 note "a week later"`,
    source:
      "Seven days: common practice. That remedies at use levels slow or stop nitrification: International Journal of Recirculating Aquaculture 1, 2000.",
  }),
] as const;
