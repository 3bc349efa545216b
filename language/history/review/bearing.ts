import type { Book } from "../../book/book.ts";
import { nameOf } from "../../book/interner.ts";
import type { Location } from "../../features/view.ts";
import { fill } from "../fill.ts";
import { Causes, Reach } from "./causes.ts";
import type { Change } from "./changes.ts";
import type { Consequence } from "./consequence.ts";

/**
 * Which changes a consequence may follow from, the nearest first: its own line, what names its tank and what it is about, what names its
 * tank, what names another place of its water, definitions that reach every water. More is not claimed: of several in one water any may be the one.
 */
export function bearing(
  changes: readonly Change[],
  consequences: readonly Consequence[],
  before: Book,
  after: Book,
): (consequence: Consequence) => Causes {
  const places = placesIn(before, after);
  const byName = new Map<string, number[]>();
  const byWater = new Map<string, number[]>();
  const byTerm = new Map<string, number[]>();
  const everywhere: number[] = [];
  const terms = new Set(consequences.flatMap((each) => each.terms));
  const push = (map: Map<string, number[]>, key: string, at: number): void => {
    const known = map.get(key);
    if (known === undefined) map.set(key, [at]);
    else if (known.at(-1) !== at) known.push(at);
  };
  changes.forEach((change, at) => {
    const words = [change.before, change.after].flatMap((side) => wordsOf(side?.text ?? ""));
    for (const word of words) if (terms.has(word)) push(byTerm, word, at);
    const reached = namesIn(change, words, places);
    if (reached === undefined) everywhere.push(at);
    else {
      for (const name of reached) push(byName, name, at);
      for (const name of reached) push(byWater, places.waterOf.get(name) ?? name, at);
    }
  });
  const ownOf = { before: linesOf(changes, "before"), after: linesOf(changes, "after") };
  const sayingAny = keptBy((asked: readonly string[]) => {
    const found = new Set(asked.flatMap((term) => (term === "" ? [] : (byTerm.get(term) ?? []))));
    return [...found].sort((a, b) => a - b);
  });
  const stationsOf = (of: string): readonly string[] =>
    places.tanksOf.get(of.replace(/^@/, "")) ?? [of.replace(/^@/, "")];
  const named = keptBy(([of]: readonly string[]) =>
    stationsOf(of!).flatMap((name) => byName.get(name) ?? []),
  );
  const aboutOf = keptBy(([of, ...asked]: readonly string[]) => {
    const saying = new Set(sayingAny(asked));
    return named([of!]).filter((at) => saying.has(at));
  });
  const reached = keptBy(([of, reach]: readonly string[]) => {
    const waters = stationsOf(of!).map((name) => places.waterOf.get(name) ?? name);
    const near = reach === "water" ? waters.flatMap((water) => byWater.get(water) ?? []) : [];
    return new Reach([...named([of!]), ...near, ...everywhere]);
  });

  return ({ of, from, is, side, terms, reach }) => {
    // What a changed line itself says comes from that line.
    const own = from.flatMap((place) => ownOf[side](place));
    if (is === "finding" && own.length > 0) return Causes.of(own);
    // What is of all the room follows from what names it, wherever that stands.
    if (of === "room") return Causes.of([...own, ...sayingAny(terms)]);
    const about = aboutOf([of, ...terms]);
    // Of animals and duties nothing reaches further than what says so.
    if (reach === "station" && about.length > 0) return Causes.of([...own, ...about]);
    return Causes.of([...own, ...about], reached([of, reach]));
  };
}

/** What is made of some words, made once. */
function keptBy<T>(make: (words: readonly string[]) => T): (words: readonly string[]) => T {
  const kept = new Map<string, T>();
  return (words) => {
    const key = words.join("\0");
    const known = kept.get(key) ?? make(words);
    kept.set(key, known);
    return known;
  };
}

/** The changes of the lines at a place. */
function linesOf(changes: readonly Change[], side: "before" | "after"): (place: Location) => number[] {
  const byPath = new Map<string, { readonly start: number; readonly end: number; readonly at: number }[]>();
  changes.forEach((change, at) => {
    const spot = change[side];
    if (spot !== undefined) fill(byPath, [{ start: spot.start, end: spot.end, at }], () => spot.path);
  });
  for (const spots of byPath.values()) spots.sort((a, b) => a.start - b.start);
  return ({ path, start, end }) => {
    const spots = byPath.get(path) ?? [];
    let [low, high] = [0, spots.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (spots[middle]!.end < start) low = middle + 1;
      else high = middle;
    }
    const found: number[] = [];
    for (let at = low; at < spots.length && spots[at]!.start <= end; at++) found.push(spots[at]!.at);
    return found.sort((a, b) => a - b);
  };
}

const wordsOf = (text: string): string[] => text.match(/\p{L}[\p{L}\p{N}_-]*/gu) ?? [];

interface Places {
  /** By the name of a station, or of a group, the stations that are meant. */
  readonly tanksOf: ReadonlyMap<string, readonly string[]>;
  /** By the name of a station what its water is called; of what has none itself. */
  readonly waterOf: ReadonlyMap<string, string>;
}

function placesIn(...books: readonly Book[]): Places {
  const tanksOf = new Map<string, string[]>();
  const waterOf = new Map<string, string>();
  const add = (name: string, meant: string): void => {
    const known = tanksOf.get(name);
    if (known === undefined) tanksOf.set(name, [meant]);
    else if (!known.includes(meant)) known.push(meant);
  };
  for (const book of books) {
    const bodyName = (body: number): string => {
      const { system, tanks } = book.bodies[body]!;
      return `water of ${system?.name ?? tanks[0]?.name ?? ""}`;
    };
    for (const { name, kind, body } of book.stations) {
      if (kind === "room") continue;
      add(name, name);
      if (body >= 0) waterOf.set(name, bodyName(body));
    }
    for (const { name, on } of book.gears) {
      const served = book.station(nameOf(on));
      if (served !== undefined && served.body >= 0) waterOf.set(name, bodyName(served.body));
    }
    for (const [name, { tanks }] of book.groups) for (const tank of tanks) add(name, tank.name);
  }
  return { tanksOf, waterOf };
}

const local = new Set(["tank", "system", "group", "gear", "order", "lot"]);

/** The stations that a change names; undefined for what may reach all of them. */
function namesIn(
  { definition, before, after, station }: Change,
  words: readonly string[],
  { tanksOf }: Places,
): Set<string> | undefined {
  const [word = "", name = ""] = definition.split(" ");
  if (definition !== "" && !local.has(word)) return undefined;
  if (definition === "" && station === "room") return new Set(["room"]);
  const named = new Set<string>();
  const add = (known: string): void => {
    for (const meant of tanksOf.get(known) ?? []) named.add(meant);
  };
  add(name);
  for (const side of [before, after]) if (side !== undefined) add(side.station.replace(/^@/, ""));
  for (const word of words) add(word);
  return named.size === 0 ? new Set([definition === "" ? station.replace(/^@/, "") : name]) : named;
}
