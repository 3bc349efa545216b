import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { nodesOf } from "../../language/room/contact-nodes.ts";
import { contactSteps } from "../../language/room/contacts.ts";
import { earliest, reachedFrom, type Seed, sourcesOf, type Way } from "../../language/room/exposure.ts";
import type { Logbook } from "../../language/room/logbook.ts";
import { logbookOf } from "../support/marked.ts";

/**
 * What the search finds against every path there is: random logs, read once by the tool, and once by the few lines below, which know
 * neither its steps nor its search.
 */

const room = `species praecox
system sump-water
  sump 20 L
tank a
  volume 100 L
tank b
  volume 60 L
tank c
  volume 60 L
tank s
  volume 20 L
  system sump-water
tank t
  volume 20 L
  system sump-water
group some = a, s
`;
const waterOf: Readonly<Record<string, string>> = {
  a: "a",
  b: "b",
  c: "c",
  s: "sump-water",
  t: "sump-water",
};
const tanksOf = (target: string): string[] => (target === "@some" ? ["a", "s"] : [target]);

/** An entry of the random log. */
interface Entry {
  readonly kind:
    | "move"
    | "carry"
    | "plant"
    | "from"
    | "barrel"
    | "clean"
    | "refill"
    | "arrive"
    | "sell"
    | "clear";
  readonly target: string;
  readonly other: string;
  readonly tool: string;
  readonly word: string;
  readonly day: number;
  readonly minute: number;
  readonly file: number;
}

/** Few, so that they meet. */
const tank = fc.constantFrom("a", "a", "a", "b", "b", "b", "c", "s", "s", "t");
const entry: fc.Arbitrary<Entry> = fc.record({
  kind: fc.constantFrom(
    "move",
    "carry",
    "plant",
    "from",
    "barrel",
    "clean",
    "clean",
    "plant",
    "refill",
    "refill",
    "arrive",
    "sell",
    "clear",
    "clear",
  ),
  target: fc.oneof({ weight: 4, arbitrary: tank }, { weight: 1, arbitrary: fc.constant("@some") }),
  other: tank,
  tool: fc.constantFrom("", "", "net", "hose"),
  word: fc.constantFrom("x", "y"),
  day: fc.integer({ min: 0, max: 3 }),
  minute: fc.constantFrom(0, 480, 540),
  file: fc.integer({ min: 0, max: 1 }),
});

/** A disinfection of what was emptied of animals, or was not. */
function clearOf(target: string, other: string): string[] {
  const tanks = target === "sump-water" ? ["s", "t"] : [target];
  return [
    ...tanks.map((name) => `${name} count praecox ${isOccupied(other) ? 3 : 0}`),
    `${target} disinfect`,
  ];
}
const isOccupied = (other: string): boolean => other === "c";

