import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { caseNamed } from "../../language/room/case-book.ts";
import { countOf } from "../../language/room/case-count.ts";
import { ratesOf, rateText } from "../../language/room/case-rates.ts";
import { logbookOf } from "../support/marked.ts";

const tanks = `species praecox
species horn
tank q1
  volume 50 L
tank h1
  volume 20 L
  role hospital
tank b3
  volume 45 L
remedy prazi
  target 2 mg/L
`;

function look(days: string, on = "2026-12-31", name = "c-1") {
  const { logbook } = logbookOf(tanks + days);
  const day = dayOf(on);
  const story = caseNamed(logbook, name, day)!;
  const { count, rates, unknown } = ratesOf(logbook, story, day);
  const rate = (is: string) => {
    const found = rates.find((each) => each.is === is);
    return found === undefined ? "" : rateText(found);
  };
  return { story, count, unknown, rate };
}

describe("the rates of a case", () => {
  test("are those of the published example, 30 of 99 ill", () => {
    // CDC, Principles of Epidemiology, an outbreak of gastroenteritis: 30 / 99 x 100 = 30.3 %. The interval by hand, z = 1.96:
    // (0.30303 + 3.8416/198 +- 1.96 sqrt(0.30303 x 0.69697/99 + 3.8416/39204)) / (1 + 3.8416/99) = (0.32243 +- 0.09256) / 1.03880.
    const { rate } = look("2026-03-01\n  q1 sick praecox 30 of 99 case c-1\n");
    expect(rate("attack")).toBe("30 of 99, 30.3 % (22.1 to 40)");
  });

  test("have the interval of Newcombe 1998, table I: 1 of 29 is 0.0061 to 0.1718", () => {
    const { rate } = look("2026-03-01\n  q1 sick praecox 1 of 29 case c-1\n");
    expect(rate("attack")).toBe("1 of 29, 3.45 % (0.611 to 17.2)");
    expect(rate("fatality")).toBe("0 of 1, 0 % (0 to 79.3)");
  });

  test("count affected by what is stated as new, deaths by what died while it was open", () => {
    // New: 2, then 2, then 1: 5 of 14. Two of them died: 2/5 of those affected, 2/14 of those at risk.
    const { count, rate } = look(`2026-03-01
  q1 count praecox 14
  q1 sick praecox 2 of 14 new 2 case c-1
2026-03-03
  q1 lose praecox 1 found
  q1 sick praecox 3 of 13 new 2 case c-1
2026-03-05
  q1 lose praecox 1 euthanised
  q1 sick praecox 2 of 12 new 1 case c-1
`);
    expect(count).toMatchObject({ ever: 5, affected: 2, atRisk: 14, dead: 2, isLeast: false });
    expect(rate("attack")).toMatch(/^5 of 14, 35\.7 %/);
    expect(rate("fatality")).toMatch(/^2 of 5, 40 %/);
    expect(rate("mortality")).toMatch(/^2 of 14, 14\.3 %/);
    expect(rate("prevalence")).toMatch(/^2 of 12, 16\.7 %/);
    expect(
      count.days.map(({ day, fresh, dead, affected, present }) => [
        isoOf(day),
        fresh,
        dead,
        affected,
        present,
      ]),
    ).toEqual([
      ["2026-03-01", 2, 0, 2, 14],
      ["2026-03-03", 2, 1, 3, 13],
      ["2026-03-05", 1, 1, 2, 12],
    ]);
  });

  test("count the least that the counts force where new is not stated, and say so", () => {
    // 2 show signs, 1 dies (1 left), 3 show signs: 3 and the dead are 4. Then 1, then 2: nothing says that the second was well before.
    const { count, rate } = look(`2026-03-01
  q1 sick praecox 2 of 14 case c-1
2026-03-02
  q1 lose praecox 1
2026-03-03
  q1 sick praecox 3 of 13 case c-1
2026-03-06
  q1 sick praecox 1 of 13 case c-1
2026-03-08
  q1 sick praecox 2 of 13 case c-1
`);
    expect(count).toMatchObject({ ever: 4, isLeast: true, dead: 1 });
    expect(rate("attack")).toMatch(/^at least 4 of 14, /);
  });

  test("count a death without signs before as one that was affected", () => {
    const { count } = look(`2026-03-01
  q1 sick praecox 1 of 10 case c-1
2026-03-02
  q1 lose praecox 3 found
`);
    expect(count).toMatchObject({ ever: 3, dead: 3, affected: 0 });
  });

  test("leave out what was culled, is missing or jumped, unless the entry names the case", () => {
    const { count, story } = look(`2026-03-01
  q1 sick praecox 2 of 10 case c-1
2026-03-02
  q1 lose praecox 1 culled
  q1 lose praecox 1 jumped
  q1 lose praecox 1 missing
  q1 lose praecox 1 culled case c-1
  q1 lose horn 1 found
  b3 lose praecox 1 found
`);
    expect(count.dead).toBe(1);
    expect(story.deaths.map(({ how, isNamed }) => [how, isNamed])).toEqual([["culled", true]]);
  });

  test("know who was culled, sold or is missing from the book of the tank", () => {
    const { count } = look(`2026-02-01
  q1 arrive praecox 10
2026-03-01
  q1 sick praecox 3 of 10 case c-1
2026-03-02
  q1 lose praecox 2 culled
  q1 lose praecox 1 missing
  q1 move praecox 5 -> b3
`);
    expect(count.strands.map(({ affected, present, atRisk }) => [affected, present, atRisk])).toEqual([
      [2, 2, 10],
    ]);
  });

  test("take who is at risk from the book of the first day where no entry states it", () => {
    const { count, rate } = look(`2026-02-01
  q1 count praecox 12
2026-03-01
  08:00 q1 lose praecox 1 found
  q1 sick praecox 3 case c-1
2026-03-09
  q1 arrive praecox 20
`);
    // Of the day: 11 are left, and the one that died on it was at risk. It is of the case, and was affected.
    expect(count).toMatchObject({ atRisk: 12, atRiskBy: "book", dead: 1, ever: 4 });
    expect(rate("attack")).toMatch(/^4 of 12, 33\.3 %/);
  });

  test("are not made up where nobody knows of how many, or more are affected than there are", () => {
    const none = look("2026-03-01\n  q1 sick praecox 3 case c-1\n");
    expect([none.rate("attack"), none.unknown]).toEqual([
      "",
      "not said of how many, and the book knows nothing of the species there",
    ]);
    expect(none.rate("fatality")).toMatch(/^0 of 3/);
    const more = look("2026-03-01\n  q1 sick praecox 5 of 3 case c-1\n");
    expect([more.rate("attack"), more.unknown]).toEqual([
      "",
      "5 were affected of 3 at risk: one of the two is wrong",
    ]);
  });

  test("know that signs without a number are of one at least", () => {
    const { count } = look('2026-03-01\n  q1 sick praecox signs "flashing" case c-1\n');
    expect(count).toMatchObject({ ever: 1, isLeast: true });
  });

  test("follow the sick into a hospital tank and count them once", () => {
    const { count, story } = look(`2026-03-01
  q1 count praecox 14
  q1 sick praecox 3 of 14 case c-1
  q1 move praecox 3 -> h1
2026-03-02
  h1 sick praecox 3 of 3 case c-1
  h1 lose praecox 1 found
2026-03-04
  q1 sick praecox 1 of 11 case c-1
  h1 lose praecox 1 found
  h1 dose prazi 40 mg
`);
    expect(story.homes.map(({ tank, from }) => `${tank.name} ${isoOf(from)}`)).toEqual([
      "q1 2026-03-01",
      "h1 2026-03-01",
    ]);
    expect(count).toMatchObject({ ever: 4, affected: 2, atRisk: 14, dead: 2 });
    expect(story.linked).toHaveLength(1);
    expect(count.days.at(-1)).toMatchObject({ affected: 2, present: 12 });
  });

  test("follow them though no sign is written down there, but into no other tank", () => {
    const { story } = look(`2026-03-01
  q1 sick praecox 3 of 14 case c-1
  q1 move praecox 3 -> h1
  q1 move praecox 2 -> b3
2026-03-03
  h1 lose praecox 1 found
  b3 lose praecox 1 found
`);
    expect(story.deaths.map(({ tank }) => tank.name)).toEqual(["h1"]);
  });

  test("add up species and tanks", () => {
    const { count } = look(`2026-03-01
  q1 sick praecox 2 of 14 case c-1
  q1 sick horn 1 of 5 case c-1
  b3 sick praecox 3 of 10 case c-1
`);
    expect(count).toMatchObject({ ever: 6, atRisk: 29 });
    expect(
      count.strands.map(
        ({ station, species, ever, atRisk }) => `${station.name} ${species} ${ever}/${atRisk}`,
      ),
    ).toEqual(["q1 praecox 2/14", "q1 horn 1/5", "b3 praecox 3/10"]);
  });

  test("count the lots of a tank apart where each entry names one", () => {
    const { count } = look(`2026-03-01
  q1 arrive praecox 6 lot a
  q1 arrive praecox 8 lot b
  q1 sick praecox 2 lot a case c-1
2026-03-02
  q1 sick praecox 2 lot b case c-1
  q1 lose praecox 1 found lot b
`);
    expect(count).toMatchObject({ ever: 4, atRisk: 14, dead: 1 });
  });

  test("are of one episode: a case that comes back begins anew", () => {
    const again = `2026-03-01
  q1 sick praecox 5 of 14 case c-1
2026-03-08
  q1 close c-1 recovered
  q1 lose praecox 1 found
2026-03-10
  q1 lose praecox 1 found
2026-04-01
  q1 sick praecox 1 of 12 case c-1
`;
    expect(look(again).count).toMatchObject({ ever: 1, atRisk: 12, dead: 0 });
    expect(look(again, "2026-03-31").count).toMatchObject({ ever: 5, dead: 1 });
  });

  test("give a death to the case whose signs were written down last", () => {
    const two = `2026-03-01
  q1 sick praecox 2 of 14 case c-1
2026-03-03
  q1 sick praecox 2 of 14 case c-2
2026-03-04
  q1 lose praecox 1 found
`;
    expect(look(two).count.dead).toBe(0);
    expect(look(two, "2026-12-31", "c-2").count.dead).toBe(1);
  });

  test("are those of the words in the line, also after they are edited", () => {
    const text = `${tanks}2026-03-01
  q1 sick praecox 2 of 14 case c-1
2026-03-03
  q1 sick praecox 2 of 14 new 1 case c-1
`;
    const checked = logbookOf(text);
    const ever = () =>
      ratesOf(checked.logbook, caseNamed(checked.logbook, "c-1", dayOf("2026-03-09"))!, dayOf("2026-03-09"))
        .count.ever;
    expect(ever()).toBe(3);
    const source = checked.logbook.sources.get("log.tank")!;
    const at = source.text.indexOf("new 1") + 4;
    checked.take(source.edit(at, at + 1, "2"));
    expect(ever()).toBe(4);
  });
});

