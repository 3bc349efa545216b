import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { hover } from "../../language/features/hover.ts";
import { lightCard } from "../../language/features/light-card.ts";
import type { LightCard } from "../../language/features/light-cards.ts";
import { lightChangeLines } from "../../language/features/light-words.ts";
import { periodCard } from "../../language/features/period-card.ts";
import { periodReport } from "../../language/features/period-report.ts";
import { tankCard } from "../../language/features/tank-card.ts";
import { lightChanges } from "../../language/room/light-changes.ts";
import { cellarView } from "../support/cellar.ts";
import { atCursor } from "../support/cursor.ts";
import { Room } from "../support/room.ts";

const day = (at: number): string => isoOf(dayOf("2026-03-01") + at);
const weekly = (from: number, count: number, line: (at: number) => string): string =>
  Array.from({ length: count }, (_, at) => `${day(from + 7 * at)}\n${line(at)}\n`).join("");
const of = (values: readonly (number | string)[], at: number) => values[at % values.length]!;

/** Two tanks on one sump; over one of them the light was cut short on day 44. */
const definitions = `room "Attic"
  units temperature F
system s
  sump 20 L
tank dam
  volume 100 L; system s
tank sister
  volume 80 L; system s
species horn
  kind snail
remedy iron-food "Plant food"
food flake
`;
const before = weekly(
  3,
  6,
  (at) => `  dam algae thread ${of([3, 3, 2, 3], at)}
  sister algae thread ${of([2, 1], at)}
  dam test nitrate ${of(["<5", 12, "<5"], at)} mg/L, temperature ${of([76.1, 75.2], at)} F
  dam trim stems ${100 + 10 * at} g
  dam change 30 %
  dam feed flake 1 pinch`,
);
const after = weekly(
  53,
  6,
  (at) => `  dam algae thread ${of([1, 0, 1, 2], at)}
  sister algae thread ${of([1, 2], at)}
  dam test nitrate ${of([14, 16, 15], at)} mg/L, temperature ${of([79.7, 78.8], at)} F
  dam trim stems ${50 + 5 * at} g
  dam dose iron-food 2 mg/L`,
);
const log = `${definitions}${day(0)}
  dam light 9 h at 70 %
${before}${day(44)}
  dam light 7 h at 60 % "thread algae"
${day(46)}
  dam arrive horn 5
${after}`;

const cardOf = (text: string, tank: string, today: number): LightCard | null => {
  const room = new Room(text, day(today));
  return lightCard(room.checked.logbook, room.tank(tank), room.today);
};
const linesOf = (card: LightCard | null, today: number): string[] =>
  card!.changes.flatMap((change) => lightChangeLines(change, dayOf(day(today))));

describe("the light of a tank", () => {
  it("is told as it is set, in hours at full power where every entry says both", () => {
    const card = cardOf(log, "dam", 100)!;
    expect([card.text, isoOf(card.since!), card.unit]).toEqual(["7 h at 60 %", day(44), "h at full power"]);
    expect(card.course.map(({ time, value }) => `${isoOf(time)} ${value.toFixed(2)}`)).toEqual([
      `${day(0)} 6.30`,
      `${day(44)} 6.30`,
      `${day(44)} 4.20`,
      `${day(101)} 4.20`,
    ]);
    const hoursOnly = cardOf(
      `${definitions}${day(0)}\n  dam light 9 h\n${day(9)}\n  dam light 7 h at 60 %\n`,
      "dam",
      20,
    )!;
    expect([hoursOnly.unit, hoursOnly.course.at(-1)!.value]).toEqual(["h", 7]);
  });

  it("is nothing where nothing says anything of it, and of a system", () => {
    expect(cardOf(`${definitions}${day(0)}\n  dam change 30 %\n`, "dam", 9)).toBe(null);
    const room = new Room(log);
    const system = room.checked.book.stations.find(({ name }) => name === "s")!;
    expect(tankCard(room.checked, system, room.today).light).toBe(null);
    expect(tankCard(room.checked, room.tank("dam"), room.today).light).not.toBe(null);
  });

  it("ratings by sort, shares apart, and what grew from one trimming to the next", () => {
    const card = cardOf(
      `${definitions}${day(0)}
  dam algae thread 2
  dam algae thread 20 %
  dam algae film 1..2
  dam trim moss
${day(7)}
  dam trim moss 70 g
`,
      "dam",
      9,
    )!;
    expect(card.algae.map(({ title, ratings }) => [title, ratings.map(({ text }) => text)])).toEqual([
      ["film algae", ["1..2"]],
      ["thread algae", ["2"]],
      ["thread algae", ["20 %"]],
    ]);
    expect(card.trims.map(({ text, growthText }) => [text, growthText])).toEqual([
      ["moss, not weighed", ""],
      ["70 g moss", "70 g a week"],
    ]);
    expect([card.text, card.course, card.changes]).toEqual(["", [], []]);
  });
});

