import type { Station } from "../../../book/stations.ts";
import { stationLocation } from "../../../features/card-parts.ts";
import { type Location, locationOf } from "../../../features/view.ts";
import { formatNumber } from "../../../quantity/format.ts";
import { arrow, type Follows, type Standing } from "../consequence.ts";

interface VolumeStanding extends Standing {
  readonly text: string;
  /** What states it, of a system also in the definitions of its tanks. */
  readonly from: readonly Location[];
}

/** The properties of a tank or a system that tell how much water there is. */
const telling: ReadonlySet<string> = new Set(["volume", "inside", "filled", "displaced", "system", "sump"]);

function stated({ place }: Station): Location[] {
  const properties = place?.block.definition?.properties ?? [];
  return properties
    .filter(({ word }) => telling.has(word))
    .map(({ start, end }) => locationOf({ block: place!.block, start, end }));
}

/** The water a tank or a system holds. */
export const volumes: Follows<VolumeStanding> = {
  is: "volume",
  reach: "station",

  standing({ book }) {
    const found = new Map<string, VolumeStanding>();
    const add = (station: Station, litres: number, tanks: readonly Station[] = []): void => {
      const own = stationLocation(station);
      found.set(station.name, {
        of: station.name,
        at: own,
        terms: [],
        from: [...(own === null ? [] : [own]), ...[station, ...tanks].flatMap(stated)],
        text: Number.isFinite(litres) ? `${formatNumber(litres)} L` : "not stated",
      });
    };
    for (const tank of book.tanks) add(tank, tank.volumeL);
    for (const { system, volumeL, tanks } of book.bodies)
      if (system !== undefined) add(system, volumeL, tanks);
    return found;
  },

  told(before, after) {
    if (before === undefined || after === undefined || before.text === after.text) return [];
    const text = `water in it: ${arrow(before.text, after.text)}`;
    return [{ text, before: before.text, after: after.text, from: after.from }];
  },
};
