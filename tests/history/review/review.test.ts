import { describe, expect, test } from "vitest";
import { CheckedLogbook } from "../../../language/checks/check.ts";
import { reviewMarkdown } from "../../../language/history/review/markdown.ts";
import { reviewOf, reviewSteps } from "../../../language/history/review/review.ts";
import { toldReview } from "../../../language/history/review/told.ts";
import { causeText } from "../../../language/history/review/words.ts";

const room = `room "Shed"
  as-of       last-entry
  quarantine  28 d
  fasting     24 h
  limits      nitrate <= 50 mg/L

water tap
  content  nitrate 5 mg/L

tank dam
  volume  100 L
  limits  nitrate <= 25 mg/L
  every   7 d change 20 %
tank r4
  volume  40 L
tank q1
  volume  50 L
  role    quarantine

species cherry
  kind  shrimp
species praecox
  kind  fish
remedy prazi
  target   2 mg/L
  ceiling  5 mg/L
  repeat   3 times every 7 d
`;

const files = (log: string, definitions = room) => [
  { path: "room.tank", text: definitions },
  { path: "log.tank", text: log },
];

/** What follows, with the change it is told with first: `r4: cherry by the book: 40 -> 38 | r4 lose cherry 2 on 2 March`. */
function follows(before: string, after: string, asOf = Number.NaN, definitions = room): string[] {
  const review = reviewOf(files(before), files(after, definitions), { asOf, worldDay: 20_600 });
  return review.consequences
    .filter(({ isSmall }) => !isSmall)
    .map(({ of, text, code, by }) => {
      const [first] = by.list(1);
      const cause = first === undefined ? "" : ` | ${causeText(review.list[first]!, review.day)}`;
      return `${of}: ${code === "" ? "" : `${code} `}${text}${cause}`;
    });
}

/** Nitrate of a tank that rises by 2 mg/L a day from `start` on 1 March; read every three days. */
function rising(start: number): string {
  return [0, 3, 6, 9, 12]
    .map((day) => `2026-03-${String(day + 1).padStart(2, "0")}\n  dam test nitrate ${start + day}\n`)
    .join("");
}

