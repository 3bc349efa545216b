import { spokenDay } from "../../book/dates.ts";
import type { Asking } from "./asking.ts";
import {
  type DateOrder,
  dateOrders,
  dayIn,
  readCompactDate,
  readMoment,
  readYearless,
  type WrittenMoment,
} from "./moment.ts";
import { Refused } from "./refused.ts";
import { type ColumnEvidence, leapYear, type Survey } from "./survey.ts";

/** The order that all rows agree to, or that one row settles. */
export function orderOf(
  survey: Survey,
  evidence: ColumnEvidence,
  about: string,
  stated: DateOrder | undefined,
  asking: Asking,
): DateOrder | undefined {
  const total = evidence.moments + evidence.compactDates + evidence.yearless;
  const fewest = Math.min(...dateOrders.map((order) => evidence.orders.get(order)!.impossible));
  const possible = dateOrders.filter((order) => {
    const { days, impossible } = evidence.orders.get(order)!;
    return days > 0 && fewest <= total / 2 && impossible <= Math.max(total * 0.02, fewest);
  });
  const [first] = possible;
  if (first === undefined)
    throw new Refused(
      `the dates of “${about}” are of no one order: read day first or month first, some are no days`,
    );
  const settled = possible.find((order) => evidence.orders.get(order)!.settled > total * 0.98);
  const sample = [...evidence.distinct.keys()].find((cell) => {
    const moment = dateIn(cell);
    return moment !== undefined && new Set(possible.map((order) => dayIn(moment, order))).size > 1;
  });
  const moment = sample === undefined ? undefined : dateIn(sample);
  // With points and bars a year of two digits stands last.
  const isLast =
    settled === undefined &&
    possible.length === 2 &&
    possible.includes("ymd") &&
    [...evidence.distinct.keys()].every((cell) => /^\d{1,2}[./]\d{1,2}[./]\d{2}(?!\d)/.test(cell));
  const [known, says, sureness] = settled === undefined ? evident() : ([settled, "", "sure"] as const);
  const readings = possible.map((order) =>
    moment === undefined ? order : `${spoken(dayIn(moment, order), moment)} (${order})`,
  );
  const answer = asking.decide(
    {
      id: "date-order",
      asks:
        sample === undefined
          ? `in which order are the dates of “${about}”?`
          : `“${sample}” in “${about}” may be ${readings.join(" or ")}${known === undefined ? "; no row settles it" : ""}`,
      choices: settled === undefined ? possible : [settled],
      hint: "",
    },
    known,
  ) as DateOrder | undefined;
  if (answer === known && says !== "") asking.because(about, says, sureness);
  return answer;

  function evident(): readonly [order: DateOrder | undefined, says: string, sureness: "sure" | "likely"] {
    if (possible.length === 1)
      return [first, `${inWords[first!]}: in any other order some rows would be no days`, "sure"];
    if (stated !== undefined && possible.includes(stated))
      return [stated, `${inWords[stated]}, as the table says itself`, "sure"];
    if (isLast)
      return [
        possible.find((order) => order !== "ymd"),
        "the year of two digits is taken to stand last, as it does with points and slashes",
        "likely",
      ];
    const steady = possible.filter((order) => {
      const { steps, longest } = evidence.orders.get(order)!;
      return steps > 0 && longest <= 2 && survey.rows > steps * 4;
    });
    const jumpy = possible.filter((order) => evidence.orders.get(order)!.longest > 25);
    if (steady.length === 1 && jumpy.length === possible.length - 1)
      return [
        steady[0],
        `${inWords[steady[0]!]}: the rows then follow each other from day to day; in another order they would jump by ${Math.min(...jumpy.map((order) => evidence.orders.get(order)!.longest))} days at midnight`,
        "likely",
      ];
    // All dates are the same in each order: 05/05/2026.
    return [sample === undefined ? first : undefined, "", "sure"];
  }
}

const dateIn = (cell: string): WrittenMoment | undefined =>
  readMoment(cell) ?? readCompactDate(cell) ?? readYearless(cell, leapYear);

/** Without the year where none is written. */
const spoken = (day: number, { parts: [, , year] }: WrittenMoment): string =>
  spokenDay(day, year === leapYear ? day : undefined);

const inWords: Readonly<Record<DateOrder, string>> = {
  ymd: "year, month, day",
  dmy: "day, month, year",
  mdy: "month, day, year",
};
