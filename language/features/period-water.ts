import type { Logbook } from "../room/logbook.ts";
import type { Period } from "../room/stock-book.ts";
import { type WaterUse, waterUsed } from "../room/water-used.ts";
import type { WaterPlaceCard, WaterSourceCard, WaterUsedCard } from "./period-cards.ts";

/** Water used in a period, by tank and by source, beside that of as many days before. */

export function periodWater(
  logbook: Logbook,
  { from, to }: Period,
): { readonly card: WaterUsedCard; readonly uses: readonly WaterUse[] } {
  const uses = waterUsed(logbook, { from, to });
  const before = waterUsed(logbook, { from: from - (to - from + 1), to: from - 1 });
  const order = new Map(logbook.book.stations.map(({ name }, at) => [name, at]));
  const places = groupsBy(uses, before, ({ station }) => station.name).map(
    ([place, now, earlier]): WaterPlaceCard => ({
      place,
      ...sumsOf(now),
      times: now.length,
      before: litresOf(earlier),
    }),
  );
  return {
    card: {
      places: places.sort((a, b) => order.get(a.place)! - order.get(b.place)!),
      sources: groupsBy(uses, before, ({ source }) => source)
        .map(
          ([source, now, earlier]): WaterSourceCard => ({
            source,
            ...sumsOf(now),
            before: litresOf(earlier),
          }),
        )
        .sort((a, b) => b.litres - a.litres),
      litres: litresOf(uses),
      before: litresOf(before),
      unknown: uses.filter(({ litres }) => Number.isNaN(litres)).length,
    },
    uses,
  };
}

type Group = readonly [name: string, now: readonly WaterUse[], before: readonly WaterUse[]];

function groupsBy(
  now: readonly WaterUse[],
  before: readonly WaterUse[],
  nameOf: (use: WaterUse) => string,
): Group[] {
  const names = new Set([...now, ...before].map(nameOf));
  const of = (uses: readonly WaterUse[], name: string) => uses.filter((use) => nameOf(use) === name);
  return [...names].map((name) => [name, of(now, name), of(before, name)]);
}

const sumsOf = (uses: readonly WaterUse[]) => ({
  batch: litresOf(uses.filter(({ how }) => how === "batch")),
  flow: litresOf(uses.filter(({ how }) => how === "flow")),
  topUp: litresOf(uses.filter(({ how }) => how === "top-up")),
  litres: litresOf(uses),
});

/** What is not known in litres is left out, and told beside. */
const litresOf = (uses: readonly WaterUse[]): number =>
  uses.reduce((sum, { litres }) => sum + (Number.isNaN(litres) ? 0 : litres), 0);
