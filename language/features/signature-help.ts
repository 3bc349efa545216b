import { compile } from "../book/compile.ts";
import { spokenDay } from "../book/dates.ts";
import { definitionKinds } from "../book/definitions/registry.ts";
import { kindNumber, kindOf } from "../book/entries/registry.ts";
import { linesOf, type SheetLine } from "../book/entry.ts";
import { nameOf } from "../book/interner.ts";
import { Matcher, unfilled } from "../book/match.ts";
import type { DefinitionKind, PropertyKind } from "../book/property.ts";
import type { Signature, Slot } from "../book/slots.ts";
import type { Block } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { limitText, readingSpan } from "../checks/words.ts";
import { UNITS } from "../quantity/units.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import { lineOfText } from "./lines.ts";
import { code, declared, paragraphs, plain } from "./markdown.ts";
import { readPrefix } from "./prefix.ts";
import { slotText } from "./signature-label.ts";
import { blockAt, type Span, type View } from "./view.ts";

/** What the line at the cursor takes, and which of it is being written. */
export interface SignatureHelp {
  /** `change amount [batch|flow] [from source] [at temperature] ["text"]`. */
  readonly label: string;
  /** Markdown. */
  readonly documentation: string;
  readonly parameters: readonly SignatureParameter[];
  /** The place of the one being written; undefined where all are. */
  readonly active: number | undefined;
}

export interface SignatureParameter {
  /** Its part of the label. */
  readonly span: Span;
  /** Markdown. */
  readonly documentation: string;
}

/** A part of a signature that is being put together. */
interface Part {
  readonly text: string;
  readonly doc: string;
}

/** The signature of the entry, property, head or row of a sheet at an offset; undefined in comments and where none is. */
export function signatureHelp(view: View, offset: number): SignatureHelp | undefined {
  const { text } = view.source;
  const line = lineOfText(text, offset);
  const prefix = text.slice(line.start, offset).replace(/^\ufeff/, " ");
  const read = readPrefix(prefix);
  const found = blockAt(view, line.start);
  if (read === undefined || found === undefined || read.pieces.count === 0) return undefined;
  const { block } = found;
  const { pieces, isTouching } = read;
  if (block.kind === "definition")
    return /^\s/.test(prefix)
      ? propertyHelp(block, pieces, isTouching)
      : headHelp(definitionKinds[block.definition!.word], pieces, isTouching);
  if (block.kind !== "day" || !/^\s/.test(prefix)) return undefined;
  const sheet = sheetAbove(
    block,
    line.start - block.start,
    /^\s*/.exec(prefix)![0].replaceAll("\t", "  ").length,
  );
  const target = pieces.kind[0] === Piece.time && pieces.count > 1 ? 1 : 0;
  if (sheet !== undefined) return rowHelp(view, sheet, pieces, target, isTouching);
  if (pieces.word[target] === "sheet") return sheetHelp(pieces.count - 1 - target, isTouching);
  const kindPiece = target + 1;
  const number = kindPiece < pieces.count ? kindNumber(pieces.word[kindPiece]!) : undefined;
  if (number === undefined) return undefined;
  const kind = kindOf(number);
  const doc = paragraphs(declared(kind.doc), code(kind.examples[0] ?? kind.word));
  return slotHelp([], kind, doc, pieces, kindPiece, pieces.count, isTouching, true);
}

const matcher = new Matcher();

/** The signature whose slots the pieces behind `head` fill. @param before parts that are filled already */
function slotHelp(
  before: readonly Part[],
  signature: Signature,
  doc: string,
  pieces: Pieces,
  head: number,
  end: number,
  isTouching: boolean,
  hasNote: boolean,
): SignatureHelp {
  const compiled = compile(signature);
  const { slots } = compiled;
  const parts: Part[] = slots.map((slot) => ({ text: slotText(slot), doc: slot.doc }));
  if (hasNote) parts.push({ text: '["text"]', doc: "What is worth saying, at the end of the line." });
  matcher.problems = [];
  matcher.match(compiled, pieces, head, head + 1, end, false);
  const item = matcher.items - 1;
  const last = end - 1;
  const filled = (slot: number): number => matcher.pieceOf(compiled, item, slot);
  const led =
    pieces.kind[last] === Piece.word && last > head ? compiled.leads.get(pieces.word[last]!) : undefined;
  let active: number | undefined;
  if (isTouching && last > head && pieces.kind[last] !== Piece.comma) {
    const own = slots.findIndex((_, slot) => filled(slot) === last);
    if (own >= 0) active = own;
    else if (matcher.note === last) active = parts.length - 1;
    else active = led;
  } else if (led !== undefined && filled(led) === unfilled) active = led;
  else {
    const open = slots.map((_, slot) => slot).filter((slot) => filled(slot) === unfilled);
    const first = (is: (slot: Slot) => boolean): number | undefined => open.find((slot) => is(slots[slot]!));
    active =
      first(({ required }) => required !== undefined) ??
      first(({ lead, filling }) => lead === undefined && filling.is !== "choice") ??
      open[0] ??
      (hasNote && matcher.note === unfilled ? parts.length - 1 : undefined);
  }
  const shown = [...before, ...parts];
  const more = signature.list === true ? ", …" : "";
  // What a list repeats ends before the slots of the whole line, if it has any.
  const listEnd = slots.findLastIndex((slot) => slot.each === true);
  return help(signature.word, shown, doc, active === undefined ? undefined : before.length + active, {
    at: more === "" ? -1 : before.length + listEnd,
    text: more,
  });
}

