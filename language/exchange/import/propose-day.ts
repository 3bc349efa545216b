import type { Asking } from "./asking.ts";
import type { Mapping } from "./mapping.ts";
import { monthIn, yearIn } from "./moment.ts";
import { aboutOf } from "./propose-role.ts";
import { Refused } from "./refused.ts";
import type { ColumnEvidence, Survey } from "./survey.ts";

/** Which columns say the day of a row: one of dates, or a year, a month and a day apart. */

export interface Parts {
  /** -1 where no column says it. */
  readonly year: number;
  readonly month: number;
  readonly day: number;
  /** -1 where no column says it. */
  readonly hour: number;
  readonly minute: number;
}

const other = /start|begin|creat|modif|analy|atmo|received|uploaded|born|setup/i;
export const isBeside = (head: string): boolean => other.test(head);

/** The column with the most points; undefined where none has any. */
export function best(
  survey: Survey,
  score: (evidence: ColumnEvidence, head: string, at: number) => number,
): number | undefined {
  let found: number | undefined;
  let most = 0;
  survey.columns.forEach((evidence, at) => {
    const points = score(evidence, `${survey.layout.heads[at]} ${survey.layout.units[at] ?? ""}`, at);
    if (points > most) [found, most] = [at, points];
  });
  return found;
}

/** The column of dates. One that is written once for several rows counts where nothing else says when. */
export function dateColumn(survey: Survey): { readonly at: number | undefined; readonly isSparse: boolean } {
  if (survey.layout.across !== undefined) return { at: survey.layout.across.from, isSparse: false };
  const dense = best(survey, (evidence, head) =>
    evidence.filled < survey.rows * 0.5 ? 0 : datePoints(evidence, head, isNamed(head)),
  );
  if (dense !== undefined) return { at: dense, isSparse: false };
  const sparse = best(survey, (evidence, head) => (isNamed(head) ? datePoints(evidence, head, true) : 0));
  return { at: sparse, isSparse: sparse !== undefined };
}

const isNamed = (head: string): boolean => /date|datum|time|zeit|stamp|day|tag|sampled/i.test(head);

function datePoints(
  { filled, moments, compactDates, yearless, withTime }: ColumnEvidence,
  head: string,
  named: boolean,
): number {
  if (filled === 0) return 0;
  if (compactDates >= filled * 0.95 && named && !/time|zeit|year/i.test(head) && moments === 0)
    return other.test(head) ? 0.1 : 1;
  if (named && yearless >= filled * 0.8 && moments === 0) return other.test(head) ? 0.1 : 1;
  // Below a short table stand totals and means.
  if (moments < filled * (named ? 0.5 : 0.8)) return 0;
  return (other.test(head) ? 0.2 : 1) * (2 + (withTime > filled / 2 ? 1 : 0) + (named ? 1 : 0));
}

const names = {
  year: /^#?(?:y{2,4}|j{2,4}|year|yr|jahr)$/i,
  month: /^(?:M|MM|month|mon|mo|monat)$/,
  day: /^(?:d{1,2}|t{1,2}|day|dy|dom|tag|day ?of ?month|date|datum)$/i,
  hour: /^(?:h{1,2}|hours?|hr|stunden?|std\.?)$/i,
  minute: /^(?:m|mm|mi|mn|min|minutes?|minuten?)$/,
};

