import type { Book } from "../book/book.ts";
import type { Tank } from "../book/stations.ts";
import { percent, readingSpan } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import { isTooShort } from "../room/change-windows.ts";
import { type Compared, isSureShift, leastReadings, type Measure, type Side } from "../room/compared.ts";
import { type LightChange, type LightSetting, lightChanges, lightSettings } from "../room/light-changes.ts";
import { type ComparedChange, comparedAround } from "../room/light-compared.ts";
import type { Logbook } from "../room/logbook.ts";
import { algaeRatings, growths, trims } from "../room/plant-rows.ts";
import type { LogRow } from "../room/rare-rows.ts";
import { whyEntry } from "../room/why.ts";
import type { Shift } from "../science/before-after.ts";
import { known, rowLocation } from "./card-parts.ts";
import type {
  AlgaeCard,
  ComparedCard,
  LightCard,
  LightChangeCard,
  LightSettingCard,
  SideCard,
  TrimCard,
} from "./light-cards.ts";
import {
  algaeName,
  changeText,
  meanwhileLines,
  moreText,
  remarkText,
  settingText,
  windowsText,
} from "./light-words.ts";
import type { CoursePoint } from "./population-cards.ts";

const shownDays = 365;

/** Null where no entry of the last year, and no setting before, says anything of light, algae or trimming. */
export function lightCard(logbook: Logbook, tank: Tank, day: number): LightCard | null {
  const from = day + 1 - shownDays;
  const settings = lightSettings(logbook, tank, day);
  const changes = lightChanges(logbook, tank, day).filter(({ row }) => row.day >= from);
  const algae = algaeCards(logbook, tank, from, day);
  const cut = trimCards(logbook, tank, from, day);
  const now = settings.at(-1);
  if (now === undefined && changes.length === 0 && algae.length === 0 && cut.length === 0) return null;
  // Hours and power make one figure only where each setting says both.
  const isByPower = settings.every(({ hours, of }) => of === "fraction" && !Number.isNaN(hours));
  const lightOf = ({ hours, intensity }: LightSetting): number => (isByPower ? hours * intensity : hours);
  return {
    text: now === undefined ? "" : settingText(now),
    since: now === undefined ? null : now.row.day,
    at: now === undefined ? null : rowLocation(now.row.block, now.row.id),
    course: courseOf(settings, lightOf, from, day),
    unit: isByPower ? "h at full power" : "h",
    settings: settingCards(settings, changes, lightOf, from),
    algae,
    trims: cut,
    changes: changes.map((change) => lightChangeCard(logbook, tank, change, day)).reverse(),
  };
}

/** Steps; what was set before the year goes on into it. */
function courseOf(
  settings: readonly LightSetting[],
  lightOf: (setting: LightSetting) => number,
  from: number,
  day: number,
): CoursePoint[] {
  const told = settings.filter((setting) => !Number.isNaN(lightOf(setting)));
  const first = told.findLastIndex(({ row }) => row.day < from);
  const points: CoursePoint[] = [];
  for (const setting of told.slice(Math.max(0, first))) {
    const time = Math.max(setting.row.day, from);
    const last = points.at(-1);
    if (last !== undefined) points.push({ time, value: last.value });
    points.push({ time, value: lightOf(setting) });
  }
  const last = points.at(-1);
  return last === undefined ? [] : [...points, { time: day + 1, value: last.value }];
}

function settingCards(
  settings: readonly LightSetting[],
  changes: readonly LightChange[],
  lightOf: (setting: LightSetting) => number,
  from: number,
): LightSettingCard[] {
  const lamps = changes.filter(({ isLamp }) => isLamp);
  return [
    ...settings
      .filter(({ row }) => row.day >= from)
      .map((setting) => ({
        time: setting.row.time,
        value: known(lightOf(setting)),
        text: settingText(setting),
        isLamp: false,
        at: rowLocation(setting.row.block, setting.row.id),
      })),
    ...lamps.map((lamp) => ({
      time: lamp.row.time,
      value: lamp.after === undefined ? null : known(lightOf(lamp.after)),
      text: "lamp replaced",
      isLamp: true,
      at: rowLocation(lamp.row.block, lamp.row.id),
    })),
  ].sort((a, b) => a.time - b.time);
}

function algaeCards(logbook: Logbook, tank: Tank, from: number, day: number): AlgaeCard[] {
  const bySort = new Map<string, AlgaeCard & { readonly ratings: AlgaeCard["ratings"][number][] }>();
  for (const { row, sort, isShare, reading } of algaeRatings(logbook, tank, from, day)) {
    const unit = isShare ? "%" : "";
    const key = `${sort} ${unit}`;
    const card = bySort.get(key) ?? {
      sort,
      title: algaeName(sort),
      unit,
      most: isShare ? 100 : 4,
      ratings: [],
    };
    const { low, high } = reading;
    card.ratings.push({
      time: row.time,
      low,
      high,
      text: spanText(low, high, unit),
      at: rowLocation(row.block, row.id),
    });
    bySort.set(key, card);
  }
  return [...bySort.values()].sort((a, b) => (a.title < b.title ? -1 : 1));
}

function trimCards(logbook: Logbook, tank: Tank, from: number, day: number): TrimCard[] {
  const all = trims(logbook, tank, from, day);
  const grown = new Map(growths(all).map((growth) => [growth.day, growth]));
  return all.map(({ row, plant, grams }) => {
    const growth = grown.get(row.day);
    return {
      time: row.time,
      grams: known(grams),
      plant,
      growthText: growth === undefined ? "" : `${formatNumber(growth.gramsAWeek)} g a week`,
      text: trimText(plant, grams),
      at: rowLocation(row.block, row.id),
    };
  });
}

