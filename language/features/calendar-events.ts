import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import type { ShelfLife, Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { doseCaution } from "../checks/doses.ts";
import { days } from "../checks/words.ts";
import { workDayFrom } from "../room/capacity.ts";
import { courseSteps } from "../room/course-steps.ts";
import { actAt, type DueDuty, dutiesOn, placeOf } from "../room/due.ts";
import { ordersOn } from "../room/orders.ts";
import { openedUntil } from "../room/shelf-life.ts";
import { treatmentsOf } from "../room/treatments.ts";
import { broodCard, openBroods } from "./brood-card.ts";
import { stepReason, stepWords } from "./course-step-words.ts";
import { orderCard } from "./orders-card.ts";
import { quarantineCard } from "./quarantine-card.ts";

/**
 * What is due in the next days, as whole days of a calendar: an event a duty and time, not one a day with a list, since only so an event
 * that was imported before can move by itself when its work is done, and the others stay as they are.
 */
export interface CalendarEvent {
  /** What it is, apart from when: the same thing has the same key in each calendar that is written. */
  readonly key: readonly (string | number)[];
  /** Whole days; the last is included. */
  readonly from: number;
  readonly to: number;
  readonly title: string;
  /** One line each. */
  readonly about: readonly string[];
  /** Where the tank stands; empty where that is not stated. */
  readonly where: string;
  readonly category: "work" | "dose" | "course" | "quarantine" | "brood" | "order" | "expiry";
  /** What was expected and is done already: who has imported it takes it out. */
  readonly isOff: boolean;
}

/** @param day today; @param count of days, today among them */
export function calendarEvents(checked: CheckedLogbook, day: number, count: number): CalendarEvent[] {
  const events = [
    ...dutyEvents(checked, day, count),
    ...courseEvents(checked, day, count),
    ...quarantineEvents(checked, day, count),
    ...broodEvents(checked, day, count),
    ...orderEvents(checked, day, count),
    ...expiryEvents(checked, day, count),
  ];
  return onceEach(events).sort((a, b) => a.from - b.from);
}

/** The same act stated twice of one tank has two keys: they are numbered in the order of the book. */
function onceEach(events: readonly CalendarEvent[]): CalendarEvent[] {
  const seen = new Map<string, number>();
  return events.map((event) => {
    const key = JSON.stringify(event.key);
    const before = seen.get(key) ?? 0;
    seen.set(key, before + 1);
    return before === 0 ? event : { ...event, key: [...event.key, "again", before] };
  });
}

/** What is late is to be done today. */
const onOrAfter = (due: number, day: number): number => Math.max(due, day);

const whereOf = (station: Station): string => (station.kind === "tank" ? (station as Tank).where : "");

function dutyEvents(checked: CheckedLogbook, day: number, count: number): CalendarEvent[] {
  const { logbook, book } = checked;
  return book.stations.flatMap((station) =>
    dutiesOn(logbook.ledgerOf(station), [station], day).flatMap((due) =>
      timesOf(book, due, day, count).map((on, at): CalendarEvent => {
        const { duty } = due;
        const place = placeOf(checked.book, station);
        const act = actAt(book, duty, place);
        return {
          key: ["duty", station.name, duty.act, at + 1],
          from: on,
          to: on,
          title: `${place.name}: ${act}`,
          about:
            at === 0 ? aboutDuty(due, day) : [stated(due), "If what comes before it is done on its day."],
          where: whereOf(place),
          category: "work",
          isOff: false,
        };
      }),
    ),
  );
}

/**
 * The days on which a duty is to be done: as many as its interval has in all the days, so that each of them moves along when it is done.
 * What was done within as many days before may stand in an earlier calendar on its old day, and is told where it is now, be it later.
 */
function timesOf(book: Book, { duty, owed, last }: DueDuty, day: number, count: number): number[] {
  if (!Number.isFinite(owed)) return [];
  const next = onOrAfter(owed, day);
  if (next >= day + count && !(last >= day - count)) return [];
  const period = Math.round(duty.form.periodDays);
  const times = duty.form.when === "every" ? Math.max(1, Math.ceil(count / Math.max(1, period))) : 1;
  // Each is counted from the one before, which is not done on a day away.
  const found = [next];
  while (found.length < times) found.push(workDayFrom(book, found.at(-1)! + period, duty.kind));
  return found;
}

const stated = ({ duty }: DueDuty): string =>
  duty.form.when === "every"
    ? `Every ${days(duty.form.periodDays)}, stated in ${duty.by}.`
    : `At least ${duty.form.times} in ${days(duty.form.periodDays)}, stated in ${duty.by}.`;

function aboutDuty(due: DueDuty, day: number): string[] {
  const { last, late, times, duty } = due;
  const done = Number.isNaN(last) ? "Never done." : `Last done on ${spokenDay(Math.floor(last))}.`;
  const short = duty.form.when === "every" ? "" : ` ${times} of ${duty.form.times} times so far.`;
  return [
    ...(late > 0 ? [`Due on ${spokenDay(due.owed)}, ${days(late)} late on ${spokenDay(day)}.`] : []),
    `${done}${short}`,
    stated(due),
  ];
}

function courseEvents({ logbook }: CheckedLogbook, day: number, count: number): CalendarEvent[] {
  return logbook.ledgers.flatMap((ledger) => {
    const { body } = ledger;
    if (body === undefined) return [];
    const where = body.system === undefined ? (body.tanks[0]?.where ?? "") : "";
    const doses = treatmentsOf(logbook, ledger, day)
      .filter(({ state }) => state === "running")
      .flatMap(({ remedy, begin, planned, times, case: of }) =>
        planned
          .filter(({ due }) => due < day + count)
          .map(({ number, due, changeOwed }): CalendarEvent => {
            const on = onOrAfter(due, day);
            return {
              key: ["dose", body.name, remedy.name, begin, number],
              from: on,
              to: on,
              title: `${body.name}: dose ${number} of ${times} of ${remedy.name}`,
              about: [
                ...(due < day
                  ? [`Due on ${spokenDay(due)}, ${days(day - due)} late on ${spokenDay(day)}.`]
                  : []),
                ...(changeOwed > 0.005
                  ? [`Before it a change of ${Math.ceil(changeOwed * 100 - 1e-9)} % is owed.`]
                  : []),
                ...(of === "" ? [] : [`Case ${of}.`]),
                doseCaution,
              ],
              where,
              category: "dose",
              isOff: false,
            };
          }),
      );
    const steps = courseSteps(logbook, ledger, day)
      .filter(({ due }) => due < day + count)
      .map((step): CalendarEvent => {
        const on = onOrAfter(step.due, day);
        return {
          key: ["step", body.name, step.remedy.name, step.treatment.begin, step.is],
          from: on,
          to: on,
          title: `${body.name}: ${stepWords(step)}`,
          about: [`${stepReason(step)}.`, ...(step.late > 0 ? [`Due on ${spokenDay(step.due)}.`] : [])],
          where,
          category: "course",
          isOff: false,
        };
      });
    return [...doses, ...steps];
  });
}

function quarantineEvents({ logbook, book }: CheckedLogbook, day: number, count: number): CalendarEvent[] {
  return quarantineCard(logbook, day)
    .filter(({ end }) => end >= day && end < day + count)
    .map(({ tanks, since, end, animals, signs }) => ({
      key: ["quarantine", ...tanks, since],
      from: end,
      to: end,
      title: `${tanks.join(", ")}: quarantine over`,
      about: [
        `Since ${spokenDay(since)}: ${animals.map(({ text }) => text).join(", ")}.`,
        ...(signs.length > 0 ? [`Signs last (${signs.join(", ")}): the earliest day that may be.`] : []),
        "If nothing comes in between.",
      ],
      where: book.tanks.find(({ name }) => name === tanks[0])?.where ?? "",
      category: "quarantine",
      isOff: false,
    }));
}

function broodEvents({ logbook }: CheckedLogbook, day: number, count: number): CalendarEvent[] {
  return openBroods(logbook, day)
    .map((brood) => broodCard(logbook, brood, day))
    .flatMap(({ name, of, species, expected }): CalendarEvent[] => {
      if (expected === null) return [];
      const { stage, earliest, likely, latest, text } = expected;
      const [first, last] = [earliest ?? likely, latest ?? likely];
      if (first === null || last === null || last < day || first >= day + count) return [];
      return [
        {
          key: [stage, name, of, species],
          from: Math.floor(first),
          to: Math.max(Math.floor(first), Math.floor(last)),
          title: `${of}: ${name} to ${stage}`,
          about: [`${species}: ${text}.`],
          where: "",
          category: "brood",
          isOff: false,
        },
      ];
    });
}

function orderEvents({ logbook, book }: CheckedLogbook, day: number, count: number): CalendarEvent[] {
  return ordersOn(logbook, day).flatMap((state): CalendarEvent[] => {
    const { order, missing } = state;
    const { due, name } = order;
    if (Number.isNaN(due) || due >= day + count || (missing === 0 && due < day)) return [];
    const { buyer, text } = orderCard(book, state, day);
    const on = missing === 0 ? due : onOrAfter(due, day);
    return [
      {
        key: ["order", name],
        from: on,
        to: on,
        title: `order ${name}${buyer === "" ? "" : ` to ${buyer}`}${missing === 0 ? ": gone" : ""}`,
        about: [...(on > due ? [`Due on ${spokenDay(due)}.`] : []), `${text}.`],
        where: "",
        category: "order",
        isOff: missing === 0,
      },
    ];
  });
}

function expiryEvents({ book }: CheckedLogbook, day: number, count: number): CalendarEvent[] {
  const event = (what: string, name: string, title: string, on: number, about: string): CalendarEvent[] =>
    on >= day && on < day + count
      ? [
          {
            key: [what, name],
            from: on,
            to: on,
            title: `${name}: ${title}`,
            about: [about],
            where: "",
            category: "expiry",
            isOff: false,
          },
        ]
      : [];
  const shelf = (sort: string, name: string, of: ShelfLife, kind?: string): CalendarEvent[] => {
    const open = openedUntil(of, kind);
    return [
      ...event(
        `${sort} expires`,
        name,
        "last day of use",
        of.expires,
        `The ${sort} expires, as its definition states.`,
      ),
      ...event(
        `${sort} opened`,
        name,
        "open for as long as it keeps",
        open,
        `Opened on ${spokenDay(Number.isNaN(of.opened) ? day : of.opened)}, keeps ${days(open - of.opened)}.`,
      ),
    ];
  };
  return [
    ...[...book.foods.values()].flatMap((food) => shelf("food", food.name, food, food.kind)),
    ...book.remedies.flatMap((remedy) => shelf("remedy", remedy.name, remedy)),
    ...book.gears.flatMap((gear) => shelf("gear", gear.name, gear)),
  ];
}
