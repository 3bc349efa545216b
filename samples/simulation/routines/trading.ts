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
const breeders = [
  "a breeder in the hills",
  "a keeper by the sea",
  "club member, north",
  "a shrimp keeper, south",
  "a breeder upriver",
  "garden centre, west",
];

/** No animal leaves the rack while the laboratory is waited for. */
const HELD = { from: "2025-10-05", until: "2025-11-15" } as const;
/** The last order in the book goes out on the day after the last. */
const LAST_SHIPMENT = dayOf("2026-03-24");

export function trading(cellar: Cellar, day: number): void {
  if (presence(day) !== "home") return;
  if (within(day, HELD.from, HELD.until)) return;
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
      cellar.stock.leave(offer.tank, offer.species, animals, "sold");
      return [
        {
          target: offer.tank,
          words: `sell ${offer.species} ${animals} to "${buyer}" price ${animals * offer.price}`,
        },
      ];
    });
  }
}

/** How many can go so that none are left behind too few for a school. */
function available(cellar: Cellar, { tank, species, stays }: Offer, wanted: number): number {
  const spare = Math.min(cellar.stock.there(tank, species), cellar.stock.booked(tank, species)) - stays;
  if (spare <= 0) return 0;
  if (stays > 0) return Math.min(spare, wanted);
  const school = Math.max(speciesOf(species).school, 4);
  if (spare - wanted >= school) return wanted;
  return spare <= 14 ? spare : spare - school;
}

/** An order: into the holding tank on Sunday evening, no food on Monday, in the bag on Tuesday morning. */
function order(cellar: Cellar, day: number): void {
  const random = cellar.random("trading/order");
  const weekday = weekdayOf(day);
  const ships = day + (weekday === SUNDAY ? 2 : weekday === MONDAY ? 1 : 0);
  const canShip =
    ships <= LAST_SHIPMENT && presence(ships) === "home" && !within(ships, HELD.from, HELD.until);
  if (weekday === SUNDAY && canShip && random.chance(0.72)) hold(cellar);
  const held = cellar.stock.speciesIn("r12");
  if (held.length === 0) return;
  const name = `o-${cellar.lastDone.get("order") ?? 0}`;
  if (weekday === MONDAY) cellar.planEntry(minuteOf("08:10"), "r12", "feed none", `fasting for ${name}`);
  if (weekday === TUESDAY)
    cellar.plan(minuteOf("09:40") + random.whole(0, 25), () => ship(cellar, held, name), true);
}

function hold(cellar: Cellar): void {
  const random = cellar.random("trading/order");
  const chosen = random.shuffled(offers).slice(0, random.whole(2, 3));
  const wanted = random.whole(8, 16);
  cellar.plan(minuteOf("18:40"), () => {
    const moves = chosen.flatMap((offer) => {
      const animals = available(cellar, offer, wanted);
      if (animals < 5 || cellar.stock.there("r12", offer.species) > 0) return [];
      cellar.stock.move(offer.species, animals, offer.tank, "r12");
      return [{ target: offer.tank, words: `move ${offer.species} ${animals} -> r12` }];
    });
    if (moves.length > 0) cellar.lastDone.set("order", (cellar.lastDone.get("order") ?? 0) + 1);
    return moves;
  });
}

function ship(cellar: Cellar, held: readonly string[], name: string) {
  const random = cellar.random("trading/ship");
  const parts = held.map((species) => {
    const animals = cellar.stock.there("r12", species);
    cellar.stock.leave("r12", species, animals, "shipped");
    return `${species} ${animals}`;
  });
  const bags = held.length + random.whole(0, 1);
  const words = `ship ${parts.join(", ")} to "${random.pick(breeders)}" order ${name} by courier bags ${bags}`;
  return [{ target: "r12", words }];
}

/** When a tank for sale is nearly empty, young of the grow-out come over. */
function restock(cellar: Cellar, day: number): void {
  const { stock } = cellar;
  for (const { tank, species } of offers.slice(7)) {
    const ready = stock.there("b7", species);
    if (stock.there(tank, species) > 6 || ready < 8 || cellar.daysSince(`b7/${species}`, day) < 48) continue;
    const animals = Math.min(16, ready <= 22 ? ready : ready - 6);
    cellar.plan(minuteOf("18:55"), () => {
      stock.move(species, animals, "b7", tank);
      return [
        {
          target: "b7",
          words: `move ${species} ${animals} -> ${tank}`,
          text: cellar.prose.once("big enough to sell"),
        },
      ];
    });
  }
}
