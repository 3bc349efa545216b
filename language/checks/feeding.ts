import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { placeOfSlot } from "../book/entry.ts";
import { Col, intsPerRow, kindOfRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import { type Block, idOfRow } from "../book/source.ts";
import type { Station, Tank } from "../book/stations.ts";
import { fastsOf, grazedPartsOf } from "../room/feeding.ts";
import { lastFed } from "../room/feeds.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Logbook } from "../room/logbook.ts";
import { isDutyToo, type Need, needsOn, whyNeed } from "../room/needs.ts";
import { unfedOn } from "../room/unfed.ts";
import { placeOfRow, whyEntry } from "../room/why.ts";
import { page } from "./code.ts";
import type { Finding } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { days } from "./words.ts";

/** What the animals of a tank need, and what they were fed. */

const species = `species praecox
  needs frozen at least 2 per 7 d
`;
const frozen = `food cyclops
  kind frozen
tank dam
  volume 100 L
`;

export const feedingPages = [
  page({
    code: "feed/short",
    severity: "warning",
    since: "0.2",
    title: "Fed less of it than a species needs",
    says: "In the days up to today the tank got this food fewer times than a species in it needs. On the day on which it falls due it is for information; a warning comes from the next. Nothing is said of animals that are there for less long than the need counts, of a tank that fasts, or of one for which no food was written for four weeks.",
    whatToDo: "Feed it, and write it down; or state another need.",
    raises: `${species.replace("needs frozen", "needs frozen")}#       ^^^^^^^^^^^^^^^^^^^^^^^^^ feed/short
${frozen}2026-03-01
  dam count praecox 8
2026-03-10
  dam feed cyclops
2026-03-12
  dam note "all well"`,
    fine: `${species}${frozen}2026-03-01
  dam count praecox 8
2026-03-10
  dam feed cyclops
2026-03-12
  dam feed cyclops`,
  }),
  page({
    code: "feed/too-often",
    severity: "information",
    since: "0.2",
    title: "Fed more of it than suits a species",
    says: "With this entry the tank got a food more often than a species in it should, in so many days up to today; or it got what the species must never get. One finding a tank and food, at the last such entry. Where the tank has a duty that says the same, the duty is told of instead.",
    whatToDo: "Feed something else for some days.",
    raises: `species praecox
  needs dry at most 1 per 7 d
food flake
  kind dry
tank dam
  volume 100 L
2026-03-01
  dam count praecox 8
2026-03-10
  dam feed flake
2026-03-12
  dam feed flake
#          ^^^^^ feed/too-often`,
    fine: `species praecox
  needs dry at most 1 per 7 d
food flake
  kind dry
tank dam
  volume 100 L
2026-03-01
  dam count praecox 8
2026-03-10
  dam feed flake
2026-03-17
  dam feed flake`,
  }),
  page({
    code: "feed/unfed",
    severity: "information",
    since: "0.2",
    title: "Not fed for longer than usual",
    says: "Animals live in the tank, and the last food that was written for it is longer ago than it ever was in the last three months. Nothing is said where a day without food was written, or where something that a species needs is told of already.",
    whatToDo: "Feed, or write what was fed; `feed none` says that they fast.",
    raises: `${frozen}2026-03-01
  dam count praecox 8
  dam feed cyclops
2026-03-02
  dam feed cyclops
2026-03-03
  dam feed cyclops
2026-03-04
  dam feed cyclops
2026-03-06
  dam feed cyclops
2026-03-07
  dam feed cyclops
# ^^^^^^^^^^^^^^^^ feed/unfed
2026-03-10
  dam note "away"`,
    fine: `${frozen}2026-03-01
  dam count praecox 8
  dam feed cyclops
2026-03-02
  dam feed cyclops
2026-03-03
  dam feed cyclops
2026-03-04
  dam feed cyclops
2026-03-06
  dam feed cyclops
2026-03-07
  dam feed cyclops
2026-03-10
  dam feed none "fasting"`,
    source: "Three days at least, and longer than ever in three months: choices of this tool.",
  }),
  page({
    code: "feed/grazed",
    severity: "information",
    since: "0.2",
    title: "A surface that is left for grazing was cleaned",
    says: "The tank states this surface as left for its animals to graze on. What was cleaned off is food that they do not have.",
    whatToDo: "Leave it next time, or take it out of `grazed`.",
    raises: `tank sill
  volume 100 L
  grazed back-glass, wood
2026-03-01
  sill clean back-glass
#            ^^^^^^^^^^ feed/grazed`,
    fine: `tank sill
  volume 100 L
  grazed back-glass, wood
2026-03-01
  sill clean front-glass`,
    source: "Surfaces left uncleaned for animals that graze: common practice, no source.",
  }),
] as const;

/** A tank for which nothing was written for so long is not logged by its food. */
const logsFoodDays = 28;

/** What the needs of the animals in the tanks of a ledger tell on a day, and tanks that were not fed. */
export function feedingFindings(logbook: Logbook, { body }: Ledger, day: number): (Finding | RowFinding)[] {
  return (body?.tanks ?? []).flatMap((tank): (Finding | RowFinding)[] => {
    const needs = needsOn(logbook, tank, day).filter((need) => !isDutyToo(need, logbook));
    const short = isOwed(logbook, tank, day) ? worst(needs, ["late", "due"]) : [];
    const over = worst(needs, ["over"]);
    const found = [...short.map((need) => shortFinding(logbook, need)), ...over.map(overFinding)];
    return short.length > 0 ? found : [...found, ...unfedFindings(logbook, tank, day)];
  });
}

/** Of several needs of one food the one that is most out: one finding a tank and food. */
function worst(needs: readonly Need[], states: readonly Need["is"][]): Need[] {
  const byFood = new Map<string, Need>();
  for (const state of states)
    for (const need of needs) {
      const { food } = need.form;
      if (need.is === state && !byFood.has(food)) byFood.set(food, need);
    }
  return [...byFood.values()];
}

function isOwed(logbook: Logbook, tank: Tank, day: number): boolean {
  return (
    lastFed(logbook, tank, { time: day + 1 }, logsFoodDays) !== undefined &&
    fastsOf(logbook, tank, day - 1, day).length === 0
  );
}

function shortFinding(logbook: Logbook, need: Need): Finding {
  const { tank, species: wanting, form, times, is, day } = need;
  const [first] = wanting;
  return {
    code: "feed/short",
    severity: is === "late" ? "warning" : "information",
    block: first!.place.block,
    start: form.start,
    end: form.end,
    message: `${tank.name}: ${form.food} ${timesText(times)} in the last ${days(form.periodDays)}, at least ${form.times} for ${names(need)}`,
    fixes: [],
    get related() {
      const last = lastFed(logbook, tank, { time: day + 1 }, logsFoodDays);
      const place = last === undefined ? undefined : placeOfRow(last.block, last.row);
      return place === undefined ? [] : [{ place, message: "last fed here" }];
    },
    about: tank,
    get why() {
      return whyNeed(need);
    },
  };
}

function overFinding(need: Need): RowFinding {
  const { tank, form, times, meals, species: wanting } = need;
  const last = meals.at(-1)!;
  return {
    code: "feed/too-often",
    block: last.block,
    row: last.id,
    slots: ["food"],
    severity: () => "information",
    message: () =>
      form.times === 0
        ? `${form.food} in ${tank.name}: never for ${names(need)}`
        : `${form.food} in ${tank.name} ${timesText(times)} in ${days(form.periodDays)}, at most ${form.times} for ${names(need)}`,
    related: () =>
      wanting.slice(0, 1).map(({ place, name }) => ({
        place: { block: place.block, start: form.start, end: form.end },
        message: `stated for ${name}`,
      })),
    about: tank,
    why: () => whyNeed(need),
  };
}

function unfedFindings(logbook: Logbook, tank: Tank, day: number): RowFinding[] {
  const hasAnimals = logbook.ledgerOf(tank).stock.in(tank.id).length > 0;
  const unfed = hasAnimals ? unfedOn(logbook, tank, day) : undefined;
  if (unfed === undefined) return [];
  const { last, days: since, usualDays } = unfed;
  return [
    {
      code: "feed/unfed",
      block: last.block,
      row: last.id,
      slots: [],
      severity: () => "information",
      message: () =>
        `${tank.name} was last fed on ${spokenDay(last.day, day)}, ${days(since)} ago; before that never longer than ${days(usualDays)} apart`,
      about: tank as Station,
      why: () => ({
        what: `days since ${tank.name} was fed`,
        value: String(since),
        formula: "day - day of the last feeding",
        from: [whyEntry({ block: last.block, row: last.id })],
      }),
    },
  ];
}

/** Cleanings in a day of what a tank leaves for grazing. */
export function grazedFindings(book: Book, block: Block): Finding[] {
  const { facts } = block;
  const findings: Finding[] = [];
  for (let row = 0; row < facts.count; row++) {
    if (kindOfRow(facts, row) !== Kind.clean) continue;
    const target = facts.ints[row * intsPerRow + Col.target]!;
    const part = wordOf(facts.ints[row * intsPerRow + Col.subject]!);
    const station = target < 0 ? undefined : book.station(target);
    const aimed =
      target < 0 ? (book.groupTanks(~target) ?? []) : station?.kind === "tank" ? [station as Tank] : [];
    const taken = aimed.flatMap((tank) => {
      const parts = grazedPartsOf(tank, part);
      return parts.length === 0 ? [] : [{ tank, parts }];
    });
    const [first] = taken;
    if (first === undefined) continue;
    const where = taken.map(({ tank }) => tank.name).join(", ");
    findings.push({
      code: "feed/grazed",
      severity: "information",
      block,
      ...placeOfSlot(block, idOfRow(block, row), "part"),
      message: `${first.parts.join(" and ")} in ${where} ${first.parts.length === 1 ? "is" : "are"} left for grazing: what was cleaned off is food`,
      fixes: [],
      related: first.tank.place === undefined ? [] : [{ place: first.tank.place, message: "stated here" }],
      why: undefined,
    });
  }
  return findings;
}

const timesText = (times: number): string =>
  times === 0 ? "not once" : times === 1 ? "once" : `${times} times`;

/** `praecox`, `praecox and horn`, `praecox and 3 more`. */
function names({ species: wanting }: Need): string {
  const [first, second] = wanting.map(({ name }) => name);
  if (second === undefined) return first!;
  return wanting.length === 2 ? `${first} and ${second}` : `${first} and ${wanting.length - 1} more`;
}
