import { spokenDay } from "../../../book/dates.ts";
import { rowLocation } from "../../../features/card-parts.ts";
import { courseCard } from "../../../features/course-card.ts";
import type { CourseCard, CourseDoseCard } from "../../../features/course-cards.ts";
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
    // Cards cost much, and of years of courses nearly all are as they were.
    if (
      before !== undefined &&
      after !== undefined &&
      figuresOf(before.treatment) === figuresOf(after.treatment)
    )
      return [];
    const [was, now] = [before, after].map((each) =>
      each === undefined ? undefined : courseCard(each.treatment, day),
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

const isAbove = ({ ceiling }: CourseCard, { after }: CourseDoseCard): boolean =>
  ceiling !== null && after !== null && after > ceiling * (1 + 1e-9);

const inWater = ({ text, after }: CourseDoseCard): string =>
  after === null ? "not known" : text.split(",")[0]!;

const doseName = ({ time, isPlanned }: CourseDoseCard, { remedy }: CourseCard, day: number): string =>
  `the ${isPlanned ? "coming " : ""}dose of ${remedy} on ${spokenDay(Math.floor(time), day)}`;

function exceeds(card: CourseCard, dose: CourseDoseCard, day: number, was = ""): Told {
  return {
    text: `${doseName(dose, card, day)} now exceeds its ceiling: ${inWater(dose)} in the water, of ${card.ceilingText} at most`,
    tone: "worse",
    before: was,
    after: inWater(dose),
    ...(dose.at === null ? {} : { at: dose.at, from: [dose.at] }),
  };
}

function dosesTold(was: CourseCard, now: CourseCard, day: number): Told[] {
  const old = new Map(was.doses.map((dose) => [dose.number, dose]));
  return now.doses.flatMap((dose): Told[] => {
    const before = old.get(dose.number);
    if (before === undefined || before.isPlanned !== dose.isPlanned) {
      const isNew = before?.isPlanned === true && !dose.isPlanned;
      return isNew && isAbove(now, dose) ? [exceeds(now, dose, day)] : [];
    }
    const place = dose.at === null ? {} : { at: dose.at, from: [dose.at] };
    const words = { before: inWater(before), after: inWater(dose), ...place };
    if (isAbove(now, dose) && !isAbove(was, before)) return [exceeds(now, dose, day, inWater(before))];
    if (!isAbove(now, dose) && isAbove(was, before))
      return [
        {
          text: `${doseName(dose, now, day)} no longer exceeds its ceiling: ${inWater(dose)} in the water, of ${now.ceilingText} at most`,
          tone: "better",
          ...words,
        },
      ];
    if (inWater(before) === inWater(dose)) return [];
    return [
      {
        text: `after ${doseName(dose, now, day)} in the water: ${arrow(inWater(before), inWater(dose))}`,
        isSmall: dose.isPlanned,
        ...words,
      },
    ];
  });
}

function restTold(was: CourseCard, now: CourseCard, day: number): Told[] {
  const told: Told[] = [];
  const say = (text: string, before: string, after: string): void => {
    told.push({ text: `${now.remedy}: ${text}`, before, after });
  };
  if (was.stateText !== now.stateText)
    say(`${now.stateText} (it was: ${was.stateText})`, was.stateText, now.stateText);
  const [left, leaves] = [was.withdrawalEnd, now.withdrawalEnd];
  if (left !== leaves && (leaves ?? left)! >= day) {
    const on = (end: number | null): string => (end === null ? "at any time" : `from ${spokenDay(end, day)}`);
    say(`animals may leave ${on(leaves)}, not ${on(left)}`, on(left), on(leaves));
  }
  return told;
}
