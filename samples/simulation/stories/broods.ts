import { dayOf, MINUTES_A_DAY } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { items, ofLot } from "../lots.ts";
import { estimate } from "../routines/counting.ts";
import type { Item } from "../writing.ts";
import { doses, line, moves, notes, type Scene, says } from "./scene.ts";

/** The broods that are raised: eggs in the breeders' tank, fry in b6, young in b7, and from there to the rack. */

interface Brood {
  readonly lot: string;
  readonly species: string;
  readonly parents: string;
  readonly pair: readonly [father: string, mother: string];
  readonly laid: string;
  readonly eggs: number;
  readonly site: string;
  /** The good eggs that are counted in b6, when, and what is said of them. */
  readonly alive: readonly [on: string, eggs: number, said: string];
  readonly hatched: string;
  readonly fry: number;
  readonly swam: string;
  readonly counted: string;
  /** When the young go to b7. */
  readonly over?: string;
  readonly said: string;
}

const broods: readonly Brood[] = [
  {
    lot: "pb-1",
    species: "praecox",
    parents: "b1",
    pair: ["torn-fin", "short-gold"],
    laid: "2025-04-13",
    eggs: 60,
    site: "mop",
    alive: ["2025-04-15", 51, "nine white, out with the needle"],
    hatched: "2025-04-20",
    fry: 44,
    swam: "2025-04-21",
    counted: "2025-05-18",
    over: "2025-06-28",
    said: "mop with about sixty eggs over to b6, drops against the fungus",
  },
  {
    lot: "wb-1",
    species: "woworae",
    parents: "b3",
    pair: ["copper", "red-hem"],
    laid: "2025-07-01",
    eggs: 34,
    site: "roots",
    alive: ["2025-07-04", 31, "eyes in most"],
    hatched: "2025-07-11",
    fry: 28,
    swam: "2025-07-12",
    counted: "2025-08-07",
    over: "2025-09-06",
    said: "roots with the bunches of a week cut off and hung in b6",
  },
  {
    lot: "pb-2",
    species: "praecox",
    parents: "b1",
    pair: ["torn-fin", "nursery-girl"],
    laid: "2025-09-10",
    eggs: 70,
    site: "mop",
    alive: ["2025-09-12", 58, "twelve white ones, fungus on two"],
    hatched: "2025-09-17",
    fry: 52,
    swam: "2025-09-18",
    counted: "2025-10-13",
    over: "2025-11-15",
    said: "her first brood, other blood for once; mop over to b6 before they find it",
  },
  {
    lot: "gb-1",
    species: "gertrudae",
    parents: "b2",
    pair: ["dots", "grey-belly"],
    laid: "2025-11-20",
    eggs: 36,
    site: "moss",
    alive: ["2025-11-23", 33, "counted twice in a dish"],
    hatched: "2025-12-02",
    fry: 26,
    swam: "2025-12-03",
    counted: "2026-01-05",
    over: "2026-02-07",
    said: "a whole handful of moss with eggs over to b6, fresh moss into b2",
  },
  {
    lot: "steel-b2",
    species: "gardneri",
    parents: "b4",
    pair: ["steel-3", "freckle"],
    laid: "2026-01-28",
    eggs: 34,
    site: "mop",
    alive: ["2026-01-30", 30, "four soft ones out"],
    hatched: "2026-02-13",
    fry: 23,
    swam: "2026-02-14",
    counted: "2026-03-12",
    said: "son to his mother to fix the steel; eggs read off the mop into the box in b6",
  },
];

function scenes(brood: Brood): Scene[] {
  const { lot, species, parents, alive, hatched, fry, swam, counted, over } = brood;
  const written = estimate(fry);
  const swimming = estimate(fry - 1);
  return [
    ...laying(brood),
    says(alive[0], "09:30", "b6", `eggs ${species} ${alive[1]} lot ${lot}`, alive[2]),
    {
      on: hatched,
      at: "08:45",
      perform: ({ stock }) => {
        stock.enter("b6", species, fry, "born", written, lot);
        return [line("b6", `hatch ${species} ~${written} lot ${lot}`, `from the eggs of ${parents}`)];
      },
    },
    says(swam, "08:40", "b6", `swim ${species} ~${swimming} lot ${lot}`),
    { on: counted, at: "09:10", perform: (cellar) => countFry(cellar, species, lot) },
    ...(over === undefined
      ? []
      : [
          {
            on: over,
            at: "17:45",
            perform: (cellar: Cellar, now: number) => toGrowOut(cellar, species, lot, now),
          },
        ]),
  ];
}

function laying({
  lot,
  species,
  parents,
  pair,
  laid,
  eggs,
  site,
  said,
}: Omit<Brood, "alive" | "hatched" | "fry" | "swam" | "counted">): Scene[] {
  const [father, mother] = pair;
  const words = `spawn ${species} ~${eggs} eggs on ${site} lot ${lot} father ${father} mother ${mother}`;
  return [
    { ...says(laid, "09:25", parents, words), timed: true },
    notes(laid, "09:45", parents, said),
    doses(laid, "10:05", "b6", "blue-drops", "5 mL"),
  ];
}

