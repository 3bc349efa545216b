import { spokenDay } from "../book/dates.ts";
import { days as daysText, percent } from "../checks/words.ts";
import { CANONICAL } from "../quantity/dimension.ts";
import { formatNumber } from "../quantity/format.ts";
import { unitOf } from "../quantity/units.ts";
import { isTooShort, type TooShort, type Windows, windowChoices } from "../room/change-windows.ts";
import { leastReadings } from "../room/compared.ts";
import { type LightChange, type LightSetting, lightRatio } from "../room/light-changes.ts";
import type { Meanwhile, Routine } from "../room/meanwhile.ts";
import type { ComparedCard, LightChangeCard } from "./light-cards.ts";

/** The light, the algae and what is compared, in words. */

const sortsOfAlgae: ReadonlySet<string> = new Set(["film", "green-spot", "thread", "brush", "blue-green"]);

/** `thread algae`, `diatoms`; `algae` where no sort is named. */
export const algaeName = (sort: string): string =>
  sort === "" ? "algae" : sortsOfAlgae.has(sort) ? `${sort} algae` : sort;

/** `8 h at 60 %`. */
export function settingText({ hours, intensity, of }: LightSetting): string {
  const power =
    of === undefined
      ? ""
      : of === "fraction"
        ? percent(intensity)
        : `${formatNumber(intensity)} ${unitOf(CANONICAL[of]).symbol}`;
  return [Number.isNaN(hours) ? "" : `${formatNumber(hours)} h`, power === "" ? "" : `at ${power}`]
    .filter((part) => part !== "")
    .join(" ");
}

/** `light from 9 h at 70 % to 8 h at 60 %`, `lamp replaced`. */
export function changeText({ before, after, isLamp }: LightChange): string {
  if (isLamp) return after === undefined ? "lamp replaced" : `lamp replaced, ${settingText(after)} as before`;
  return before === undefined || after === undefined
    ? ""
    : `light from ${settingText(before)} to ${settingText(after)}`;
}

/** `24 % less light a day`; empty where it cannot be told or is the same. */
export function moreText(change: LightChange): string {
  const ratio = lightRatio(change);
  if (!Number.isFinite(ratio) || Math.abs(ratio - 1) < 0.005) return "";
  return ratio > 2
    ? `${formatNumber(ratio, 2)} times the light a day`
    : `${formatNumber(100 * Math.abs(ratio - 1), 2)} % ${ratio > 1 ? "more" : "less"} light a day`;
}

/** How many days are compared, and why no more; or why none. @param today words of years that are not its own */
export function windowsText(windows: Windows | TooShort, today: number): string {
  const { settlingDays, mostDays, leastDays } = windowChoices;
  if (isTooShort(windows)) {
    const why = `${daysText(windows.days)} on each side ${boundText(windows.bound)}, ${leastDays} are needed`;
    return Number.isNaN(windows.enough) ? why : `${why}: from ${spokenDay(windows.enough, today)} on`;
  }
  const { before, after, days, bound } = windows;
  const span = ({ from, to }: { from: number; to: number }): string =>
    `${spokenDay(from, today)} to ${spokenDay(to, today)}`;
  const full = days === mostDays ? "" : `, ${boundText(bound)}`;
  return `${daysText(days)} before (${span(before)}) and after (${span(after)}), ${daysText(settlingDays)} between left out${full}`;
}

function boundText(bound: Windows["bound"]): string {
  switch (bound) {
    case "begin":
      return "as the log or the tank begins there";
    case "change before":
      return "as the light was changed before";
    case "change after":
      return "as the light was changed again";
    case "today":
      return "so far";
    case "most":
      return "";
  }
}

/** A line each: `planted: fern, 12 March`, `came in: 5 horn (grazers), 14 March`, `fed 14 times a week before, 21 after`. */
export const meanwhileLines = (
  events: readonly Meanwhile[],
  routines: readonly Routine[],
  today: number,
): string[] => [...events.map((event) => eventText(event, today)), ...routines.map(routineText)];

