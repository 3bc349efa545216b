import { Kind } from "../../book/entries/registry.ts";
import { Col, intsPerRow } from "../../book/facts.ts";
import { noName, wordOf } from "../../book/interner.ts";
import type { Namespace, Slot } from "../../book/slots.ts";
import type { Block } from "../../book/source.ts";
import type { Tank } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import { lotsAt } from "../../room/lots.ts";
import { type Aim, aimOf, byUse, recentRows, wordsOfRow } from "../recent.ts";
import type { View } from "../view.ts";
import { casesToName } from "./cases.ts";
import type { Context } from "./context.ts";
import { missingFoods } from "./missing-foods.ts";
import type { Offer, Offers } from "./offer.ts";
import { freeSpecies, ordersToName } from "./orders.ts";

/** Names to offer for a slot: by the book and by what was written lately, what fits the target first. */

/** The entry whose arguments they are. */
export interface EntryHere {
  readonly block: Block;
  readonly target: string;
  readonly kind: number;
}

/** Names of some namespaces: what fits the target first. */
export function offerNames(
  context: Context,
  slot: Slot,
  of: readonly Namespace[],
  offers: Offers,
  here: EntryHere | undefined,
): void {
  const { view, others } = context;
  const { book } = view.checked;
  const aim = here === undefined ? undefined : aimOf(book, here.target);
  const put = (name: string, sort: Offer["sort"], detail: string, text = name): void => {
    if (others.has(name) && name !== context.partial) return;
    offers.add({ label: text, sort, detail, about: { is: "name", name }, filterText: text });
  };
  for (const namespace of of) {
    switch (namespace) {
      case "species":
        if (here !== undefined && aim !== undefined)
          for (const { name, detail } of freeSpecies(view, here, aim)) put(name, "species", detail);
        if (aim !== undefined)
          for (const { name, detail } of residents(view, aim)) put(name, "species", detail);
        for (const { name, title } of book.species.values()) put(name, "species", title);
        break;
      case "food":
        if (here !== undefined && aim !== undefined) {
          offerMissingFoods(context, here, offers);
          for (const { name, text, detail } of fedLately(view, here.block.day, aim))
            put(name, "food", detail, text);
        }
        for (const { name, title, kind } of book.foods.values()) put(name, "food", title || (kind ?? ""));
        break;
      case "water": {
        const used = here === undefined || aim === undefined ? [] : objectsOf(view, here, aim);
        for (const name of used)
          if (book.waters.some((water) => water.name === name))
            put(name, "water", `usual for ${here!.target}`);
        for (const { name, title } of book.waters) put(name, "water", title);
        break;
      }
      case "remedy":
        // How much makes the target is offered behind it.
        for (const { name, title } of book.remedies)
          if (here?.kind === Kind.dose && context.isAtEnd && !others.has(name))
            offers.add({
              label: name,
              sort: "remedy",
              detail: title,
              text: `${name} `,
              goesOn: true,
              about: { is: "name", name },
            });
          else put(name, "remedy", title);
        break;
      case "gear": {
        const own = book.gears.filter((gear) =>
          aim?.stations.some((station) => isServedBy(station as Tank, gear.on)),
        );
        for (const { name, title } of own) put(name, "gear", title);
        if (aim === undefined) for (const { name, title } of book.gears) put(name, "gear", title);
        break;
      }
      case "case":
        for (const { name, detail } of casesToName(view, here, aim)) put(name, "case", detail);
        break;
      case "order":
        for (const { name, detail } of ordersToName(view, here)) put(name, "order", detail);
        break;
      case "lot":
        for (const { name, detail } of lotsThere(view, here, aim)) put(name, "lot", detail);
        for (const name of lotsIn(view, here, aim)) put(name, "lot", slot.doc);
        break;
      case "tank":
      case "system": {
        for (const station of book.stations)
          if (station.kind === namespace) put(station.name, namespace, station.title);
        break;
      }
    }
  }
}

const isServedBy = (station: Tank, on: string): boolean => station.name === on || station.system === on;

/** The species that live in the tanks aimed at, by the book, the most first. */
function residents(view: View, { stations }: Aim): { name: string; detail: string }[] {
  const { logbook } = view.checked;
  const animals = new Map<number, number>();
  for (const station of stations) {
    if (station.body < 0) continue;
    const { stock } = logbook.ledgerOf(station);
    for (const holding of stock.in(station.kind === "tank" ? station.id : undefined))
      animals.set(holding.species, (animals.get(holding.species) ?? 0) + holding.animals);
  }
  return [...animals]
    .sort((a, b) => b[1] - a[1])
    .map(([species, count]) => ({ name: wordOf(species), detail: `${formatNumber(count, 6)} by the book` }));
}

