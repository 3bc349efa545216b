import { isoOf } from "./calendar.ts";
import type { Definition } from "./definition.ts";
import { quoted } from "./definition.ts";
import type { Stream } from "./random.ts";

/** What buyers ask for by letter: the file of orders, and what they report of their parcels. */

interface Buyer {
  readonly buyer: string;
  readonly carrier: string;
  readonly route: string;
  /** Under way, as the carrier promises and as it may be. */
  readonly hours: readonly [least: number, most: number];
  readonly temperature: string;
  /** Chance of an animal not to arrive alive. Invented, with the pass worse than the rest; no source. */
  readonly risk: number;
}

export const buyers: readonly Buyer[] = [
  buyer("a breeder in the hills", "parcel", "over the pass", [26, 40], "16..24 C", 0.06),
  buyer("a keeper by the sea", "express", "along the coast", [18, 26], "19..25 C", 0.006),
  buyer("club member, north", "parcel", "over the pass", [26, 40], "16..24 C", 0.06),
  buyer("a shrimp keeper, south", "courier", "down the valley", [20, 28], "18..25 C", 0.008),
  buyer("a breeder upriver", "courier", "down the valley", [20, 28], "18..25 C", 0.008),
  buyer("garden centre, west", "express", "along the coast", [18, 26], "19..25 C", 0.006),
];

function buyer(
  name: string,
  carrier: string,
  route: string,
  hours: Buyer["hours"],
  temperature: string,
  risk: number,
): Buyer {
  return { buyer: name, carrier, route, hours, temperature, risk };
}

type Wants = Map<string, { readonly animals: number; readonly tank: string }>;

export interface Order {
  readonly name: string;
  readonly to: Buyer;
  readonly placed: number;
  readonly due: number;
  readonly wants: Wants;
}

interface Report {
  readonly name: string;
  readonly words: string;
  readonly text: string | undefined;
}

export class Orders {
  readonly #all: Order[] = [];
  readonly #reports = new Map<number, Report[]>();
  /** The order that is not gone yet; there is one at a time. */
  open: Order | undefined;

  place(to: Buyer, placed: number, due: number, wants: Wants): void {
    this.open = { name: this.nextName(), to, placed, due, wants };
    this.#all.push(this.open);
  }

  nextName(after = 0): string {
    return `o-${this.#all.length + 1 + after}`;
  }

  /** The open order is on its way, and its buyer may write what came of it. */
  sent(random: Stream): void {
    const { open } = this;
    if (open === undefined) return;
    this.open = undefined;
    const hours = random.whole(...open.to.hours);
    const dead = [...open.wants].flatMap(([species, { animals }]) => {
      let lost = 0;
      for (let animal = 0; animal < animals; animal++) if (random.chance(open.to.risk)) lost++;
      return lost === 0 ? [] : [`${species} ${lost}`];
    });
    const isSilent = random.chance(0.12);
    const remark =
      dead.length === 0 ? undefined : random.pick(["photo by mail", "bag cold", "all others swim"]);
    if (isSilent && dead.length === 0) return;
    const day = open.due + (hours > 30 ? 2 : 1);
    const words = `${dead.length === 0 ? "none" : dead.join(", ")}`;
    const report = { name: `${open.name} after ${hours} h`, words, text: remark };
    this.#reports.set(day, [...(this.#reports.get(day) ?? []), report]);
  }

  reportsOf(day: number): readonly Report[] {
    return this.#reports.get(day) ?? [];
  }

  /** The file of orders: those that are gone, and three that wait on the last day. */
  definitions(): Definition[] {
    const last = this.#all.at(-1);
    return [
      ...this.#all.map((each) => definition(each, each === last ? partlyFilled : undefined)),
      waiting(this.nextName(), "A shrimp keeper, south", 3, "2026-03-25", "2026-04-02", [
        "cherry 15, ramshorn 6",
      ]),
      waiting(this.nextName(1), "The school by the bridge", 5, "2026-03-26", "2026-04-02", ["furcatus 6"]),
    ];
  }
}

/** Of the last parcel a part was left for the next box. */
const partlyFilled = { more: 6, due: "2026-04-08", note: "six are for the next box" };

function definition(
  { name, to, placed, due, wants }: Order,
  rest: typeof partlyFilled | undefined,
): Definition {
  const lines = [...wants].map(
    ([species, { animals }], index) => `${species} ${animals + (index === 0 ? (rest?.more ?? 0) : 0)}`,
  );
  return {
    word: "order",
    name,
    properties: [
      ["wants", lines.join(", ")],
      ["buyer", quoted(to.buyer)],
      ["placed", isoOf(placed)],
      ["due", rest?.due ?? isoOf(due)],
      ...journey(to),
      ...(rest === undefined ? [] : ([["note", quoted(rest.note)]] as const)),
    ],
  };
}

function waiting(
  name: string,
  title: string,
  to: number,
  placed: string,
  due: string,
  wants: readonly string[],
): Definition {
  return {
    word: "order",
    name,
    title,
    properties: [
      ...wants.map((line) => ["wants", line] as const),
      ["placed", placed],
      ["due", due],
      ...journey(buyers[to]!),
    ],
  };
}

function journey({ carrier, route, hours, temperature }: Buyer): Definition["properties"] {
  return [
    ["carrier", quoted(carrier)],
    ["route", quoted(route)],
    ["hours", `${hours[0]}..${hours[1]} h`],
    ["temperature", temperature],
  ];
}