describe("what follows", () => {
  test("of a reading: the day on which a limit is crossed", () => {
    const faster = rising(4)
      .replace("nitrate 10", "nitrate 12")
      .replace("nitrate 13", "nitrate 17")
      .replace("nitrate 16", "nitrate 22");
    const told = follows(rising(4), faster);
    const water = told.find((each) => each.startsWith("dam: nitrate:"));
    expect(water).toMatch(
      /^dam: nitrate: the limit at most 25 mg\/L is now crossed about \d+ March, not \d+ \w+ \| dam test: nitrate 16 -> 22 on 13 March$/,
    );
    expect(Number(/about (\d+) March/.exec(water!)![1])).toBeLessThan(Number(/not (\d+)/.exec(water!)![1]));
  });

  test("of a reading above its limit: a finding that is new, at its line", () => {
    expect(follows("2026-03-01\n  dam test nitrate 20\n", "2026-03-01\n  dam test nitrate 40\n")[0]).toMatch(
      /^dam: limit\/above 2026-03-01: .* \| dam test: nitrate 20 -> 40 on 1 March$/,
    );
  });

  test("of a dose: it exceeds its ceiling, or no longer does", () => {
    const log = (mg: number): string =>
      `2026-03-01\n  q1 arrive praecox 6\n  q1 dose prazi ${mg} mg\n2026-03-03\n  q1 count praecox 6\n`;
    const told = follows(log(100), log(300));
    // 300 mg in 50 L are 6 mg/L.
    expect(told).toContain(
      "q1: the dose of prazi on 1 March now exceeds its ceiling: 6 mg/L in the water, of 5 mg/L at most | q1 dose: prazi 100 mg -> 300 mg on 1 March",
    );
    expect(follows(log(300), log(100))).toContain(
      "q1: the dose of prazi on 1 March no longer exceeds its ceiling: 2 mg/L in the water, of 5 mg/L at most | q1 dose: prazi 300 mg -> 100 mg on 1 March",
    );
  });

  test("of animals: the book, and what may go", () => {
    const log = "2026-03-01\n  r4 arrive cherry 40\n2026-03-02\n  r4 feed none\n";
    expect(follows(log, `${log}  r4 lose cherry 2\n`)).toEqual([
      "r4: cherry by the book: 40 -> 38 | r4 lose cherry 2 on 2 March",
    ]);
  });

  test("of a move: both tanks, each with it", () => {
    const log = "2026-03-01\n  r4 arrive cherry 40\n2026-03-02\n  dam feed none\n";
    expect(follows(log, `${log}  r4 move cherry 12 -> dam\n`)).toEqual([
      "dam: cherry by the book: 0 -> 12 | r4 move cherry 12 -> dam on 2 March",
      "r4: cherry by the book: 40 -> 28 | r4 move cherry 12 -> dam on 2 March",
    ]);
  });

  test("of an arrival: the end of quarantine", () => {
    const log = "2026-03-01\n  q1 arrive praecox 6\n2026-03-10\n  dam feed none\n";
    expect(follows(log, `${log}  q1 arrive praecox 2\n`)).toContain(
      "q1: quarantine ends on 7 April, not 29 March, put off by animals that came on 10 March | q1 arrive praecox 2 on 10 March",
    );
  });

  test("of signs: the case, and the tanks it may have reached", () => {
    const log = `2026-03-01\n  r4 arrive praecox 8\n2026-03-05\n  r4 move praecox 2 -> dam\n2026-03-06\n  dam feed none\n`;
    const told = follows(log, `${log}  r4 sick praecox 1 signs "flashing" case flukes-1\n`);
    expect(told).toContain(
      'r4: case flukes-1: open since 6 March | r4 sick praecox 1 signs "flashing" case flukes-1 on 6 March',
    );
    expect(told.find((each) => each.startsWith("dam: now among the tanks of case flukes-1"))).toMatch(
      /by animals: .*praecox/,
    );
  });

  test("of a change that was late: the duty, with what did it", () => {
    const log = "2026-03-01\n  dam change 20 %\n2026-03-10\n  r4 feed none\n";
    expect(follows(log, `${log}  dam change 20 %\n`)).toEqual([
      "dam: change 20 %: no longer due, due 17 March (it was 2 days late) | dam change 20 % on 10 March",
    ]);
  });

  test("a duty that only the days since made due is small", () => {
    const log = "2026-03-01\n  dam change 20 %\n";
    expect(follows(log, `${log}2026-03-10\n  dam change 20 %\n`)).toEqual([]);
    const { consequences } = reviewOf(files(log), files(`${log}2026-03-10\n  dam change 20 %\n`), {
      asOf: Number.NaN,
      worldDay: 0,
    });
    expect(consequences.map(({ is, isSmall }) => `${is} ${isSmall}`)).toContain("duty true");
  });

  test("of a definition: the water a tank holds, and all that is computed with it", () => {
    const told = follows(
      "2026-03-01\n  q1 dose prazi 100 mg\n",
      "2026-03-01\n  q1 dose prazi 100 mg\n",
      20_513,
      room.replace("50 L", "40 L"),
    );
    expect(told).toContain(
      "q1: water in it: 50 L -> 40 L | tank q1 volume 50 L -> 40 L of tank q1".replace(
        "tank q1 volume",
        "volume",
      ),
    );
    expect(told.some((each) => each.includes("in the water: 2 mg/L -> 2.5 mg/L"))).toBe(true);
    const shared = `${room}system sump\ntank r1\n  volume 20 L\n  system sump\n`;
    const log = "2026-03-01\n  r1 clean\n";
    const after = shared.replace("volume 20 L", "volume 25 L");
    expect(
      reviewOf(files(log, shared), files(log, after), {
        asOf: Number.NaN,
        worldDay: 20_513,
      }).consequences.flatMap(({ is, of, by }) => (is === "volume" ? `${of} ${by.count}` : [])),
    ).toEqual(["r1 1", "sump 1"]);
  });

  test("of nothing but layout, comments and line ends follows nothing", () => {
    const log = "2026-03-01\n  dam test nitrate 20\n";
    for (const other of ["2026-03-01\n  dam   test nitrate 20 # twice\n", log.replaceAll("\n", "\r\n")])
      expect(reviewOf(files(log), files(other), { asOf: Number.NaN, worldDay: 0 }).consequences).toEqual([]);
  });

  test("both sides are computed as of the same day, whichever was asked for", () => {
    const later = "2026-03-01\n  dam change 20 %\n2026-03-20\n  dam clean\n";
    const review = reviewOf(files("2026-03-01\n  dam change 20 %\n"), files(later), {
      asOf: Number.NaN,
      worldDay: 0,
    });
    expect([review.before, review.after].map(({ logbook }) => logbook.asOf)).toEqual([
      review.day,
      review.day,
    ]);
    const early = reviewOf(files("2026-03-01\n  dam change 20 %\n"), files(later), {
      asOf: 20_513,
      worldDay: 0,
    });
    // The entry is later than the day that was asked for: it changed, and nothing follows yet.
    expect([early.list.length, early.consequences]).toEqual([1, []]);
  });

  test("a log that is new, and one that is gone", () => {
    const log = files("2026-03-01\n  r4 arrive cherry 4\n");
    const asked = { asOf: Number.NaN, worldDay: 20_513 };
    expect(reviewOf([], log, asked).consequences.map(({ text }) => text)).toContain(
      "cherry by the book: 0 -> 4",
    );
    expect(reviewOf(log, [], asked).consequences.map(({ text }) => text)).toContain(
      "cherry by the book: 4 -> 0",
    );
    expect(reviewOf([], [], asked).list).toEqual([]);
  });
});

