import {
  dayOf,
  FRIDAY,
  MONDAY,
  minuteOf,
  SATURDAY,
  SUNDAY,
  THURSDAY,
  TUESDAY,
  weekdayOf,
  within,
} from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { items, moved } from "../lots.ts";
import { buyers, type Order } from "../orders.ts";
import { speciesOf } from "../species.ts";
import { presence } from "./keeper.ts";

/** What leaves the room: over the stairs on most Saturdays, by parcel on Tuesdays; and the rack filled again. */

/** The tanks things are sold from, what is sold, what stays at least, and the price of one. */
interface Offer {
  readonly tank: string;
  readonly species: string;
  readonly stays: number;
  readonly price: number;
}

const offers: readonly Offer[] = [
  { tank: "r1", species: "cherry", stays: 60, price: 2 },
  { tank: "r2", species: "cherry", stays: 45, price: 1 },
  { tank: "r3", species: "sky", stays: 35, price: 3 },
  { tank: "r4", species: "ramshorn", stays: 35, price: 1 },
  { tank: "r5", species: "wingei", stays: 28, price: 3 },
  { tank: "r6", species: "wingei", stays: 22, price: 3 },
  { tank: "r7", species: "formosa", stays: 28, price: 3 },
  { tank: "r8", species: "woworae", stays: 0, price: 5 },
  { tank: "r9", species: "praecox", stays: 0, price: 7 },
  { tank: "r10", species: "gardneri", stays: 0, price: 8 },
  { tank: "r11", species: "gertrudae", stays: 0, price: 6 },
];

const neighbours = [
  "a neighbour",
  "club table",
  "shop at the bridge",
  "a pupil",
  "a friend of the house",
  "the school",
  "a keeper from the club",
];

/** No animal leaves the rack while the laboratory is waited for, nor while one of its fish is a case. */
const HELD = [
  ["2025-10-05", "2025-11-15"],
  ["2026-02-10", "2026-02-20"],
] as const;
const isHeld = (day: number): boolean => HELD.some(([from, until]) => within(day, from, until));
/** The last order in the book goes out on the day after the last. */
const LAST_SHIPMENT = dayOf("2026-03-24");

export function trading(cellar: Cellar, day: number): void {
  if (presence(day) !== "home") return;
  report(cellar, day);
  if (isHeld(day)) return;
  if (weekdayOf(day) === FRIDAY) restock(cellar, day);
  const random = cellar.random("trading");
  const weekday = weekdayOf(day);
  const isSale =
    (weekday === SATURDAY && random.chance(0.8)) || (weekday === THURSDAY && random.chance(0.35));
  if (isSale) sell(cellar);
  order(cellar, day);
}

function sell(cellar: Cellar): void {
  const random = cellar.random("trading/sell");
  const number = random.chance(0.35) ? 2 : 1;
  const chosen = random.shuffled(offers).slice(0, number);
  for (const offer of chosen) {
    const buyer = random.pick(neighbours);
    const wanted = random.whole(5, 12);
    cellar.plan(minuteOf("11:05") + random.whole(0, 120), () => {
      const animals = available(cellar, offer, wanted);
      if (animals < 4) return [];
      const sold = items(cellar.stock.leave(offer.tank, offer.species, animals, "sold"), offer.species);
      return [
        {
          target: offer.tank,
          words: `sell ${sold} to "${buyer}" price ${animals * offer.price}`,
        },
      ];
    });
  }
}

/** How many can go so that none are left behind too few for a school, and what is promised stays. */
function available(cellar: Cellar, { tank, species, stays }: Offer, wanted: number): number {
  const promised = cellar.orders.open?.wants.get(species)?.animals ?? 0;
  const spare =
    Math.min(cellar.stock.there(tank, species), cellar.stock.booked(tank, species)) - stays - promised;
  if (spare <= 0) return 0;
  if (stays > 0) return Math.min(spare, wanted);
  const school = Math.max(speciesOf(species).school, 4);
  if (spare - wanted >= school) return wanted;
  return spare <= 14 ? spare : spare - school;
}

