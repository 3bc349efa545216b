import { spokenDay } from "../book/dates.ts";
import type { Gear, Station } from "../book/stations.ts";
import { absenceOn } from "../room/capacity.ts";
import { coursesCut, type DueDuty, dosesOn, dutiesOn } from "../room/due.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Observer } from "../room/observer.ts";
import type { Course } from "../room/solutes.ts";
import { placeOfRow, type Why, whyEntry, whyStated } from "../room/why.ts";
import { page } from "./code.ts";
import { doseCaution } from "./doses.ts";
import { dueNotes } from "./due-words.ts";
import { gearFinding, usedExpired } from "./expiries.ts";
import type { Finding, Severity } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { days, percent } from "./words.ts";

/** What is late, by one mechanism for all duties, and doses of courses that are running. */

const tank = `tank dam
  volume 100 L
  every 7 d change 30 %
`;

export const dutyPages = [
  page({
    code: "duty/overdue",
    severity: "warning",
    since: "0.1",
    title: "A duty is overdue",
    says: "It is longer ago than the interval stated since this was last done. What is a little late is only for information; a warning comes when it is late by more than a quarter of its interval.",
    whatToDo: "Do it and write it down, or give the duty another interval.",
    raises: `${tank.trimEnd().replace("every", "every")}
# ^^^^^^^^^^^^^^^^^^^^^ duty/overdue
2026-03-01
  dam change 30 %
2026-03-12
  dam note "away for a week"`,
    fine: `${tank}2026-03-01
  dam change 30 %
2026-03-08
  dam note "today, after lunch"`,
  }),
  page({
    code: "duty/short",
    severity: "information",
    since: "0.1",
    title: "Done less often than stated",
    says: "In the days up to today this was done fewer times than “at least” asks for.",
    whatToDo: "Catch up.",
    raises: `tank dam
  volume 100 L
  at least 3 per 7 d feed frozen
# ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ duty/short
food cyclops
  kind frozen
2026-03-01
  dam feed cyclops
2026-03-15
  dam feed cyclops`,
    fine: `tank dam
  volume 100 L
  at least 2 per 7 d feed frozen
food cyclops
  kind frozen
2026-03-01
  dam feed cyclops
2026-03-12
  dam feed cyclops
2026-03-15
  dam feed cyclops`,
  }),
  page({
    code: "duty/too-often",
    severity: "information",
    since: "0.1",
    title: "Done more often than stated",
    says: "With this entry it was done more often than “at most” allows in any so many days.",
    whatToDo: "Leave it out for some days.",
    raises: `tank dam
  volume 100 L
  at most 2 per 7 d feed dry
food flake
  kind dry
2026-03-01
  dam feed flake
2026-03-02
  dam feed flake
2026-03-03
  dam feed flake
# ^^^^^^^^^^^^^^ duty/too-often`,
    fine: `tank dam
  volume 100 L
  at most 2 per 7 d feed dry
food flake
  kind dry
2026-03-01
  dam feed flake
2026-03-02
  dam feed flake
2026-03-08
  dam feed flake`,
  }),
] as const;

/** Listens to duties done, and to doses of what is past its day. */
export function dutyChecks(add: (finding: RowFinding) => void): Observer {
  return {
    dose(at, { remedy }) {
      const found = usedExpired(at, remedy, "remedy");
      if (found !== undefined) add(found);
    },
    duty(at, { duty, times }) {
      add({
        code: "duty/too-often",
        block: at.block,
        row: at.row,
        slots: [],
        severity: () => "information",
        message: () =>
          `${duty.act} in ${duty.station.name}: ${times} times in ${days(duty.form.periodDays)}, at most ${duty.form.times} stated in ${duty.by}`,
        related: () => [{ place: duty.place, message: `stated in ${duty.by}` }],
        why: () => ({
          what: `times of “${duty.act}”`,
          value: String(times),
          from: [whyEntry(at), whyStated(duty.place)],
        }),
      });
    },
  };
}

/** Late by more than this share of its interval a duty is a warning. Common practice. */
const warnAfter = 0.25;

/**
 * Duties that are late on a day, and doses. Where entries stand is looked up when it is asked for: an edit above them in their block
 * moves them and leaves their ledger as it is.
 */
export function lateFindings(
  ledger: Ledger,
  stations: readonly Station[],
  day: number,
): (Finding | RowFinding)[] {
  return [
    ...dutiesOn(ledger, stations, day)
      .filter((due) => due.late > 0)
      .map((due) => lateDuty(ledger, due, day)),
    ...stations.flatMap((each) => (each.kind === "gear" ? gearFinding(ledger, each as Gear, day) : [])),
    ...lateDoses(ledger, day),
  ];
}