function trimText(plant: string, grams: number): string {
  if (Number.isNaN(grams)) return plant === "" ? "not weighed" : `${plant}, not weighed`;
  return [`${formatNumber(grams)} g`, plant].filter((part) => part !== "").join(" ");
}

/** An entry without its date: that stands beside it. */
const wordsOf = (row: LogRow): string =>
  whyEntry({ block: row.block, row: row.id }).what.replace(/^\d{4}-\d{2}-\d{2} /, "");

export const lightChangeCard = (
  logbook: Logbook,
  tank: Tank,
  change: LightChange,
  day: number,
): LightChangeCard => ({
  ...comparedChangeCard(logbook, comparedAround(logbook, tank, change.row, day), day),
  text: changeText(change),
  moreText: moreText(change),
});

/** The days around any entry; its own words for what was done. */
export function comparedChangeCard(logbook: Logbook, found: ComparedChange, day: number): LightChangeCard {
  const { tank, row, windows, compared, events, routines, sisters } = found;
  const { book } = logbook;
  const cards = compared.map((each) => comparedCard(book, each));
  const told = cards.filter(({ shift }) => shift !== null).length;
  return {
    tank: tank.name,
    day: row.day,
    text: wordsOf(row),
    moreText: "",
    daysText: windowsText(windows, day),
    days: windows.days,
    isClosed: !isTooShort(windows) && windows.closes <= day,
    compared: cards,
    meanwhile: cards.length === 0 ? [] : meanwhileLines(events, routines, day),
    sisters: sisters.map((sister) => ({
      tank: sister.tank.name,
      compared: sister.compared.map((each) => comparedCard(book, each)),
    })),
    remark: told === 0 ? "" : remarkText(told, sisters.length),
    at: rowLocation(row.block, row.id),
  };
}

function comparedCard(book: Book, compared: Compared): ComparedCard {
  const { measure, before, after, shift, chance } = compared;
  const { what, unit, difference } = shownAs(book, measure);
  const ends =
    shift === undefined ? undefined : { low: difference(shift.best.low), high: difference(shift.best.high) };
  const interval =
    shift === undefined
      ? undefined
      : { low: difference(shift.interval.low), high: difference(shift.interval.high) };
  return {
    what,
    isMain: measure.is !== "parameter" || ["nitrate", "phosphate"].includes(measure.parameter.name),
    unit,
    before: sideCard(book, before, measure),
    after: sideCard(book, after, measure),
    shift: ends === undefined ? null : { low: known(ends.low), high: known(ends.high) },
    low: interval === undefined ? null : known(interval.low),
    high: interval === undefined ? null : known(interval.high),
    confidence: shift === undefined ? null : 100 * shift.confidence,
    text:
      ends === undefined || interval === undefined || shift === undefined
        ? `too few to tell: ${leastReadings} each are needed`
        : `${verdict(shift)}: ${signedSpan(ends.low, ends.high, unit)} (${percent(Math.floor(100 * shift.confidence) / 100)} interval ${signed(interval.low)} to ${signed(interval.high)}${shift.isReached ? "" : ", as so few have none of 95 %"})`,
    isSure: isSureShift(shift),
    chanceText:
      measure.is !== "algae" || chance === undefined
        ? ""
        : `a rating after is above one before in ${spanText(rounded(100 * chance.low), rounded(100 * chance.high), "%")}`,
  };
}

function sideCard(book: Book, { count, median }: Side, measure: Measure): SideCard {
  const { value, unit } = shownAs(book, measure);
  const [low, high] = [value(median.low), value(median.high)];
  const text =
    measure.is === "parameter"
      ? readingSpan(book, measure.parameter, median.low, median.high)
      : spanText(low, high, unit);
  return { count, low: known(low), high: known(high), text };
}

interface Shown {
  readonly what: string;
  readonly unit: string;
  readonly value: (canonical: number) => number;
  readonly difference: (canonical: number) => number;
}

function shownAs({ units }: Book, measure: Measure): Shown {
  const same = (value: number): number => value;
  if (measure.is === "algae")
    return {
      what: algaeName(measure.sort),
      unit: measure.isShare ? "%" : "",
      value: same,
      difference: same,
    };
  if (measure.is === "growth") return { what: "growth", unit: "g a week", value: same, difference: same };
  const { parameter } = measure;
  const { symbol } = units.shown(parameter);
  const value = (canonical: number): number => units.fromReading(parameter, canonical);
  return {
    what: parameter.name,
    unit: parameter.dimension === "pH" ? "" : symbol,
    value,
    // A difference has no zero of its own: 1 C is 1.8 F.
    difference: (canonical) => value(canonical) - value(0),
  };
}

const withUnit = (text: string, unit: string): string => (unit === "" ? text : `${text} ${unit}`);

/** `2`, `1..2`, `10 %`. */
const spanText = (low: number, high: number, unit: string): string =>
  withUnit(low === high ? formatNumber(low) : `${formatNumber(low)}..${formatNumber(high)}`, unit);

/** In a word what the interval says; ends on one side of nothing tell a difference, and then only with the confidence asked for. */
function verdict(shift: Shift): string {
  if (!isSureShift(shift)) return "not told apart";
  return shift.interval.low > 0 ? "higher" : "lower";
}

const rounded = (value: number): number => Number(value.toPrecision(2));

/** `-2`, `+1.5`; `no end` where readings leave it open. */
const signed = (value: number): string =>
  Number.isFinite(value) ? `${value > 0 ? "+" : ""}${formatNumber(value)}` : "no end";

/** `-2 mg/L`, `-10 to -4 mg/L`. */
const signedSpan = (low: number, high: number, unit: string): string =>
  withUnit(low === high ? signed(low) : `${signed(low)} to ${signed(high)}`, unit);