function countFry({ stock }: Cellar, species: string, lot: string): Item[] {
  const counted = estimate(stock.there("b6", species));
  const missing = stock.booked("b6", species) - counted;
  const lines: Item[] = [];
  if (missing > 0) lines.push(line("b6", `lose ${species} ${missing} missing lot ${lot}`, "fry, none found"));
  stock.recount("b6", species, counted);
  return [...lines, line("b6", `count ${species} ~${counted} lot ${lot}`)];
}

/** Moved one by one, and so counted: what the log has too many is written off first. */
function toGrowOut({ stock, lastDone }: Cellar, species: string, lot: string, now: number): Item[] {
  const there = stock.there("b6", species);
  const missing = stock.booked("b6", species) - there;
  stock.correctBook("b6", species, -missing);
  stock.move(species, there, "b6", "b7");
  lastDone.set(`b7/${species}`, Math.floor(now / MINUTES_A_DAY));
  const lines: Item[] = [];
  if (missing > 0) lines.push(line("b6", `lose ${species} ${missing} missing lot ${lot}`, "over the weeks"));
  if (missing < 0) lines.push(line("b6", `hatch ${species} ${-missing} lot ${lot}`, "more than I thought"));
  return [...lines, line("b6", `move ${species} ${there} -> b7 lot ${lot}`, "netted and counted")];
}

function hatches(
  on: string,
  tank: string,
  species: string,
  young: number,
  text: string,
  lot?: string,
): Scene {
  return {
    on,
    at: "08:50",
    perform: ({ stock }) => {
      stock.enter(tank, species, young, "born", young, lot);
      return [line(tank, `hatch ${species} ${young}${ofLot(species, lot)}`, text)];
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
      const sold = items(stock.leave(tank, species, animals, "sold"), species);
      return [line(tank, `sell ${sold} to "${buyer}" price ${price}`)];
    },
  };
}

/** The steel line: a son is kept back from the first brood, and put to his mother half a year later. */
const steel: readonly Scene[] = [
  {
    ...says(
      "2025-05-18",
      "09:40",
      "b4",
      "spawn gardneri 16 eggs on mop lot steel-b1 father old-steel mother freckle",
    ),
    timed: true,
  },
  says("2025-05-20", "09:50", "r10", "eggs gardneri 12 lot steel-b1", "in the hang-on box"),
  hatches("2025-06-05", "r10", "gardneri", 9, "in the hang-on box, eggs of b4", "steel-b1"),
  says("2025-06-06", "09:00", "r10", "swim gardneri 9 lot steel-b1"),
  {
    on: "2025-06-21",
    at: "17:50",
    perform: ({ stock, lastDone }, now) => {
      const young = stock.lotIn("r10", "gardneri", "steel-b1");
      stock.pass("gardneri", "steel-b1", young, "r10", "b7");
      lastDone.set("b7/gardneri", Math.floor(now / MINUTES_A_DAY));
      return [line("r10", `move gardneri ${young} -> b7 lot steel-b1`, "out of the box")];
    },
  },
  {
    on: "2025-08-02",
    at: "17:20",
    perform: ({ stock }) => {
      stock.pass("gardneri", "steel-b1", 1, "b7", "b4");
      return [
        line("b7", "move gardneri 1 -> b4 lot steel-b1", "the bluest male stays, he is called steel-3"),
      ];
    },
  },
  says("2025-08-02", "17:25", "b4", "count gardneri 1 lot steel-3"),
];

/** The largest male of the spring brood stays and takes his turn in b1 in March. */
const keptBack: Scene = {
  on: "2025-08-23",
  at: "17:15",
  perform: ({ stock }) => {
    stock.pass("praecox", "pb-1", 1, "b7", "b1");
    return [line("b7", "move praecox 1 -> b1 lot pb-1", "broadest of them, blue-son from now on")];
  },
};

/** A brood that was due on the 24th, and of which nothing hatched by the last day. */
const overdue: readonly Scene[] = [
  ...laying({
    lot: "pb-3",
    species: "praecox",
    parents: "b1",
    pair: ["blue-son", "nursery-girl"],
    laid: "2026-03-17",
    eggs: 50,
    site: "mop",
    said: "the young male takes his turn, mop over to the box in b6",
  }),
  says("2026-03-19", "09:30", "b6", "eggs praecox 41 lot pb-3", "nine white ones out"),
];

export const raising: readonly Scene[] = [
  moves("2026-03-27", "18:20", "woworae", "all", "b7", "r8", "the last of the summer"),
  moves("2026-03-29", "17:20", "gardneri", 4, "b4", "r10", "too many for b4"),
  ...broods.flatMap(scenes),
  ...steel,
  keptBack,
  says("2025-08-23", "17:20", "b1", "count praecox 1 lot blue-son"),
  ...overdue,
  hatches("2025-10-12", "r10", "gardneri", 8, "in the hang-on box, from damp peat"),
  hatches("2025-08-02", "b5", "striatum", 5, "grown between the leaves, seen today"),
  hatches("2025-11-03", "b5", "striatum", 4, "between the leaves"),
  sells("2025-09-13", "b5", "striatum", 4, "killifish club", 40),
  sells("2026-02-14", "b5", "striatum", 7, "killifish club", 70),
  moves("2025-11-29", "17:30", "boesemani", "all", "b7", "ford", "too long for b7, the ford has room"),
];

export const FIRST_YOUNG_IN_B7 = dayOf("2025-03-20");
