import { compile } from "../../book/compile.ts";
import { Kind } from "../../book/entries/registry.ts";
import { Col, intsPerRow } from "../../book/facts.ts";
import type { EntryKind } from "../../book/kind.ts";
import { Matcher } from "../../book/match.ts";
import { findParameter, type Parameter, parameters } from "../../book/parameters.ts";
import type { Signature, Slot } from "../../book/slots.ts";
import { formatNumber } from "../../quantity/format.ts";
import { noUnit } from "../../quantity/unit-codes.ts";
import { stockAt } from "../../room/stock-book.ts";
import { Piece } from "../../syntax/pieces.ts";
import { dueEntries } from "../due-entries.ts";
import { namespacesOf } from "../names.ts";
import { aimOf, byUse, recentRows, usualArguments, wordsOfRow } from "../recent.ts";
import type { Context } from "./context.ts";
import { offerDose } from "./doses.ts";
import { type EntryHere, offerDestinations, offerMissingFoods, offerNames } from "./names.ts";
import type { Offer, Offers } from "./offer.ts";
import { offerOrdersToFill } from "./orders.ts";
import { offerSampleTexts } from "./samples.ts";
import { unitsFor } from "./units.ts";

/** The arguments of an entry, of a property, or of the act of a duty: what is free of its signature, what fits this tank first. */

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
    if (!matcher.isOpened(compiled, at)) continue;
    if (!isNumberSlot(slot)) offerFilling(context, slot, offers, here);
    else if (slot.name === "animals" && here !== undefined) {
      const species = compiled.slots.findIndex(({ name }) => name === "species");
      const piece = species < 0 ? -1 : pieceOf(species);
      if (piece >= 0) offerAnimals(context, here, pieces.word[piece]!, offers);
    } else if (slot.name === "amount" && here?.kind === Kind.dose) {
      const piece = pieceOf(compiled.slots.findIndex(({ name }) => name === "remedy"));
      if (piece >= 0) offerDose(context, here, pieces.word[piece]!, offers);
    }
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

/** As many as are there at the end of the day before, by the book: more cannot leave, and a count is held against them. */
function offerAnimals({ view }: Context, here: EntryHere, species: string, offers: Offers): void {
  if (here.kind === Kind.arrive || here.kind === Kind.hatch) return;
  const { logbook, book } = view.checked;
  const [tank, ...others] = aimOf(book, here.target).stations;
  if (tank === undefined || others.length > 0) return;
  const there = stockAt(logbook, here.block.day - 1).find(
    (each) => each.tank === tank && each.species === species,
  );
  if (there === undefined) return;
  const detail = `${there.isAbout ? "about so many" : "all"} that are there by the book`;
  offers.add({ label: formatNumber(there.animals, 6), sort: "usual", detail });
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
  offerMissingFoods(context, here, offers);
  offerOrdersToFill(view, here, offers);
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
function offerFilling(context: Context, slot: Slot, offers: Offers, here?: EntryHere): void {
  const { filling } = slot;
  const { others } = context;
  switch (filling.is) {
    case "choice":
      // Of a list each item says another.
      if (slot.each !== true && filling.words.some((word) => others.has(word))) return;
      for (const word of filling.words)
        if (!others.has(word)) offers.add({ label: word, sort: "word", detail: slot.doc });
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
      offerSampleTexts(context.view, slot, here, offers);
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
