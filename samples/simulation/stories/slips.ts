import { dayOf } from "../calendar.ts";
import { items } from "../lots.ts";
import { massG } from "../routines/chemistry.ts";
import { reading } from "../routines/testing.ts";
import { changes, doses, line, moves, notes, type Scene, says } from "./scene.ts";

/** What goes wrong in small: a slip of the pen, a count that is short, too much flake; and two small cases. */

/** The last count of b2 is two short of the book. */
const SHORT_COUNT = 2;
/** Praecox that stay in r9 after the last sale. */
const LEFT_BEHIND = 4;

export const slips: readonly Scene[] = [
  {
    on: "2025-07-09",
    at: "14:20",
    perform: (cellar, now) => {
      const written = reading(cellar, "b5", "pH", now).replace(".", "");
      return [line("b5", `test temperature ${reading(cellar, "b5", "temperature", now)}, pH ${written}`)];
    },
  },
  notes("2025-07-10", "19:20", "b5", "the pH of yesterday lost its point, left standing as it was written"),

  {
    on: "2026-03-22",
    at: "10:40",
    perform: ({ stock }) => {
      const counted = stock.there("b2", "gertrudae") - SHORT_COUNT;
      return [line("b2", `count gertrudae ${counted}`, "twice, two short")];
    },
  },

  says("2026-03-24", "18:20", "sill", "feed flake 2 pinches", "children from next door"),
  says("2026-03-28", "17:15", "sill", "feed flake 2 pinches", "children again"),
  {
    on: "2026-03-29",
    at: "14:20",
    perform: ({ provisions }) => {
      provisions.weigh("larvae", 35);
      return [line("room", "left larvae 35 g", "rest burnt white and binned; no bags before May")];
    },
  },
  // Back and side of the sill are left for the shrimp.
  says(
    "2026-03-28",
    "17:40",
    "sill",
    "clean front-glass, back-glass",
    "for the visitors, shrimp will miss it",
  ),
  {
    on: "2026-03-28",
    at: "11:40",
    perform: ({ stock }) => {
      // One school went, and too few of it stay.
      const sold = stock.there("r9", "praecox") - LEFT_BEHIND;
      const parts = items(stock.leave("r9", "praecox", sold, "sold"), "praecox");
      return [
        line("r9", `sell ${parts} to "a pupil" price ${7 * sold}`, "four stay, he had no room for more"),
      ];
    },
  },
  says("2026-03-31", "16:10", "sill", "feed flake 1 pinch", "again, tin now on the high shelf"),

  says("2026-02-10", "08:30", "r5", 'sick wingei 1 signs "shimmying, clamped fins" case shimmy-1'),
  moves("2026-02-10", "08:40", "wingei", 1, "r5", "h1"),
  doses("2026-02-10", "09:00", "h1", "salt", "44 g", "2 g/L"),
  changes("2026-02-14", "18:40", "h1", "50 %"),
  doses("2026-02-14", "18:55", "h1", "salt", "22 g", "what the change took out"),
  says("2026-02-20", "19:30", "h1", "close shimmy-1 recovered", "swims as it should"),
  moves("2026-02-21", "17:25", "wingei", 1, "h1", "r5"),

  {
    on: "2026-03-27",
    at: "08:25",
    timed: true,
    perform: ({ stock }) => {
      const atRisk = stock.there("b1", "praecox");
      return [line("b1", `sick praecox 1 of ${atRisk} signs "cotton tuft at the mouth, eats" case tuft-1`)];
    },
  },
  notes("2026-03-30", "20:20", "b1", "tuft no larger, she eats; photo for the vet"),
  {
    on: "2026-03-31",
    at: "20:40",
    perform: ({ orders }) => {
      return [
        line(
          "room",
          "note",
          `${orders.nextName()} for Thursday: fifteen cherries, six ramshorns, into r12 tomorrow evening`,
        ),
      ];
    },
  },
];

/** Weighed and measured, a few at a time: the young boesemani with both, and so as heavy as they are. */
export const measured: readonly Scene[] = [
  ...[
    "2025-05-31 b7 3",
    "2025-11-29 ford 3",
    "2026-01-03 ford 3.5",
    "2026-02-14 ford 3.5",
    "2026-03-14 ford 4",
  ].map((weighing) => {
    const [on, tank, score] = weighing.split(" ") as [string, string, string];
    const gram = massG("boesemani", tank, dayOf(on));
    // Mass goes with the cube of the length: 2.2 g at 4.8 cm were the first ones on the scale.
    const lengthCm = 4.8 * Math.cbrt(gram / 2.2);
    return says(
      on,
      "19:50",
      tank,
      `condition boesemani ${score} length ${lengthCm.toFixed(1)} cm weight ${gram.toFixed(1)} g`,
    );
  }),
  says("2025-04-26", "19:50", "dam", "condition boesemani 3 length 8.9 cm"),
  says("2025-07-05", "19:50", "dam", "condition praecox 3.5 length 5.2 cm"),
  says("2025-07-05", "19:52", "b7", "condition praecox 3 length 1.6 cm lot pb-1", "the five largest"),
  says("2025-08-02", "19:50", "b7", "condition praecox 3 length 2.4 cm weight 0.2 g lot pb-1"),
  says("2025-08-30", "19:50", "b7", "condition praecox 3.5 length 3.1 cm weight 0.5 g lot pb-1"),
  says("2025-09-06", "19:50", "b1", "condition praecox 4 length 5.8 cm weight 3.1 g lot torn-fin"),
  says("2026-01-24", "19:54", "b7", "condition praecox 3 length 2.9 cm weight 0.4 g lot pb-2"),
  says("2026-03-14", "19:54", "b1", "condition praecox 4 length 5.1 cm weight 2.4 g lot blue-son"),
  says("2025-09-13", "19:50", "ford", "condition maccullochi 3 length 5 cm"),
  says("2025-10-11", "19:50", "b3", "condition woworae 2.5 length 2.8 cm"),
  says("2026-01-24", "19:50", "dam", "condition praecox 3.5 length 5.4 cm"),
];
