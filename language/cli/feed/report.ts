import { isoOf } from "../../book/dates.ts";
import type { FeedingCard } from "../../features/feeding-cards.ts";
import type { Opened } from "../open.ts";
import type { FeedReport } from "../schema/feed.ts";
import { dayOrNull, placesIn, timeOf, whyOf } from "../tank/report.ts";

/** The feeding of a logbook in the form of `--json`: days and times in ISO 8601, places as lines and columns. */
export function feedReportOf(opened: Opened, card: FeedingCard): FeedReport["logbooks"][number] {
  const at = placesIn(opened);
  const timeOrNull = (time: number | null): string | null => (time === null ? null : timeOf(time));
  return {
    folder: opened.folder,
    title: opened.checked.book.title,
    day: isoOf(card.day),
    from: isoOf(card.from),
    days: card.days,
    kinds: [...card.kinds],
    tanks: card.tanks.map(({ meals, last, needs, ration, ...tank }) => ({
      ...tank,
      at: at(tank.at),
      meals: meals.map((meal) => ({ ...meal, day: isoOf(meal.day), at: at(meal.at) })),
      last: last === null ? null : { ...last, time: timeOf(last.time), at: at(last.at) },
      needs: needs.map((need) => ({ ...need, species: [...need.species], why: whyOf(need.why, at) })),
      ration:
        ration === null ? null : { ...ration, unknown: [...ration.unknown], why: whyOf(ration.why, at) },
    })),
    pantry: card.pantry.map((item) => ({
      ...item,
      runsOut: dayOrNull(item.runsOut),
      expires: dayOrNull(item.expires),
      openedUntil: dayOrNull(item.openedUntil),
      lastUsed: dayOrNull(item.lastUsed),
      at: at(item.at),
      why: whyOf(item.why, at),
    })),
    cultures: card.cultures.map((culture) => ({
      ...culture,
      started: timeOf(culture.started),
      readyFrom: timeOrNull(culture.readyFrom),
      readyUntil: timeOrNull(culture.readyUntil),
      lastHarvest: timeOrNull(culture.lastHarvest),
      hatch: culture.hatch.map((each) => ({ ...each })),
      at: at(culture.at),
      why: whyOf(culture.why, at),
    })),
  };
}
