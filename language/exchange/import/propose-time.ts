import type { Asking } from "./asking.ts";
import type { ColumnAt, Mapping } from "./mapping.ts";
import { orderStated, zoneMinutes } from "./moment.ts";
import { orderOf } from "./propose-order.ts";
import { Refused } from "./refused.ts";
import type { ColumnEvidence, Survey } from "./survey.ts";
import { isPlace } from "./zones.ts";

type Time = Mapping["time"];

/**
 * Which columns say when. Undefined while the order of dates is open; throws `Refused` where nothing says when.
 * @param taken takes the columns, also while it is open
 */
export function proposeTime(survey: Survey, asking: Asking, taken: Set<number>): Time | undefined {
  const { layout } = survey;
  const at = (index: number): ColumnAt => ({ at: index + 1, head: layout.heads[index]! });
  const epoch = epochColumn(survey);
  const dated = dateColumn(survey);
  if (dated === undefined && layout.dateLine === "" && epoch !== undefined) {
    taken.add(epoch);
    return epochTime(survey, epoch, asking);
  }
  const serial = dated === undefined && layout.dateLine === "" ? serialColumn(survey) : undefined;
  if (serial !== undefined) {
    taken.add(serial);
    return serialTime(survey, serial, asking, taken);
  }
  if (dated === undefined && layout.dateLine === "") throw new Refused(noDate(survey));
  const evidence = dated === undefined ? survey.dateLines : survey.columns[dated]!;
  const about = dated === undefined ? layout.dateLine : nameOf(survey, dated);
  const hasOwnTime = evidence.withTime > evidence.filled / 2;
  const clock = hasOwnTime ? undefined : clockColumn(survey, dated ?? -1);
  for (const column of [dated, clock]) if (column !== undefined) taken.add(column);
  const stated = orderStated(
    dated === undefined ? layout.dateLine : `${layout.heads[dated]} ${layout.units[dated] ?? ""}`,
  );
  const order = orderOf(survey, evidence, about, stated, asking);
  const timed = clock === undefined ? evidence : survey.columns[clock]!;
  const hasTimes = hasOwnTime || clock !== undefined;
  const isDayOnly = hasTimes && timed.notMidnight === 0 && timed.compactTimes === 0;
  if (isDayOnly) asking.because("dates", "all times are midnight: taken as days without a time");
  if (!hasTimes) asking.because("dates", "no column holds a time of day: readings are of a day");
  // Of days there is nothing to turn.
  const isTimed = hasTimes && !isDayOnly;
  const zone =
    isTimed || asking.hasAnswer("zone", "as-written")
      ? zoneOf(survey, [dated, clock], timed, asking)
      : { zone: "as-written" };
  if (order === undefined || zone === undefined) return undefined;
  return {
    date: dated === undefined ? "line" : at(dated),
    ...(clock === undefined ? {} : { clock: at(clock) }),
    order,
    ...(isDayOnly ? { isDayOnly } : {}),
    ...zone,
  };
}

export const nameOf = ({ layout }: Survey, at: number): string => layout.heads[at] || `column ${at + 1}`;

const other = /start|begin|creat|modif|analy|atmo|received|uploaded|born|setup/i;

function best(
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

function dateColumn(survey: Survey): number | undefined {
  return best(survey, ({ filled, moments, compactDates, withTime }, head) => {
    if (filled < survey.rows * 0.5) return 0;
    const isNamed = /date|datum|time|zeit|stamp|day|tag|sampled/i.test(head);
    if (compactDates >= filled * 0.95 && isNamed && !/time|zeit|year/i.test(head) && moments === 0)
      return other.test(head) ? 0.1 : 1;
    // Below a short table stand totals and means.
    if (moments < filled * (isNamed ? 0.5 : 0.8)) return 0;
    return (other.test(head) ? 0.2 : 1) * (2 + (withTime > filled / 2 ? 1 : 0) + (isNamed ? 1 : 0));
  });
}

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
      ? other.test(head)
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
    if (filled < survey.rows * 0.5 || other.test(head) || moments > 0) return 0;
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
  const near = layout.heads.findIndex((head) => /date|datum|month|year|jahr|monat|time|zeit/i.test(head));
  const sample = near < 0 ? undefined : [...columns[near]!.distinct.keys()][0];
  const what =
    sample === undefined ? "" : `; “${layout.heads[near]}” reads “${sample.slice(0, 40)}”, which is no day`;
  return `no column holds dates${what}: a reading without its day has no place in a log`;
}
