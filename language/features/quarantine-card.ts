import { spokenDay } from "../book/dates.ts";
import { wordOf } from "../book/interner.ts";
import type { Station } from "../book/stations.ts";
import { arrivalText, dayOfText, endText, putOffSince, putOffText } from "../checks/quarantine-words.ts";
import { formatNumber } from "../quantity/format.ts";
import { animalsBefore, courses, isAboutBefore } from "../room/course.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Logbook } from "../room/logbook.ts";
import { type Quarantine, quarantineUntil } from "../room/quarantine.ts";
import { quarantineTanks } from "../room/quarantine-period.ts";
import { whyQuarantine } from "../room/why-quarantine.ts";
import { rowLocation, stationLocation, whyCard } from "./card-parts.ts";
import { type Section, table, text } from "./document.ts";
import type { QuarantineCard } from "./quarantine-cards.ts";

/** The clocks that run at the end of a day, and those that are over while animals are there still: the first to end first. */
export function quarantineCard(logbook: Logbook, day: number): QuarantineCard[] {
  return logbook.ledgers.flatMap((ledger) => cardOf(logbook, ledger, day)).sort((a, b) => a.end - b.end);
}

/** The clock of the water of a quarantine tank, or of a system that has one; null where none runs. */
export function stationQuarantine(logbook: Logbook, station: Station, day: number): QuarantineCard | null {
  const ledger = logbook.ledgerOf(station);
  const tanks: readonly Station[] = quarantineTanks(ledger);
  if (station.kind !== "system" && !tanks.includes(station)) return null;
  return cardOf(logbook, ledger, day)[0] ?? null;
}

function cardOf(logbook: Logbook, ledger: Ledger, day: number): QuarantineCard[] {
  const clock = quarantineUntil(logbook, ledger, day, day + 1);
  if (clock === undefined) return [];
  const { tanks, since, end, signs, arrivals } = clock;
  return [
    {
      tanks: tanks.map(({ name }) => name),
      animals: animalsOf(ledger, clock, day),
      since,
      end,
      daysLeft: Math.max(0, end - day),
      dayText: dayOfText(clock, day),
      text: endText(clock, day),
      isOver: end <= day,
      signs,
      putOff: putOffSince(clock).map((each) => ({
        by: each.by,
        text: putOffText(each, day),
        day: each.day,
        from: each.from,
        to: each.to,
        at: rowLocation(each.at.block, each.at.row),
      })),
      arrivals: arrivals.map((each) => ({
        how: each.how,
        tank: each.tank.name,
        from: each.from,
        species: each.species,
        animals: each.animals,
        lot: each.lot,
        day: each.day,
        end: each.end,
        text: arrivalText(each, day),
        at: rowLocation(each.at.block, each.at.row),
      })),
      why: whyCard(whyQuarantine(ledger.book, clock)),
      at: stationLocation(tanks[0]!),
    },
  ];
}

/** What lives in the quarantine tanks, by the book. */
function animalsOf(ledger: Ledger, { tanks }: Quarantine, day: number): QuarantineCard["animals"] {
  const ids = new Set(tanks.map(({ id }) => id));
  const all = new Map<string, { animals: number; isAbout: boolean }>();
  for (const course of courses(ledger)) {
    const animals = animalsBefore(course, day + 1);
    if (!ids.has(course.holding.tank) || !(animals > 0)) continue;
    const species = wordOf(course.holding.species);
    const known = all.get(species);
    all.set(species, {
      animals: (known?.animals ?? 0) + animals,
      isAbout: isAboutBefore(ledger, course, day + 1) || known?.isAbout === true,
    });
  }
  return [...all].map(([species, { animals, isAbout }]) => ({
    species,
    animals,
    text: `${isAbout ? "~" : ""}${formatNumber(animals, 6)}`,
  }));
}

/** Clocks as a table of a report; undefined where none runs. @param day the year of which needs no saying */
export function quarantineSection(cards: readonly QuarantineCard[], day: number): Section | undefined {
  if (cards.length === 0) return undefined;
  const rows = cards.map((card) => {
    const { tanks, animals, since, end, putOff, arrivals, isOver, signs } = card;
    const last = putOff.at(-1);
    return [
      tanks.join(", "),
      spokenDay(since, day),
      animals.map(({ species, text: many }) => `${many} ${species}`).join(", "),
      {
        text: `${spokenDay(end, day)}${signs.length === 0 ? "" : " at the earliest"}`,
        tone: isOver ? "good" : signs.length > 0 ? "warning" : "plain",
      } as const,
      last === undefined ? "" : last.text,
      arrivals.map((each) => `${each.text}, own clock until ${spokenDay(each.end, day)}`).join("; "),
    ];
  });
  return {
    title: "Quarantine",
    note: `${cards.filter(({ isOver }) => !isOver).length} running`,
    parts: [
      table(["Tank", "Since", "Animals", "Ends", "Put off by", "Arrivals"], rows),
      text(
        "One clock for all animals of a water: the later of the last animal in and, by as many days as the room states, the last loss, sign of disease or dose.",
        "faint",
      ),
    ],
  };
}