/** An order comes on Friday: into the holding tank on Sunday evening, no food on Monday, in the bag on Tuesday morning. */
function order(cellar: Cellar, day: number): void {
  const { orders } = cellar;
  const random = cellar.random("trading/order");
  const weekday = weekdayOf(day);
  const ships = day + (weekday === FRIDAY ? 4 : weekday === SUNDAY ? 2 : weekday === MONDAY ? 1 : 0);
  const canShip = ships <= LAST_SHIPMENT && presence(ships) === "home" && !isHeld(ships);
  if (weekday === FRIDAY && canShip && random.chance(0.76))
    cellar.plan(minuteOf("12:00"), () => take(cellar, day));
  if (weekday === SUNDAY && orders.open !== undefined) cellar.plan(minuteOf("18:40"), () => hold(cellar));
  const { open } = orders;
  if (open === undefined) return;
  if (weekday === MONDAY) cellar.planEntry(minuteOf("08:10"), "r12", "feed none", `fasting for ${open.name}`);
  if (weekday === TUESDAY)
    cellar.plan(minuteOf("09:40") + random.whole(0, 25), () => ship(cellar, open), true);
}

/** What somebody asks for, as far as it is there. It stands in the file of orders, not in the day. */
function take(cellar: Cellar, day: number): [] {
  const random = cellar.random("trading/order");
  const chosen = random.shuffled(offers).slice(0, random.whole(2, 3));
  const asked = random.whole(8, 16);
  const wants = new Map<string, { animals: number; tank: string }>();
  for (const offer of chosen) {
    const animals = available(cellar, offer, asked);
    if (animals >= 5 && !wants.has(offer.species)) wants.set(offer.species, { animals, tank: offer.tank });
  }
  if (wants.size > 0) cellar.orders.place(random.pick(buyers), day, day + 4, wants);
  return [];
}

function hold({ stock, orders }: Cellar) {
  const wants = orders.open?.wants ?? new Map();
  return [...wants].flatMap(([species, { animals, tank }]) => {
    // One may have died since Friday.
    const going = Math.min(animals, stock.there(tank, species), stock.booked(tank, species));
    wants.set(species, { animals: going, tank });
    return moved(stock.move(species, going, tank, "r12"), species, tank, "r12");
  });
}

function ship(cellar: Cellar, { name, wants, to }: Order) {
  const random = cellar.random("trading/ship");
  const parts = [...wants].map(([species, { animals }]) =>
    items(cellar.stock.leave("r12", species, animals, "shipped"), species),
  );
  const bags = parts.length + random.whole(0, 1);
  cellar.orders.sent(random);
  // The buyer stands in the order too, and is left out where the line is long.
  const said = parts.join(", ");
  const buyer = said.length > 40 ? "" : ` to "${to.buyer}"`;
  const words = `ship ${said}${buyer} order ${name} by ${to.carrier} bags ${bags}`;
  return [{ target: "r12", words }];
}

/** What the buyer writes when the box was opened; some never do. */
function report(cellar: Cellar, day: number): void {
  const random = cellar.random("trading/report");
  for (const { name, words, text } of cellar.orders.reportsOf(day))
    cellar.planEntry(minuteOf("20:10") + random.whole(0, 30), "room", `doa ${words} order ${name}`, text);
}

/** When a tank for sale is nearly empty, young of the grow-out come over. */
function restock(cellar: Cellar, day: number): void {
  const { stock } = cellar;
  for (const { tank, species } of offers.slice(7)) {
    const ready = stock.there("b7", species);
    if (stock.there(tank, species) > 6 || ready < 8 || cellar.daysSince(`b7/${species}`, day) < 48) continue;
    // None are left behind too few for a school.
    const animals = ready <= 16 ? ready : Math.min(16, ready - 6);
    cellar.plan(minuteOf("18:55"), () =>
      moved(
        stock.move(species, animals, "b7", tank),
        species,
        "b7",
        tank,
        cellar.prose.once("big enough to sell"),
      ),
    );
  }
}