/** Puts a label together from its first word and its parts. @param more what stands behind one of the parts */
function help(
  word: string,
  parts: readonly Part[],
  documentation: string,
  active: number | undefined,
  more: { readonly at: number; readonly text: string } = { at: -1, text: "" },
): SignatureHelp {
  let label = word;
  const parameters = parts.map((part, at): SignatureParameter => {
    label += label === "" ? "" : " ";
    const start = label.length;
    label += part.text;
    const span = { start, end: label.length };
    if (at === more.at) label += more.text;
    return { span, documentation: part.doc === "" ? "" : declared(part.doc) };
  });
  return { label, documentation, parameters, active };
}

/** The head of a definition. */
function headHelp(kind: DefinitionKind, pieces: Pieces, isTouching: boolean): SignatureHelp | undefined {
  const parts: Part[] = [];
  if (kind.word !== "room")
    parts.push({ text: "name", doc: "Begins with a letter; letters, digits, `-` and `_` follow." });
  parts.push({ text: '["title"]', doc: "What it is called in full." });
  if (kind.word === "group")
    parts.push({ text: "= tank, …", doc: "Its tanks: names, and ranges such as `r1 .. r12`." });
  const done = pieces.count - 1 - (isTouching ? 1 : 0);
  if (pieces.count < 2 && isTouching) return undefined;
  const isMembers = rangeOf(pieces).some((at) => pieces.kind[at] === Piece.equals);
  const active = isMembers ? parts.length - 1 : done < parts.length ? done : undefined;
  return help(kind.word, parts, declared(kind.doc), active);
}

/** The property that the cursor is in: properties of a line are parted by `;`. */
function propertyHelp(block: Block, pieces: Pieces, isTouching: boolean): SignatureHelp | undefined {
  const begin = rangeOf(pieces).findLastIndex((at) => pieces.kind[at] === Piece.semicolon) + 1;
  const { word } = block.definition!;
  const kind = definitionKinds[word].properties.find((each) => each.word === pieces.word[begin]);
  if (begin >= pieces.count || kind === undefined) return undefined;
  const doc = paragraphs(declared(kind.doc), code(kind.examples[0] ?? ""));
  const done = pieces.count - 1 - begin - (isTouching ? 1 : 0);
  switch (kind.form) {
    case "every":
    case "at":
      return dutyHelp(kind, doc, pieces, begin, isTouching);
    case "needs":
      return formHelp(kind, doc, needParts, sinceComma(pieces, begin, isTouching), ", …");
    case "units":
      return formHelp(kind, doc, unitParts, sinceComma(pieces, begin, isTouching), ", …");
    default:
      return isTouching && done < 0
        ? undefined
        : slotHelp([], kind, doc, pieces, begin, pieces.count, isTouching, false);
  }
}

const needParts: readonly Part[] = [
  { text: "food", doc: "A food, or a kind of food." },
  { text: "at least|most", doc: "Whether it must be fed so often, or must not be fed more often." },
  { text: "times", doc: "How often." },
  { text: "per time", doc: "In what time: `per 7 d`." },
];
const needPieces = [1, 2, 1, 2];
const unitParts: readonly Part[] = [
  {
    text: "what",
    doc: "A kind of quantity, a parameter, or an ambiguous spelling: `temperature`, `ammonia`, `gallon`, `ppm`.",
  },
  { text: "unit", doc: "What it is measured in, or what the spelling means: `C`, `mg/L N`, `US`." },
];

/** A form of parts that is repeated behind each comma. @param done pieces written of the one at the cursor */
function formHelp(
  kind: PropertyKind,
  doc: string,
  parts: readonly Part[],
  done: number,
  more: string,
): SignatureHelp {
  const sizes = parts === needParts ? needPieces : parts.map(() => 1);
  let left = done;
  let active = 0;
  while (active < parts.length - 1 && left >= sizes[active]!) left -= sizes[active++]!;
  return help(kind.word, parts, doc, active, { at: parts.length - 1, text: more });
}

/** Pieces written since the last comma, the one that is being written left out. */
function sinceComma(pieces: Pieces, begin: number, isTouching: boolean): number {
  const comma = rangeOf(pieces).findLastIndex((at) => at > begin && pieces.kind[at] === Piece.comma);
  return Math.max(0, pieces.count - 1 - Math.max(begin, comma) - (isTouching ? 1 : 0));
}

