import { spokenDay } from "../book/dates.ts";
import { definitionKinds } from "../book/definitions/registry.ts";
import { type DayLine, linesOf, placeOfSlot } from "../book/entry.ts";
import type { EntryKind } from "../book/kind.ts";
import { unquote } from "../book/reading.ts";
import type { Block, Source } from "../book/source.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { casesUntil } from "../room/cases.ts";
import type { DefinitionWord } from "../syntax/blocks.ts";
import { type Location, locationOf, type Span } from "./view.ts";

/** The outline of a file, and names to go to over all files. */

export type SymbolSort =
  | DefinitionWord
  | "day"
  | "property"
  | "sheet"
  | "row"
  | "case"
  /** An entry, by what sort of thing it is. */
  | EntryKind["sort"];

export interface OutlineSymbol extends Span {
  readonly name: string;
  /** Beside the name, less loud. */
  readonly detail: string;
  readonly sort: SymbolSort;
  /** The part that names it, within its span. */
  readonly place: Span;
  readonly children: readonly OutlineSymbol[];
}

/** More than this in a file and the outline has its days and definitions only: an outline of everything is none. */
const mostSymbols = 5000;

/** The days and definitions of a file, with their entries and properties. */
export function documentSymbols(source: Source): OutlineSymbol[] {
  const lines = source.blocks.reduce((sum, block) => sum + block.facts.count, 0);
  return source.blocks.flatMap((block) => symbolOf(block, lines <= mostSymbols) ?? []);
}

function symbolOf(block: Block, isWhole: boolean): OutlineSymbol | undefined {
  const { start, text, definition } = block;
  // What is empty below a block is between blocks.
  const span = { start, end: start + text.trimEnd().length };
  if (definition !== undefined) {
    const { word, name, title, nameStart, nameEnd } = definition;
    return {
      ...span,
      name: word === "room" ? title || "room" : name || word,
      detail: word === "room" ? "room" : title === "" ? word : `${word}, ${title}`,
      sort: word,
      place: { start: start + nameStart, end: start + nameEnd },
      children: !isWhole
        ? []
        : definition.properties.map((property) => {
            const words = text.slice(property.start, property.end).replace(/\s+/g, " ");
            const at = { start: start + property.start, end: start + property.end };
            return {
              ...at,
              name: property.word,
              detail: words.slice(property.word.length).trim(),
              sort: "property" as const,
              place: at,
              children: [],
            };
          }),
    };
  }
  if (block.kind !== "day") return undefined;
  const head = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const said = /^[ \t]*("(?:[^"\\\r\n]|\\.)*")/.exec(text.slice(head + 10));
  return {
    ...span,
    name: text.slice(head, head + 10),
    detail: said === null ? "" : unquote(said[1]!),
    sort: "day",
    place: { start: start + head, end: start + head + 10 },
    children: isWhole ? linesIn(block) : [],
  };
}

/** The entries of a day; the rows of a sheet below it. */
function linesIn(block: Block): OutlineSymbol[] {
  const made: (OutlineSymbol & { children: OutlineSymbol[] })[] = [];
  for (const line of linesOf(block)) {
    const symbol = { ...lineSymbol(block, line), children: [] };
    const last = made.at(-1);
    if (line.is === "row" && last?.sort === "sheet") {
      last.children.push(symbol);
      made[made.length - 1] = { ...last, end: symbol.end };
    } else made.push(symbol);
  }
  return made;
}

function lineSymbol(block: Block, line: DayLine): Omit<OutlineSymbol, "children"> {
  const { start } = block;
  const words = (from: number): string => block.text.slice(from, line.end).replace(/\s+/g, " ").trim();
  const span = { start: start + line.start, end: start + line.end };
  if (line.is === "sheet") {
    const { word } = line;
    return {
      ...span,
      name: "sheet",
      detail: line.columns.map((column) => column.word).join(", "),
      sort: "sheet",
      place: { start: start + word.start, end: start + word.end },
    };
  }
  const { target } = line;
  const place = target === undefined ? span : { start: start + target.start, end: start + target.end };
  if (line.is === "row") {
    return {
      ...span,
      name: words(target?.start ?? line.start).split(" ", 1)[0]!,
      detail: words(target?.end ?? line.start),
      sort: "row",
      place,
    };
  }
  const shown = target === undefined ? "" : block.text.slice(target.start, target.end);
  const name = `${shown} ${line.kindWord?.text ?? ""}`.trim();
  return {
    ...span,
    name: name === "" ? words(line.start) : name,
    detail: words(line.kindWord?.end ?? line.end),
    sort: line.kind?.sort ?? "prose",
    place,
  };
}

export interface WorkspaceSymbol {
  readonly name: string;
  /** Its title, or what it is part of. */
  readonly detail: string;
  readonly sort: SymbolSort;
  readonly place: Location;
}

const mostFound = 200;

/** Names, titles, cases and days that have the letters of a query in order; those that begin with it first. */
export function workspaceSymbols(checked: CheckedLogbook, query: string): WorkspaceSymbol[] {
  const wanted = query.trim().toLowerCase();
  const found: { symbol: WorkspaceSymbol; rank: number }[] = [];
  const consider = (symbol: WorkspaceSymbol): void => {
    const rank = Math.min(rankOf(symbol.name, wanted), rankOf(symbol.detail, wanted) + 1);
    if (Number.isFinite(rank)) found.push({ symbol, rank });
  };
  const { book, logbook } = checked;
  for (const { definition, place } of book.names.values()) {
    const { name, title, word } = definition;
    consider({
      name,
      detail: title === "" ? definitionKinds[word].title : title,
      sort: word,
      place: locationOf(place),
    });
  }
  if (book.roomPlace !== undefined)
    consider({ name: "room", detail: book.title, sort: "room", place: locationOf(book.roomPlace) });
  for (const symbol of cases(checked)) consider(symbol);
  // Every day of a log would bury the names: days are for who asks for them.
  if (/^\d/.test(wanted)) {
    for (const { blocks } of logbook.dayGroups)
      for (const block of blocks) {
        const day = symbolOf(block, false)!;
        consider({ ...day, place: { path: block.file.path, ...day.place } });
      }
  }
  return found
    .sort((a, b) => a.rank - b.rank || (a.symbol.name < b.symbol.name ? -1 : 1))
    .slice(0, mostFound)
    .map((each) => each.symbol);
}

/** The cases of a log, where each is opened. */
function cases({ logbook }: CheckedLogbook): WorkspaceSymbol[] {
  const seen = new Map<string, WorkspaceSymbol>();
  for (const { name, entries, closed, since } of casesUntil(logbook, Number.POSITIVE_INFINITY)) {
    const [first] = entries;
    if (name === "" || first === undefined) continue;
    const place =
      seen.get(name)?.place ??
      locationOf({ block: first.block, ...placeOfSlot(first.block, first.row, "case") });
    const state = Number.isNaN(closed) ? `open since ${spokenDay(since)}` : `closed ${spokenDay(closed)}`;
    seen.set(name, { name, detail: `case, ${state}`, sort: "case", place });
  }
  return [...seen.values()];
}

/** 0 if a text begins with what is wanted, 2 if it holds it, 4 if it holds its letters in order; else Infinity. */
function rankOf(text: string, wanted: string): number {
  const lower = text.toLowerCase();
  if (lower.startsWith(wanted)) return 0;
  if (lower.includes(wanted)) return 2;
  let at = 0;
  for (const letter of wanted) {
    at = lower.indexOf(letter, at) + 1;
    if (at === 0) return Number.POSITIVE_INFINITY;
  }
  return 4;
}
