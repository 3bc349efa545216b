import { spokenDay } from "../book/dates.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { isAboutAsMany } from "../room/about.ts";
import type { BroodEntry, Counted } from "../room/brood-rows.ts";
import { type Brood, broodsUntil, homeOf } from "../room/broods.ts";
import { developed, expected, graceDays, mostAtLeast, type Stage } from "../room/development.ts";
import { keptFor } from "../room/kept-for-logbook.ts";
import type { Logbook } from "../room/logbook.ts";
import { placeOfRow } from "../room/why.ts";
import { entriesOf, whyDeveloped, whyExpected } from "../room/why-brood.ts";
import { countText, expectedText } from "./brood-words.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { atEndOfDay } from "./offers.ts";
import { days } from "./words.ts";

/** Broods against what can be: the order of their stages, their numbers, and the time that eggs take. */

const prelude = `species praecox
  hatches 7..10 d at 25 C; base 10 C
tank b1
  volume 40 L
`;

const degreeDaySource =
  "Degree-days above a base: Weltzien, Planas & Fyhn 1999, J. Exp. Mar. Biol. Ecol. 242:201-210 (abstract). That the sum shifts with temperature: Crisp 1981, Freshw. Biol. 11:361-368 (recalled). How long eggs take is the keeper's to state; how late is late, and how early too early: *common practice, no source*.";

export const broodPages = [
  page({
    code: "brood/order",
    severity: "warning",
    since: "0.2",
    title: "A brood in the wrong order",
    says: "By the entries that name this lot eggs hatched before they were laid, or young swam before they hatched.",
    whatToDo: "Correct the day, or the name of the lot.",
    raises: `${prelude}2026-03-01
  b1 hatch praecox 40 lot p7
#                         ^^ brood/order
2026-03-03
  b1 spawn praecox 60 eggs lot p7`,
    fine: `${prelude}2026-03-01
  b1 spawn praecox 60 eggs lot p7
2026-03-10
  b1 hatch praecox 40 lot p7`,
  }),
  page({
    code: "brood/more-than-before",
    severity: "warning",
    since: "0.2",
    title: "More than there can be of a brood",
    says: "More eggs are alive than were laid, more hatched than there were eggs, or more swim than hatched.",
    whatToDo:
      "Count again; write eggs that were laid since as another spawning of the same lot, and estimates with `~`.",
    raises: `${prelude}2026-03-01
  b1 spawn praecox 60 eggs lot p7
2026-03-10
  b1 hatch praecox 75 lot p7
#                  ^^ brood/more-than-before`,
    fine: `${prelude}2026-03-01
  b1 spawn praecox ~70 eggs lot p7
2026-03-10
  b1 hatch praecox 75 lot p7`,
  }),
  page({
    code: "brood/early",
    severity: "information",
    since: "0.2",
    title: "Hatched too early to be true",
    says: "The eggs, or the young until they swam, had less than half of the degree-days that they take at least, by what is stated of the species or by the room's own broods at like temperatures.",
    whatToDo:
      "Correct the day, or name the brood that it was; if all is right, state how long this species takes.",
    raises: `${prelude}2026-03-01
  b1 test temperature 25
  b1 spawn praecox 60 eggs lot p7
2026-03-04
  b1 hatch praecox 40 lot p7
# ^^^^^^^^^^^^^^^^^^^^^^^^^^ brood/early`,
    fine: `${prelude}2026-03-01
  b1 test temperature 25
  b1 spawn praecox 60 eggs lot p7
2026-03-07
  b1 hatch praecox 40 lot p7`,
    source: degreeDaySource,
  }),
  page({
    code: "brood/overdue",
    severity: "information",
    since: "0.2",
    title: "Eggs that should have hatched",
    says: "Of a brood with a name nothing hatched yet, and the last day on which that was to be expected has passed by a fifth of their time, by two days at least. After two months it is no longer said.",
    whatToDo: "Look; write the hatch, or that no egg is alive (`eggs praecox 0 lot p7`).",
    raises: `${prelude}2026-03-01
  b1 test temperature 25
  b1 spawn praecox 60 eggs lot p7
#                              ^^ brood/overdue
2026-03-07
  b1 test temperature 25
2026-03-14
  b1 test temperature 25`,
    fine: `${prelude}2026-03-01
  b1 test temperature 25
  b1 spawn praecox 60 eggs lot p7
2026-03-07
  b1 test temperature 25
2026-03-12
  b1 test temperature 25`,
    source: degreeDaySource,
  }),
] as const;

