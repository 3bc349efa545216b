import { isoOf } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { entryOf } from "../../book/entry.ts";
import type { Tank } from "../../book/stations.ts";
import { limitText, readingSpan, readingText } from "../../checks/words.ts";
import { dutyCard } from "../../features/card-parts.ts";
import { presentOf } from "../../features/case-card.ts";
import { stepReason, stepWords } from "../../features/course-step-words.ts";
import { dueBetween, roundOn, type Stop, type Work, workOf } from "../../features/day-round.ts";
import { quarantineCard } from "../../features/quarantine-card.ts";
import { remediesNow } from "../../features/remedies-now.ts";
import { remedyCards } from "../../features/remedy-card.ts";
import { unseenOn } from "../../features/unseen.ts";
import { waterCard } from "../../features/water-card.ts";
import { type Trouble, waterTroubles } from "../../features/water-troubles.ts";
import { capacityOn } from "../../room/capacity.ts";
import { caseNamed } from "../../room/case-book.ts";
import { ratesOf } from "../../room/case-rates.ts";
import { type Case, casesUntil } from "../../room/cases.ts";
import { courseSteps } from "../../room/course-steps.ts";
import { placeOf } from "../../room/due.ts";
import { expiriesOn } from "../../room/expiries.ts";
import { isOpenOn } from "../../room/exposure-of-case.ts";
import { handOrder } from "../../room/hand-order.ts";
import { handCases } from "../../room/reached-by-cases.ts";
import type { Opened } from "../open.ts";
import { bookPlaceReport, entriesIn, logbookReport } from "../report.ts";
import type { DayReport, WorkReport } from "../schema.ts";
import { placesIn, quarantineOf } from "../tank/report.ts";
import { awayOf, beforeOf } from "./before.ts";
import { hatchesOf } from "./hatches.ts";
import { ordersOf } from "./orders.ts";

/** So many days ahead are told. */
const aheadDays = 7;

/** What there is to know of a logbook's day. @param worldDay today outside */
export function dayReport(opened: Opened, worldDay: number): DayReport {
  const { checked } = opened;
  const { logbook, book } = checked;
  const day = logbook.today(worldDay);
  const open = casesUntil(logbook, day).filter((each) => isOpenOn(each, day));
  const cases = handCases(logbook, day);
  const stops = roundOn(checked, cases, day);
  return {
    ...logbookReport(opened, worldDay),
    tanks: book.tanks.filter((tank) => isInService(tank, day)).length,
    entriesToday: entriesOn(opened, day),
    capacity: capacityReport(opened, day),
    away: awayOf(opened, day),
    before: beforeOf(opened, day, (due) => placedWork(opened, workOf(checked, due), day)),
    expiring: expiriesOn(logbook, day).map(({ name, sort, day: on, late, by, why, place }) => ({
      name,
      sort,
      day: isoOf(on),
      late,
      by,
      text: why,
      place: bookPlaceReport(opened, place),
    })),
    unseen: unseenOf(opened, stops, day),
    round: stops.map(({ at, stage, reason, before, work }) => ({
      at: at.name,
      kind: at.kind,
      title: at.title,
      stage,
      reason,
      before,
      work: work.map((each) => workReport(opened, each, day)),
    })),
    hands: handOrder(logbook, day, cases).map(({ tank, is, reason }) => ({
      at: tank.name,
      stage: is,
      reason,
    })),
    prepare: litresOf(stops.flatMap(({ work }) => work)),
    ...remediesOf(opened, day),
    courseSteps: stepsOf(opened, day),
    water: waterTroubles(checked, day).map((trouble) => waterReport(opened, trouble, day)),
    quarantine: quarantineCard(logbook, day)
      .filter(({ end }) => end >= day)
      .map((card) => quarantineOf(card, placesIn(opened))),
    hatches: hatchesOf(opened, day),
    sick: open.map((each) => caseReport(opened, each, day)),
    orders: ordersOf(opened, day),
    coming: comingOf(opened, day),
    findings: checked.count(worldDay),
  };
}

const isInService = ({ from, until }: Tank, day: number): boolean => !(from > day) && !(until < day);

const known = (value: number): number | null => (Number.isFinite(value) ? value : null);
const isoOrNull = (day: number | null): string | null =>
  day === null || !Number.isFinite(day) ? null : isoOf(day);

/** Where a count is due anyway that is enough said. */
function unseenOf({ checked }: Opened, stops: readonly Stop[], day: number): DayReport["unseen"] {
  const counted = stops
    .filter(({ work }) => work.some(({ due }) => due.duty.kind === Kind.count))
    .map(({ at }) => at);
  const tanks = checked.book.tanks.filter((tank) => isInService(tank, day) && !counted.includes(tank));
  return unseenOn(checked, tanks, day).map(({ tank, since, text }) => ({
    at: tank.name,
    since: isoOrNull(since),
    text,
  }));
}

function entriesOn({ checked }: Opened, day: number): number {
  const group = checked.logbook.dayGroups.findLast((each) => each.day === day);
  return group?.blocks.reduce((sum, block) => sum + entriesIn(block), 0) ?? 0;
}

function workReport(opened: Opened, { station, due, act, litres }: Work, day: number): WorkReport {
  const { duty, last, late } = due;
  const { text, note = "" } = dutyCard(opened.checked.book, due, day);
  return {
    act,
    of: station.name,
    due: isoOrNull(due.owed),
    late,
    last: isoOrNull(last),
    text,
    note,
    litres: litres ?? null,
    place: bookPlaceReport(opened, duty.place),
  };
}

function placedWork(opened: Opened, work: Work, day: number): DayReport["coming"][number]["work"][number] {
  return { ...workReport(opened, work, day), at: placeOf(opened.checked.book, work.station).name };
}

