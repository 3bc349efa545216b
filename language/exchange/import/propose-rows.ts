import type { Asking } from "./asking.ts";
import type { ColumnAt, Mapping } from "./mapping.ts";
import { timeColumns } from "./mapping-columns.ts";
import { isMissing } from "./number.ts";
import { Reject } from "./read-other.ts";
import { momentOf } from "./row-moment.ts";
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
  const when = timeColumns(time).map(({ at }) => at - 1);
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
function usualStep({ samples }: Survey, time: Mapping["time"], keys: readonly number[]): number {
  if (time.isDayOnly === true) return Number.NaN;
  const steps: number[] = [];
  const last = new Map<string, number>();
  for (const { cells, dateLine } of samples) {
    const at = minutesOf(time, cells, dateLine);
    if (Number.isNaN(at)) continue;
    const key = keys.map((each) => cells[each]).join("\u0000");
    const before = last.get(key);
    if (before !== undefined && at > before) steps.push(at - before);
    last.set(key, at);
  }
  if (steps.length < 24) return Number.NaN;
  return steps.sort((a, b) => a - b)[steps.length >> 1]!;
}

/** NaN where the row does not say a time. */
function minutesOf(time: Mapping["time"], cells: readonly string[], dateLine: string): number {
  try {
    const { day, minute, second } = momentOf({ ...time, zone: inOwn(time) }, cells, dateLine);
    return day * 1440 + minute + second / 60;
  } catch (error) {
    if (error instanceof Reject) return Number.NaN;
    throw error;
  }
}

/** How far two rows are apart is the same by any clock that does not change. */
const inOwn = ({ order }: Mapping["time"]): string =>
  order === "unix-s" || order === "unix-ms" ? "UTC" : "as-written";