describe("for whatever is written", () => {
  const entry = fc.record({
    tank: fc.constantFrom("q1", "h1", "b3"),
    what: fc.constantFrom("sick", "sick new", "lose", "move"),
    animals: fc.integer({ min: 0, max: 9 }),
    fresh: fc.integer({ min: 0, max: 9 }),
    to: fc.constantFrom("q1", "h1", "b3"),
  });
  const written = ({
    tank,
    what,
    animals,
    fresh,
    to,
  }: typeof entry extends fc.Arbitrary<infer T> ? T : never): string =>
    what === "sick"
      ? `${tank} sick praecox ${animals} of 20 case c-1`
      : what === "sick new"
        ? `${tank} sick praecox ${animals} of 20 new ${Math.min(animals, fresh)} case c-1`
        : what === "lose"
          ? `${tank} lose praecox ${animals || 1} found`
          : `${tank} move praecox ${animals || 1} -> ${to}`;

  test("no fewer were ever affected than are and died, and the days add up to it", () => {
    fc.assert(
      fc.property(fc.array(entry, { minLength: 1, maxLength: 14 }), (entries) => {
        const days = entries.map(
          (each, at) => `2026-03-${String(at + 2).padStart(2, "0")}\n  ${written(each)}\n`,
        );
        const { logbook } = logbookOf(
          `${tanks}2026-03-01\n  q1 sick praecox 1 of 20 case c-1\n${days.join("")}`,
        );
        const day = dayOf("2026-04-01");
        const count = countOf(logbook, caseNamed(logbook, "c-1", day)!, day);
        const sum = (of: (each: (typeof count.days)[number]) => number): number =>
          count.days.reduce((all, each) => all + of(each), 0);
        expect(count.ever).toBe(sum(({ fresh }) => fresh));
        expect(count.dead).toBe(sum(({ dead }) => dead));
        expect(count.dead).toBeLessThanOrEqual(count.ever);
        expect(count.days.every(({ fresh }) => fresh >= 0)).toBe(true);
        expect(count.affected).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});
