import { spokenDay } from "../book/dates.ts";
import type { Remedy } from "../book/stations.ts";
import type { Ledger } from "../room/ledger.ts";
import type { DoseSeen, Moment, Observer } from "../room/observer.ts";
import { justAfter } from "../room/past.ts";
import { isSameDose } from "../room/solutes.ts";
import { settledTime } from "../room/water.ts";
import { placeOfRow, type Why, whyEntry, whyStated } from "../room/why.ts";
import { whyRemedy } from "../room/why-dose.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { concentration, days, percent } from "./words.ts";

/** Doses against what the keeper stated of the remedy. */

/** Shown with everything that is said of a dose. */
export const doseCaution = "Computed from what you stated; follow the label, local rules and a veterinarian.";

const prelude = `species praecox
  kind fish
species horn
  kind snail
remedy prazi
  target 2 mg/L
  ceiling 5 mg/L
  repeat 3 times every 7 d
  change-before 25 %
  harms snail
tank q1
  volume 50 L
`;

export const dosePages = [
  page({
    code: "dose/above-ceiling",
    severity: "warning",
    since: "0.1",
    title: "Above the ceiling",
    says: "After this dose more of the remedy is in the water than the ceiling you stated: what was added, and what was left of earlier doses after the changes since.",
    whatToDo:
      "Check amount and volume. Change water to bring it down, aerate, watch the animals, and ask a veterinarian.",
    raises: `${prelude}2026-03-01
  q1 dose prazi 300 mg
#               ^^^^^^ dose/above-ceiling`,
    fine: `${prelude}2026-03-01
  q1 dose prazi 100 mg`,
  }),
  page({
    code: "dose/below-target",
    severity: "information",
    since: "0.1",
    title: "Below the target",
    says: "After this dose less of the remedy is in the water than the target you stated. Too little may do nothing but let what it is meant for get used to it.",
    whatToDo: "Check amount and volume against the label.",
    raises: `${prelude}2026-03-01
  q1 dose prazi 60 mg
#               ^^^^^ dose/below-target`,
    fine: `${prelude}2026-03-01
  q1 dose prazi 100 mg`,
  }),
  page({
    code: "dose/too-early",
    severity: "warning",
    since: "0.1",
    title: "Repeated too early",
    says: "The dose came before the interval you stated was over.",
    whatToDo: "Look at what is in the water now; change water if it is above what is wanted.",
    raises: `${prelude}2026-03-01
  q1 dose prazi 100 mg
2026-03-04
  q1 change 50 %
  q1 dose prazi 50 mg
# ^^^^^^^^^^^^^^^^^^^ dose/too-early`,
    fine: `${prelude}2026-03-01
  q1 dose prazi 100 mg
2026-03-08
  q1 change 50 %
  q1 dose prazi 50 mg
2026-03-15
  q1 change 50 %
  q1 dose prazi 50 mg`,
  }),
  page({
    code: "dose/change-owed",
    severity: "warning",
    since: "0.1",
    title: "Water change owed before the repeat",
    says: "Less water was changed between two doses of the course than you stated is owed before a repeat.",
    whatToDo: "Change water before the repeat; the hint at the line says what is in the water now.",
    raises: `${prelude}2026-03-01
  q1 dose prazi 100 mg
2026-03-08
  q1 dose prazi 100 mg
# ^^^^^^^^^^^^^^^^^^^^ dose/change-owed
2026-03-15
  q1 change 50 %
  q1 dose prazi 20 mg`,
    fine: `${prelude}2026-03-01
  q1 dose prazi 100 mg
2026-03-08
  q1 change 25 %
  q1 dose prazi 25 mg
2026-03-15
  q1 change 25 %
  q1 dose prazi 25 mg`,
  }),
  page({
    code: "dose/harms",
    severity: "warning",
    since: "0.1",
    title: "Harms what lives there",
    says: "By the book there are animals in this water that you stated the remedy harms, or plants that were planted there and not taken out since.",
    whatToDo: "Move them out first, or ask a veterinarian for another way.",
    raises: `${prelude}2026-03-01
  q1 arrive horn 3
  q1 dose prazi 100 mg
#         ^^^^^ dose/harms`,
    fine: `${prelude}2026-03-01
  q1 arrive praecox 3
  q1 dose prazi 100 mg`,
  }),
  page({
    code: "dose/unknown",
    severity: "information",
    since: "0.1",
    title: "The dose cannot be computed",
    says: "Something is missing to say what is in the water: the volume of the tank, the strength of the product, the volume of a drop.",
    whatToDo: "State it in the definition of the tank or the remedy.",
    raises: `remedy drops
  target 1 mg/L
tank q1
  volume 50 L
2026-03-01
  q1 dose drops 5 mL
#               ^^^^ dose/unknown`,
    fine: `remedy drops
  target 1 mg/L
  strength 10 mg/mL
tank q1
  volume 50 L
2026-03-01
  q1 dose drops 5 mL`,
  }),
  page({
    code: "dose/missed",
    severity: "warning",
    since: "0.1",
    title: "A repeat was missed",
    says: "A course ended with fewer doses than you stated; the next began long after.",
    whatToDo:
      "Look at the animals and ask whether the course must begin anew. Note why, if it was on purpose.",
    raises: `${prelude}2026-01-01
  q1 dose prazi 100 mg
# ^^^^^^^^^^^^^^^^^^^^ dose/missed
2026-03-01
  q1 dose prazi 100 mg`,
    fine: `remedy once
  target 2 mg/L
tank q1
  volume 50 L
2026-01-01
  q1 dose once 100 mg
2026-03-01
  q1 dose once 100 mg`,
  }),
  page({
    code: "dose/overdue",
    severity: "warning",
    since: "0.1",
    title: "A repeat is overdue",
    says: "The next dose of a course is due and was not given.",
    whatToDo: "Change the water that is owed, then give the dose; or write why the course ended.",
    raises: `${prelude}2026-03-01
  q1 dose prazi 100 mg
# ^^^^^^^^^^^^^^^^^^^^ dose/overdue
2026-03-10
  q1 note "looks well"`,
    fine: `${prelude}2026-03-01
  q1 dose prazi 100 mg
2026-03-08
  q1 note "looks well"`,
  }),
] as const;

