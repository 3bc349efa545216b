import { formatNumber } from "../../quantity/format.ts";
import { type Culture, culturesOn } from "../../room/cultures.ts";
import { type HatchFigure, hatchFigures, hatchSource } from "../../room/hatch.ts";
import type { Logbook } from "../../room/logbook.ts";
import { type Why, whyEntry, whyStated } from "../../room/why.ts";
import { windowText } from "./feed.ts";
import type { LineFigure, Row } from "./row.ts";

/** When a culture is ready, and how long after its start it was harvested. */

/** A start: its window, and what of it lies out of the published ranges. */
export function startFigure([row]: readonly Row[]): LineFigure | undefined {
  if (row === undefined) return undefined;
  const { checked, block, id } = row;
  const culture = culturesOn(checked.logbook, block.day).find(
    ({ start }) => start.block === block && start.id === id,
  );
  if (culture === undefined) return undefined;
  const { readyFrom, readyUntil } = culture;
  const hatch = hatchFigures(checked.logbook, culture);
  const label = [
    ...(Number.isNaN(readyFrom) ? [] : [`ready ${windowText(readyFrom, readyUntil, block.day)}`]),
    ...hatch.filter(({ isWithin }) => !isWithin).map((each) => `${each.what} ${hatchText(each)}`),
  ].join(" · ");
  return label === "" ? undefined : { kind: "feed", label, why: () => whyCulture(checked.logbook, culture) };
}

/** A harvest: how old the culture was. */
export function harvestFigure([row]: readonly Row[]): LineFigure | undefined {
  if (row === undefined) return undefined;
  const { checked, block, id, time } = row;
  const culture = culturesOn(checked.logbook, block.day).find(({ harvests }) =>
    harvests.some((each) => each.block === block && each.id === id),
  );
  if (culture === undefined) return undefined;
  const hours = (time - culture.start.time) * 24;
  const label =
    hours < 72
      ? `${formatNumber(hours)} h after its start`
      : `${formatNumber(hours / 24, 2)} days after its start`;
  return { kind: "feed", label, why: () => whyCulture(checked.logbook, culture) };
}

/** `30 C, published 25..28`. */
export function hatchText({ value, unit, low, high }: HatchFigure): string {
  const range = low === 0 ? `at most ${formatNumber(high)}` : `${formatNumber(low)}..${formatNumber(high)}`;
  return `${formatNumber(value)} ${unit}, published ${range}`;
}

export function whyCulture(logbook: Logbook, culture: Culture): Why {
  const { name, food, start, harvests, readyFrom, readyUntil } = culture;
  const isStated = !Number.isNaN(readyFrom);
  return {
    what: `${name} is ready`,
    value: isStated ? windowText(readyFrom, readyUntil, start.day) : "not stated: ready 20..28 h",
    ...(isStated ? { formula: "time of the start + time stated as ready" } : {}),
    from: [
      whyEntry({ block: start.block, row: start.id }),
      ...harvests.map(({ block, id }) => whyEntry({ block, row: id })),
      ...(food === undefined ? [] : [whyStated(food.place)]),
      ...hatchFigures(logbook, culture).map(
        (each): Why => ({ what: each.what, value: hatchText(each), source: hatchSource, from: [] }),
      ),
    ],
  };
}
