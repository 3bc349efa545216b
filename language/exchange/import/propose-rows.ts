import type { Asking } from "./asking.ts";
import type { ColumnAt, Mapping } from "./mapping.ts";
import {
  type DateOrder,
  dayIn,
  readCompactDate,
  readCompactTime,
  readMoment,
  readSerial,
  readTime,
} from "./moment.ts";
import { isMissing } from "./number.ts";
import type { Survey } from "./survey.ts";

/** Which rows of a table a log needs. */

type Only = NonNullable<Mapping["only"]>[number];
const apart = /depth|tiefe|layer|level|position|replicate|^rep$|strat/i;

/** Several readings at one time in one tank: where a column parts them, as a depth does, it is asked which are the tank's. */
export function rowsQuestion(
  survey: Survey,
  time: Mapping["time"],
  keys: readonly number[],
  measured: readonly number[],
  asking: Asking,
): Only | undefined {
  const { samples, layout, columns } = survey;
  const when = [time.date, time.clock].flatMap((place) =>
    place === undefined || place === "line" ? [] : [place.at - 1],
  );
  const seen = new Map<string, readonly string[]>();
  let double = 0;
  const parting = new Map<number, number>();
  for (const { cells, dateLine } of samples) {
    if (measured.every((at) => isMissing(cells[at] ?? ""))) continue;
    const key = JSON.stringify([dateLine, ...when.map((at) => cells[at]), ...keys.map((at) => cells[at])]);
    const before = seen.get(key);
    if (before === undefined) {
      seen.set(key, cells);
      continue;
    }
    double++;
    layout.heads.forEach((head, at) => {
      if (apart.test(head) && !measured.includes(at) && (cells[at] ?? "") !== (before[at] ?? ""))
        parting.set(at, (parting.get(at) ?? 0) + 1);
    });
  }
  if (double <= Math.max(2, samples.length * 0.02)) return undefined;
  const [found] = [...parting].sort((a, b) => b[1] - a[1]);
  if (found === undefined || found[1] < double * 0.5) return undefined;
  const [at] = found;
  const head = layout.heads[at]!;
  const place: ColumnAt = { at: at + 1, head };
  const values = [...columns[at]!.distinct].sort((a, b) => b[1] - a[1]).map(([value]) => value);
  const answer = asking.ask(
    {
      id: `rows:${head}`,
      asks: `many rows have one time and differ in “${head}”; the rows with which are the tank's?`,
      choices: [...values.slice(0, 40), "all"],
      hint: "several are parted by a bar: 0|0.25; of “all” the second at one time is rejected",
    },
    `rows:#${at + 1}`,
    (text) => text.split("|").every((each) => values.includes(each.trim())),
  );
  if (answer === undefined || answer === "all") return undefined;
  return { ...place, is: answer.split("|").map((each) => each.trim()) };
}

/** Readings further apart are all kept. */
const densest = 120;

/** A log wants some readings a day, not one a minute. */
export function thinning(
  survey: Survey,
  time: Mapping["time"] | undefined,
  keys: readonly number[],
  asking: Asking,
): Mapping["thin"] {
  const minutes = time === undefined ? Number.NaN : usualStep(survey, time, keys);
  const isDense = minutes < densest;
  if (!isDense && !asking.hasAnswer("thin", "none")) return "none";
  const every = `a reading every ${minutes < 1 ? "few seconds" : `${Math.round(minutes)} min`}`;
  const answer = asking.decide(
    {
      id: "thin",
      asks: `${isDense ? `${every}: ` : ""}the first of how many hours is kept, and of a day the lowest and highest beyond a limit?`,
      choices: ["6h", "12h", "24h", "none"],
      hint: "",
    },
    isDense ? "6h" : "none",
    "",
    (text) => hoursIn(text) !== undefined,
  );
  if (isDense && answer === "6h")
    asking.because(
      "thin",
      `${every}: the first of each 6 h is kept, and of a day the lowest and highest beyond a limit (thin=12h or thin=none)`,
    );
  const hours = hoursIn(answer ?? "none");
  return hours === undefined ? "none" : { hours, crossings: true };
}

function hoursIn(text: string): number | undefined {
  const hours = Number(/^(\d+)\s*h?$/.exec(text)?.[1] ?? Number.NaN);
  return hours >= 1 && hours <= 24 ? hours : undefined;
}

/** The median of the minutes from one row to the next of the same tank; NaN if times are days. */
function usualStep(
  { samples }: Survey,
  { date, clock, order, isDayOnly }: Mapping["time"],
  keys: readonly number[],
): number {
  if (isDayOnly === true) return Number.NaN;
  const steps: number[] = [];
  const last = new Map<string, number>();
  const step = (cells: readonly string[], at: number): void => {
    const key = keys.map((each) => cells[each]).join("\u0000");
    const before = last.get(key);
    if (before !== undefined && at > before) steps.push(at - before);
    last.set(key, at);
  };
  for (const { cells, dateLine } of samples) {
    const text = date === "line" ? dateLine : (cells[date.at - 1] ?? "");
    let at: number;
    if (order === "unix-s" || order === "unix-ms") at = Number(text) / (order === "unix-s" ? 60 : 60_000);
    else {
      const moment = order === "serial-1900" ? undefined : (readMoment(text) ?? readCompactDate(text));
      const serial = order === "serial-1900" ? readSerial(text) : undefined;
      if (serial !== undefined && !Number.isNaN(serial.minute)) {
        step(cells, serial.day * 1440 + serial.minute);
        continue;
      }
      const own =
        clock === undefined
          ? moment?.time
          : (readTime(cells[clock.at - 1] ?? "") ?? readCompactTime(cells[clock.at - 1] ?? ""));
      if (moment === undefined || own === undefined) continue;
      at = dayIn(moment, order as DateOrder) * 1440 + own.minute + own.second / 60;
    }
    step(cells, at);
  }
  if (steps.length < 24) return Number.NaN;
  return steps.sort((a, b) => a - b)[steps.length >> 1]!;
}
