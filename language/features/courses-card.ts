import type { Station, Tank } from "../book/stations.ts";
import { bathRange, strength } from "../checks/baths.ts";
import { doseCaution } from "../checks/doses.ts";
import { formatNumber } from "../quantity/format.ts";
import { type Bath, bathsUntil } from "../room/baths.ts";
import { caseStories } from "../room/case-book.ts";
import type { Logbook } from "../room/logbook.ts";
import { caseOpenIn, treatmentsOf } from "../room/treatments.ts";
import { known, rowLocation } from "./card-parts.ts";
import { courseCard } from "./course-card.ts";
import type { BathCard, CoursesCard } from "./course-cards.ts";

/** Of a tank or system its own water's courses, or those of a case wherever they were given. */
export type CoursesOf = Station | { readonly case: string };

/**
 * The courses and baths of a tank, a system or a case, as known at the end of a day.
 * @param since the first day on which they may have ended; all of them if it is left out
 */
export function coursesCard(
  logbook: Logbook,
  of: CoursesOf,
  day: number,
  since = Number.NEGATIVE_INFINITY,
): CoursesCard {
  const isCase = "case" in of;
  const ledgers = isCase ? logbook.ledgers : [logbook.ledgerOf(of)];
  const courses = ledgers
    .flatMap((ledger) => treatmentsOf(logbook, ledger, day))
    .filter((treatment) => !isCase || treatment.case === of.case)
    .filter(({ end }) => end >= since)
    .sort((a, b) => a.begin - b.begin)
    .map((treatment) => courseCard(treatment, day));
  return {
    of: isCase ? of.case : of.name,
    day,
    courses,
    baths: bathCards(logbook, of, day, since),
    caution: doseCaution,
  };
}

/** The baths and dips of a tank, a system or a case up to the end of a day. @param since the first day that counts */
export function bathCards(logbook: Logbook, of: CoursesOf, day: number, since: number): BathCard[] {
  const isCase = "case" in of;
  const cases = caseStories(logbook, day);
  const caseOf = (bath: Bath, tank: Tank): string =>
    bath.case === "" ? caseOpenIn(cases, tank.body, bath.row.day) : bath.case;
  const isMeant = (bath: Bath, tank: Tank): boolean =>
    isCase ? caseOf(bath, tank) === of.case : tank === of || (of.kind === "system" && tank.body === of.body);
  return bathsUntil(logbook, day)
    .filter((bath) => bath.row.day >= since)
    .flatMap((bath) =>
      bath.tanks
        .filter((tank) => isMeant(bath, tank))
        .map((tank) => bathCard(bath, tank.name, caseOf(bath, tank))),
    );
}

function bathCard(bath: Bath, tank: string, ofCase: string): BathCard {
  const { row, remedy, animals, concentration: level, unknown, lowMinutes, highMinutes } = bath;
  const time = minutesText(lowMinutes, highMinutes);
  return {
    time: row.time,
    tank,
    remedy: remedy.name,
    species: bath.species,
    animals: known(animals),
    lot: bath.lot,
    case: ofCase,
    concentration: known(level),
    unit: remedy.unit,
    text: unknown === "" ? `${strength(level, remedy.unit)}${time}` : `cannot be computed: ${unknown}`,
    stated: Number.isNaN(remedy.bathLow)
      ? ""
      : `${bathRange(remedy)}${minutesText(remedy.bathLowMinutes, remedy.bathHighMinutes)}`,
    withdrawalEnd: known(row.day + Math.ceil(remedy.withdrawalDays)),
    at: rowLocation(row.block, row.id),
  };
}

function minutesText(low: number, high: number): string {
  if (Number.isNaN(low)) return "";
  return low === high
    ? ` for ${formatNumber(low)} min`
    : ` for ${formatNumber(low)}..${formatNumber(high)} min`;
}
