import { spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import type { PantryItem } from "./pantry.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";

/** Why so much is on hand, and why it lasts so long. */

export function whyOnHand(item: PantryItem): Why {
  const { name, unit, onHand, unknown, anchors, used, usedTimes, unwritten, use, daysLeft, runsOut } = item;
  const figure = (value: number): string => `${formatNumber(value)} ${unit}`;
  const guessed = unwritten === 0 ? "" : `; ${unwritten} without an amount count as the median of the others`;
  const hand: Why = {
    what: `${name} on hand`,
    value: unknown === "" ? figure(onHand) : unknown,
    ...(unknown === "" ? { formula: "last weighing + purchases since - what was used since" } : {}),
    from: [
      ...anchors.map(({ block, id }) => whyEntry({ block, row: id })),
      ...(unknown !== "" || usedTimes === 0
        ? []
        : [
            {
              what: `used since: ${usedTimes} ${usedTimes === 1 ? "entry" : "entries"}${guessed}`,
              value: figure(used),
              from: [],
            },
          ]),
      ...(item.food === undefined || unit !== "g" ? [] : [whyStated(item.food.place)]),
    ],
  };
  if (use === undefined || !Number.isFinite(daysLeft.best)) return hand;
  return {
    what: `${name} runs out`,
    value: spokenDay(runsOut),
    formula: "day + on hand / use a day",
    from: [
      hand,
      {
        what: "use a day",
        value: `${figure(use.aDay)} (${formatNumber(use.low)} to ${formatNumber(use.high)}, ${formatNumber(use.coverage * 100, 2)} %)`,
        formula: `median of the last ${use.weeks} weeks / 7`,
        source:
          "interval of order statistics: David & Nagaraja 2003, Order Statistics, section 7.1; recalled",
        from: [],
      },
    ],
  };
}
