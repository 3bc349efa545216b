import { ofLot } from "../lots.ts";
import { changes, doses, line, moves, notes, type Scene, says } from "./scene.ts";

/**
 * Eight arrivals, all into q1: five of them kept apart as the room states it, one moved out early (`flukes.ts`), two
 * still there on the last day, one of them with a course that was not finished.
 */

function arrives(
  on: string,
  at: string,
  animals: readonly (readonly [species: string, written: string, number: number])[],
  from: string,
  carrier: string,
  lot: string,
  text?: string,
): Scene {
  return {
    on,
    at,
    perform: ({ stock }) =>
      animals.map(([species, written, number], index) => {
        stock.enter("q1", species, number, "arrived", number, lot.split(" ")[0]);
        return line(
          "q1",
          `arrive ${species} ${written} from "${from}" by ${carrier} lot ${lot}`,
          index === 0 ? text : undefined,
        );
      }),
  };
}

function dies(on: string, tank: string, animals: number, text?: string): Scene {
  return {
    on,
    at: "07:10",
    perform: ({ stock }) => {
      const [dead] = stock.leave(tank, "gertrudae", animals, "diedSeen");
      return [line(tank, `lose gertrudae ${animals} found${ofLot("gertrudae", dead?.lot)}`, text)];
    },
  };
}

/** Three doses a week apart in q1, the water changed before each repeat. 126 mg in 63 L are 2 mg/L. The carbon came out with the first and stayed out. */
function course(first: string, ...repeats: string[]): Scene[] {
  return [
    ...(first === "2025-06-10" ? [says(first, "19:30", "q1", "remove carbon", "as the label says")] : []),
    doses(first, "19:40", "q1", "praziquantel", "126 mg", "first of three"),
    ...repeats.flatMap((on) => [
      changes(on, "18:55", "q1", "35 %"),
      doses(on, "19:40", "q1", "praziquantel", "126 mg"),
    ]),
  ];
}

export const arrivals: readonly Scene[] = [
  arrives(
    "2025-04-12",
    "16:20",
    [
      ["gardneri", "1.3.0", 4],
      ["horn", "6", 6],
    ],
    "killifish club",
    "hand",
    "k-31",
    "one box, 22 C, all upright",
  ),
  notes("2025-05-10", "19:50", "q1", "four weeks, nothing on them, they go over next weekend"),
  moves("2025-05-17", "17:15", "gardneri", "all", "q1", "b4", "fresh blood for b4"),
  moves("2025-05-17", "17:20", "horn", "all", "q1", "sill"),

  arrives(
    "2025-06-07",
    "15:40",
    [["praecox", "11", 11]],
    "river nursery",
    "courier",
    "rn-118 dead 1",
    "one dead in the bag, told them by mail",
  ),
  ...course("2025-06-10", "2025-06-17", "2025-06-24"),
  moves("2025-07-19", "17:30", "praecox", 3, "q1", "b1", "two females, one male"),
  moves("2025-07-19", "17:35", "praecox", "all", "q1", "dam"),

  arrives("2025-10-18", "16:05", [["striatum", "2.4.0", 6]], "killifish club", "hand", "k-40"),
  notes("2025-10-18", "20:50", "q1", "every arrival gets the course from now on, flukes were lesson enough"),
  ...course("2025-10-21", "2025-10-28", "2025-11-04"),
  moves("2025-11-22", "17:10", "striatum", "all", "q1", "b5"),

  arrives(
    "2025-12-06",
    "14:50",
    [["wingei", "12", 12]],
    "a breeder upriver",
    "parcel",
    "u-7",
    "heat pack still warm",
  ),
  ...course("2025-12-09", "2025-12-16", "2025-12-23"),
  moves("2026-01-10", "17:00", "wingei", "all", "q1", "r6", "new blood"),

  // Four of eighteen in as many days, after a cold journey.
  arrives(
    "2026-01-17",
    "15:15",
    [["gertrudae", "18", 18]],
    "river nursery",
    "courier",
    "rn-126 dead 1",
    "box stood in the cold, bags at 17 C",
  ),
  dies("2026-01-18", "q1", 1),
  dies("2026-01-19", "q1", 2, "both at the surface"),
  dies("2026-01-21", "q1", 1),
  notes(
    "2026-01-21",
    "20:15",
    "q1",
    "four of eighteen gone, water is clean, it was the journey; wrote to the nursery",
  ),
  ...course("2026-01-19", "2026-01-26", "2026-02-02"),
  moves("2026-02-21", "17:05", "gertrudae", 6, "q1", "b2"),
  moves("2026-02-21", "17:10", "gertrudae", "all", "q1", "sill"),
  // What they carried shows in the tank they came into.
  dies("2026-02-25", "sill", 1, "thin, by the outlet"),
  dies("2026-02-27", "sill", 2, "both thin"),
  notes(
    "2026-02-28",
    "20:10",
    "sill",
    "three blue-eyes in a week, the old ones, none in a year before the new came",
  ),
  dies("2026-03-02", "sill", 1, "thin"),
  dies("2026-03-05", "sill", 1),
  notes(
    "2026-03-08",
    "20:05",
    "sill",
    "none dead since Thursday, asked the vet what to look for, no net from here to b2",
  ),

  arrives(
    "2026-02-28",
    "15:30",
    [["maccullochi", "9", 9]],
    "river nursery",
    "courier",
    "rn-131",
    "for the ford in spring",
  ),
  // The third dose was due on 18 March and was never given.
  ...course("2026-03-04", "2026-03-11"),
  // They start the clock of the tank anew, for the rainbowfish beside them too.
  arrives(
    "2026-03-21",
    "15:10",
    [["furcatus", "8", 8]],
    "river nursery",
    "courier",
    "rn-134",
    "a month early, no other tank free",
  ),
  notes(
    "2026-03-22",
    "20:25",
    "q1",
    "forktails hang under the lamp, took cyclops, want live food and got none yet",
  ),
  says("2026-03-29", "20:30", "q1", "condition maccullochi 3 length 3.4 cm"),
];
