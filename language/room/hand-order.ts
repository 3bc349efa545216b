import { spokenDay } from "../book/dates.ts";
import type { Body, Station, Tank } from "../book/stations.ts";
import type { Case } from "./cases.ts";
import { dosesOn } from "./due.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { lastFromOutside, quarantineUntil } from "./quarantine.ts";

/**
 * The order of hands: from the clean to the dirty, as water, nets and hands carry disease. Fry first, then the healthy, then those that an
 * open case may have reached, then arrivals and quarantine, then the hospital, the sick last; within a class the keeper's own order of
 * definitions. *Common practice, no source.* Water that is shared is as dirty as the dirtiest tank in it.
 */
export const handClasses = ["fry", "healthy", "exposed", "quarantine", "hospital", "sick"] as const;
export type HandClass = (typeof handClasses)[number];

export interface HandStop {
  readonly tank: Tank;
  readonly is: HandClass;
  /** Why it is of its class, in a few words: `case flukes-1 is open`, `quarantine until 4 April`. */
  readonly reason: string;
}

/** What of the order hangs on cases. */
export interface HandCases {
  /** Those that are open on the day. */
  readonly open: readonly Case[];
  /** The names of open cases that may have reached a tank which shows no signs; empty for signs without a case. */
  readonly isReached: (tank: Tank) => readonly string[];
}

/** From this class on hands and tools are disinfected before it, or it has its own. */
export const isDirtier = (is: HandClass): boolean =>
  handClasses.indexOf(is) >= handClasses.indexOf("exposed");

/** The tanks that are in service on a day, in the order of a round. */
export function handOrder(logbook: Logbook, day: number, cases: HandCases): HandStop[] {
  const { book } = logbook;
  const rankOf = handRanks(logbook, day, cases);
  return book.tanks
    .filter(({ from, until }) => !(from > day) && !(until < day))
    .map((tank): HandStop => ({ tank, ...rankOf(tank) }))
    .sort((a, b) => handClasses.indexOf(a.is) - handClasses.indexOf(b.is));
}

interface Rank {
  readonly is: HandClass;
  readonly reason: string;
}

const none: Rank = { is: "healthy", reason: "nothing is known against it" };

/** The class of each station on a day: of a tank or system that of its water; what has no water carries nothing. */
export function handRanks(logbook: Logbook, day: number, cases: HandCases): (station: Station) => Rank {
  const { bodies } = logbook.book;
  const ranks = bodies.map((body) => ranksIn(logbook, body, day, cases));
  return (station) => {
    const all = ranks[station.body] ?? [];
    const worst = all.reduce<(typeof all)[number] | undefined>(
      (dirtiest, each) =>
        dirtiest === undefined || handClasses.indexOf(each.is) > handClasses.indexOf(dirtiest.is)
          ? each
          : dirtiest,
      undefined,
    );
    if (worst === undefined) return none;
    const { is } = worst;
    const alike = all.filter((each) => each.is === is);
    const own = alike.find(({ of }) => of === station || of === undefined);
    if (own !== undefined || !isDirtier(is)) return { is, reason: (own ?? worst).reason };
    const shared = station.kind === "system" ? "" : "one water with ";
    return { is, reason: `${shared}${worst.of?.name}: ${worst.reason}` };
  };
}

/** What is known of a water, each with the tank it is about; undefined for what is about all of it. */
function ranksIn(
  logbook: Logbook,
  body: Body,
  day: number,
  cases: HandCases,
): (Rank & { readonly of: Station | undefined })[] {
  const ledger = logbook.ledgers[body.id]!;
  const inService = body.tanks.filter(({ from, until }) => !(from > day) && !(until < day));
  const isFry = inService.length > 0 && inService.every(({ role }) => role === "grow-out");
  return [
    ...inService.map((tank) => ({
      of: tank,
      ...(isFry ? { is: "fry" as const, reason: "young fish grow up in it" } : none),
    })),
    ...cases.open.flatMap(({ name, stations }) =>
      stations
        .filter((station) => station.body === body.id)
        .map((station) => ({
          of: station.kind === "tank" ? station : undefined,
          is: "sick" as const,
          reason: name === "" ? "signs of disease" : `case ${name} is open`,
        })),
    ),
    ...dosesOn(ledger, day).map(({ course }) => ({
      of: undefined,
      is: "sick" as const,
      reason: `a course of ${course.remedy.name} runs`,
    })),
    ...inService.flatMap((tank) => [
      ...tankRanks(logbook, ledger, tank, day).map((each) => ({ ...each, of: tank })),
      ...reachedRank(cases.isReached(tank)).map((each) => ({ ...each, of: tank })),
    ]),
  ];
}

function reachedRank(names: readonly string[]): Rank[] {
  if (names.length === 0) return [];
  const said = names.map((name) => (name === "" ? "signs of disease" : `case ${name}`));
  return [{ is: "exposed", reason: `${said.join(", ")} may have reached it` }];
}

function tankRanks(logbook: Logbook, ledger: Ledger, tank: Tank, day: number): Rank[] {
  if (tank.role === "hospital") return [{ is: "hospital", reason: "a hospital tank" }];
  if (tank.role === "quarantine") {
    const clock = quarantineUntil(logbook, ledger, day, day + 1);
    const isRunning = clock !== undefined && clock.end > day;
    const reason = isRunning ? `quarantine until ${spokenDay(clock.end, day)}` : "a quarantine tank";
    return [{ is: "quarantine", reason }];
  }
  const { quarantineDays } = logbook.book;
  if (Number.isNaN(quarantineDays)) return [];
  const came = lastFromOutside(ledger, tank, day - quarantineDays, day + 1);
  if (came === undefined || came.end <= day) return [];
  const when = spokenDay(came.time, day);
  return [{ is: "quarantine", reason: `new animals of ${when}, apart until ${spokenDay(came.end, day)}` }];
}
