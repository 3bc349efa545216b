import { foodKinds } from "../../book/definitions/food.ts";
import { definitionKinds } from "../../book/definitions/registry.ts";
import { entryKinds, kindNumber, kindOf } from "../../book/entries/registry.ts";
import { findParameter, parameters } from "../../book/parameters.ts";
import type { PropertyKind } from "../../book/property.ts";
import type { Block } from "../../book/source.ts";
import { noUnit } from "../../quantity/unit-codes.ts";
import { Piece } from "../../syntax/pieces.ts";
import { widthOf } from "../columns.ts";
import { laidLines, problemsOf } from "../layout.ts";
import { offerArguments } from "./arguments.ts";
import type { Context } from "./context.ts";
import type { Offers } from "./offer.ts";
import { unitsFor } from "./units.ts";

/** The lines of a definition: properties that are not said yet, then what each takes. */
export function offerInDefinition(context: Context, block: Block, offers: Offers): void {
  const { definition } = block;
  if (definition === undefined) return;
  const { pieces } = context;
  let begin = 0;
  for (let at = 0; at < pieces.count; at++) if (pieces.kind[at] === Piece.semicolon) begin = at + 1;
  const kinds = definitionKinds[definition.word].properties;
  if (begin === pieces.count) {
    const said = new Set(definition.properties.map((each) => each.word));
    for (const kind of kinds)
      if (kind.many === true || !said.has(kind.word))
        offerProperty(context, block, definition.word, kind, offers);
    return;
  }
  const kind = kinds.find((each) => each.word === pieces.word[begin]);
  if (kind === undefined) return;
  switch (kind.form) {
    case "every":
    case "at":
      offerDuty(context, begin, kind.form, offers);
      return;
    case "needs":
      offerNeeds(context, begin, offers);
      return;
    case "units":
      offerDeclarations(context, begin, offers);
      return;
    default:
      offerArguments(context, kind, begin, offers);
  }
}

function offerProperty(context: Context, block: Block, of: string, kind: PropertyKind, offers: Offers): void {
  const isFirst = context.pieces.count === 0;
  const words = kind.form === "at" ? ["at least", "at most"] : [kind.word];
  for (const word of words) {
    const gap = isFirst ? " ".repeat(Math.max(2, valueColumn(block, context) - widthOf(word))) : " ";
    offers.add({
      label: word,
      sort: "property",
      detail: kind.examples.find((example) => example.startsWith(word)) ?? kind.doc,
      text: context.isAtEnd ? `${word}${gap}` : word,
      goesOn: context.isAtEnd,
      about: { is: "property", of, word: kind.word },
    });
  }
}

/** Where the values of a definition begin, counted from its words. */
function valueColumn(block: Block, context: Context): number {
  const here = context.insert.start - block.start;
  const line = laidLines(block.text, false, problemsOf(block)).find(
    (each) => each.is === "property" && each.pieces.length > 1 && !(each.start <= here && each.end >= here),
  );
  const [first, second] = line?.pieces ?? [];
  if (line === undefined || first === undefined || second === undefined) return 0;
  const value = first.word === "at" ? line.pieces[2] : second;
  return value === undefined ? 0 : widthOf(block.text.slice(first.start, value.start));
}