describe("before and after a change of light", () => {
  it("says what became of the algae, of growth and of what was tested, what else happened, and what it cannot tell", () => {
    expect(linesOf(cardOf(log, "dam", 100), 100)).toEqual([
      "14 April: light from 9 h at 70 % to 7 h at 60 %, 33 % less light a day",
      "42 days before (4 March to 14 April) and after (22 April to 2 June), 7 days between left out",
      "thread algae: 3 before (6), 1 after (6); lower: -2 (95 % interval -3 to -1); a rating after is above one before in 1.4 %",
      "growth: 130 g a week before (5), 65 g a week after (5); lower: -65 g a week (96 % interval -85 to -45)",
      "nitrate: <5 mg/L before (6), 15 mg/L after (6); higher: +9 to +14 mg/L (95 % interval +3 to +16)",
      "temperature: 75.7 F before (6), 79.3 F after (6); higher: +3.6 F (95 % interval +2.7 to +4.5)",
      "what else happened: came in: 5 horn (grazers), 16 April; dosed: iron-food, 0 times before, 6 after; water changed 15 % a week before, 0 % after; fed 1 time a week before, 0 after",
      "sister, of the same water, its light as it was: thread algae: 1.5 before (6), 1.5 after (6); not told apart: 0 (95 % interval -1 to +1); a rating after is above one before in 50 %",
    ]);
    const [change] = cardOf(log, "dam", 100)!.changes;
    expect(change!.isClosed).toBe(true);
    expect(change!.remark).toMatch(
      /^One tank before and after; the tank beside it, left as it was, was not chosen by lot: /,
    );
    expect(change!.remark).toContain("mostly gets better by itself");
    expect(change!.remark).toContain("4 things are compared");
    expect(change!.remark).not.toMatch(/\bsafe/i);
  });

  it("of `<5` to readings that are figures both ends hold: no figure is made of it", () => {
    const nitrate = cardOf(log, "dam", 100)!.changes[0]!.compared.find(({ what }) => what === "nitrate")!;
    expect(nitrate.shift).toEqual({ low: 9, high: 14 });
    expect([nitrate.before.low, nitrate.before.high, nitrate.before.text]).toEqual([0, 5, "<5 mg/L"]);
  });

  it("is open while the days after still run, and waits where they are too few", () => {
    expect(linesOf(cardOf(log, "dam", 80), 80).slice(0, 2)).toEqual([
      "14 April: light from 9 h at 70 % to 7 h at 60 %, 33 % less light a day",
      "29 days before (17 March to 14 April) and after (22 April to 20 May), 7 days between left out, so far; the figures may change yet",
    ]);
    expect(linesOf(cardOf(log, "dam", 60), 60)[1]).toBe(
      "nothing to compare: 9 days on each side so far, 14 are needed: from 5 May on",
    );
    expect(cardOf(log, "dam", 60)!.changes[0]!.remark).toBe("");
  });

  it("ends at the next change, and never holds one that came too soon", () => {
    const again = `${log}${day(60)}\n  dam light 6 h\n`;
    expect(linesOf(cardOf(again, "dam", 130), 130).filter((line) => line.includes("on each side"))).toEqual([
      "nothing to compare: 9 days on each side as the light was changed before, 14 are needed",
      "nothing to compare: 8 days on each side as the light was changed again, 14 are needed",
    ]);
  });

  it("a sister whose light changed too is none", () => {
    const both = log
      .replace(`${day(46)}\n`, `${day(46)}\n  sister light 5 h\n`)
      .replace(`${day(0)}\n`, `${day(0)}\n  sister light 8 h\n`);
    expect(cardOf(both, "dam", 100)!.changes[0]!.sisters).toEqual([]);
    expect(cardOf(both, "dam", 100)!.changes[0]!.remark).toContain(
      "with none beside it that was left as it was",
    );
  });
});