/** What broods tell up to a day, by the number of the ledger of their tanks. */
export function broodFindings(logbook: Logbook, day: number): ReadonlyMap<number, readonly RowFinding[]> {
  return keptFor(logbook, `brood findings ${day}`, () => {
    const found = new Map<number, RowFinding[]>();
    const add = (tank: Tank, finding: RowFinding): void => {
      const ledger = logbook.ledgerNumber(tank);
      const known = found.get(ledger);
      if (known === undefined) found.set(ledger, [finding]);
      else known.push(finding);
    };
    for (const brood of broodsUntil(logbook, day)) {
      if (brood.among > 0) continue;
      for (const [entry, finding] of [
        ...orderFindings(brood),
        ...numberFindings(brood),
        ...earlyFindings(logbook, brood, day),
      ])
        add(entry.tank, finding);
      const overdue = overdueFinding(logbook, brood, day);
      if (overdue !== undefined) add(homeOf(brood, day), overdue);
    }
    return found;
  });
}

type Found = readonly [BroodEntry, RowFinding];

function orderFindings({ entries, lot, tally }: Brood): Found[] {
  if (lot === "") return [];
  return entries.flatMap((entry): Found[] => {
    const [after, what] =
      entry.is === "hatch"
        ? ([tally.spawned, "were laid"] as const)
        : entry.is === "swim"
          ? ([tally.hatchedOn, "hatched"] as const)
          : ([Number.NaN, ""] as const);
    if (!(entry.day < after)) return [];
    const first = entries.find(
      ({ is, day }) => is === (entry.is === "hatch" ? "spawn" : "hatch") && day === after,
    )!;
    return [
      [
        entry,
        {
          ...at(entry, ["lot"]),
          code: "brood/order",
          severity: () => "warning",
          message: () =>
            `by this ${lot} ${entry.is === "hatch" ? "hatched" : "swam"} before they ${what} (${spokenDay(after, entry.day)})`,
          related: () => placesOf([first], `they ${what}`),
        },
      ],
    ];
  });
}

/** Each number against the one before it; of several hatches the sum. */
function numberFindings(brood: Brood): Found[] {
  const { entries, tally } = brood;
  const found: Found[] = [];
  let laid: Counted = { count: 0, isAbout: false };
  let hatched: Counted = { count: 0, isAbout: false };
  const plus = (one: Counted, other: Counted): Counted => ({
    count: one.count + other.count,
    isAbout: one.isAbout || other.isAbout,
  });
  const hold = (entry: BroodEntry, is: Counted, of: Counted, words: string): void => {
    if (!(is.count > of.count) || ((is.isAbout || of.isAbout) && isAboutAsMany(is.count, of.count))) return;
    found.push([
      entry,
      {
        ...at(entry, [entry.is === "eggs" ? "eggs" : "animals"]),
        code: "brood/more-than-before",
        severity: () => "warning",
        message: () =>
          `${countText(is)} ${words} of ${countText(of)} ${entry.is === "swim" ? "hatched" : "eggs"} of ${brood.name}`,
        why: () => ({
          what: `${brood.name}, from stage to stage`,
          value: "",
          from: entriesOf(brood, "spawn", "eggs", "hatch", "swim"),
        }),
      },
    ]);
  };
  for (const entry of entries) {
    switch (entry.is) {
      case "spawn":
        laid = plus(laid, entry);
        break;
      case "eggs":
        if (!Number.isNaN(tally.spawned)) hold(entry, entry, laid, "are alive");
        break;
      case "hatch":
        hatched = plus(hatched, entry);
        if (!Number.isNaN(tally.spawned)) hold(entry, hatched, laid, "hatched");
        break;
      case "swim":
        if (!Number.isNaN(tally.hatchedOn)) hold(entry, entry, hatched, "swim");
        break;
    }
  }
  return found;
}