function eventText(event: Meanwhile, today: number): string {
  const { is, name, isGrazer, before, between, after, day } = event;
  const all = before + between + after;
  const isAnimals = is === "came in" || is === "went out";
  const what = [isAnimals ? count(all) : "", name, isGrazer ? "(grazers)" : ""].filter((part) => part !== "");
  const head = what.length === 0 ? is : `${is}: ${what.join(" ")}`;
  const isOnce = isAnimals ? [before, between, after].filter((some) => some > 0).length === 1 : all === 1;
  if (isOnce) return `${head}, ${spokenDay(day, today)}`;
  const sides = [`${count(before)}${isAnimals ? "" : " times"} before`, `${count(after)} after`];
  if (between > 0) sides.push(`${count(between)} between`);
  return `${head}, ${sides.join(", ")}`;
}

const count = (value: number): string => formatNumber(value, 6);

function routineText({ is, before, after }: Routine): string {
  if (is === "water changed")
    return `water changed ${percent(before)} a week before, ${percent(after)} after`;
  return `${is} ${formatNumber(before, 2)} ${before === 1 ? "time" : "times"} a week before, ${formatNumber(after, 2)} after`;
}

/**
 * What a comparison in one tank cannot tell. Regression to the mean: Barnett, van der Pols & Dobson 2005, Int. J. Epidemiol. 34:215-220.
 */
export function remarkText(compared: number, sisters: number): string {
  const control =
    sisters === 0
      ? "One tank before and after, with none beside it that was left as it was"
      : `One tank before and after; ${sisters === 1 ? "the tank" : "the tanks"} beside it, left as ${sisters === 1 ? "it was, was" : "they were, were"} not chosen by lot`;
  const many =
    compared > 1 ? ` ${compared} things are compared; of twenty, one differs by chance alone.` : "";
  return `${control}: what else changed and the season are in the difference too, and what is changed when it is at its worst mostly gets better by itself. Readings of one tank hang together, so the truth is wider than the interval.${many}`;
}

/** `thread algae: 3 before (6), 1 after (6); lower: -2 (95 % interval -2 to -1)`. */
export function comparedText({ what, before, after, text, chanceText }: ComparedCard): string {
  const chance = chanceText === "" ? "" : `; ${chanceText}`;
  return `${what}: ${before.text} before (${before.count}), ${after.text} after (${after.count}); ${text}${chance}`;
}

/** A change and what came of it, a line each: algae, growth and what plants live on, what differs, then the names of the rest. */
export function lightChangeLines(change: LightChangeCard, today: number): string[] {
  const { day, text, moreText, daysText, isClosed, compared, meanwhile, sisters } = change;
  const head = `${spokenDay(day, today)}: ${text}${moreText === "" ? "" : `, ${moreText}`}`;
  if (compared.length === 0) return [head, `nothing to compare: ${daysText}`];
  return [
    head,
    `${daysText}${isClosed ? "" : "; the figures may change yet"}`,
    ...comparedLines(compared),
    ...(meanwhile.length === 0 ? [] : [`what else happened: ${meanwhile.join("; ")}`]),
    ...sisters.flatMap((sister) =>
      sister.compared.map(
        (each) => `${sister.tank}, of the same water, its light as it was: ${comparedText(each)}`,
      ),
    ),
  ];
}

function comparedLines(compared: readonly ComparedCard[]): string[] {
  const isTold = ({ shift, isMain, isSure }: ComparedCard): boolean => isSure || (isMain && shift !== null);
  const rest = compared.filter((each) => !isTold(each));
  const names = (of: readonly ComparedCard[]): string => of.map(({ what }) => what).join(", ");
  const [alike, few] = [
    rest.filter(({ shift }) => shift !== null),
    rest.filter(({ shift }) => shift === null),
  ];
  return [
    ...compared.filter(isTold).map(comparedText),
    ...(alike.length === 0 ? [] : [`not told apart: ${names(alike)}`]),
    ...(few.length === 0
      ? []
      : [`too few to tell, as ${leastReadings} on each side are needed: ${names(few)}`]),
  ];
}
