import { isoOf } from "../book/dates.ts";
import { Kind, kindOf } from "../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import { parameters } from "../book/parameters.ts";
import { type Block, rowOfId } from "../book/source.ts";
import type { Place } from "../book/stations.ts";
import type { Moment } from "./observer.ts";

/** Why a figure is what it is: the entries and the formula behind it, as a tree. */
export interface Why {
  /** What it is: `nitrate now`, `change of 3 March`. */
  readonly what: string;
  /** Its value with its unit; empty where there is none. */
  readonly value: string;
  /** The formula, with its letters named. */
  readonly formula?: string;
  /** Author, year, title of what the formula is from. */
  readonly source?: string;
  readonly place?: Place;
  readonly from: readonly Why[];
}

/** The entry of a row as a leaf of the tree: its own words and its place. Only its line is looked at: a tree may name many. */
export function whyEntry({ block, row: id }: Pick<Moment, "block" | "row">): Why {
  const row = rowOfId(block, id);
  const place = placeOfRow(block, id);
  if (place === undefined) return { what: "an entry that is gone", value: "", from: [] };
  return { what: `${isoOf(block.day)} ${wordsOf(block, row, place)}`, value: "", place, from: [] };
}

/** The entry of a row in its own words. */
export function entryWords({ block, row: id }: Pick<Moment, "block" | "row">): string {
  const place = placeOfRow(block, id);
  return place === undefined ? "an entry that is gone" : wordsOf(block, rowOfId(block, id), place);
}

/** An entry in its own words; of a list, or of a row of a sheet, with the one item that is meant. */
function wordsOf({ text, facts }: Block, row: number, { start, end }: Place): string {
  let line = start;
  while (line > 0 && !/[\r\n]/.test(text[line - 1]!)) line--;
  const spaced = (words: string): string => words.replace(/\s+/g, " ").trim();
  const before = text.slice(line, start);
  // Nothing but a time of day stands before an entry that is all of its line.
  if (/^\s*(?:\d{1,2}:\d{2}\s+)?$/.test(before)) return spaced(text.slice(line, end));
  const item = text.slice(start, end);
  const [, target = "", second = ""] =
    /^\s*((?:\d{1,2}:\d{2}\s+)?\S+)\s+(\S+)/.exec(text.slice(line, end)) ?? [];
  const kind = kindOfRow(facts, row);
  if (second === kindOf(kind).word) return spaced(`${target} ${second} ${item}`);
  const subject = facts.ints[row * intsPerRow + Col.subject]!;
  const head = kind === Kind.test ? (parameters[subject]?.name ?? "") : wordOf(subject);
  return spaced(`${target} ${head} ${item}`);
}

/** A statement in a definition as a leaf. */
export function whyStated(place: Place): Why {
  const words = place.block.text.slice(place.start, place.end).replace(/\s+/g, " ");
  return { what: `stated: ${words}`, value: "", place, from: [] };
}

/** The place of a row; undefined if an edit took it away. */
export function placeOfRow(block: Block, id: number): Place | undefined {
  const row = rowOfId(block, id);
  if (row < 0) return undefined;
  const { ints } = block.facts;
  return { block, start: ints[row * intsPerRow + Col.start]!, end: ints[row * intsPerRow + Col.end]! };
}