/** `every 7 d change …`, `at least 3 per 7 d feed …`: once the act is named, what it takes. */
function dutyHelp(
  kind: PropertyKind,
  doc: string,
  pieces: Pieces,
  begin: number,
  isTouching: boolean,
): SignatureHelp {
  const isEvery = kind.form === "every";
  const before: Part[] = isEvery
    ? [{ text: "time", doc: "So long after it was last done it is due: `7 d`." }]
    : [
        { text: "least|most", doc: "Whether it is owed so often, or allowed no more often." },
        { text: "times", doc: "How often." },
        { text: "per time", doc: "In what time: `per 7 d`." },
      ];
  // `per` and its time are two pieces.
  const actPiece = begin + (isEvery ? 2 : 5);
  const number = actPiece < pieces.count ? kindNumber(pieces.word[actPiece]!) : undefined;
  if (number !== undefined && !(isTouching && actPiece === pieces.count - 1)) {
    const act = kindOf(number);
    const made = slotHelp(before, act, doc, pieces, actPiece, pieces.count, isTouching, false);
    return withActBetween(kind.word, act.word, made, before.length);
  }
  const done = pieces.count - 1 - begin - (isTouching ? 1 : 0);
  const active = isEvery ? Math.min(done, 1) : [0, 1, 2, 2, 3][Math.min(done, 4)]!;
  return help(
    kind.word,
    [...before, { text: "act", doc: "What is to be done, as in an entry: `change 30 %`, `feed frozen`." }],
    doc,
    active,
  );
}

/** The label of a duty: its own parts, the word of the act, the parts of the act. */
function withActBetween(word: string, act: string, made: SignatureHelp, count: number): SignatureHelp {
  const parts = made.parameters.map(({ span }) => made.label.slice(span.start, span.end));
  const tail = made.label.slice(made.parameters.at(-1)?.span.end ?? made.label.length);
  let label = word;
  const parameters = made.parameters.map(({ documentation }, at): SignatureParameter => {
    if (at === count) label += ` ${act}`;
    label += " ";
    const start = label.length;
    label += parts[at]!;
    return { span: { start, end: label.length }, documentation };
  });
  return { ...made, label: label + tail, parameters };
}

/** The sheet whose row a line is, by its indentation; undefined for a line that is none. */
function sheetAbove(block: Block, at: number, indent: number): SheetLine | undefined {
  const above = linesOf(block).filter((line) => line.end < at);
  const sheet = above.findLast((line) => line.is === "sheet");
  const last = above.at(-1);
  const isIn = last === sheet || last?.is === "row";
  return sheet?.is === "sheet" && isIn && indent > sheet.indent ? sheet : undefined;
}

function sheetHelp(heads: number, isTouching: boolean): SignatureHelp {
  const parts: Part[] = [
    {
      text: "head [(unit)] …",
      doc: "A parameter (a test) or a species (a count), with its unit in brackets if it is not the usual one.",
    },
  ];
  const doc =
    "A round as a spreadsheet: heads once, then a row a tank, indented deeper. A dash is not measured.";
  return help("sheet", parts, plain(doc), heads === 0 && isTouching ? undefined : 0);
}

/** A row of a sheet: its heads, each with what is known of it in this tank. */
function rowHelp(
  view: View,
  sheet: SheetLine,
  pieces: Pieces,
  target: number,
  isTouching: boolean,
): SignatureHelp {
  const { checked } = view;
  const name = pieces.word[target] ?? "";
  const station = checked.book.station(nameOf(name));
  const parts: Part[] = sheet.columns.map(({ parameter, word, unit }) => {
    const symbol = unit >= 0 ? ` (${UNITS[unit]?.symbol})` : "";
    if (parameter === undefined || station === undefined || station.body < 0)
      return { text: word + symbol, doc: parameter?.title ?? "How many animals." };
    const ledger = checked.logbook.ledgerOf(station);
    const tank = station.kind === "tank" ? (station as Tank) : ledger.body?.tanks[0];
    const limit = tank?.limits.get(parameter.id);
    const series = ledger.readings[parameter.id];
    const last = (series?.length ?? 0) - 1;
    const read =
      series === undefined || last < 0
        ? ""
        : `last ${readingSpan(checked.book, parameter, series.first[last]!, series.second[last]!)} on ${spokenDay(series.time[last]!)}`;
    const said = [limit === undefined ? "" : limitText(checked.book, limit), read].filter(
      (each) => each !== "",
    );
    return { text: word + symbol, doc: [parameter.title, ...said].join(", ") };
  });
  parts.push({ text: '["text"]', doc: "What is worth saying, at the end of the row." });
  const written = pieces.count - 1 - target - (isTouching ? 1 : 0);
  const isText =
    isTouching &&
    (pieces.kind[pieces.count - 1] === Piece.text || pieces.kind[pieces.count - 1] === Piece.openText);
  const active = written < 0 ? undefined : isText ? parts.length - 1 : Math.min(written, parts.length - 1);
  return help(
    name === "" ? "tank" : name,
    parts,
    "One cell a head; `-` is not measured, `<5` below the lowest step.",
    active,
  );
}

const rangeOf = (pieces: Pieces): number[] => Array.from({ length: pieces.count }, (_, at) => at);
