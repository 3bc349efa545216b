import { spokenDay } from "../book/dates.ts";
import { wordOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Holding } from "../room/stock.ts";

/** Animals of a tank that nobody has seen for long: neither counted nor put in. */
export interface Unseen {
  readonly tank: Tank;
  readonly holdings: readonly Holding[];
  /** The day on which one of them was seen last; -Infinity where that was never. */
  readonly since: number;
  /** `5 horn: not seen for 41 days, last on 1 February`. */
  readonly text: string;
}

/** A choice of this tool: a month. */
const longDays = 30;

/** The longest unseen first. */
export function unseenOn(checked: CheckedLogbook, tanks: readonly Tank[], day: number): Unseen[] {
  return tanks
    .flatMap((tank): Unseen[] => {
      const unseen = holdingsOf(checked, tank)
        .filter(({ animals }) => animals > 0)
        .map((holding) => ({ holding, seen: lastSeen(checked, tank, holding, day) }))
        .filter(({ seen }) => day - seen > longDays);
      if (unseen.length === 0) return [];
      const holdings = unseen.map(({ holding }) => holding);
      const since = Math.min(...unseen.map(({ seen }) => seen));
      const when = Number.isFinite(since)
        ? `not seen for ${days(day - since)}, last on ${spokenDay(since, day)}`
        : "never counted";
      return [{ tank, holdings, since, text: `${holdings.map(animalsText).join(", ")}: ${when}` }];
    })
    .sort((a, b) => a.since - b.since);
}

/** Who lives in a tank today, by the book: the most first. Also those of whom nobody knows how many. */
export function holdingsOf(checked: CheckedLogbook, tank: Tank): Holding[] {
  const { stock } = checked.logbook.ledgerOf(tank);
  return stock
    .all()
    .filter((each) => each.tank === tank.id && !(each.animals <= 0))
    .sort((a, b) => b.animals - a.animals);
}

const animalsText = ({ species, animals, isAbout }: Holding): string =>
  `${isAbout ? "~" : ""}${formatNumber(animals, 6)} ${wordOf(species)}`;

/** The day on which they were counted last, or more came. */
function lastSeen(
  checked: CheckedLogbook,
  tank: Tank,
  { index, lastCountTime }: Holding,
  day: number,
): number {
  const { animals } = checked.logbook.ledgerOf(tank);
  let seen = Number.isNaN(lastCountTime) ? Number.NEGATIVE_INFINITY : Math.floor(lastCountTime);
  for (let at = animals.from(day + 1) - 1; at >= 0 && animals.time[at]! > seen; at--)
    if (animals.tag[at] === index && !(animals.second[at]! <= animals.first[at]!)) {
      seen = Math.max(seen, Math.floor(animals.time[at]!));
      break;
    }
  return seen;
}
