import type { Book } from "../../book/book.ts";
import { findParameter } from "../../book/parameters.ts";
import type { LogText } from "../match-lines.ts";
import { type Change, changesOf } from "./changes.ts";
import type { Part } from "./parts.ts";

/** One step back in the history of a line, of a tank, of a value. */

/** Where a line begins, in front of what it says. */
export interface Spot {
  readonly path: string;
  readonly start: number;
}

export interface Step {
  /** What became of it; undefined where it says what it said. */
  readonly change: Change | undefined;
  /** Where it stood before; undefined where it was not there. */
  readonly earlier: Spot | undefined;
}

/** Where a line of one state stood in the state before, and what was changed of it. Files that are the same need not be given. */
export function stepBack(before: readonly LogText[], after: readonly LogText[], spot: Spot): Step {
  const change = changesOf(before, after).list.find(
    ({ after: side }) =>
      side !== undefined && side.path === spot.path && side.start <= spot.start && spot.start <= side.end,
  );
  if (change !== undefined) {
    const side = change.before;
    return { change, earlier: side === undefined ? undefined : { path: side.path, start: side.start } };
  }
  const earlier = changesOf(after, before).lines.now(spot.path, spot.start);
  return { change: undefined, earlier };
}

/** Tells the changes that name a tank, system, gear or definition: by itself, by a group that holds it, as where animals went. */
export function naming(name: string, book: Book): (change: Change) => boolean {
  const groups = new Set(
    [...book.groups].flatMap(([group, { tanks }]) =>
      tanks.some((tank) => tank.name === name) ? [`@${group}`] : [],
    ),
  );
  const word = new RegExp(`(?<![\\p{L}\\p{N}_-])${escaped(name)}(?![\\p{L}\\p{N}_-])`, "u");
  return ({ station, definition, before, after }) =>
    station === name ||
    groups.has(station) ||
    definition.split(" ")[1] === name ||
    (definition === "" && [before, after].some((side) => side !== undefined && word.test(bare(side.text))));
}

/** Without what is in quotes: a note may name anything. */
const bare = (text: string): string => text.replace(/"(?:[^"\\]|\\.)*"?/g, "");
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** Tells the changes by which a value became another: `pH`, `volume`, `cherry`. What is only new is none, but of a definition. */
export function ofValue(value: string): (change: Change) => boolean {
  const isMeant = sameValue(value);
  return ({ parts, what, is, word, before, after }) => {
    if (parts.some((part) => isMeant(part.about) || (part.about === "" && saysValue(part, isMeant))))
      return true;
    if (parts.length === 1 && parts[0]!.about === "" && isMeant(word)) return true;
    const facts = (after ?? before)?.facts ?? [];
    return (
      what === "property" &&
      (is === "added" || is === "removed") &&
      (isMeant(word) || facts.some(({ about }) => isMeant(about)))
    );
  };
}

const saysValue = ({ before, after }: Part, isMeant: (about: string) => boolean): boolean =>
  [before, after].some((text) => text?.split(" ").some(isMeant));

/** By any spelling of a parameter; of `limits nitrate` and `nitrate (mg/L N)` by the word inside. */
function sameValue(value: string): (about: string) => boolean {
  const spelt = (word: string): string => (findParameter(word)?.name ?? word).toLowerCase();
  const wanted = spelt(value);
  return (about) =>
    about.toLowerCase() === value.toLowerCase() ||
    about.split(" ").some((word) => word !== "" && spelt(word) === wanted);
}
