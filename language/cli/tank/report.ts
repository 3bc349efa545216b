import { clockOf, isoOf } from "../../book/dates.ts";
import type {
  DutyCard,
  FindingCard,
  RemedyCard,
  SpanCard,
  TankCard,
  WaterCard,
  WhyCard,
} from "../../features/cards.ts";
import type { CoursePoint } from "../../features/population-cards.ts";
import type { QuarantineCard } from "../../features/quarantine-cards.ts";
import type { Location } from "../../features/view.ts";
import { caseItemOf } from "../case-form.ts";
import { bathOf, courseOf } from "../course-form.ts";
import { lightOf } from "../light-form.ts";
import type { Opened } from "../open.ts";
import { placeReport } from "../report.ts";
import type { Place, QuarantineReport, TankReport, WhyTree } from "../schema.ts";

/** The card of a tank in the form of `--json`: days and times in ISO 8601, places as lines and columns. */
export function tankReport(
  opened: Opened,
  card: TankCard,
): Omit<TankReport, "standpipe" | "command" | "unread"> {
  const { name, title, role, place, note, volumeL, volumeText, system, residents } = card;
  const at = placesIn(opened);
  return {
    name,
    title,
    day: isoOf(card.day),
    at: at(card.at),
    role,
    where: place,
    note,
    volumeL,
    volumeText,
    system: system === null ? null : { ...system, tanks: [...system.tanks], at: at(system.at) },
    water: card.water.map((each) => waterOf(each, at)),
    rounds: card.rounds.map((each) => ({
      ...each,
      time: timeOf(each.time),
      at: at(each.at),
      why: whyOf(each.why, at),
    })),
    changes: card.changes.map(({ time, ...rest }) => ({ ...rest, time: timeOf(time), at: at(rest.at) })),
    remedies: card.remedies.map((each) => remedyOf(each, at)),
    baths: card.baths.map((each) => bathOf(each, at)),
    residents: residents.map((each) => ({ ...each, counted: dayOrNull(each.counted), at: at(each.at) })),
    cases: card.cases.map((each) => caseItemOf(each, at)),
    quarantine: card.quarantine === null ? null : quarantineOf(card.quarantine, at),
    light: card.light === null ? null : lightOf(card.light, at),
    populations: card.populations.map(({ course, entries, why, ...each }) => ({
      ...each,
      course: pointsOf(course),
      entries: entries.map((entry) => ({ ...entry, time: timeOf(entry.time), at: at(entry.at) })),
      why: whyOf(why, at),
    })),
    bearing: card.bearing.map(({ why, oxygenWhy, ...each }) => ({
      ...each,
      why: whyOf(why, at),
      oxygenWhy: oxygenWhy === null ? null : whyOf(oxygenWhy, at),
    })),
    duties: card.duties.map((each) => dutyOf(each, at)),
    findings: card.findings.map((each) => findingOf(each, at)),
  };
}

export type At = <L extends Location | null>(location: L) => L extends null ? Place | null : Place;

/** Places of the logbook's files; a card names them by path. */
export function placesIn(opened: Opened): At {
  return ((location: Location | null): Place | null => {
    const source = location === null ? undefined : opened.checked.logbook.sources.get(location.path);
    return location === null || source === undefined
      ? null
      : placeReport(opened, source, location.start, location.end);
  }) as At;
}

export const timeOf = (time: number): string => `${isoOf(time)}T${clockOf(time)}`;
export const dayOrNull = (day: number | null): string | null => (day === null ? null : isoOf(day));
const pointsOf = (points: readonly CoursePoint[]) =>
  points.map(({ time, value }) => ({ time: timeOf(time), value }));
const spanOf = (span: SpanCard | null): SpanCard | null => (span === null ? null : { ...span });

function waterOf(card: WaterCard, at: At): TankReport["water"][number] {
  const { limit, readings, level, production, course, ahead, crossing, regular, why, ...rest } = card;
  return {
    ...rest,
    limit: limit === null ? null : { ...limit, at: at(limit.at) },
    readings: readings.map((each) => ({ ...each, time: timeOf(each.time), at: at(each.at) })),
    level: spanOf(level),
    production: spanOf(production),
    course: pointsOf(course),
    ahead: ahead.map((each) => ({ ...each, time: timeOf(each.time) })),
    crossing:
      crossing === null
        ? null
        : {
            day: dayOrNull(crossing.day),
            earliest: dayOrNull(crossing.earliest),
            latest: dayOrNull(crossing.latest),
            text: crossing.text,
          },
    regular: regular === null ? null : { ...regular, at: at(regular.at) },
    why: why === null ? null : whyOf(why, at),
  };
}

export function whyOf({ what, value, formula, source, at: location, from }: WhyCard, at: At): WhyTree {
  const place = at(location);
  return {
    what,
    value,
    ...(formula === "" ? {} : { formula }),
    ...(source === "" ? {} : { source }),
    ...(place === null ? {} : { place }),
    from: from.map((each) => whyOf(each, at)),
  };
}

export function quarantineOf(card: QuarantineCard, at: At): QuarantineReport {
  const { since, end, putOff, arrivals, why, at: location, tanks, animals, signs, ...rest } = card;
  return {
    ...rest,
    tanks: [...tanks],
    animals: [...animals],
    signs: [...signs],
    since: isoOf(since),
    end: isoOf(end),
    putOff: putOff.map(({ day, from, to, at: row, ...each }) => ({
      ...each,
      day: isoOf(day),
      from: isoOf(from),
      to: isoOf(to),
      at: at(row),
    })),
    arrivals: arrivals.map(({ day, end: own, from, at: row, ...each }) => ({
      ...each,
      from: [...from],
      day: isoOf(day),
      end: isoOf(own),
      at: at(row),
    })),
    why: whyOf(why, at),
    at: at(location),
  };
}

function remedyOf(card: RemedyCard, at: At): TankReport["remedies"][number] {
  const { target, course, doses, next, plan, at: location, ...rest } = card;
  return {
    ...rest,
    plan: plan === null ? null : courseOf(plan, at),
    target: target === null ? null : { ...target },
    course: pointsOf(course),
    doses: doses.map((each) => ({ ...each, time: timeOf(each.time), at: at(each.at) })),
    next: next === null ? null : { ...next, day: isoOf(next.day) },
    at: at(location),
  };
}

function dutyOf(card: DutyCard, at: At): TankReport["duties"][number] {
  const { last, due, at: location, lastAt, ...rest } = card;
  return { ...rest, last: dayOrNull(last), due: dayOrNull(due), at: at(location), lastAt: at(lastAt) };
}

function findingOf({ day, at: location, ...rest }: FindingCard, at: At): TankReport["findings"][number] {
  return { ...rest, day: dayOrNull(day), at: at(location) };
}
