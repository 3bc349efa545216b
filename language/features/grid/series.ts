import { dayOf, isoOf } from "../../book/dates.ts";
import { formatNumber } from "../../quantity/format.ts";

/** What a few cells begin, gone on with. Of one a number, a day, a minute or a name goes up by one; of two or more by what parts the last two. */
export function seriesOf(seeds: readonly string[], count: number): string[] | undefined {
  const last = seeds.at(-1);
  if (last === undefined || count <= 0) return count <= 0 ? [] : undefined;
  const read = seeds.map(readSeed);
  const end = read.at(-1);
  const before = read.at(-2);
  if (end === undefined) return undefined;
  if (seeds.length > 1 && (before === undefined || before.is !== end.is || before.key !== end.key))
    return undefined;
  const step = before === undefined ? 1 : end.value - before.value;
  const places = Math.max(...read.map((each) => each?.places ?? 0));
  const made: string[] = [];
  for (let at = 1; at <= count; at++) {
    const value = end.value + step * at;
    const text = end.say(value, places);
    if (text === undefined) return undefined;
    made.push(text);
  }
  return made;
}

interface Seed {
  readonly is: "date" | "time" | "figure" | "name";
  readonly value: number;
  /** What stands around it, which must be the same of all. */
  readonly key: string;
  readonly places: number;
  /** Undefined for what there is not. */
  say(value: number, places: number): string | undefined;
}

function readSeed(text: string): Seed | undefined {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) {
    const day = dayOf(text);
    return Number.isNaN(day) ? undefined : { is: "date", value: day, key: "", places: 0, say: isoOf };
  }
  const clock = /^(\d{1,2}):(\d{2})$/.exec(text);
  if (clock !== null) {
    const say = (minute: number): string | undefined =>
      minute < 0 || minute >= 1440
        ? undefined
        : `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
    return { is: "time", value: Number(clock[1]) * 60 + Number(clock[2]), key: "", places: 0, say };
  }
  const figure = /^([<>]=?|~)?(\s*)(-?\d+(?:\.(\d+))?)(\s*\D*)$/.exec(text);
  if (figure !== null) {
    const [, mark = "", gap, number, decimals = "", unit] = figure;
    const say = (value: number, places: number): string =>
      `${mark}${gap}${places === 0 ? formatNumber(value, 15) : value.toFixed(places)}${unit}`;
    return { is: "figure", value: Number(number), key: mark + unit, places: decimals.length, say };
  }
  const name = /^(@?[\p{L}_][\p{L}\p{N}_-]*?)(\d+)$/u.exec(text);
  if (name === null) return undefined;
  const [, word, digits] = name;
  const width = digits!.startsWith("0") ? digits!.length : 0;
  const say = (value: number): string | undefined =>
    value < 0 ? undefined : `${word}${String(value).padStart(width, "0")}`;
  return { is: "name", value: Number(digits), key: word!, places: 0, say };
}
