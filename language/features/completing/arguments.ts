import { Kind } from "../../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow } from "../../book/facts.ts";
import { noName, wordOf } from "../../book/interner.ts";
import type { EntryKind } from "../../book/kind.ts";
import { compile, Matcher } from "../../book/match.ts";
import { findParameter, type Parameter, parameters } from "../../book/parameters.ts";
import type { Namespace, Signature, Slot } from "../../book/slots.ts";
import type { Block } from "../../book/source.ts";
import type { Tank } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import { noUnit } from "../../quantity/unit-codes.ts";
import { Piece } from "../../syntax/pieces.ts";
import { dueEntries } from "../due-entries.ts";
import { namespacesOf } from "../names.ts";
import { type Aim, aimOf, byUse, recentRows, usualArguments, wordsOfRow } from "../recent.ts";
import type { View } from "../view.ts";
import type { Context } from "./context.ts";
import type { Offer, Offers } from "./offer.ts";
import { unitsFor } from "./units.ts";

/** The arguments of an entry, of a property, or of the act of a duty: what is free of its signature, what fits this tank first. */

/** The entry whose arguments they are; none of a definition. */
export interface EntryHere {
  readonly block: Block;
  readonly target: string;
  readonly kind: number;
}

const matcher = new Matcher();

/** @param head the piece that names the signature */
export function offerArguments(
  context: Context,
  signature: Signature,
  head: number,
  offers: Offers,
  here?: EntryHere,
): void {
  const { pieces, others, isDestination } = context;
  const compiled = compile(signature);
  matcher.problems = [];
  matcher.match(compiled, pieces, head, head + 1, pieces.count, false);
  const item = matcher.items - 1;
  const last = pieces.count - 1;
  const pieceOf = (slot: number): number => matcher.pieceOf(compiled, item, slot);
  const isFree = (at: number): boolean => pieceOf(at) < 0;
  const parameter = matcher.parameterOf(item);
  if (isDestination) {
    if (compiled.destination >= 0) offerDestinations(context, here, offers, "");
    return;
  }
  // Behind a word that leads a slot only that slot fits.
  const led =
    pieces.kind[last] === Piece.word && last > head ? compiled.leads.get(pieces.word[last]!) : undefined;
  if (led !== undefined && isFree(led)) {
    offerFilling(context, compiled.slots[led]!, offers, here);
    return;
  }
  // Behind a number without a unit come the units that fit it.
  const isNumber = pieces.kind[last] === Piece.quantity && pieces.unit[last] === noUnit;
  const numbered = isNumber ? compiled.slots.find((_, at) => pieceOf(at) === last) : undefined;
  if (numbered !== undefined) offerUnits(context, numbered, parameter, offers);
  if (here !== undefined && last === head) offerUsual(context, signature as EntryKind, here, offers);
  // A list of words goes on behind a comma.
  const continues = (slot: Slot): boolean => pieces.kind[last] === Piece.comma && slot.filling.is === "words";
  for (const [at, slot] of compiled.slots.entries()) {
    if (slot.lead !== undefined || !(isFree(at) || continues(slot))) continue;
    if (!isNumberSlot(slot)) offerFilling(context, slot, offers, here);
    // What must be said is said first: what comes behind it is offered then, or where its first letters are typed.
    if (slot.required !== undefined && context.partial === "") return;
  }
  compiled.slots.forEach((slot, at) => {
    if (slot.lead === undefined || !isFree(at) || others.has(slot.lead)) return;
    offers.add({
      label: slot.lead,
      sort: "lead",
      detail: slot.doc,
      text: context.isAtEnd ? `${slot.lead} ` : slot.lead,
      goesOn: context.isAtEnd,
    });
  });
}

const isNumberSlot = ({ filling }: Slot): boolean =>
  filling.is === "quantity" || filling.is === "reading" || filling.is === "count" || filling.is === "lengths";

/** What was usually written for this target: all arguments at once. */
function offerUsual(context: Context, kind: EntryKind, here: EntryHere, offers: Offers): void {
  const { view } = context;
  const { block, target, kind: number } = here;
  for (const due of dueEntries(view, block.day)) {
    if (due.target !== target || due.kind !== number || due.blanks.length > 0) continue;
    const words = due.words.slice(kind.word.length).trim();
    if (words !== "")
      offers.add({
        label: words,
        sort: "due",
        detail: due.reason,
        about: { is: "due", day: block.day, target, words: due.words },
      });
  }
  if (kind.usual !== true || context.others.size > 2) return;
  for (const text of usualArguments(view, number, aimOf(view.checked.book, target), block.day).slice(0, 4))
    offers.add({ label: text, sort: "usual", detail: `usual for ${target}` });
}

function offerUnits(context: Context, slot: Slot, parameter: Parameter | undefined, offers: Offers): void {
  const { filling } = slot;
  const dimensions =
    filling.is === "quantity"
      ? filling.of
      : filling.is === "reading" && parameter !== undefined
        ? [parameter.dimension]
        : [];
  for (const unit of unitsFor(context.view.checked.book, dimensions, parameter, context.partial !== ""))
    offers.add({ label: unit.symbol, sort: "unit", detail: unit.detail });
}

