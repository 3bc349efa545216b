import { spokenDay } from "../../../book/dates.ts";
import { concentration } from "../../../checks/words.ts";
import { rowLocation } from "../../../features/card-parts.ts";
import { stateText } from "../../../features/course-card.ts";
import type { Location } from "../../../features/view.ts";
import { type Treatment, treatmentsOf } from "../../../room/treatments.ts";
import { arrow, type Follows, type Standing, type Told } from "../consequence.ts";

interface CourseStanding extends Standing {
  readonly treatment: Treatment;
}

/** Days within which a course whose first dose was dated anew is still that course. */
const sameCourseDays = 14;

/** Courses of treatment: what each dose comes to, whether it is above the ceiling, when the next is due, when animals may leave. */
export const doses: Follows<CourseStanding> = {
  is: "dose",
  reach: "water",

  standing({ logbook }, day) {
    const found = new Map<string, CourseStanding>();
    for (const ledger of logbook.ledgers)
      for (const treatment of treatmentsOf(logbook, ledger, day)) {
        const { remedy, given, begin } = treatment;
        const of = ledger.body?.name ?? "";
        const last = given.at(-1)!.index;
        found.set(JSON.stringify([of, remedy.name, begin]), {
          of,
          at: rowLocation(ledger.doses.block[last]!, ledger.doses.row[last]!),
          terms: [remedy.name],
          treatment,
        });
      }
    return found;
  },

  isSame: (gone, made) =>
    gone.of === made.of &&
    gone.treatment.remedy.name === made.treatment.remedy.name &&
    Math.abs(gone.treatment.begin - made.treatment.begin) <= sameCourseDays,

  told(before, after, day) {
    // Of years of courses nearly all are as they were.
    if (
      before !== undefined &&
      after !== undefined &&
      figuresOf(before.treatment) === figuresOf(after.treatment)
    )
      return [];
    const [was, now] = [before, after].map((each) =>
      each === undefined ? undefined : courseOf(each.treatment, day),
    );
    if (was === undefined) {
      const { remedy, begin, stateText } = now!;
      const over = now!.doses.filter((dose) => isAbove(now!, dose));
      return [
        { text: `a course of ${remedy} from ${spokenDay(begin, day)}: ${stateText}`, after: stateText },
        ...over.map((dose) => exceeds(now!, dose, day)),
      ];
    }
    if (now === undefined)
      return [
        {
          text: `the course of ${was.remedy} from ${spokenDay(was.begin, day)} is no more`,
          before: was.stateText,
        },
      ];
    return [...dosesTold(was, now, day), ...restTold(was, now, day)];
  },
};

/** What of a course can be told: two that have the same are the same. */
function figuresOf({ given, planned, remedy, state, end, withdrawalEnd }: Treatment): string {
  return JSON.stringify([
    given.map(({ number, time, added, before }) => [number, time, added, before]),
    planned.map(({ number, due, changeOwed, added }) => [number, due, changeOwed, added]),
    [remedy.ceiling, remedy.unit, state, end, withdrawalEnd],
  ]);
}

/** A course as it is told here. */
interface Course {
  readonly remedy: string;
  readonly begin: number;
  readonly stateText: string;
  readonly unit: Treatment["remedy"]["unit"];
  /** Not finite where none is stated. */
  readonly ceiling: number;
  /** NaN where nothing keeps the animals. */
  readonly withdrawalEnd: number;
  readonly doses: readonly Dose[];
}

interface Dose {
  readonly number: number;
  /** In days. */
  readonly time: number;
  readonly isPlanned: boolean;
  /** What is in the water behind it, in the unit of the course; NaN where it is not known. */
  readonly after: number;
  readonly at: Location | null;
}

