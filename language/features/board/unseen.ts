import { spokenDay } from "../../book/dates.ts";
import { wordOf } from "../../book/interner.ts";
import type { Tank } from "../../book/stations.ts";
import { days } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { Holding } from "../../room/stock.ts";
import { stationLocation } from "../card-parts.ts";
import type { View } from "../view.ts";
import type { BoardLine } from "./board-card.ts";
import { countWay, holdingsOf } from "./ways.ts";

/** Animals that nobody has seen for long: neither counted nor put in. */

/** A choice of this tool: a month. */
const longDays = 30;

/** The longest unseen first. @param isCounted tanks of which a count is due anyway */
export function unseenLines(
  view: View,
  tanks: readonly Tank[],
  isCounted: (tank: Tank) => boolean,
  day: number,
): BoardLine[] {
  return tanks
    .filter((tank) => !isCounted(tank))
    .flatMap((tank) => {
      const unseen = holdingsOf(view, tank)
        .filter(({ animals }) => animals > 0)
        .map((holding) => ({ holding, seen: lastSeen(view, tank, holding, day) }))
        .filter(({ seen }) => day - seen > longDays);
      return unseen.length === 0
        ? []
        : [{ tank, unseen, since: Math.min(...unseen.map(({ seen }) => seen)) }];
    })
    .sort((a, b) => a.since - b.since)
    .map(({ tank, unseen, since }): BoardLine => {
      const holdings = unseen.map(({ holding }) => holding);
      const when = Number.isFinite(since)
        ? `not seen for ${days(day - since)}, last on ${spokenDay(since, day)}`
        : "never counted";
      return {
        key: `unseen ${tank.name}`,
        name: tank.name,
        text: `${holdings.map(animalsText).join(", ")}: ${when}`,
        tone: "plain",
        task: {
          key: `${tank.name} unseen`,
          target: tank.name,
          kind: "count",
          ways: [countWay(holdings)],
          late: 0,
          when: "",
          last: "",
          why: "",
          litres: "",
          caution: "",
          place: stationLocation(tank),
        },
        place: stationLocation(tank),
        card: { tank: tank.name },
      };
    });
}

const animalsText = ({ species, animals, isAbout }: Holding): string =>
  `${isAbout ? "~" : ""}${formatNumber(animals, 6)} ${wordOf(species)}`;

/** The day on which they were counted last, or more came. */
function lastSeen({ checked }: View, tank: Tank, { index, lastCountTime }: Holding, day: number): number {
  const { animals } = checked.logbook.ledgerOf(tank);
  let seen = Number.isNaN(lastCountTime) ? Number.NEGATIVE_INFINITY : Math.floor(lastCountTime);
  for (let at = animals.from(day + 1) - 1; at >= 0 && animals.time[at]! > seen; at--)
    if (animals.tag[at] === index && !(animals.second[at]! <= animals.first[at]!)) {
      seen = Math.max(seen, Math.floor(animals.time[at]!));
      break;
    }
  return seen;
}