describe("at the cursor", () => {
  const told = (from: string, to: string, today = 100): string => {
    const { view, offset } = atCursor(log.replace(from, to), day(today));
    return (hover(view, offset)?.markdown ?? "").replace(/\\([!-/:-@[-`{-~])/g, "$1");
  };

  it("a change of light says what came of it, the first entry that there is nothing before it", () => {
    expect(told("light 7 h", "light ¦7 h")).toContain("thread algae: 3 before (6), 1 after (6); lower: -2");
    expect(told("light 9 h", "light ¦9 h")).toContain(
      "How the light was when this was written, 9 h at 70 %: nothing before it to compare with.",
    );
  });

  it("a rating says what it means, and what was rated before", () => {
    const text = told("  dam algae thread 0", "  dam algae thread ¦0");
    expect(text).toContain("**0**");
    expect(text).toContain("0: none to be found, 0 % of the surface");
    expect(text).toContain(
      "thread algae before: 2 on 18 March, 3 on 25 March, 3 on 1 April, 3 on 8 April, 1 on 23 April",
    );
    expect(text).toContain("thread algae: 3 before (6), 1 after (6)");
  });

  it("a trimming says what grew since the one before", () => {
    expect(told("trim stems 110 g", "trim stems ¦110 g")).toContain(
      "Grown: 110 g a week since the trimming of 4 March, if as much was left standing.",
    );
    expect(told("trim stems 100 g", "trim stems ¦100 g")).toContain("What grew cannot be told");
  });

  it("a planting is held against what was before it, and says nothing of days to come", () => {
    const planted = log.replace("  dam arrive horn 5", "  dam arrive horn 5\n  dam pl¦ant fern 3");
    const { view, offset } = atCursor(planted, day(100));
    const text = hover(view, offset)!.markdown.replace(/\\([!-/:-@[-`{-~])/g, "$1");
    expect(text).toContain("Before and after this planting");
    expect(text).toContain("nothing to compare: 0 days on each side as the light was changed before");
    const early = atCursor(planted, day(20));
    expect(hover(early.view, early.offset)!.markdown).not.toContain("Before and after");
  });
});

describe("in a report", () => {
  const reported = (from: number, to: number): string[] => {
    const room = new Room(log, day(120));
    const card = periodCard(room.checked, { from: dayOf(day(from)), to: dayOf(day(to)) }, room.today);
    const section = periodReport([{ title: "Attic", card }]).sections.find(({ title }) =>
      title.startsWith("Light"),
    );
    return (section?.parts ?? []).flatMap((part) =>
      part.is === "text" ? [part.text] : part.is === "list" ? part.items.map(({ text }) => text) : [],
    );
  };

  it("a change is told once, in the time in which its days after were over", () => {
    expect(reported(90, 96)[0]).toBe(
      "dam, 14 April: light from 9 h at 70 % to 7 h at 60 %, 33 % less light a day",
    );
    expect(reported(90, 96).at(-1)).toMatch(/^One tank before and after/);
    expect(reported(83, 89)).toEqual([]);
    expect(reported(97, 103)).toEqual([]);
  });
});

describe("in the sample room", () => {
  const { checked, worldDay } = cellarView("room.tank");
  const today = checked.logbook.today(worldDay);

  it("each change of light has a card, with a remark wherever a difference is told", () => {
    let told = 0;
    for (const tank of checked.book.tanks) {
      const card = lightCard(checked.logbook, tank, today);
      expect(card?.changes.length ?? 0).toBe(
        lightChanges(checked.logbook, tank, today).filter(({ row }) => row.day > today - 365).length,
      );
      for (const { compared, remark } of card?.changes ?? []) {
        const shifts = compared.filter(({ shift }) => shift !== null).length;
        expect(remark === "").toBe(shifts === 0);
        told += shifts;
      }
    }
    expect(told).toBeGreaterThan(5);
  });
});
