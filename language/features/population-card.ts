import { spokenDay } from "../book/dates.ts";
import { wordOf } from "../book/interner.ts";
import type { Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import { isAboutBefore } from "../room/course.ts";
import { stockBook } from "../room/stock-book.ts";
import { type Why, whyEntry } from "../room/why.ts";
import { whyAnimals } from "../room/why-stock.ts";
import { rowLocation, whyCard } from "./card-parts.ts";
import type { BearingCard, CoursePoint, PopulationCard } from "./population-cards.ts";
import { stockingCard } from "./stock-card.ts";
import { cameText, wentText } from "./stock-report.ts";

const courseDays = 365;
const lateDays = 30;

/** Of a tank, or of all tanks of a system; species that were there within the last 30 days. */
export function populationCards(
  { logbook }: CheckedLogbook,
  tanks: readonly Station[],
  day: number,
): PopulationCard[] {
  const rows = stockBook(logbook, { from: day - lateDays + 1, to: day });
  return rows
    .filter(({ tank }) => tanks.includes(tank))
    .map(({ tank, species, sums, ledger, course }) => {
      const { series, at } = course;
      const points: CoursePoint[] = [];
      const entries: PopulationCard["entries"][number][] = [];
      let before = Number.NaN;
      let end = 0;
      for (const index of at) {
        const time = series.time[index]!;
        if (time >= day + 1) break;
        end = index + 1;
        const after = series.second[index]!;
        if (time >= day + 1 - courseDays && !Number.isNaN(after)) {
          if (!Number.isNaN(before)) points.push({ time, value: before });
          points.push({ time, value: after });
          const entry = { block: series.block[index]!, row: series.row[index]! };
          entries.push({
            time,
            after,
            text: wordsOf(whyEntry(entry)),
            at: rowLocation(entry.block, entry.row),
          });
        } else if (!Number.isNaN(after)) {
          // Where the year begins there were so many.
          points.splice(0, points.length, { time: day + 1 - courseDays, value: after });
        }
        before = after;
      }
      if (!Number.isNaN(before)) points.push({ time: day + 1, value: before });
      const about = isAboutBefore(ledger, course, day + 1) ? "~" : "";
      return {
        of: tank.name,
        species,
        animals: sums.closing,
        text: `${about}${formatNumber(sums.closing, 6)}`,
        came: cameText(sums),
        went: wentText(sums),
        course: points,
        entries,
        why: whyCard(
          whyAnimals(ledger, tank, wordOf(course.holding.species), `${species} in ${tank.name}`, end),
        ),
      };
    });
}

/** An entry without its date: that stands beside it. */
const wordsOf = ({ what }: Why): string => what.replace(/^\d{4}-\d{2}-\d{2} /, "");

export function bearingCards(
  { logbook }: CheckedLogbook,
  tanks: readonly Station[],
  day: number,
): BearingCard[] {
  return tanks.flatMap((station) =>
    station.kind !== "tank"
      ? []
      : stockingCard(logbook, station as Tank, day).map((card): BearingCard => {
          const { grams, gramsPerLitre, holdsText, unweighed, oxygen, oxygenUnknown, why, tank } = card;
          const weight = [
            grams === null ? "" : `${formatNumber(grams)} g`,
            gramsPerLitre === null ? "" : `${formatNumber(gramsPerLitre)} g/L`,
          ].filter((part) => part !== "");
          const parts = [
            weight.length === 0 ? "weight not known" : `weigh ${weight.join(", ")}`,
            ...(holdsText === "" ? [] : [`the tank holds ${holdsText} at most`]),
            ...(unweighed.length > 0 && grams !== null ? [`without ${unweighed.join(", ")}`] : []),
          ];
          return {
            of: tank,
            text: parts.join("; "),
            oxygen:
              oxygen === null
                ? `oxygen: ${oxygenUnknown}`
                : `oxygen: the fish use ${formatNumber(oxygen.mgPerH)} mg/h at rest; the water holds ${formatNumber(oxygen.heldMg)} mg`,
            why,
            oxygenWhy: oxygen?.why ?? null,
          };
        }),
  );
}

/** `since 2 March`: from when the late days count. */
export const lateSince = (day: number): string => `since ${spokenDay(day - lateDays + 1, day)}`;
