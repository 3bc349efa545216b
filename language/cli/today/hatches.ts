import { hatchesDue } from "../../features/hatches-due.ts";
import type { Opened } from "../open.ts";
import type { DayReport } from "../schema.ts";
import { dayOrNull, placesIn } from "../tank/report.ts";

/** Broods that are to hatch, or to swim, about a day. */
export function hatchesOf(opened: Opened, day: number): DayReport["hatches"] {
  const at = placesIn(opened);
  return hatchesDue(opened.checked.logbook, day).map(({ brood, expected }) => {
    const { stage, is, earliest, likely, latest, text } = expected;
    return {
      brood: brood.name,
      at: brood.of,
      species: brood.species,
      stage,
      is,
      earliest: dayOrNull(earliest),
      likely: dayOrNull(likely),
      latest: dayOrNull(latest),
      text,
      place: at(brood.at),
    };
  });
}
