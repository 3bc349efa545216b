import type { Across } from "./across.ts";
import type { Asking } from "./asking.ts";
import type { ColumnAt, Mapping } from "./mapping.ts";
import { type DateOrder, orderStated, zoneMinutes } from "./moment.ts";
import { best, dateColumn, isBeside, isDayOfLine, type Parts, wayOf, yearOfDates } from "./propose-day.ts";
import { orderOf } from "./propose-order.ts";
import { Refused } from "./refused.ts";
import { ColumnEvidence, type Survey } from "./survey.ts";
import { isPlace } from "./zones.ts";

type Time = Mapping["time"];

/**
 * Which columns say when. Undefined while something of it is open; throws `Refused` where nothing says when.
 * @param taken takes the columns, also while it is open
 */
export function proposeTime(
  survey: Survey,
  asking: Asking,
  taken: Set<number>,
  fileName: string,
): Time | undefined {
  const { layout } = survey;
  const at = (index: number): ColumnAt => ({ at: index + 1, head: layout.heads[index]! });
  const isByLine = layout.dateLine !== undefined;
  const dates = dateColumn(survey);
  // A column that is written now and then gives way to one that counts days in each row.
  const isCounted = !isByLine && (dates.at === undefined || dates.isSparse);
  const epoch = isCounted ? epochColumn(survey) : undefined;
  if (epoch !== undefined) {
    taken.add(epoch);
    return epochTime(survey, epoch, asking);
  }
  const serial = isCounted ? serialColumn(survey) : undefined;
  if (serial !== undefined) {
    taken.add(serial);
    return serialTime(survey, serial, asking, taken);
  }
  const way = wayOf(survey, asking);
  if (typeof way === "object") return partsTime(survey, way, asking, taken, fileName);
  const dated = way;
  const isOfLine = dated === undefined && isByLine ? isDayOfLine(survey, asking) : undefined;
  if (dated === undefined && (!isByLine || isOfLine === false)) throw new Refused(noDate(survey));
  const evidence = dated === undefined ? survey.dateLines : survey.columns[dated]!;
  const about = dated === undefined ? layout.dateLine || "the lines above the rows" : nameOf(survey, dated);
  const hasOwnTime = evidence.withTime > evidence.filled / 2;
  const clock = hasOwnTime ? undefined : clockColumn(survey, dated ?? -1);
  for (const column of [dated, clock]) if (column !== undefined) taken.add(column);
  const stated = orderStated(
    dated === undefined ? (layout.dateLine ?? "") : `${layout.heads[dated]} ${layout.units[dated] ?? ""}`,
  );
  const order = orderOf(survey, evidence, about, stated, asking);
  const isYearless = evidence.yearless > evidence.filled / 2;
  const year = isYearless ? yearOf(survey, evidence, about, order, fileName, asking, taken) : undefined;
  if (layout.across !== undefined) saidAcross(layout.across, asking);
  const timed = clock === undefined ? evidence : survey.columns[clock]!;
  const when = clockOf(survey, [dated, clock], hasOwnTime || clock !== undefined, timed, asking);
  if (dated === undefined && isOfLine === undefined) return undefined;
  if (order === undefined || when === undefined || (isYearless && year === undefined)) return undefined;
  return {
    date: dated === undefined ? "line" : at(dated),
    ...(year === undefined ? {} : { year }),
    ...(clock === undefined ? {} : { clock: at(clock) }),
    order,
    ...when,
  };
}

/** Whether times are days, and by which clock they are. */
function clockOf(
  survey: Survey,
  columns: readonly (number | undefined)[],
  hasTimes: boolean,
  timed: ColumnEvidence,
  asking: Asking,
): Pick<Time, "isDayOnly" | "zone" | "from"> | undefined {
  const isDayOnly = hasTimes && timed.notMidnight === 0 && timed.compactTimes === 0;
  if (isDayOnly) asking.because("dates", "all times are midnight: taken as days without a time");
  if (!hasTimes) asking.because("dates", "no column holds a time of day: readings are of a day");
  // Of days there is nothing to turn.
  const isTimed = hasTimes && !isDayOnly;
  const zone =
    isTimed || asking.hasAnswer("zone", "as-written")
      ? zoneOf(survey, columns, timed, asking)
      : { zone: "as-written" };
  return zone === undefined ? undefined : { ...(isDayOnly ? { isDayOnly } : {}), ...zone };
}

