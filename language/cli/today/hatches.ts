import { broodCard, openBroods } from "../../features/brood-card.ts";
import type { Opened } from "../open.ts";
import type { DayReport } from "../schema.ts";
import { dayOrNull, placesIn } from "../tank/report.ts";

/** What is past due is told for so long after its window. */
const toldDays = 14;

/** Broods that are to hatch, or to swim, about a day: within their window, or past it of late. Without a name only within it. */
export function hatchesOf(opened: Opened, day: number): DayReport["hatches"] {
  const { logbook } = opened.checked;
  const at = placesIn(opened);
  const late = { late: 0, due: 1, ahead: 2 };
  return openBroods(logbook, day)
    .map((brood) => broodCard(logbook, brood, day))
    .flatMap(({ name, lot, of, species, expected, at: location }) => {
      if (expected === null || expected.is === "ahead" || expected.latest === null) return [];
      if (expected.is === "late" && (lot === "" || day - expected.latest > toldDays)) return [];
      const { stage, is, earliest, likely, latest, text } = expected;
      return [
        {
          brood: name,
          at: of,
          species,
          stage,
          is,
          earliest: dayOrNull(earliest),
          likely: dayOrNull(likely),
          latest: dayOrNull(latest),
          text,
          place: at(location),
        },
      ];
    })
    .sort((a, b) => late[a.is] - late[b.is]);
}