/** What may fill a slot. */
export function offerFilling(context: Context, slot: Slot, offers: Offers, here?: EntryHere): void {
  const { filling } = slot;
  const { others } = context;
  switch (filling.is) {
    case "choice":
      if (filling.words.some((word) => others.has(word))) return;
      for (const word of filling.words) offers.add({ label: word, sort: "word", detail: slot.doc });
      return;
    case "words":
      for (const word of filling.known)
        if (!others.has(word)) offers.add({ label: word, sort: "word", detail: slot.doc });
      if (slot.name === "harms") {
        // What a remedy harms may be a trait that a species was given, or a species.
        for (const species of context.view.checked.book.species.values())
          for (const word of species.traits)
            if (word !== species.name && !others.has(word))
              offers.add({ label: word, sort: "word", detail: "a trait" });
        offerNames(context, slot, ["species"], offers, here);
      }
      return;
    case "destination":
      offerDestinations(context, here, offers, "-> ");
      return;
    case "name":
      if (filling.of[0] === "parameter") offerParameters(context, offers, here);
      else {
        offerNames(context, slot, filling.of, offers, here);
        // A duty is not owed to what stands for nothing.
        for (const word of filling.also ?? [])
          if (!others.has(word) && (here !== undefined || word !== "none"))
            offers.add({ label: word, sort: "word", detail: slot.doc });
      }
      return;
    case "text":
      if (namespacesOf(slot).length > 0) offerNames(context, slot, namespacesOf(slot), offers, here);
      if (slot.lead !== undefined) offerTexts(context, slot, offers, here);
      return;
    case "date":
      return;
  }
}

/** Texts that were led by the same word lately: suppliers, buyers, laboratories. */
function offerTexts(context: Context, slot: Slot, offers: Offers, here: EntryHere | undefined): void {
  if (here === undefined || slot.filling.is !== "text" || slot.filling.of !== undefined) return;
  const texts: string[] = [];
  let read = 0;
  for (const { block, id } of recentRows(context.view, here.kind, here.block.day, undefined, 730)) {
    if (++read > 60) break;
    const words = wordsOfRow(block, id)?.arguments ?? "";
    const led = new RegExp(`(?:^| )${slot.lead} ("(?:[^"\\\\]|\\\\.)*"|[\\p{L}][\\p{L}\\p{N}_-]*)`, "u").exec(
      words,
    );
    if (led !== null) texts.push(led[1]!);
  }
  for (const text of byUse(texts).slice(0, 10)) offers.add({ label: text, sort: "usual", detail: slot.doc });
}

function offerParameters(context: Context, offers: Offers, here: EntryHere | undefined): void {
  const { view, others } = context;
  const unused = (parameter: Parameter): boolean =>
    ![...others].some((word) => findParameter(word) === parameter);
  const put = (parameter: Parameter, detail: string): Offer => ({
    label: parameter.name,
    sort: "parameter",
    detail,
    text: context.isAtEnd ? `${parameter.name} ` : parameter.name,
    about: { is: "parameter", name: parameter.name },
  });
  if (here !== undefined) {
    for (const due of dueEntries(view, here.block.day)) {
      if (due.target !== here.target || due.kind !== Kind.test) continue;
      for (const { duty } of due.duties)
        for (const id of duty.subjects ?? []) {
          const parameter = parameters[id];
          if (parameter !== undefined && unused(parameter)) offers.add(put(parameter, due.reason));
        }
    }
    const ids: string[] = [];
    for (const { block, id } of recentRows(
      view,
      Kind.test,
      here.block.day,
      aimOf(view.checked.book, here.target),
      60,
    )) {
      const row = block.ids === undefined ? id : block.ids.indexOf(id);
      ids.push(String(block.facts.ints[row * intsPerRow + Col.subject]!));
    }
    for (const id of byUse(ids)) {
      const parameter = parameters[Number(id)];
      if (parameter !== undefined && unused(parameter)) offers.add(put(parameter, parameter.title));
    }
  }
  for (const parameter of parameters) if (unused(parameter)) offers.add(put(parameter, parameter.title));
}

/** Names of some namespaces: what fits the target first. */
function offerNames(
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
        if (aim !== undefined)
          for (const { name, detail } of residents(view, aim)) put(name, "species", detail);
        for (const { name, title } of book.species.values()) put(name, "species", title);
        break;
      case "food":
        if (here !== undefined && aim !== undefined)
          for (const { name, text, detail } of fedLately(view, here.block.day, aim))
            put(name, "food", detail, text);
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
        for (const { name, title } of book.remedies) put(name, "remedy", title);
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
        for (const { name, detail } of openCases(view, here, aim)) put(name, "case", detail);
        break;
      case "lot":
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
function offerDestinations(
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

/** Cases that are not closed, those of these targets first, the latest first. */
function openCases(
  view: View,
  here: EntryHere | undefined,
  aim: Aim | undefined,
): { name: string; detail: string }[] {
  const cases = new Map<number, { isOpen: boolean; isHere: boolean; order: number; detail: string }>();
  let order = 0;
  for (const { day, blocks } of view.checked.logbook.dayGroups) {
    if (here !== undefined && day > here.block.day) break;
    for (const { facts } of blocks)
      for (let row = 0; row < facts.count; row++) {
        const kind = kindOfRow(facts, row);
        if (kind !== Kind.sick && kind !== Kind.sample && kind !== Kind.result && kind !== Kind.close)
          continue;
        const at = row * intsPerRow;
        const name = facts.ints[at + Col.object]!;
        if (name === noName) continue;
        const target = facts.ints[at + Col.target]!;
        const known = cases.get(name);
        cases.set(name, {
          isOpen: kind !== Kind.close,
          isHere: known?.isHere === true || aim?.names.has(target) === true,
          order: ++order,
          detail: kind === Kind.close ? "closed" : `open, ${wordOf(target < 0 ? ~target : target)}`,
        });
      }
  }
  return [...cases]
    .filter(([, each]) => each.isOpen)
    .sort((a, b) => Number(b[1].isHere) - Number(a[1].isHere) || b[1].order - a[1].order)
    .map(([name, { detail }]) => ({ name: wordOf(name), detail }));
}

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