/** Year, month, day, and maybe hour and minute in columns of their own. */
function partsTime(
  survey: Survey,
  { year, month, day, hour, minute }: Parts,
  asking: Asking,
  taken: Set<number>,
  fileName: string,
): Time | undefined {
  const at = (index: number): ColumnAt => ({ at: index + 1, head: survey.layout.heads[index]! });
  const own = hour < 0 ? clockColumn(survey, day) : undefined;
  const columns = [year, month, day, hour, minute, own ?? -1].filter((index) => index >= 0);
  for (const column of columns) taken.add(column);
  const of = year < 0 ? yearOfDates(survey, nameOf(survey, month), fileName, asking) : at(year);
  // An hour of its own is a time, whatever it is.
  const timed = own === undefined ? new ColumnEvidence() : survey.columns[own]!;
  if (hour >= 0) timed.notMidnight = 1;
  const when = clockOf(survey, columns, hour >= 0 || own !== undefined, timed, asking);
  if (of === undefined || when === undefined) return undefined;
  return {
    date: { month: at(month), day: at(day) },
    year: of,
    ...(hour >= 0
      ? { clock: { hour: at(hour), ...(minute < 0 ? {} : { minute: at(minute) }) } }
      : own === undefined
        ? {}
        : { clock: at(own) }),
    order: "ymd",
    ...when,
  };
}

/** The year of dates without one. Throws `Refused` where they go over the end of a year. */
function yearOf(
  survey: Survey,
  evidence: ColumnEvidence,
  about: string,
  order: DateOrder | undefined,
  fileName: string,
  asking: Asking,
  taken: Set<number>,
): Time["year"] {
  const year = yearOfDates(survey, about, fileName, asking);
  if (typeof year === "object") taken.add(year.at - 1);
  // December below January is of another year, whichever it is.
  else if (order !== undefined && evidence.orders.get(order)!.longest > halfYear)
    throw new Refused(
      `the dates of “${about}” have no year, and from one to the next they go over more than half of one: write the year with them`,
    );
  return year;
}

const halfYear = 183;

function saidAcross({ dates, from, others }: Across, asking: Asking): void {
  asking.because(
    "dates",
    `${dates.length} heads from #${from + 1} on are dates: each row is read once for each of them`,
  );
  if (others.length > 0)
    asking.because(
      "dates",
      `${others.map((each) => `“${each.slice(0, 30)}”`).join(", ")}: ${others.length === 1 ? "no date, so what stands below it is" : "no dates, so what stands below them is"} left out`,
    );
}

export const nameOf = ({ layout }: Survey, at: number): string => layout.heads[at] || `column ${at + 1}`;

function epochColumn(survey: Survey): number | undefined {
  return best(survey, ({ filled, epochs }, head) =>
    filled >= survey.rows * 0.5 && epochs >= filled * 0.95 && /time|date|stamp|epoch|unix|zeit/i.test(head)
      ? 1
      : 0,
  );
}

function serialColumn(survey: Survey): number | undefined {
  return best(survey, ({ filled, serials }, head) =>
    filled >= survey.rows * 0.5 &&
    serials >= filled * 0.95 &&
    /date|datum|day|tag|time|zeit|sampled/i.test(head)
      ? isBeside(head)
        ? 0.5
        : 1
      : 0,
  );
}

function serialTime(survey: Survey, at: number, asking: Asking, taken: Set<number>): Time {
  const place = (index: number): ColumnAt => ({ at: index + 1, head: survey.layout.heads[index]! });
  const clock = clockColumn(survey, at);
  if (clock !== undefined) taken.add(clock);
  asking.because(
    nameOf(survey, at),
    "days counted as spreadsheets do, from 1900; a file of the older count from 1904 would be four years late",
    "likely",
  );
  return {
    date: place(at),
    ...(clock === undefined ? {} : { clock: place(clock) }),
    order: "serial-1900",
    zone: "as-written",
  };
}