/** Listens to doses. @param ledgerAsIs the ledger they are given in, to tell later what they follow from */
export function doseChecks(ledgerAsIs: () => Ledger | undefined) {
  return (add: (finding: RowFinding) => void): Observer => ({
    dose(at, dose) {
      const { remedy, after } = dose;
      const found = (
        code: RowFinding["code"],
        slots: readonly string[],
        message: () => string,
        more: Partial<RowFinding> = {},
      ): void => {
        const severity = dosePages.find((each) => each.code === code)!.severity;
        add({
          code,
          block: at.block,
          row: at.row,
          slots,
          severity: () => severity,
          message,
          why: () => whyDose(ledgerAsIs(), at, dose),
          ...more,
        });
      };
      const now = (): string => concentration(after, remedy.unit);
      if (dose.unknown !== undefined) {
        found("dose/unknown", ["amount"], () => `what this adds cannot be computed: ${dose.unknown}`, {
          related: () => [stated(remedy)],
        });
      } else if (after > remedy.ceiling * (1 + 1e-9)) {
        const earlier =
          dose.before > 0.005 * after ? `, ${concentration(dose.before, remedy.unit)} of it from before` : "";
        found(
          "dose/above-ceiling",
          ["amount"],
          () =>
            `${remedy.name} in ${dose.body.name} is now ${now()}${earlier}: above the ceiling of ${concentration(remedy.ceiling, remedy.unit)}. ${doseCaution}`,
          { related: () => [stated(remedy)] },
        );
      } else if (after < remedy.targetLow * (1 - lowTolerance)) {
        found(
          "dose/below-target",
          ["amount"],
          () =>
            `${remedy.name} in ${dose.body.name} is now ${now()}: below the target of ${concentration(remedy.targetLow, remedy.unit)}. ${doseCaution}`,
          { related: () => [stated(remedy)] },
        );
      }
      if (isEarly(at.time, dose)) {
        found(
          "dose/too-early",
          [],
          () =>
            `the repeat came after ${days(dose.sinceDays)}; stated is every ${days(remedy.repeatDays)}. ${doseCaution}`,
          { related: () => before(dose) },
        );
      }
      const isRepeat = dose.previous !== undefined && !isSameDose(remedy, dose.previous.time, at.time);
      if (isRepeat && dose.changedSince < remedy.changeBefore - 0.005) {
        found(
          "dose/change-owed",
          [],
          () =>
            `${percent(dose.changedSince)} of the water was changed since the last dose; ${percent(remedy.changeBefore)} is owed before a repeat. ${doseCaution}`,
          { related: () => [...before(dose), stated(remedy)] },
        );
      }
      if (dose.harmed.length > 0) {
        const names = dose.harmed.map((species) => species.name).join(", ");
        found(
          "dose/harms",
          ["remedy"],
          () =>
            `${remedy.name} is stated to harm ${remedy.harms.join(", ")}: ${names} ${dose.harmed.length === 1 ? "lives" : "live"} in this water. ${doseCaution}`,
          {
            related: () => [
              stated(remedy),
              ...dose.harmed.map((species) => ({ place: species.place, message: species.name })),
            ],
          },
        );
      }
    },
    courseCut(at, course) {
      add({
        code: "dose/missed",
        block: at.block,
        row: at.row,
        slots: [],
        severity: () => "warning",
        message: () =>
          `${course.given} of ${course.remedy.repeatTimes} doses of ${course.remedy.name} ${course.given === 1 ? "was" : "were"} given; the next was due on ${spokenDay(course.due, at.time)}. ${doseCaution}`,
        related: () => [stated(course.remedy)],
        why: () => ({
          what: `course of ${course.remedy.name}`,
          value: `${course.given} of ${course.remedy.repeatTimes}`,
          from: [whyEntry(at), whyStated(course.remedy.place)],
        }),
      });
    },
  });
}

