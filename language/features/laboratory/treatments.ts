import { clockOf, isoOf } from "../../book/dates.ts";
import type { Remedy } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { CourseCard } from "../course-cards.ts";
import { coursesCard } from "../courses-card.ts";
import { courseCurve, courseCurveWords } from "../pictures/course-curve.ts";
import { type Field, field } from "./field.ts";
import { type SheetScope, type SheetWater, waterName, watersOf } from "./scope.ts";

/** What was given, with what was in the water by dilution and the half-life stated: the courses as they are told elsewhere. */
export interface SheetTreatment {
  readonly of: string;
  readonly remedy: string;
  readonly title: string;
  readonly state: string;
  readonly fields: readonly Field[];
  readonly doses: readonly SheetDose[];
  readonly chart: string;
  readonly chartText: string;
}

export interface SheetDose {
  readonly time: number;
  /** As written. */
  readonly amount: string;
  /** `2 mg/L, of it 0.5 mg/L from this dose`. */
  readonly after: string;
}

/** A bath or dip: in a vessel of its own. */
export interface SheetBath {
  readonly time: number;
  readonly tank: string;
  readonly remedy: string;
  /** `3 woworae`. */
  readonly animals: string;
  /** `10 g/L for 5 min`, or why it cannot be computed. */
  readonly text: string;
}

export const treatmentDays = 90;

/** Courses that ended in the last 90 days, or run. */
export const sheetTreatments = (scope: SheetScope): SheetTreatment[] =>
  watersOf(scope).flatMap((water) => {
    const [tank] = water.tanks;
    if (tank === undefined) return [];
    const { courses } = coursesCard(scope.logbook, tank, scope.day, scope.day - treatmentDays + 1);
    return courses.map((course) => treatmentOf(scope, water, course));
  });

function treatmentOf({ book }: SheetScope, water: SheetWater, course: CourseCard): SheetTreatment {
  const { remedy: name, title, target, ceilingText, figures, stateText, parts } = course;
  const remedy = book.remedy(name);
  // What is planned is the keeper's business.
  const sofar: CourseCard = {
    ...course,
    ahead: [],
    doses: course.doses.filter(({ isPlanned }) => !isPlanned),
    changes: course.changes.filter(({ isPlanned }) => !isPlanned),
  };
  const told = (what: string, text: string): Field[] => (text === "" ? [] : [field(what, text, "")]);
  return {
    of: waterName(water),
    remedy: name,
    title,
    state: stateText,
    fields: [
      field("Active substance", remedy?.active ?? "", `“active” of remedy ${name}`),
      field(
        "Strength of the product",
        remedy === undefined ? "" : strengthOf(remedy),
        `“strength” of remedy ${name}`,
      ),
      field(
        "Half-life in the water",
        remedy === undefined || Number.isNaN(remedy.halfLifeDays)
          ? ""
          : `${formatNumber(remedy.halfLifeDays)} d, as stated`,
        `“half-life” of remedy ${name}; without it only changes of water thin it`,
      ),
      ...told("Target, as stated", target?.text ?? ""),
      ...told("Ceiling, as stated", ceilingText),
      ...told("Highest, computed", figures.highestText),
      ...told("Within the target", figures.insideText),
      ...told("Above the ceiling", figures.aboveText),
      ...told("Exposure, computed", figures.exposureText),
      ...told("Taken out meanwhile", parts.map(({ text }) => text).join("; ")),
    ],
    doses: sofar.doses.map(({ time, amount, after, text }) => ({
      time,
      amount,
      after: after === null ? "" : text,
    })),
    chart: courseCurve(sofar),
    chartText: courseCurveWords(sofar),
  };
}

const strengthOf = ({ activeFraction, activeMgPerML }: Remedy): string =>
  Number.isFinite(activeMgPerML)
    ? `${formatNumber(activeMgPerML, 6)} mg/mL`
    : Number.isFinite(activeFraction)
      ? `${formatNumber(activeFraction * 100, 6)} %`
      : "";

/** Baths of animals of these tanks, and of the case, in the same days. */
export function sheetBaths({ logbook, tanks, story, day }: SheetScope): SheetBath[] {
  const since = day - treatmentDays + 1;
  const all = [
    ...tanks.flatMap((tank) => coursesCard(logbook, tank, day, since).baths),
    ...coursesCard(logbook, { case: story.name }, day, since).baths,
  ];
  const keys = all.map(({ at, tank, time }) => `${at?.path} ${at?.start} ${tank} ${time}`);
  return all
    .filter((_, at) => keys.indexOf(keys[at]!) === at)
    .sort((a, b) => a.time - b.time)
    .map(({ time, tank, remedy, animals, species, lot, text }) => ({
      time,
      tank,
      remedy,
      animals: `${animals === null ? "?" : formatNumber(animals, 6)} ${species}${lot === "" ? "" : `, lot ${lot}`}`,
      text,
    }));
}

/** `2026-03-03 08:40`; of what counts as at 00:00 the day. */
export const timeText = (time: number): string => {
  const clock = clockOf(time);
  return `${isoOf(time)}${clock === "00:00" ? "" : ` ${clock}`}`;
};
