import { isoOf } from "../../book/dates.ts";
import type { RoomLossCard } from "../../features/losses-card.ts";
import type { Opened } from "../open.ts";
import type { RoomLosses } from "../schema/room-losses.ts";
import { placesIn, whyOf } from "../tank/report.ts";

/** The losses of a room in the form of `--json`: days in ISO 8601, places as lines and columns. */
export function roomLossesOf(opened: Opened, card: RoomLossCard): RoomLosses {
  const at = placesIn(opened);
  const { day, baseline, chart, outbreaks } = card;
  return {
    ...card,
    day: isoOf(day),
    baseline: {
      ...baseline,
      from: isoOf(baseline.from),
      to: isoOf(baseline.to),
      why: whyOf(baseline.why, at),
    },
    chart: chart.map((each) => ({ ...each, day: isoOf(each.day) })),
    outbreaks: outbreaks.map(({ from, told, last, at: place, why, ...each }) => ({
      ...each,
      from: isoOf(from),
      told: isoOf(told),
      last: isoOf(last),
      place: at(place),
      why: whyOf(why, at),
    })),
  };
}