function capacityReport({ checked }: Opened, day: number): DayReport["capacity"] {
  const { tanks, litres, minutes } = capacityOn(checked.book, day);
  return { tanks: known(tanks), litres: known(litres), minutes: known(minutes) };
}

/** New water for all changes together; null if there is none, or one of them is not known in litres. */
function litresOf(work: readonly Work[]): DayReport["prepare"] {
  const changes = work.flatMap(({ litres }) => litres ?? []);
  if (changes.length === 0) return null;
  return {
    low: changes.reduce((sum, { low }) => sum + low, 0),
    high: changes.reduce((sum, { high }) => sum + high, 0),
  };
}

/** What courses owe beside their doses. */
function stepsOf({ checked }: Opened, day: number): DayReport["courseSteps"] {
  const { logbook } = checked;
  return logbook.ledgers
    .flatMap((ledger) => courseSteps(logbook, ledger, day))
    .sort((a, b) => b.late - a.late)
    .map((step) => ({
      at: step.ledger.body?.name ?? "",
      remedy: step.remedy.name,
      is: step.is,
      act: stepWords(step),
      reason: stepReason(step),
      due: isoOf(step.due),
      late: step.late,
    }));
}

function remediesOf({ checked }: Opened, day: number): Pick<DayReport, "doses" | "remedies"> {
  const { logbook } = checked;
  const doses = logbook.ledgers.flatMap((ledger) =>
    ledger.body === undefined
      ? []
      : remedyCards(logbook, ledger, day).flatMap(({ name, unit, now, next, caution }) => {
          if (next === null) return [];
          const { number, of, day: due, changeOwed, text } = next;
          const base = { at: ledger.body!.name, remedy: name, now, unit };
          return [{ ...base, number, of, due: isoOf(due), late: day - due, changeOwed, text, caution }];
        }),
  );
  const remedies = remediesNow(checked, day).map(({ at, card, last, withdrawalUntil }) => ({
    at,
    remedy: card.name,
    now: card.now,
    unit: card.unit,
    text: card.now === null ? "cannot be computed" : card.nowText,
    last: isoOf(last),
    withdrawalUntil: withdrawalUntil === undefined ? null : isoOf(withdrawalUntil),
    caution: card.caution,
  }));
  return { doses: doses.sort((a, b) => b.late - a.late), remedies };
}

function waterReport({ checked }: Opened, trouble: Trouble, day: number): DayReport["water"][number] {
  const { book, logbook } = checked;
  const { at, parameter, is, low, high, limit, time, tank } = trouble;
  const card = waterCard(logbook.ledgerOf(at), tank, parameter, day);
  const { units } = book;
  const shown = (value: number): number | null =>
    Number.isFinite(value) ? units.fromReading(parameter, value) : null;
  const { crossing } = card;
  return {
    at: at.name,
    parameter: parameter.name,
    is,
    unit: card.unit,
    low: units.fromReading(parameter, low),
    high: shown(high),
    limit: { low: shown(limit.low), high: shown(limit.high), text: limitText(book, limit) },
    reading: readingSpan(book, parameter, low, high),
    day: isoOf(time),
    level: trouble.trend?.level === undefined ? "" : readingText(book, parameter, trouble.trend.level.best),
    crossing:
      crossing === null
        ? null
        : {
            day: isoOrNull(crossing.day),
            earliest: isoOrNull(crossing.earliest),
            latest: isoOrNull(crossing.latest),
            text: crossing.text,
          },
    regular: card.regular?.text ?? "",
    holding: card.holdingText,
    changeBack: card.changeBackText,
  };
}

function caseReport(opened: Opened, each: Case, day: number): DayReport["sick"][number] {
  const { name, since, stations, latest, entries, sick } = each;
  const told = latest ?? entries.at(-1)!;
  const entry = entryOf(told.block, told.row);
  const now = sickNow(opened, each, day);
  return {
    case: name,
    since: isoOf(since),
    at: stations.map((station) => station.name),
    species: [...new Set(sick.map(({ species }) => species))].join(", "),
    affected: known(now.affected),
    atRisk: known(now.atRisk),
    latest: isoOrNull(latest?.day ?? Number.NaN),
    signs: entry?.item.signs?.text ?? "",
    place: bookPlaceReport(opened, { block: told.block, start: entry?.start ?? 0, end: entry?.end ?? 0 }),
  };
}

/** How many show signs now, of how many, in all tanks of a case; of signs without one as its latest entry says. */
function sickNow({ checked }: Opened, each: Case, day: number): { affected: number; atRisk: number } {
  const { latest } = each;
  const [affected, atRisk] = [latest?.affected ?? Number.NaN, latest?.atRisk ?? Number.NaN];
  if (each.name === "" || Number.isNaN(affected)) return { affected, atRisk };
  const story = caseNamed(checked.logbook, each.name, day);
  if (story === undefined) return { affected, atRisk };
  const { count } = ratesOf(checked.logbook, story, day);
  const present = presentOf(count);
  return { affected: count.affected, atRisk: count.affected <= present ? present : Number.NaN };
}

function comingOf(opened: Opened, day: number): DayReport["coming"] {
  const work = dueBetween(opened.checked, day + 1, day + aheadDays, day);
  return Array.from({ length: aheadDays }, (_, at) => {
    const on = work.filter(({ due }) => due.owed === day + 1 + at);
    return {
      day: isoOf(day + 1 + at),
      away: capacityOn(opened.checked.book, day + 1 + at).away ?? null,
      capacity: capacityReport(opened, day + 1 + at),
      work: on.map((each) => placedWork(opened, each, day)),
      litres: litresOf(on),
    };
  });
}