/** Why so much of a remedy is in the water after a dose. */
export function whyDose(ledger: Ledger | undefined, at: Moment, { remedy }: DoseSeen): Why | undefined {
  const index = ledger?.doses.find(at.time, at.block, at.row, remedy.id) ?? -1;
  if (ledger === undefined || index < 0) return undefined;
  const until = settledTime(ledger.doses, index) + justAfter;
  return whyRemedy(ledger, remedy, until, `${remedy.name} in the water after this dose`);
}

/** Whether a repeat came before its time. Of an interval in whole days the days count, and not the hours. */
function isEarly(time: number, { sinceDays, previous, remedy }: DoseSeen): boolean {
  if (previous === undefined || isSameDose(remedy, previous.time, time)) return false;
  const { repeatDays } = remedy;
  return Number.isInteger(repeatDays)
    ? Math.floor(time) - Math.floor(previous.time) < repeatDays
    : sinceDays < repeatDays - anHour;
}

/** Nobody doses by the minute. Common practice. */
const anHour = 1 / 24;
/** A weighed dose within five per cent of the target is the target: the volume of no tank is known better. Common practice. */
const lowTolerance = 0.05;

export const stated = (remedy: Remedy) => ({
  place: remedy.place,
  message: `${remedy.name}: what you stated`,
});

function before(dose: DoseSeen) {
  const place = dose.previous === undefined ? undefined : placeOfRow(dose.previous.block, dose.previous.row);
  return place === undefined ? [] : [{ place, message: "the dose before" }];
}