describe("in Markdown", () => {
  const asked = { asOf: Number.NaN, worldDay: 20_513 };

  test("what the log holds is text and nothing else", () => {
    const evil = '</summary><script>alert(1)</script> [x](http://x.example) `code` *b* @everyone | "';
    const review = reviewOf(
      files(""),
      files(
        `2026-03-01\n  dam note "${evil.replaceAll('"', "'")}"\n  <b>x</b>\n`,
        room.replace('"Shed"', '"<i>Shed</i>"'),
      ),
      asked,
    );
    const page = reviewMarkdown([toldReview(review, { all: true })], { from: "a*b", to: "<b>" });
    const prose = page.replace(/(`+)[\s\S]*?\1/g, "");
    expect(prose).not.toMatch(/(?<!\\)<(?!\/?(?:details|summary)>|br>)/);
    expect(prose).not.toContain("](http");
    expect(page).toContain("From a\\*b to \\<b\\>.");
    // A fold that is opened is closed.
    expect(page.match(/<details>/g)?.length).toBe(page.match(/<\/details>/g)?.length);
  });

  test("a large one has an end, and says how much is missing", () => {
    const lines = Array.from({ length: 400 }, (_, at) => `  dam lose cherry ${at + 1}\n`).join("");
    const review = reviewOf(files(`2026-03-01\n${lines}`), files("2026-03-01\n  dam clean\n"), asked);
    const page = reviewMarkdown([toldReview(review, { all: false })], { from: "a", to: "b" });
    expect(page.split("\n").length).toBeLessThan(450);
    expect(page).toMatch(/and \d+ more/);
  });

  test("says so where nothing changed", () => {
    const review = reviewOf(files(""), files(""), asked);
    expect(reviewMarkdown([toldReview(review, { all: false })], { from: "a", to: "b" })).toContain(
      "Nothing changed.",
    );
    expect(reviewMarkdown([], { from: "a", to: "b" })).toContain("There is no log on either side.");
  });
});

test("of a log that is held, in pieces: what a review of its texts says", () => {
  const before = files(rising(4));
  for (const [last, asOf] of [
    ["2026-03-14\n  dam test nitrate 24\n", Number.NaN],
    ["", Number.NaN],
    ["2026-03-14\n  dam test nitrate 24\n", 20_525],
  ] as const) {
    const after = files(rising(6) + last);
    const held = new CheckedLogbook();
    for (const { path, text } of after) held.set(path, text);
    held.logbook.asOf = asOf;
    held.findings(20_600);
    const asked = { asOf, worldDay: 20_600 };
    const steps = reviewSteps(before, after, asked, held);
    let step = steps.next();
    let pieces = 1;
    for (; step.done !== true; pieces++) step = steps.next();
    expect(pieces).toBeGreaterThan(10);
    const told = toldReview(step.value, { all: true });
    expect(told).toEqual(toldReview(reviewOf(before, after, asked), { all: true }));
    expect(held.logbook.asOf).toBe(asOf);
  }
});