function courseOf(treatment: Treatment, day: number): Course {
  const { ledger, remedy, begin, given, planned, steps, withdrawalEnd } = treatment;
  const coming = steps.filter(({ is, isPlanned }) => is === "dose" && isPlanned);
  return {
    remedy: remedy.name,
    begin,
    stateText: stateText(treatment, day),
    unit: remedy.unit,
    ceiling: remedy.ceiling,
    withdrawalEnd: Number.isFinite(withdrawalEnd) ? withdrawalEnd : Number.NaN,
    doses: [
      ...given.map(({ number, index, time, added, before }) => {
        const at = rowLocation(ledger.doses.block[index]!, ledger.doses.row[index]!);
        return { number, time, isPlanned: false, after: before + added, at };
      }),
      ...planned.map(({ number }, at) => {
        const { time, after } = coming[at]!;
        return { number, time, isPlanned: true, after, at: null };
      }),
    ],
  };
}

const isAbove = ({ ceiling }: Course, { after }: Dose): boolean =>
  Number.isFinite(ceiling) && Number.isFinite(after) && after > ceiling * (1 + 1e-9);

const inWater = ({ after }: Dose, { unit }: Course): string =>
  Number.isFinite(after) ? concentration(after, unit) : "not known";

const doseName = ({ time, isPlanned }: Dose, { remedy }: Course, day: number): string =>
  `the ${isPlanned ? "coming " : ""}dose of ${remedy} on ${spokenDay(Math.floor(time), day)}`;

const ceilingText = ({ ceiling, unit }: Course): string => concentration(ceiling, unit);

function exceeds(course: Course, dose: Dose, day: number, was = ""): Told {
  return {
    text: `${doseName(dose, course, day)} now exceeds its ceiling: ${inWater(dose, course)} in the water, of ${ceilingText(course)} at most`,
    tone: "worse",
    before: was,
    after: inWater(dose, course),
    ...(dose.at === null ? {} : { at: dose.at, from: [dose.at] }),
  };
}

function dosesTold(was: Course, now: Course, day: number): Told[] {
  const old = new Map(was.doses.map((dose) => [dose.number, dose]));
  return now.doses.flatMap((dose): Told[] => {
    const before = old.get(dose.number);
    if (before === undefined || before.isPlanned !== dose.isPlanned) {
      const isNew = before?.isPlanned === true && !dose.isPlanned;
      return isNew && isAbove(now, dose) ? [exceeds(now, dose, day)] : [];
    }
    const place = dose.at === null ? {} : { at: dose.at, from: [dose.at] };
    const words = { before: inWater(before, was), after: inWater(dose, now), ...place };
    if (isAbove(now, dose) && !isAbove(was, before)) return [exceeds(now, dose, day, inWater(before, was))];
    if (!isAbove(now, dose) && isAbove(was, before))
      return [
        {
          text: `${doseName(dose, now, day)} no longer exceeds its ceiling: ${inWater(dose, now)} in the water, of ${ceilingText(now)} at most`,
          tone: "better",
          ...words,
        },
      ];
    if (inWater(before, was) === inWater(dose, now)) return [];
    return [
      {
        text: `after ${doseName(dose, now, day)} in the water: ${arrow(inWater(before, was), inWater(dose, now))}`,
        isSmall: dose.isPlanned,
        ...words,
      },
    ];
  });
}

function restTold(was: Course, now: Course, day: number): Told[] {
  const told: Told[] = [];
  const say = (text: string, before: string, after: string): void => {
    told.push({ text: `${now.remedy}: ${text}`, before, after });
  };
  if (was.stateText !== now.stateText)
    say(`${now.stateText} (it was: ${was.stateText})`, was.stateText, now.stateText);
  const [left, leaves] = [was.withdrawalEnd, now.withdrawalEnd];
  if (!Object.is(left, leaves) && (Number.isNaN(leaves) ? left : leaves) >= day) {
    const on = (end: number): string => (Number.isNaN(end) ? "at any time" : `from ${spokenDay(end, day)}`);
    say(`animals may leave ${on(leaves)}, not ${on(left)}`, on(left), on(leaves));
  }
  return told;
}
