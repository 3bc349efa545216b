import { isoOf } from "../book/dates.ts";
import { definitionKinds } from "../book/definitions/registry.ts";
import { kindNumber, kindOf } from "../book/entries/registry.ts";
import { findParameter } from "../book/parameters.ts";
import { doseCaution } from "../checks/doses.ts";
import { formatNumber } from "../quantity/format.ts";
import { definitionWords } from "../syntax/blocks.ts";
import { Piece } from "../syntax/pieces.ts";
import { type Context, contextAt } from "./completing/context.ts";
import { daysToStart, offerInDay } from "./completing/day.ts";
import { offerInDefinition } from "./completing/definitions.ts";
import { type About, type Completion, type CompletionList, literal, Offers } from "./completing/offer.ts";
import { offerHeads, offerRow } from "./completing/sheet.ts";
import { offerSigns, signAt } from "./completing/signs.ts";
import { dueEntries, lastDone } from "./due-entries.ts";
import { lineEndOf } from "./lines.ts";
import { code, paragraphs, plain } from "./markdown.ts";
import type { View } from "./view.ts";

export type { About, Completion, CompletionList, CompletionSort } from "./completing/offer.ts";

/**
 * What may be written at an offset, the likeliest first: on a new line of a day whole entries that are due, then what the declaration of the
 * entry or property takes there, what fits the tank first. Within the text of signs the vocabulary; nothing in other
 * prose, comments and numbers.
 */
export function completions(view: View, offset: number): CompletionList {
  const offers = new Offers();
  const sign = signAt(view, offset);
  if (sign !== undefined) {
    offerSigns(view, sign, offers);
    return offers.finish(sign.insert, sign.replace, sign.partial);
  }
  const context = contextAt(view, offset);
  if (context === undefined) return { items: [], isIncomplete: false };
  const { block } = context;
  if (context.is === "head") offerHeadLine(context, offers);
  else if (block === undefined) return { items: [], isIncomplete: false };
  else if (block.kind === "definition") offerInDefinition(context, block, offers);
  else if (block.kind === "day" && !Number.isNaN(block.day)) {
    if (context.is === "row") offerRow(context, block, offers);
    else if (isSheetHead(context)) offerHeads(context, block, offers);
    else offerInDay(context, block, offers);
  }
  return offers.finish(context.insert, context.replace, context.partial);
}

function isSheetHead({ pieces }: Context): boolean {
  const at = pieces.count > 0 && pieces.kind[0] === Piece.time ? 1 : 0;
  return pieces.count > at && pieces.kind[at] === Piece.word && pieces.word[at] === "sheet";
}

/** A line in column 0: a day, or a definition. */
function offerHeadLine(context: Context, offers: Offers): void {
  const { view, pieces, isAtEnd } = context;
  const end = lineEndOf(view.source.text);
  if (pieces.count === 0) {
    for (const { day, detail } of daysToStart(view))
      offers.add({
        label: isoOf(day),
        sort: "date",
        detail,
        text: isAtEnd ? `${isoOf(day)}${end}  ` : isoOf(day),
        goesOn: isAtEnd,
      });
    for (const word of definitionWords) {
      if (word === "room" && view.checked.book.room !== undefined) continue;
      const { title } = definitionKinds[word];
      offers.add({
        label: word,
        sort: word,
        detail: title,
        text: isAtEnd ? definitionSnippet(word, end) : word,
        isSnippet: isAtEnd,
        about: { is: "definition", word },
      });
    }
    return;
  }
  if (pieces.word[0] !== "group") return;
  const equals = Array.from({ length: pieces.count }, (_, at) => pieces.kind[at]).includes(Piece.equals);
  if (equals)
    for (const { name, title } of view.checked.book.tanks)
      if (!context.others.has(name))
        offers.add({ label: name, sort: "tank", detail: title, about: { is: "name", name } });
}

function definitionSnippet(word: (typeof definitionWords)[number], end: string): string {
  switch (word) {
    case "room":
      return `room "\${1:My room}"${end}  units  \${2:temperature C, volume L, hardness dGH, alkalinity dKH}${end}`;
    case "group":
      return `group \${1:name} = \${2:tank}`;
    case "tank":
      return `tank \${1:name} "\${2:title}"${end}  volume  \${3:100} L${end}  role    \${4:show}${end}`;
    default: {
      const [first] = definitionKinds[word].properties;
      const [example = ""] = first?.examples ?? [];
      const [name = "", ...value] = example.split(" ");
      return `${word} \${1:name} "\${2:title}"${end}  ${literal(name)}  \${3:${literal(value.join(" "))}}${end}`;
    }
  }
}

/** The documentation of something offered, in Markdown; empty where there is none. */
export function resolveCompletion(view: View, { about }: Pick<Completion, "about">): string {
  return about === undefined ? "" : documentation(view, about);
}

function documentation(view: View, about: About): string {
  const { book } = view.checked;
  switch (about.is) {
    case "kind": {
      const number = kindNumber(about.word);
      if (number === undefined) return "";
      const { doc, examples } = kindOf(number);
      return paragraphs(doc, ...examples.map(code));
    }
    case "definition":
      return definitionKinds[about.word as keyof typeof definitionKinds]?.doc ?? "";
    case "property": {
      const kinds = definitionKinds[about.of as keyof typeof definitionKinds]?.properties ?? [];
      const kind = kinds.find((each) => each.word === about.word);
      return kind === undefined ? "" : paragraphs(kind.doc, ...kind.examples.map(code));
    }
    case "parameter": {
      const parameter = findParameter(about.name);
      if (parameter === undefined) return "";
      const [low, high] = parameter.possible;
      return paragraphs(
        plain(parameter.title),
        `possible at all: ${low}..${high}${parameter.dimension === "pH" ? "" : ` ${parameter.unit.symbol}`}`,
        `the room's unit: ${plain(book.units.shown(parameter).symbol)}`,
      );
    }
    case "name": {
      const defined = book.names.get(about.name);
      if (defined === undefined) return "";
      const lines = defined.place.block.text.trimEnd().split(/\r\n|\r|\n/);
      return paragraphs(plain(defined.definition.title), lines.map(code).join("  \n"));
    }
    case "due":
      return dueDocumentation(view, about);
    case "text":
      return plain(about.text);
  }
}

function dueDocumentation(view: View, { day, target, words }: About & { readonly is: "due" }): string {
  const due = dueEntries(view, day).find((each) => each.target === target && each.words === words);
  if (due === undefined) return "";
  const duties = due.duties.map(
    (each) =>
      `${code(`${each.duty.form.when} ... ${each.duty.act}`)} in ${plain(each.station.name)}: ${lastDone(each)}`,
  );
  const { dose } = due;
  if (dose === undefined) return paragraphs(`**${plain(due.reason)}**`, duties.join("  \n"));
  const { remedy, now, number, changeOwed } = dose;
  const aim =
    remedy.targetLow === remedy.targetHigh
      ? formatNumber(remedy.targetHigh)
      : `${formatNumber(remedy.targetLow)}..${formatNumber(remedy.targetHigh)}`;
  return paragraphs(
    `**${plain(due.reason)}**`,
    plain(
      `Dose ${number} of ${remedy.repeatTimes}. In the water now: ${formatNumber(now)} ${remedy.unit}; target ${aim} ${remedy.unit}. The amount makes up the difference${changeOwed > 0 ? " from what the change that is owed leaves: change first" : ""}.`,
    ),
    plain(doseCaution),
  );
}