/** Year, month and day in columns of their own. `MM` is a month and `mm` a minute, as in the names of meteorological buoys' columns. */
export function partsOf(survey: Survey): Parts | undefined {
  const find = (form: RegExp, fits: (cell: string) => boolean, but = -1): number =>
    survey.layout.heads.findIndex((head, at) => {
      const { distinct, filled } = survey.columns[at]!;
      const cells = [...distinct.keys()];
      const short = head.replace(/\s*[([].*$/, "").trim();
      return (
        at !== but &&
        filled > 0 &&
        (form.test(short) || form.test(short.toLowerCase())) &&
        cells.filter(fits).length >= cells.length / 2
      );
    });
  const upTo = (most: number) => (cell: string) =>
    /^\d{1,2}(?:[.,]0*)?$/.test(cell) && Number.parseInt(cell, 10) <= most;
  const month = survey.layout.heads.some((head) => head.trim() === "MM")
    ? find(/^MM$/, (cell) => monthIn(cell) !== undefined)
    : find(names.month, (cell) => monthIn(cell) !== undefined);
  const day = find(names.day, upTo(31));
  if (month < 0 || day < 0 || month === day) return undefined;
  const hour = find(names.hour, upTo(24));
  const minute = hour < 0 ? -1 : find(names.minute, upTo(59), month);
  const year = find(names.year, (cell) => yearIn(cell) !== undefined);
  return { year, month, day, hour, minute };
}

/** Which of the ways in which a table says its days is taken: a column, or parts. */
export function wayOf(survey: Survey, asking: Asking): number | Parts | undefined {
  const { at, isSparse } = dateColumn(survey);
  const parts = survey.layout.across === undefined ? partsOf(survey) : undefined;
  const columns = survey.columns.flatMap(({ filled, moments }, index) =>
    filled >= survey.rows * 0.5 && moments >= filled * 0.8 ? [index] : [],
  );
  refuseBeside(survey, columns);
  const ways = new Map<string, number | Parts>();
  for (const index of new Set([...(at === undefined ? [] : [at]), ...columns]))
    ways.set(aboutOf(survey, index), index);
  const partsName =
    parts === undefined
      ? ""
      : [parts.year, parts.month, parts.day]
          .filter((index) => index >= 0)
          .map((index) => aboutOf(survey, index))
          .join(", ");
  if (parts !== undefined) ways.set(partsName, parts);
  // A year of its own goes with dates that have none.
  const isParts = parts !== undefined && (at === undefined || isSparse);
  const known = isParts ? partsName : at === undefined ? undefined : aboutOf(survey, at);
  if (known === undefined || survey.layout.across !== undefined) return at;
  if (ways.size < 2 && !isParts) return at;
  const answer = asking.decide(
    { id: "date", asks: "which columns say the day of a row?", choices: [...ways.keys()], hint: "" },
    known,
  );
  return ways.get(answer ?? known);
}

/** Throws `Refused` for two tables side by side, each with dates of its own: a figure would be taken as of the other's day. */
function refuseBeside({ layout: { heads }, samples }: Survey, dated: readonly number[]): void {
  for (const at of dated)
    for (const other of dated)
      if (
        other > at &&
        heads[other] === heads[at] &&
        samples.some(({ cells }) => cells[at] !== cells[other] && cells[other] !== "")
      )
        throw new Refused(
          `two tables stand side by side: “${heads[at]}” is the head of #${at + 1} and of #${other + 1}, and their days differ; import each as a file of its own`,
        );
}

/** The year of dates that have none: a column of its own, or one for all. Undefined while it is open. */
export function yearOfDates(
  survey: Survey,
  about: string,
  fileName: string,
  asking: Asking,
): Mapping["time"]["year"] | undefined {
  const at = survey.layout.heads.findIndex(
    (head, index) =>
      names.year.test(head.trim()) &&
      survey.columns[index]!.filled > 0 &&
      [...survey.columns[index]!.distinct.keys()].every((cell) => yearIn(cell) !== undefined),
  );
  if (at >= 0) return { at: at + 1, head: survey.layout.heads[at]! };
  const said = /(?<!\d)(?:19|20)\d{2}(?!\d)/;
  const inName = said.exec(fileName)?.[0];
  const above = said.exec(survey.layout.preamble.join(" "))?.[0];
  const answer = asking.ask(
    {
      id: "year",
      asks: `the dates of “${about}” have no year; which is it?`,
      choices: [],
      hint:
        above !== undefined
          ? `${above} stands above the table`
          : inName !== undefined
            ? `${inName} stands in the file's name`
            : "such as 2026",
    },
    "",
    (text) => /^(?:19|20)\d{2}$/.test(text),
  );
  return answer === undefined ? undefined : Number(answer);
}

/** Whether dates on lines of their own are those of the rows below; one alone may be the day of an export. Undefined while that is open. */
export function isDayOfLine({ layout, dateLines }: Survey, asking: Asking): boolean | undefined {
  if (layout.dateLine !== "") return true;
  const [first = ""] = dateLines.distinct.keys();
  const answer = asking.decide(
    {
      id: "date",
      asks: `“${first}” stands on a line of its own; is it the day of the rows below it?`,
      choices: ["above", "none"],
      hint: "",
    },
    dateLines.filled > 1 ? "above" : undefined,
  );
  return answer === undefined ? undefined : answer === "above";
}
