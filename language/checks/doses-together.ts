import { spokenDay } from "../book/dates.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { type Block, rowOfId } from "../book/source.ts";
import type { Ledger } from "../room/ledger.ts";
import type { DoseSeen, Moment, Observer } from "../room/observer.ts";
import { justAfter } from "../room/past.ts";
import type { Course } from "../room/solutes.ts";
import { leastThatCounts, unknownDays } from "../room/treated.ts";
import { settledTime } from "../room/water.ts";
import { placeOfRow, whyEntry } from "../room/why.ts";
import { whyRemedy } from "../room/why-dose.ts";
import { page } from "./code.ts";
import { doseCaution, stated, whyDose } from "./doses.ts";
import type { RowFinding } from "./observe.ts";
import { concentration } from "./words.ts";

/** Doses that meet in one water: the same remedy twice on a day, and one remedy on another. */

const prelude = `remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
remedy salt
  target 1 g/L
tank q1
  volume 50 L
`;

export const doseTogetherPages = [
  page({
    code: "dose/doubled",
    severity: "warning",
    since: "0.3",
    title: "Given twice on one day",
    says: "A second dose of the remedy was written for this water on the same day, and the first alone had reached the target you stated; where none is stated, or the first cannot be computed, a second one in the same tank. A dose that is divided over the day, or over the tanks of one water, is none: it comes to the target only with its last part.",
    whatToDo:
      "If it was written twice, delete one of the lines. If it was given twice, look at what is in the water now, change water to bring it down, aerate, watch the animals, and ask a veterinarian.",
    raises: `${prelude}2026-03-01
  q1 dose prazi 100 mg
  18:00 q1 dose prazi 100 mg
#       ^^^^^^^^^^^^^^^^^^^^ dose/doubled`,
    fine: `${prelude}2026-03-01
  q1 dose prazi 50 mg
  18:00 q1 dose prazi 50 mg`,
  }),
  page({
    code: "dose/mixed",
    severity: "warning",
    since: "0.3",
    title: "Into what another remedy is still in",
    says: "When this remedy came into the water more than a hundredth of the target of another was still there, by its doses, the changes since and its half-life; or how much is left of it cannot be computed. It is told once, of the dose with which they came together. What remedies do to each other this tool does not know.",
    whatToDo:
      "Read on both labels what they may not be given with, and ask a veterinarian. Change water until nothing is left of the first, if they do not bear each other.",
    raises: `${prelude}2026-03-01
  q1 dose salt 50 g
2026-03-05
  q1 change 50 %
  q1 dose prazi 100 mg
#         ^^^^^ dose/mixed`,
    fine: `${prelude}2026-03-01
  q1 dose salt 50 g
2026-03-05
  q1 change 100 %
  q1 dose prazi 100 mg`,
    source: "Common practice: remedies are not mixed unless both labels say so.",
  }),
] as const;

/** A weighed dose within five per cent of the target is the target, as in the other checks of doses. */
const lowTolerance = 0.05;

/** Listens to doses that meet. @param ledgerAsIs the ledger they are given in */
export function doseTogetherChecks(ledgerAsIs: () => Ledger | undefined) {
  return (add: (finding: RowFinding) => void): Observer => ({
    dose(at, dose) {
      const ledger = ledgerAsIs();
      if (ledger === undefined) return;
      const earlier = earlierThatDay(ledger, at, dose);
      if (earlier !== undefined) add(doubled(ledger, at, dose, earlier));
      if (isAlready(ledger, at, dose)) return;
      for (const other of ledger.solutes?.all(at.time) ?? [])
        if (other.remedy !== dose.remedy && isThere(ledger, other, at.time))
          add(mixed(ledger, at, dose, other));
    },
  });
}