/** The lines of an entry; those of a refill, and of a disinfection, are written one below the other. */
function linesOf({ kind, target, other, tool, word, minute }: Entry): string[] {
  const used = tool === "" ? "" : ` with ${tool}`;
  const words: Record<Entry["kind"], string[]> = {
    move: [`${target} move praecox 1 -> ${other}${used}`],
    carry: [`${target} carry ${word === "x" ? "wood" : "water"} -> ${other}`],
    plant: [`${target} plant fern 1 from ${other}`],
    from: [`${target} change 10 % from ${other}${used}`],
    barrel: [`${target} change 10 % barrel ${word}${used}`],
    clean: [`${target} clean gravel with ${tool || "net"}`],
    refill: [`${target} count praecox ${word === "x" ? 0 : 3}`, `${target} change 100 %${used}`],
    arrive: [`${target} arrive praecox 1 from "${word}"`],
    sell: [`${target} sell praecox 1 to "${word}"`],
    clear: tool === "" ? clearOf(word === "x" ? target : "sump-water", other) : [`room disinfect ${tool}`],
  };
  const clock = `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
  return words[kind].map((line) => `  ${clock} ${line}`);
}

const firstDay = dayOf("2026-03-01");

function logOf(entries: readonly Entry[]): string {
  const file = (at: number): string =>
    [0, 1, 2, 3]
      .map((day) => {
        const lines = entries.filter((each) => each.file === at && each.day === day).flatMap(linesOf);
        return lines.length === 0 ? "" : `2026-03-0${day + 1}\n${lines.join("\n")}\n`;
      })
      .join("");
  return `--- a.tank ---\n${room}--- b.tank ---\n${file(0)}--- c.tank ---\n${file(1)}`;
}

/** What happened, in order: something went, or something ended. */
type Event =
  | { readonly time: number; readonly from: string; readonly to: string; readonly sticks: boolean }
  | { readonly time: number; readonly ends: string; readonly all: boolean };

function eventsOf(entries: readonly Entry[]): Event[] {
  const inOrder = entries
    .map((each, at) => ({ each, at }))
    .sort(
      (p, q) =>
        p.each.day - q.each.day || p.each.minute - q.each.minute || p.each.file - q.each.file || p.at - q.at,
    );
  return inOrder.flatMap(({ each }) => {
    const time = firstDay + each.day + each.minute / 1440;
    const went = (from: string, to: string, sticks = false): Event[] =>
      from === to ? [] : [{ time, from, to, sticks }];
    const used = (tool: string, water: string): Event[] =>
      tool === "" ? [] : [...went(`tool ${tool}`, water), ...went(water, `tool ${tool}`)];
    const { kind, other, tool, word, target } = each;
    const into = waterOf[other]!;
    if (kind === "clear") {
      if (tool !== "") return [{ time, ends: `tool ${tool}`, all: true }];
      if (isOccupied(other)) return [];
      if (word === "y") return [{ time, ends: "sump-water", all: true }];
      return tanksOf(target).flatMap((name) =>
        waterOf[name] === "sump-water" ? [] : [{ time, ends: waterOf[name]!, all: true }],
      );
    }
    return tanksOf(target).flatMap((name): Event[] => {
      const water = waterOf[name]!;
      switch (kind) {
        case "move":
          return name === other ? [] : [...used(tool, water), ...went(water, into), ...used(tool, into)];
        case "carry":
          return name === other ? [] : went(water, into, word === "x");
        case "plant":
          return went(into, water, true);
        case "from":
          return [...went(into, water), ...used(tool, water)];
        case "barrel":
          return [...went(`barrel ${word}`, water), ...used(tool, water)];
        case "clean":
          return used(tool || "net", water);
        case "refill": {
          if (water === "sump-water" || word === "y") return used(tool, water);
          const ended: Event = { time, ends: water, all: false };
          return [...used(tool, water), ended, ...(tool === "" ? [] : went(water, `tool ${tool}`))];
        }
        case "arrive":
          return [
            ...went(`party ${word}`, `came ${word} ${firstDay + each.day}`),
            ...went(`came ${word} ${firstDay + each.day}`, water),
          ];
        default:
          return went(water, `party ${word}`);
      }
    });
  });
}

interface Found {
  readonly time: number;
  readonly links: number;
}

/** Goes on by every path from a node that has it before an event. @param visit is told of each arrival, with the path's first departure */
function everyPath(
  events: readonly Event[],
  node: string,
  sticks: boolean,
  from: number,
  visit: (at: number, to: string, sticks: boolean, links: number) => void,
  links = 0,
): void {
  for (let at = from; at < events.length; at++) {
    const event = events[at]!;
    if ("ends" in event) {
      if (event.ends === node && (event.all || !sticks)) return;
    } else if (event.from === node) {
      visit(at, event.to, event.sticks, links + 1);
      everyPath(events, event.to, event.sticks, at + 1, visit, links + 1);
    }
  }
}

function firstBy(events: readonly Event[], seed: string, begin: number): Map<string, Found> {
  const found = new Map<string, Found>([[seed, { time: Number.NEGATIVE_INFINITY, links: 0 }]]);
  everyPath(events, seed, false, begin, (at, to, _, links) => {
    const { time } = events[at]!;
    const known = found.get(to);
    if (known === undefined || time < known.time || (time === known.time && links < known.links))
      found.set(to, { time, links });
  });
  return found;
}

/** Of each node its latest departure on a path to the seed, of which nothing ended what came before the log does. */
function lastBy(events: readonly Event[], seed: string): Map<string, Found> {
  const found = new Map<string, Found>();
  const isThere = (sticks: boolean, from: number): boolean =>
    !events.slice(from).some((event) => "ends" in event && event.ends === seed && (event.all || !sticks));
  for (const [at, event] of events.entries()) {
    if ("ends" in event) continue;
    const take = (links: number): void => {
      const known = found.get(event.from);
      const { time } = event;
      if (known === undefined || time > known.time || (time === known.time && links < known.links))
        found.set(event.from, { time, links });
    };
    if (event.to === seed && isThere(event.sticks, at + 1)) take(1);
    everyPath(events, event.to, event.sticks, at + 1, (next, to, sticks, links) => {
      if (to === seed && isThere(sticks, next + 1)) take(links + 1);
    });
  }
  return found;
}

function nameAt(logbook: Logbook, node: number): string {
  const at = nodesOf(logbook.book).at(node);
  switch (at.is) {
    case "water":
      return at.body.name;
    case "consignment":
      return `came ${at.supplier} ${at.day}`;
    default:
      return `${at.is} ${at.name}`;
  }
}

const told = (logbook: Logbook, ways: ReadonlyMap<number, Way>): Map<string, Found> =>
  new Map([...ways].map(([node, { time, links }]) => [nameAt(logbook, node), { time, links }]));

const bodyOf = (logbook: Logbook, name: string): number =>
  logbook.book.bodies.find((body) => body.name === name)!.id;

const inOrder = (found: ReadonlyMap<string, Found>): [string, Found][] =>
  [...found].sort(([p], [q]) => (p < q ? -1 : 1));

const waters = ["a", "b", "c", "sump-water"];
const runs = { numRuns: 600 };
const logs = fc.array(entry, { minLength: 4, maxLength: 10, size: "max" });

describe("what is found on random logs", () => {
  test("forward is what every path finds: which, since when at the earliest, by how few links", () => {
    fc.assert(
      fc.property(logs, fc.constantFrom(...waters), fc.integer({ min: 0, max: 3 }), (entries, from, day) => {
        const { logbook } = logbookOf(logOf(entries));
        const steps = contactSteps(logbook, firstDay + day, firstDay + 9);
        const seed: Seed = { node: bodyOf(logbook, from), at: 0, time: Number.NEGATIVE_INFINITY };
        const events = eventsOf(entries.filter((each) => each.day >= day));
        expect(inOrder(told(logbook, earliest(reachedFrom(steps, [seed]))))).toEqual(
          inOrder(firstBy(events, from, 0)),
        );
      }),
      runs,
    );
  });

  test("backward is what every path finds: which, until when at the latest, by how few links", () => {
    fc.assert(
      fc.property(logs, fc.constantFrom(...waters), fc.integer({ min: 0, max: 3 }), (entries, to, day) => {
        const { logbook } = logbookOf(logOf(entries));
        const steps = contactSteps(logbook, firstDay, firstDay + day);
        const seed: Seed = { node: bodyOf(logbook, to), at: steps.length, time: firstDay + day };
        const events = eventsOf(entries.filter((each) => each.day <= day));
        expect(inOrder(told(logbook, sourcesOf(steps, seed, 0)))).toEqual(inOrder(lastBy(events, to)));
      }),
      runs,
    );
  });

  test("forward and backward agree: what B may have had from A, A may have given to B", () => {
    fc.assert(
      fc.property(logs, (entries) => {
        const { logbook } = logbookOf(logOf(entries));
        const steps = contactSteps(logbook, firstDay, firstDay + 9);
        for (const to of waters) {
          const node = bodyOf(logbook, to);
          const back = sourcesOf(steps, { node, at: steps.length, time: firstDay + 9 }, 0);
          for (const from of waters) {
            if (from === to) continue;
            const origin = bodyOf(logbook, from);
            // Whenever A had it: at its latest departure it is passed on, and after that no more.
            const places = steps.flatMap((_, at) => {
              const { spells } = reachedFrom(steps, [{ node: origin, at, time: 0 }]);
              return spells.some((spell) => spell.node === node && spell.end < 0) ? [at] : [];
            });
            expect(steps[places.at(-1) ?? -1]?.time).toBe(back.get(origin)?.time);
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  test("of the closest links alone no more is found than of all, and no sooner", () => {
    fc.assert(
      fc.property(logs, fc.constantFrom(...waters), (entries, from) => {
        const { logbook } = logbookOf(logOf(entries));
        const steps = contactSteps(logbook, firstDay, firstDay + 9);
        const seed: Seed = { node: bodyOf(logbook, from), at: 0, time: firstDay };
        const all = earliest(reachedFrom(steps, [seed]));
        for (const rank of [0, 1, 2])
          for (const [node, way] of earliest(reachedFrom(steps, [seed], rank)))
            expect(way.time).toBeGreaterThanOrEqual(all.get(node)!.time);
      }),
      runs,
    );
  });
});