function clockColumn(survey: Survey, dated: number): number | undefined {
  return best(survey, ({ filled, times, compactTimes, moments }, head, at) => {
    if (filled < survey.rows * 0.5 || isBeside(head) || moments > 0) return 0;
    const isNamed = /time|zeit|uhr|hour|clock|hh/i.test(head);
    const near = 1 / (1 + Math.abs(at - dated));
    if (times >= filled * 0.8) return 1 + near + (isNamed ? 1 : 0);
    return compactTimes >= filled * 0.95 && isNamed && !/fract/i.test(head) ? 1 + near : 0;
  });
}

function epochTime(survey: Survey, at: number, asking: Asking): Time | undefined {
  const isMs = [...survey.columns[at]!.distinct.keys()][0]!.length > 11;
  asking.because(nameOf(survey, at), `counted in ${isMs ? "milliseconds" : "seconds"} from 1970, of UTC`);
  const zone = asking.ask(
    {
      id: "zone",
      asks: "times are of UTC; what is the clock of the room?",
      choices: ["UTC"],
      hint: "an offset such as +02:00, or a place such as Europe/Berlin, whose clocks change",
    },
    "",
    isZone,
  );
  if (zone === undefined) return undefined;
  return { date: { at: at + 1, head: survey.layout.heads[at]! }, order: isMs ? "unix-ms" : "unix-s", zone };
}

export const isZone = (zone: string): boolean => zoneMinutes(zone) !== undefined || isPlace(zone);

function zoneOf(
  survey: Survey,
  columns: readonly (number | undefined)[],
  { zones }: ColumnEvidence,
  asking: Asking,
): Pick<Time, "zone" | "from"> | undefined {
  if (zones.size > 0) {
    const known = [...zones].filter((zone) => zoneMinutes(zone) !== undefined);
    const zone = asking.ask(
      {
        id: "zone",
        asks: `times carry a zone (${[...zones].slice(0, 4).join(", ")}); as they are written, or by the clock of the room?`,
        choices: ["as-written"],
        hint:
          known.length < zones.size
            ? "one of them says no offset"
            : "or an offset such as +02:00, or a place such as Europe/Berlin",
      },
      "",
      (answer) => known.length === zones.size && isZone(answer),
    );
    return zone === undefined ? undefined : { zone };
  }
  const { heads, preamble } = survey.layout;
  const texts = [...columns.flatMap((at) => (at === undefined ? [] : [heads[at]!])), ...preamble];
  const stated = texts.flatMap(
    (text) =>
      /(?<![A-Za-z])(?:(?:UTC|GMT)(?:[+-]\d{1,2}(?::?\d{2})?)?|CES?T|MES?Z)(?![A-Za-z])/.exec(text) ?? [],
  )[0];
  const zone = asking.decide(
    {
      id: "zone",
      asks: "are times taken as they are written, or turned into another clock?",
      choices: ["as-written"],
      hint: "an offset such as +02:00, or a place such as Europe/Berlin, turns them into the clock of the room",
    },
    "as-written",
    "",
    isZone,
  );
  const isTurned = zone !== undefined && zone !== "as-written";
  const from = isTurned
    ? asking.decide(
        {
          id: "from",
          asks: `times are turned into ${zone}; what is the clock of the table?`,
          choices: ["UTC"],
          hint: "an offset such as +01:00",
        },
        stated !== undefined && zoneMinutes(stated) !== undefined ? stated : undefined,
        "",
        (answer) => zoneMinutes(answer) !== undefined,
      )
    : undefined;
  if (stated !== undefined)
    asking.because(
      "dates",
      isTurned
        ? `turned from ${from ?? stated} to ${zone}`
        : `the table says that its clock is ${stated}; its times are taken as they are written, as the clock of the room (zone=+02:00 or zone=Europe/Berlin turns them)`,
      "likely",
    );
  if (!isTurned) return { zone: "as-written" };
  return from === undefined ? undefined : { zone, from };
}

function noDate({ layout, columns }: Survey): string {
  const near = layout.heads.findIndex((head) =>
    /date|datum|month|year|jahr|monat|week|woche|time|zeit|^kw$/i.test(head),
  );
  const sample = near < 0 ? undefined : [...columns[near]!.distinct.keys()][0];
  const what =
    sample === undefined ? "" : `; “${layout.heads[near]}” reads “${sample.slice(0, 40)}”, which is no day`;
  return `no column holds dates${what}: a reading without its day has no place in a log`;
}
