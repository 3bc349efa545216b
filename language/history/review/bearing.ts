import type { Book } from "../../book/book.ts";
import { nameOf } from "../../book/interner.ts";
import type { Change } from "./changes.ts";
import type { Consequence } from "./consequence.ts";

/**
 * Which changes a consequence may follow from, the nearest first: its own line, what names its tank and what it is about, what names its
 * tank, what names another place of its water, definitions that reach every water. More is not claimed: of several in one water any may be the one.
 */
export function bearing(
  changes: readonly Change[],
  before: Book,
  after: Book,
): (consequence: Consequence) => { readonly by: readonly number[]; readonly near: number } {
  const places = placesIn(before, after);
  const byName = new Map<string, number[]>();
  const byWater = new Map<string, number[]>();
  const byPath = new Map<string, number[]>();
  const everywhere: number[] = [];
  const words = wordsIn(changes);
  const saysAny = (at: number, terms: readonly string[]): boolean =>
    terms.some((term) => term !== "" && words(at).has(term));
  const push = (map: Map<string, number[]>, key: string, at: number): void => {
    const known = map.get(key);
    if (known === undefined) map.set(key, [at]);
    else known.push(at);
  };
  changes.forEach((change, at) => {
    for (const side of [change.before, change.after]) if (side !== undefined) push(byPath, side.path, at);
    const reached = namesIn(change, places);
    if (reached === undefined) everywhere.push(at);
    else {
      for (const name of reached) push(byName, name, at);
      for (const water of new Set([...reached].map((name) => places.waterOf.get(name) ?? name)))
        push(byWater, water, at);
    }
  });

  return ({ of, from, is, side, terms, reach }) => {
    // What a changed line itself says comes from that line.
    const own = from.flatMap((place) =>
      (byPath.get(place.path) ?? []).filter((at) => {
        const spot = side === "after" ? changes[at]!.after : changes[at]!.before;
        return spot?.path === place.path && place.start <= spot.end && place.end >= spot.start;
      }),
    );
    if (is === "finding" && own.length > 0) return all(own);
    // What is of all the room follows from what names it, wherever that stands.
    if (of === "room") return all([...own, ...changes.flatMap((_, at) => (saysAny(at, terms) ? [at] : []))]);
    const names = places.tanksOf.get(of.replace(/^@/, "")) ?? [of.replace(/^@/, "")];
    const named = names.flatMap((name) => byName.get(name) ?? []);
    const about = named.filter((at) => saysAny(at, terms));
    const near =
      reach === "water" ? names.flatMap((name) => byWater.get(places.waterOf.get(name) ?? name) ?? []) : [];
    // Of animals and duties nothing reaches further than what says so.
    if (reach === "station" && about.length > 0) return all([...own, ...about]);
    const found = [...new Set([...own, ...about, ...named, ...near, ...everywhere])];
    return { by: found, near: new Set([...own, ...about]).size };
  };
}

const all = (of: readonly number[]): { by: readonly number[]; near: number } => {
  const by = [...new Set(of)];
  return { by, near: by.length };
};

/** The words of each change, taken apart once. */
function wordsIn(changes: readonly Change[]): (at: number) => ReadonlySet<string> {
  const known: (ReadonlySet<string> | undefined)[] = [];
  return (at) => {
    known[at] ??= new Set(
      [changes[at]!.before, changes[at]!.after].flatMap((side) => [...wordsOf(side?.text ?? "")]),
    );
    return known[at]!;
  };
}

const wordsOf = (text: string): Set<string> =>
  new Set([...text.matchAll(/\p{L}[\p{L}\p{N}_-]*/gu)].map(([word]) => word));

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
  for (const side of [before, after]) {
    if (side === undefined) continue;
    add(side.station.replace(/^@/, ""));
    for (const written of wordsOf(side.text)) add(written);
  }
  return named.size === 0 ? new Set([definition === "" ? station.replace(/^@/, "") : name]) : named;
}