function earlyFindings(logbook: Logbook, brood: Brood, day: number): Found[] {
  return (["hatch", "swim"] as const).flatMap((stage: Stage): Found[] => {
    const entry = brood.entries.find(({ is }) => is === stage);
    const took = entry === undefined ? undefined : developed(logbook, brood, stage, day);
    if (took === undefined || entry === undefined || took.to === took.from) return [];
    // Most took so long that nothing could make it early: then nothing needs to be compared.
    if (!(took.degreeDays < mostAtLeast(logbook, brood.species, stage, day) / 2)) return [];
    const least = expected(logbook, brood, stage, day);
    if (least === undefined || !(took.degreeDays < least.low / 2)) return [];
    return [
      [
        entry,
        {
          ...at(entry, []),
          code: "brood/early",
          severity: () => "information",
          message: () =>
            `${stage === "hatch" ? "hatched" : "swam"} after ${days(took.to - took.from)}, ${formatNumber(took.degreeDays, 3)} degree-days; ` +
            `${brood.species} take ${formatNumber(least.low, 3)} at least ${least.by === "stated" ? "as stated" : "by the room's own broods"}`,
          why: () => ({
            ...whyExpected(logbook, brood, least, expectedText(least, day)),
            from: [whyDeveloped(took), ...whyExpected(logbook, brood, least, "").from],
          }),
        },
      ],
    ];
  });
}

/** For so long it is said that eggs are overdue. */
const saidDays = 60;

/** At the last entry that tells of the eggs: there they were seen, and are to be looked for. */
function overdueFinding(logbook: Logbook, brood: Brood, day: number): RowFinding | undefined {
  const { lot, tally, entries, species } = brood;
  const spawn = entries.find(({ is }) => is === "spawn");
  const last = entries.findLast(({ is }) => is === "spawn" || is === "eggs");
  if (lot === "" || tally.state !== "eggs" || spawn === undefined || last === undefined) return undefined;
  const found = expected(logbook, brood, "hatch", day);
  if (found === undefined) return undefined;
  const late = day - found.latest;
  if (!(late > graceDays(found)) || late > saidDays) return undefined;
  const home = homeOf(brood, day);
  return {
    ...at(last, ["lot"]),
    code: "brood/overdue",
    severity: () => "information",
    message: () =>
      `${lot}: the hatch was expected ${expectedText(found, day)}; nothing is written of it since ${spokenDay(last.day, day)}`,
    fixes: () => {
      const block = logbook.dayGroups.at(-1)?.blocks.at(-1);
      const name = /^[\p{L}][\p{L}\p{M}\p{N}_-]*$/u.test(lot) ? lot : `"${lot.replace(/[\\"]/g, "\\$&")}"`;
      return block === undefined ? [] : [atEndOfDay(block, `${home.name} eggs ${species} 0 lot ${name}`)];
    },
    related: () => (last === spawn ? [] : placesOf([spawn], "where they were laid")),
    about: home,
    why: () => whyExpected(logbook, brood, found, expectedText(found, day)),
  };
}

const at = ({ block, row }: BroodEntry, slots: readonly string[]) => ({ block, row, slots });

function placesOf(entries: readonly BroodEntry[], message: string) {
  return entries.flatMap(({ block, row }) => {
    const place = placeOfRow(block, row);
    return place === undefined ? [] : [{ place, message }];
  });
}
