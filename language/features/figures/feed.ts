import { clockOf, spokenDay } from "../../book/dates.ts";
import type { Tank } from "../../book/stations.ts";
import { days } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { type Need, needsOn, whyNeed } from "../../room/needs.ts";
import { pantryItem } from "../../room/pantry.ts";
import type { Why } from "../../room/why.ts";
import { whyOnHand } from "../../room/why-pantry.ts";
import type { LineFigure, Row } from "./row.ts";

/** What a feeding means for the animals of its tank, and for what is on hand. */

/** What lasts so long is told of. */
const aheadDays = 7;

export function feedFigure(rows: readonly Row[]): LineFigure | undefined {
  const over = overOf(rows);
  const stock = rows.flatMap(stockOf);
  const told = [...over, ...stock];
  if (told.length === 0) return undefined;
  return {
    kind: "feed",
    label: told.map(({ label }) => label).join(" · "),
    why: () =>
      told.length === 1
        ? told[0]!.why()
        : { what: "this feeding", value: "", from: told.map(({ why }) => why()) },
  };
}

interface Told {
  readonly label: string;
  readonly why: () => Why;
}

/** Foods that some tank gets too often with this entry: `third dry in 7 days, at most 2`. */
function overOf(rows: readonly Row[]): Told[] {
  const last = rows.at(-1)!;
  const { checked, block, time, at, stations } = last;
  const named = new Set(rows.map(({ subject }) => subject));
  const found = new Map<string, { need: Need; tanks: string[] }>();
  for (const station of stations) {
    if (station.kind !== "tank") continue;
    const upTo = { time, block, row: at };
    for (const need of needsOn(checked.logbook, station as Tank, block.day, upTo)) {
      if (need.is !== "over" || !isNamed(need, named)) continue;
      const label = overText(need);
      const known = found.get(label);
      if (known === undefined) found.set(label, { need, tanks: [station.name] });
      else if (!known.tanks.includes(station.name)) known.tanks.push(station.name);
    }
  }
  return [...found].map(([label, { need, tanks }]) => ({
    label: stations.length > 1 ? `${tanks.join(", ")}: ${label}` : label,
    why: () => whyNeed(need),
  }));
}

/** Whether the entry is one of those that a need counts. */
const isNamed = ({ meals }: Need, foods: ReadonlySet<string>): boolean =>
  meals.length > 0 && foods.has(meals.at(-1)!.food);

const ordinals = ["", "first", "second", "third", "fourth", "fifth", "sixth", "seventh"];

function overText({ form, times }: Need): string {
  const which = ordinals[times] ?? `${times}th`;
  return form.times === 0
    ? `${form.food}, never for them`
    : `${which} ${form.food} in ${days(form.periodDays)}, at most ${form.times}`;
}

/** What is left of a food, where that is little. */
function stockOf({ checked, block, subject }: Row): Told[] {
  if (subject === "none" || subject === "") return [];
  const item = pantryItem(checked.logbook, subject, block.day);
  const { onHand, daysLeft } = item;
  if (Number.isNaN(onHand) || !(onHand <= 0 || daysLeft.best <= aheadDays)) return [];
  const label =
    onHand <= 0
      ? `no ${subject} left by the log`
      : daysLeft.best < 1
        ? `last of the ${subject}`
        : `${subject} for about ${days(Math.floor(daysLeft.best))} more`;
  return [{ label, why: () => whyOnHand(item) }];
}

/** What was weighed against what was reckoned, and what a purchase makes. */
export function onHandFigure([row]: readonly Row[]): LineFigure | undefined {
  if (row === undefined) return undefined;
  const { checked, block, subject, time, at } = row;
  const { logbook } = checked;
  const before = pantryItem(logbook, subject, block.day, { time, block, row: at });
  // What the entry itself adds to is what was there just after it.
  const after = pantryItem(logbook, subject, block.day, { time, block, row: at + 1 });
  if (Number.isNaN(after.onHand) || after.unit === "") return undefined;
  const figure = (value: number): string => `${formatNumber(value)} ${after.unit}`;
  const isWeighing = after.anchors.length === 1;
  if (!isWeighing)
    return { kind: "feed", label: `${figure(after.onHand)} on hand`, why: () => whyOnHand(after) };
  if (Number.isNaN(before.onHand) || before.unit !== after.unit) return undefined;
  const off = after.onHand - before.onHand;
  const label =
    Math.abs(off) < 0.005 * Math.max(1, after.onHand)
      ? "as reckoned"
      : `${figure(Math.abs(off))} ${off < 0 ? "less" : "more"} than reckoned`;
  return { kind: "feed", label, why: () => whyOnHand(before) };
}

/** `2 March 04:00 to 12:00`. */
export function windowText(from: number, until: number, near: number): string {
  const start = `${spokenDay(from, near)} ${clockOf(from)}`;
  if (Number.isNaN(until)) return `from ${start}`;
  const isSameDay = Math.floor(from) === Math.floor(until);
  return `${start} to ${isSameDay ? "" : `${spokenDay(until, near)} `}${clockOf(until)}`;
}