/** The dose of the same day after which this one is one too many; undefined if there is none. */
function earlierThatDay({ doses }: Ledger, at: Moment, { remedy, before }: DoseSeen): Moment | undefined {
  if (remedy.repeatDays < 1) return undefined;
  for (let index = doses.length - 2; index >= 0; index--) {
    const time = doses.time[index]!;
    if (Math.floor(time) !== Math.floor(at.time)) return undefined;
    if (doses.tag[index] !== remedy.id) continue;
    const earlier = { time, block: doses.block[index]!, row: doses.row[index]! };
    const canTell = Number.isFinite(before) && Number.isFinite(remedy.targetLow);
    const isEnough = canTell
      ? before >= remedy.targetLow * (1 - lowTolerance)
      : targetOf(earlier.block, earlier.row) === targetOf(at.block, at.row);
    return isEnough ? earlier : undefined;
  }
  return undefined;
}

function targetOf(block: Block, id: number): number {
  const row = rowOfId(block, id);
  return row < 0 ? Number.NaN : block.facts.ints[row * intsPerRow + Col.target]!;
}

function doubled(ledger: Ledger, at: Moment, dose: DoseSeen, earlier: Moment): RowFinding {
  const { remedy, before, after, body } = dose;
  return {
    code: "dose/doubled",
    block: at.block,
    row: at.row,
    slots: [],
    severity: () => "warning",
    message: () => {
      const now = Number.isNaN(after)
        ? "how much is in the water now cannot be computed"
        : `${concentration(before, remedy.unit)} were there, now ${concentration(after, remedy.unit)}`;
      return `one more dose of ${remedy.name} in ${body.name} on ${spokenDay(Math.floor(at.time))}: ${now}. ${doseCaution}`;
    },
    related: () => {
      const place = placeOfRow(earlier.block, earlier.row);
      return [
        ...(place === undefined ? [] : [{ place, message: "the dose before it, on the same day" }]),
        stated(remedy),
      ];
    },
    why: () => whyDose(ledger, at, dose),
  };
}

/** Whether the remedy itself was there before: then what it is mixed with was told when they came together. */
function isAlready(ledger: Ledger, at: Moment, { remedy, before }: DoseSeen): boolean {
  if (Number.isNaN(before)) return true;
  const index = ledger.doses.find(at.time, at.block, at.row, remedy.id);
  return index >= 0 && before > leastThatCounts(ledger, remedy, index);
}

function isThere(ledger: Ledger, { remedy, concentration: level, last }: Course, time: number): boolean {
  if (Number.isNaN(level)) return time - last.time < unknownDays;
  const index = ledger.doses.find(last.time, last.block, last.row, remedy.id);
  return index >= 0 && level > leastThatCounts(ledger, remedy, index);
}

function mixed(ledger: Ledger, at: Moment, dose: DoseSeen, other: Course): RowFinding {
  const { remedy, body } = dose;
  const { name, unit } = other.remedy;
  return {
    code: "dose/mixed",
    block: at.block,
    row: at.row,
    slots: ["remedy"],
    severity: () => "warning",
    message: () => {
      const left = Number.isNaN(other.concentration)
        ? "how much is left cannot be computed"
        : `${concentration(other.concentration, unit)} are left`;
      return `${remedy.name} goes into water of ${body.name} that ${name} is still in: ${left} of the dose of ${spokenDay(Math.floor(other.last.time), at.time)}. Whether they bear each other the labels say. ${doseCaution}`;
    },
    related: () => {
      const place = placeOfRow(other.last.block, other.last.row);
      return [
        ...(place === undefined ? [] : [{ place, message: `the last dose of ${name}` }]),
        stated(other.remedy),
        stated(remedy),
      ];
    },
    why: () => {
      const index = ledger.doses.find(at.time, at.block, at.row, remedy.id);
      const until = index < 0 ? at.time + justAfter : settledTime(ledger.doses, index);
      const left = whyRemedy(ledger, other.remedy, until, `${name} in the water before this dose`);
      return { ...left, from: [whyEntry(at), ...left.from] };
    },
  };
}
