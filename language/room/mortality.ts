import { compareRates, poissonExact, type RateRatio } from "../science/rates.ts";
import { isOutside, type Outside } from "../science/result.ts";
import type { Sums } from "./stock-book.ts";

/**
 * Deaths of a period with the three denominators that are in use: they differ widely for the same month, so each is named. A death is an
 * animal found dead, jumped, euthanised, or lost without a word how; culls and what is missing stand beside.
 */
export interface Mortality {
  readonly deaths: number;
  /** Of the animals there at the beginning and all that came in; null where there were none. */
  readonly ofAll: number | null;
  /** Of the mean number there over the period. */
  readonly ofMean: number | null;
  /** Deaths in 1000 animal-days, with the exact interval (95 %) of a Poisson count. */
  readonly perThousand: { readonly best: number; readonly low: number; readonly high: number } | null;
  /** Against as many days before; a reason where there is nothing to compare. */
  readonly against: RateRatio | Outside;
}

export const deathsOf = ({ lost }: Sums): number => lost.found + lost.jumped + lost.euthanised + lost.lost;

/**
 * @param days of the period
 * @param before the sums of as many days before it
 * @param isRoomWide of all tanks together: what moves between them came from none but them
 */
export function mortality(now: Sums, days: number, before: Sums, isRoomWide = false): Mortality {
  const deaths = deathsOf(now);
  const moved = isRoomWide ? Math.max(0, now.movedIn - now.movedOut) : now.movedIn;
  const came = now.opening + now.arrived + now.born + moved + now.found;
  const mean = now.animalDays / days;
  const limits = poissonExact(deaths, now.animalDays);
  const [rate, earlier] = [
    { count: deaths, exposure: now.animalDays },
    { count: deathsOf(before), exposure: before.animalDays },
  ];
  return {
    deaths,
    ofAll: came > 0 ? deaths / came : null,
    ofMean: mean > 0 ? deaths / mean : null,
    perThousand: isOutside(limits)
      ? null
      : {
          best: (1000 * deaths) / now.animalDays,
          low: 1000 * limits.low,
          high: 1000 * limits.high,
        },
    against: compareRates(rate, earlier),
  };
}
