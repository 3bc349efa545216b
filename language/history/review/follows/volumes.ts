import { stationLocation } from "../../../features/card-parts.ts";
import { formatNumber } from "../../../quantity/format.ts";
import { arrow, type Follows, type Standing } from "../consequence.ts";

interface VolumeStanding extends Standing {
  readonly text: string;
}

/** The water a tank or a system holds. */
export const volumes: Follows<VolumeStanding> = {
  is: "volume",
  reach: "station",

  standing({ book }) {
    const found = new Map<string, VolumeStanding>();
    const add = (of: string, at: VolumeStanding["at"], litres: number): void => {
      found.set(of, {
        of,
        at,
        terms: [],
        text: Number.isFinite(litres) ? `${formatNumber(litres)} L` : "not stated",
      });
    };
    for (const tank of book.tanks) add(tank.name, stationLocation(tank), tank.volumeL);
    for (const { system, volumeL } of book.bodies)
      if (system !== undefined) add(system.name, stationLocation(system), volumeL);
    return found;
  },

  told(before, after) {
    if (before === undefined || after === undefined || before.text === after.text) return [];
    return [
      { text: `water in it: ${arrow(before.text, after.text)}`, before: before.text, after: after.text },
    ];
  },
};