/** `every 7 d change 25..35 %`, `at least 3 per 7 d feed frozen`. */
function offerDuty(context: Context, begin: number, form: "every" | "at", offers: Offers): void {
  const { pieces, isAtEnd } = context;
  const words = Array.from({ length: pieces.count - begin }, (_, at) => pieces.word[begin + at]!);
  const kindAt = words.findIndex((word) => kindNumber(word) !== undefined);
  if (kindAt >= 0) {
    // A feeding may be owed by the kind of food.
    if (words[kindAt] === "feed" && pieces.count - begin - 1 === kindAt)
      for (const word of foodKinds) offers.add({ label: word, sort: "word", detail: "a kind of food" });
    offerArguments(context, kindOf(kindNumber(words[kindAt]!)!), begin + kindAt, offers);
    return;
  }
  const last = pieces.count - 1;
  const isWord = (word: string): boolean => pieces.kind[last] === Piece.word && pieces.word[last] === word;
  const put = (label: string, detail: string): void =>
    offers.add({ label, sort: "lead", detail, text: isAtEnd ? `${label} ` : label, goesOn: isAtEnd });
  if (form === "at" && last === begin) {
    put("least", "owed so many times");
    put("most", "allowed so many times");
  } else if (isWord("every") || isWord("per")) {
    for (const period of ["1 d", "2 d", "3 d", "7 d", "14 d", "28 d"]) put(period, "");
  } else if (isWord("least") || isWord("most")) {
    for (const times of ["1 per 7 d", "2 per 7 d", "3 per 7 d"]) put(times, "");
  } else if (pieces.kind[last] === Piece.quantity) {
    const isTimes = form === "at" && !words.includes("per");
    if (isTimes) put("per", "in any so many days");
    else {
      if (pieces.unit[last] === noUnit) offers.add({ label: "d", sort: "unit", detail: "days" });
      for (const kind of entryKinds)
        if (kind.duty)
          offers.add({
            label: kind.word,
            sort: "kind",
            detail: kind.title,
            text: isAtEnd ? `${kind.word} ` : kind.word,
            goesOn: isAtEnd,
            about: { is: "kind", word: kind.word },
          });
    }
  }
}

/** `needs frozen at least 3 per 7 d, dry at most 2 per 7 d`. */
function offerNeeds(context: Context, begin: number, offers: Offers): void {
  const { pieces, view, isAtEnd } = context;
  const last = pieces.count - 1;
  if (last === begin || pieces.kind[last] === Piece.comma) {
    const put = (label: string, detail: string, sort: "word" | "food"): void =>
      offers.add({ label, sort, detail, text: isAtEnd ? `${label} ` : label, goesOn: isAtEnd });
    for (const kind of foodKinds) put(kind, "a kind of food", "word");
    for (const { name, title } of view.checked.book.foods.values()) put(name, title, "food");
  } else if (
    pieces.kind[last] === Piece.word &&
    pieces.word[last - 1] !== "at" &&
    pieces.word[last] !== "at"
  ) {
    for (const often of ["at least 3 per 7 d", "at most 2 per 7 d"])
      offers.add({ label: often, sort: "lead" });
  }
}

/** `units temperature C, gallon US`: what can be declared, and as what. */
function offerDeclarations(context: Context, begin: number, offers: Offers): void {
  const { pieces, others, view } = context;
  const last = pieces.count - 1;
  const isBegin = last === begin || pieces.kind[last] === Piece.comma;
  const isOpen = last - 1 === begin || pieces.kind[last - 1] === Piece.comma;
  const said = isOpen ? pieces.word[last]! : "";
  const special: Readonly<Record<string, readonly string[]>> = {
    gallon: ["US", "imperial"],
    spoon: ["US", "metric"],
    ppm: ["mg/L", "uL/L"],
  };
  const dimensions = [
    "temperature",
    "volume",
    "length",
    "mass",
    "concentration",
    "hardness",
    "alkalinity",
    "conductivity",
    "duration",
    "flow",
  ] as const;
  if (isBegin) {
    for (const word of [...dimensions, ...Object.keys(special), ...parameters.map((each) => each.name)])
      if (!others.has(word))
        offers.add({
          label: word,
          sort: "word",
          text: context.isAtEnd ? `${word} ` : word,
          goesOn: context.isAtEnd,
        });
    return;
  }
  const parameter = findParameter(said);
  const dimension = said === "alkalinity" ? "hardness" : dimensions.find((each) => each === said);
  for (const unit of special[said] ?? []) offers.add({ label: unit, sort: "unit" });
  if (special[said] === undefined && (dimension !== undefined || parameter !== undefined))
    for (const { symbol, detail } of unitsFor(
      view.checked.book,
      [(dimension as "volume" | undefined) ?? parameter!.dimension],
      parameter,
    ))
      offers.add({ label: symbol, sort: "unit", detail });
}
