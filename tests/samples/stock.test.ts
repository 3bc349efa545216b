import { describe, expect, test } from "vitest";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { ordersOn } from "../../language/room/orders.ts";
import { simulateCellar } from "../../samples/simulation/run.ts";
import { allSpecies } from "../../samples/simulation/species.ts";
import { animals, items, type Line, readLog } from "./read-log.ts";

const { cellar, files } = simulateCellar();
const lines = readLog(files);
/** The count that does not add up. */
const isShortCount = ({ date, target, kind }: Line) =>
  date === "2026-03-22" && target === "b2" && kind === "count";

describe("every animal comes from somewhere and goes somewhere", () => {
  for (const { name } of allSpecies) {
    test(name, () => {
      const flow = cellar.stock.flows.get(name)!;
      const came = flow.opening + flow.arrived + flow.born;
      const went = flow.diedSeen + flow.diedUnseen + flow.sold + flow.shipped;
      expect(came).toBeGreaterThan(0);
      expect(came - went).toBe(cellar.stock.totalThere(name));
    });
  }
});

/** The book of each tank and species, kept again from the lines as they are written. */
function keepBook(
  visit: (line: Line, species: string, written: string, booked: number | undefined) => void,
): Map<string, number> {
  const book = new Map<string, number>();
  const add = (tank: string, species: string, number: number) =>
    book.set(`${tank} ${species}`, (book.get(`${tank} ${species}`) ?? 0) + number);
  for (const line of lines) {
    const { target, kind, words } = line;
    const move = /^(\S+) (\d+) -> (\S+)(?: lot \S+)?(?: with \S+)?$/.exec(words);
    for (const [species, rest] of ["count", "sell", "ship"].includes(kind)
      ? items(words.replace(/ (to|price|order|by) .*$/, ""))
      : items(words)) {
      const written = rest.split(" ")[0]!;
      const booked = book.get(`${target} ${species}`);
      // One of several is given a name. In b6 the lot is all there are.
      if (kind === "count" && rest.includes(" lot ") && target !== "b6") continue;
      if (["count", "arrive", "hatch", "lose", "move", "sell", "ship"].includes(kind))
        visit(line, species, written, booked);
      if (kind === "count") {
        const of = / of (\d+)/.exec(rest)?.[1];
        book.set(`${target} ${species}`, of === undefined ? animals(written) : Number(of));
      } else if (kind === "arrive" || kind === "hatch") add(target, species, animals(written));
      else if (["lose", "sell", "ship"].includes(kind)) add(target, species, -animals(written));
      else if (kind === "move") {
        add(target, species, -Number(move![2]));
        add(move![3]!, species, Number(move![2]));
      }
    }
  }
  return book;
}

describe("the log's own book", () => {
  test("an exact count is what the book says, but for the one that is a story", () => {
    let exact = 0;
    keepBook((line, species, written, booked) => {
      if (line.kind !== "count" || written.startsWith("~") || booked === undefined || isShortCount(line))
        return;
      const seen =
        / of (\d+)/.exec(line.words.slice(line.words.indexOf(`${species} `)).split(",")[0]!)?.[1] ?? written;
      expect(animals(seen), line.whole).toBe(booked);
      exact += 1;
    });
    expect(exact).toBeGreaterThan(200);
  });

  test("the count of b2 is two short", () => {
    keepBook((line, _species, written, booked) => {
      if (isShortCount(line)) expect(booked! - animals(written)).toBe(2);
    });
    expect(lines.filter(isShortCount)).toHaveLength(1);
  });

  test("an estimate is within an eighth of the book", () => {
    let estimates = 0;
    keepBook((line, _species, written, booked) => {
      if (line.kind !== "count" || !written.startsWith("~") || booked === undefined) return;
      expect(Math.abs(animals(written) - booked), line.whole).toBeLessThanOrEqual(0.125 * animals(written));
      estimates += 1;
    });
    expect(estimates).toBeGreaterThan(60);
  });

  test("no more leave than are there", () => {
    keepBook((line, _species, written, booked) => {
      if (["lose", "move", "sell", "ship"].includes(line.kind))
        expect(animals(written), line.whole).toBeLessThanOrEqual(booked ?? 0);
    });
  });

  test("at the end the book has what there is, where animals are counted one by one", () => {
    const book = keepBook(() => {});
    for (const { name, uncounted } of allSpecies) {
      if (uncounted) continue;
      for (const [key, booked] of book) {
        const [tank, species] = key.split(" ") as [string, string];
        if (species !== name || tank === "b2" || tank === "b6") continue;
        expect(booked, key).toBe(cellar.stock.there(tank, species));
      }
    }
  });
});