function lateDuty(ledger: Ledger, due: DueDuty, day: number): Finding {
  const { duty, late, last, times } = due;
  const { form, place } = duty;
  const isEvery = form.when === "every";
  const severity: Severity = isEvery && late > warnAfter * form.periodDays ? "warning" : "information";
  const notes = dueNotes(ledger.book, due, day).join("; ");
  const since = [Number.isNaN(last) ? "never done" : `last done on ${spokenDay(last)}`, notes]
    .filter((part) => part !== "")
    .join("; ");
  return {
    code: isEvery ? "duty/overdue" : "duty/short",
    severity,
    block: place.block,
    start: place.start,
    end: place.end,
    message: isEvery
      ? `${duty.station.name}: ${duty.act} is ${days(late)} late (${since})`
      : `${duty.station.name}: ${duty.act} ${times} of ${form.times} times in the last ${days(form.periodDays)}${notes === "" ? "" : ` (${notes})`}`,
    fixes: [],
    get related() {
      const lastPlace = due.lastAt === undefined ? undefined : placeOfRow(due.lastAt.block, due.lastAt.row);
      return lastPlace === undefined ? [] : [{ place: lastPlace, message: "last done here" }];
    },
    about: duty.station,
    get why() {
      return whyDuty(ledger, due, day);
    },
  };
}

/** Why a duty is due when it is: what did it last, or, of so many times in a period, all that did it. */
export function whyDuty(ledger: Ledger, state: DueDuty, day: number): Why {
  const { duty, late, lastAt, due, owed, times, less, undone } = state;
  const { form, place, station } = duty;
  const what = `${duty.act} in ${station.name}`;
  const absence = owed === due ? undefined : absenceOn(ledger.book, due);
  const beside: Why[] = [
    ...(absence === undefined ? [] : [whyStated(absence.place)]),
    ...(less === undefined ? [] : [{ ...whyEntry(less), value: "less than it asks for" }]),
  ];
  const toBack = owed === due ? "" : ", then the next day with work";
  if (form.when === "every") {
    return {
      what,
      value: [
        !Number.isFinite(owed)
          ? "nothing is owed"
          : late > 0
            ? `${days(late)} late`
            : `due ${late === 0 ? "today" : `on ${spokenDay(owed, day)}`}`,
        ...dueNotes(ledger.book, state, day),
      ].join("; "),
      formula: `${everyFormula(state)}${toBack}`,
      place,
      from: [
        whyStated(place),
        ...(lastAt === undefined ? [] : [whyEntry(lastAt)]),
        ...(undone === undefined ? [] : [whyEntry(undone)]),
        ...beside,
      ],
    };
  }
  const done = ledger.duties.done(duty);
  const from: Why[] = [whyStated(place)];
  for (
    let at = done.from(day - Math.round(form.periodDays) + 1);
    at < done.length && done.time[at]! < day + 1;
    at++
  )
    from.push(whyEntry({ block: done.block[at]!, row: done.row[at]! }));
  from.push(...beside);
  return {
    what,
    value: [`${times}, ${form.when} ${form.times}`, ...dueNotes(ledger.book, state, day)].join("; "),
    formula: `times in the ${days(form.periodDays)} up to ${spokenDay(day)}`,
    place,
    from,
  };
}

function everyFormula({ duty, last, undone }: DueDuty): string {
  if (undone !== undefined) return "due = day it was taken back";
  if (duty.isLife)
    return "due = day it was replaced, or its first day in use if that is later, + time it lasts";
  return Number.isNaN(last)
    ? "due = first day + interval: it was never done"
    : "due = day it was last done + interval";
}

function lateDoses(ledger: Ledger, day: number): RowFinding[] {
  const overdue = dosesOn(ledger, day)
    .filter(({ late }) => late > 0)
    .map(({ course, due, late, changeOwed }): RowFinding => {
      const { remedy, given } = course;
      const owed = changeOwed > 0.005 ? `; a change of ${percent(changeOwed)} is owed before it` : "";
      return {
        ...atLastDose(course),
        code: "dose/overdue",
        message: () =>
          `dose ${given + 1} of ${remedy.repeatTimes} of ${remedy.name} was due on ${spokenDay(due, day)}, ${days(late)} ago${owed}. ${doseCaution}`,
        why: () => ({
          what: `next dose of ${remedy.name}`,
          value: spokenDay(due),
          formula: "due = day of the last dose + interval",
          from: [whyEntry(course.last), whyStated(remedy.place)],
        }),
      };
    });
  const cut = coursesCut(ledger, day).map((course): RowFinding => {
    const { remedy, given, last } = course;
    return {
      ...atLastDose(course),
      code: "dose/missed",
      message: () =>
        `${given} of ${remedy.repeatTimes} doses of ${remedy.name} ${given === 1 ? "was" : "were"} given; the next was due on ${spokenDay(last.time + remedy.repeatDays)}. ${doseCaution}`,
      why: () => ({
        what: `course of ${remedy.name}`,
        value: `${given} of ${remedy.repeatTimes}`,
        from: [whyEntry(last), whyStated(remedy.place)],
      }),
    };
  });
  return [...overdue, ...cut];
}

/** A finding at the last dose of a course. */
function atLastDose({ last, remedy }: Course) {
  return {
    block: last.block,
    row: last.row,
    slots: [],
    severity: (): Severity => "warning",
    related: () => [{ place: remedy.place, message: "the course as you stated it" }],
  };
}
