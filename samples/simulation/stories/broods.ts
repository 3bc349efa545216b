import { dayOf, MINUTES_A_DAY } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { estimate } from "../routines/counting.ts";
import type { Item } from "../writing.ts";
import { doses, line, moves, notes, type Scene, says } from "./scene.ts";

/** The broods that are raised: eggs in the breeders' tank, fry in b6, young in b7, and from there to the rack. */

interface Brood {
  readonly species: string;
  readonly parents: string;
  readonly laid: string;
  readonly eggs: number;
  readonly site: string;
  readonly hatched: string;
  readonly fry: number;
  readonly counted: string;
  /** When the young go to b7. */
  readonly over?: string;
  readonly said: string;
}

const broods: readonly Brood[] = [
  {
    species: "praecox",
    parents: "b1",
    laid: "2025-04-13",
    eggs: 60,
    site: "mop",
    hatched: "2025-04-20",
    fry: 44,
    counted: "2025-05-18",
    over: "2025-06-28",
    said: "mop with about sixty eggs over to b6, drops against the fungus",
  },
  {
    species: "woworae",
    parents: "b3",
    laid: "2025-07-01",
    eggs: 34,
    site: "roots",
    hatched: "2025-07-11",
    fry: 28,
    counted: "2025-08-07",
    over: "2025-09-06",
    said: "roots with the bunches of a week cut off and hung in b6",
  },
  {
    species: "praecox",
    parents: "b1",
    laid: "2025-09-10",
    eggs: 70,
    site: "mop",
    hatched: "2025-09-17",
    fry: 52,
    counted: "2025-10-13",
    over: "2025-11-15",
    said: "second brood of the year, mop over to b6 before they find it",
  },
  {
    species: "gertrudae",
    parents: "b2",
    laid: "2025-11-20",
    eggs: 36,
    site: "moss",
    hatched: "2025-12-02",
    fry: 26,
    counted: "2026-01-05",
    over: "2026-02-07",
    said: "a whole handful of moss with eggs over to b6, fresh moss into b2",
  },
  {
    species: "gardneri",
    parents: "b4",
    laid: "2026-01-28",
    eggs: 30,
    site: "mop",
    hatched: "2026-02-14",
    fry: 23,
    counted: "2026-03-12",
    said: "eggs read off the mop into the box in b6, thirty good ones",
  },
];

function scenes(brood: Brood): Scene[] {
  const { species, parents, laid, eggs, site, hatched, fry, counted, over, said } = brood;
  const written = estimate(fry);
  return [
    { ...says(laid, "09:25", parents, `spawn ${species} ~${eggs} eggs on ${site}`), timed: true },
    notes(laid, "09:45", parents, said),
    doses(laid, "10:05", "b6", "blue-drops", "5 mL"),
    {
      on: hatched,
      at: "08:45",
      perform: ({ stock }) => {
        stock.enter("b6", species, fry, "born", written);
        return [line("b6", `hatch ${species} ~${written}`, `from the eggs of ${parents}`)];
      },
    },
    { on: counted, at: "09:10", perform: (cellar) => countFry(cellar, species) },
    ...(over === undefined
      ? []
      : [
          {
            on: over,
            at: "17:45",
            perform: (cellar: Cellar, now: number) => toGrowOut(cellar, species, now),
          },
        ]),
  ];
}

function countFry({ stock }: Cellar, species: string): Item[] {
  const counted = estimate(stock.there("b6", species));
  const missing = stock.booked("b6", species) - counted;
  const lines: Item[] = [];
  if (missing > 0) lines.push(line("b6", `lose ${species} ${missing} missing`, "fry, none found"));
  stock.recount("b6", species, counted);
  return [...lines, line("b6", `count ${species} ~${counted}`)];
}

/** Moved one by one, and so counted: what the log has too many is written off first. */
function toGrowOut({ stock, lastDone }: Cellar, species: string, now: number): Item[] {
  const there = stock.there("b6", species);
  const missing = stock.booked("b6", species) - there;
  stock.correctBook("b6", species, -missing);
  stock.move(species, there, "b6", "b7");
  lastDone.set(`b7/${species}`, Math.floor(now / MINUTES_A_DAY));
  const lines: Item[] = [];
  if (missing > 0) lines.push(line("b6", `lose ${species} ${missing} missing`, "over the weeks"));
  if (missing < 0) lines.push(line("b6", `hatch ${species} ${-missing}`, "more than I thought"));
  return [...lines, line("b6", `move ${species} ${there} -> b7`, "netted and counted")];
}

function hatches(on: string, tank: string, species: string, young: number, text: string): Scene {
  return {
    on,
    at: "08:50",
    perform: ({ stock }) => {
      stock.enter(tank, species, young, "born");
      return [line(tank, `hatch ${species} ${young}`, text)];
    },
  };
}

function sells(
  on: string,
  tank: string,
  species: string,
  animals: number,
  buyer: string,
  price: number,
): Scene {
  return {
    on,
    at: "11:30",
    perform: ({ stock }) => {
      stock.leave(tank, species, animals, "sold");
      return [line(tank, `sell ${species} ${animals} to "${buyer}" price ${price}`)];
    },
  };
}

export const raising: readonly Scene[] = [
  ...broods.flatMap(scenes),
  hatches("2025-06-05", "r10", "gardneri", 9, "in the hang-on box, eggs of b4"),
  hatches("2025-10-12", "r10", "gardneri", 8, "in the hang-on box, from damp peat"),
  hatches("2025-08-02", "b5", "striatum", 5, "grown between the leaves, seen today"),
  hatches("2025-11-03", "b5", "striatum", 4, "between the leaves"),
  sells("2025-09-13", "b5", "striatum", 4, "killifish club", 40),
  sells("2026-02-14", "b5", "striatum", 7, "killifish club", 70),
  moves("2025-11-29", "17:30", "boesemani", "all", "b7", "ford", "too long for b7, the ford has room"),
];

export const FIRST_YOUNG_IN_B7 = dayOf("2025-03-20");