/** What the animals of the targets are short of, in the amount that is usual. */
export function offerMissingFoods({ view, others, partial }: Context, here: EntryHere, offers: Offers): void {
  if (here.kind !== Kind.feed) return;
  const { day } = here.block;
  const aim = aimOf(view.checked.book, here.target);
  const lately = fedLately(view, day, aim);
  const names = lately.map(({ name }) => name);
  for (const { name, detail } of missingFoods(view.checked.logbook, aim, day, names)) {
    if (others.has(name) && name !== partial) continue;
    const text = lately.find((each) => each.name === name)?.text ?? name;
    offers.add({ label: text, sort: "food", detail, about: { is: "name", name } });
  }
}

/** The foods that the targets got lately, each with its usual amount, the most frequent first. */
function fedLately(view: View, day: number, aim: Aim): { name: string; text: string; detail: string }[] {
  const items: string[] = [];
  let last = "";
  for (const { block, id, day: fed } of recentRows(view, Kind.feed, day, aim, 21)) {
    const words = wordsOfRow(block, id);
    // Each item of a list is a row; the line is read once.
    const key = `${fed} ${words?.target} ${words?.arguments}`;
    if (words === undefined || key === last) continue;
    last = key;
    items.push(...words.arguments.split(/\s*,\s*/));
  }
  const made = new Map<string, string>();
  for (const item of byUse(items)) {
    const [name] = item.split(" ", 1) as [string];
    if (name !== "none" && !made.has(name)) made.set(name, item);
  }
  const { foods } = view.checked.book;
  return [...made].map(([name, text]) => ({ name, text, detail: foods.get(name)?.title || "got it lately" }));
}

/** The names in the object column of the latest entries of this kind, by how often. */
function objectsOf(view: View, { kind, block: written }: EntryHere, aim: Aim): string[] {
  const names: string[] = [];
  for (const { block, id } of recentRows(view, kind, written.day, aim)) {
    const row = block.ids === undefined ? id : block.ids.indexOf(id);
    const object = block.facts.ints[row * intsPerRow + Col.object]!;
    if (object !== noName) names.push(wordOf(object));
  }
  return byUse(names);
}

/** Where animals may go: where they went from here lately, then all tanks but this. */
export function offerDestinations(
  context: Context,
  here: EntryHere | undefined,
  offers: Offers,
  arrow: string,
): void {
  const { view } = context;
  const { book } = view.checked;
  const lately = here === undefined ? [] : objectsOf(view, here, aimOf(book, here.target));
  for (const name of [...lately, ...book.tanks.map((tank) => tank.name)]) {
    const tank = book.tank(name);
    if (tank !== undefined && name !== here?.target)
      offers.add({ label: `${arrow}${name}`, sort: "tank", detail: tank.title, about: { is: "name", name } });
  }
}

/** The lots that have animals in these tanks, by the entries that name them, the most first. */
function lotsThere(
  view: View,
  here: EntryHere | undefined,
  aim: Aim | undefined,
): { name: string; detail: string }[] {
  if (here === undefined || aim === undefined) return [];
  return lotsAt(view.checked.logbook, here.block.day)
    .filter(({ tank, lot }) => aim.stations.includes(tank) && isPlainName(lot))
    .sort((a, b) => b.animals - a.animals)
    .map(({ lot, species, animals }) => ({
      name: lot,
      detail: `${formatNumber(animals, 6)} ${species} there`,
    }));
}

const isPlainName = (name: string): boolean => /^[\p{L}][\p{L}\p{M}\p{N}_-]*$/u.test(name);

/** The lots that arrived in these tanks, the latest first. */
function lotsIn(view: View, here: EntryHere | undefined, aim: Aim | undefined): string[] {
  if (here === undefined) return [];
  const lots = new Set<string>();
  for (const { block, id } of recentRows(view, Kind.arrive, here.block.day, aim, 730)) {
    const led = /(?:^| )lot (\S+|"(?:[^"\\]|\\.)*")/.exec(wordsOfRow(block, id)?.arguments ?? "");
    if (led !== null) lots.add(led[1]!);
  }
  return [...lots];
}