describe("lots", () => {
  const defined = new Set([...files.get("lots.tank")!.matchAll(/^lot (\S+)/gm)].map((match) => match[1]!));
  const lotted = lines.flatMap((line) =>
    items(line.words.replace(/"[^"]*"/g, "")).flatMap(([species, rest]) => {
      const lot = / lot (\S+)/.exec(rest)?.[1];
      return lot === undefined ? [] : [{ line, species, lot, number: animals(rest.split(" ")[0]!) }];
    }),
  );

  test("no more of a lot leave a tank than came into it", () => {
    const book = new Map<string, number>();
    const add = (key: string, number: number) => book.set(key, (book.get(key) ?? 0) + number);
    let left = 0;
    for (const { line, species, lot, number } of lotted) {
      const here = `${line.target} ${species} ${lot}`;
      if (["arrive", "hatch"].includes(line.kind)) add(here, number);
      if (line.kind === "count") book.set(here, number);
      if (!["lose", "move", "sell", "ship"].includes(line.kind)) continue;
      left += 1;
      expect(number, line.whole).toBeLessThanOrEqual(book.get(here) ?? 0);
      add(here, -number);
      const to = / -> (\S+)/.exec(line.words)?.[1];
      if (to !== undefined) add(`${to} ${species} ${lot}`, number);
    }
    expect(left).toBeGreaterThan(30);
  });

  test("a lot arrives, is laid or is defined before anything is said of it", () => {
    const known = new Set(defined);
    for (const { line, lot } of lotted) {
      if (["arrive", "spawn"].includes(line.kind)) known.add(lot);
      expect(known, line.whole).toContain(lot);
    }
  });

  test("the pair of every brood is defined, each of one animal and its sex", () => {
    const spawns = lines.filter(({ kind, words }) => kind === "spawn" && words.includes(" lot "));
    expect(spawns.length).toBeGreaterThanOrEqual(7);
    const text = files.get("lots.tank")!;
    for (const { words, whole } of spawns)
      for (const [role, sex] of [
        ["father", "male"],
        ["mother", "female"],
      ] as const) {
        const name = new RegExp(`${role} (\\S+)`).exec(words)?.[1];
        const block = text.split("\n\n").find((each) => each.startsWith(`lot ${name} `));
        expect(block, whole).toMatch(new RegExp(`^ {2}sex +${sex}$`, "m"));
      }
  });
});

describe("quarantine", () => {
  const days = (from: string, until: string) => (Date.parse(until) - Date.parse(from)) / 86_400_000;

  test("28 days and longer for all but the ricefish of September", () => {
    let arrived = "";
    const stays: [string, number][] = [];
    for (const { target, kind, date } of lines) {
      if (target !== "q1") continue;
      if (kind === "arrive") arrived = date;
      if (kind === "move") stays.push([date, days(arrived, date)]);
    }
    expect(stays.length).toBeGreaterThan(6);
    for (const [date, stay] of stays) {
      if (date === "2025-09-19") expect(stay).toBe(18);
      else expect(stay, date).toBeGreaterThanOrEqual(28);
    }
  });

  test("every arrival comes into q1", () => {
    for (const { target, kind } of lines) if (kind === "arrive") expect(target).toBe("q1");
  });
});

describe("orders", () => {
  test("what is shipped had a day without food, and an order of its own", () => {
    const orders = lines
      .filter(({ kind }) => kind === "ship")
      .map(({ words, date }) => [/order (o-\d+)/.exec(words)![1]!, date]);
    expect(orders.length).toBeGreaterThan(20);
    expect(new Set(orders.map(([order]) => order)).size).toBe(orders.length);
    for (const [order, date] of orders) {
      const fast = lines.find(({ kind, text }) => kind === "feed" && text === `fasting for ${order}`);
      expect(days(fast!.date, date!), order).toBe(1);
    }
    function days(from: string, until: string): number {
      return (Date.parse(until) - Date.parse(from)) / 86_400_000;
    }
  });

  test("every parcel has its order in the file, and every report its parcel", () => {
    const text = files.get("orders.tank")!;
    const named = (kind: string) =>
      lines.filter((line) => line.kind === kind).map(({ words }) => /order (o-\d+)/.exec(words)![1]!);
    for (const order of named("ship")) expect(text).toMatch(new RegExp(`^order ${order}( |$)`, "m"));
    const reports = named("doa");
    expect(reports.length).toBeGreaterThan(15);
    expect(new Set(reports).size).toBe(reports.length);
    for (const order of reports) expect(named("ship")).toContain(order);
  });

  test("three wait on the last day: one half filled, one that can go, one in quarantine", () => {
    const checked = new CheckedLogbook();
    for (const [path, text] of files) checked.set(path, text);
    const today = checked.logbook.today(0);
    const waiting = ordersOn(checked.logbook, today).filter(({ missing }) => missing > 0);
    expect(waiting.map(({ order, from }) => [order.name, Math.max(0, from - today)])).toEqual([
      ["o-26", 0],
      ["o-27", 18],
      ["o-25", 0],
    ]);
    expect(waiting.at(-1)!.lines.map(({ wanted, gone }) => wanted - gone)).toEqual([6, 0]);
  });

  test("nothing leaves the rack while the laboratory is waited for", () => {
    for (const { kind, date, target } of lines) {
      if (!/^r\d/.test(target) || !["sell", "ship", "move"].includes(kind)) continue;
      expect(date > "2025-10-04" && date <= "2025-11-15", `${date} ${target}`).toBe(false);
    }
  });
});
