import { describe, expect, test } from "vitest";
import { casesReport } from "../../language/cli/schema.ts";
import { widthOf } from "../../language/cli/text.ts";
import { atDesk, cellar, folderOf } from "./support.ts";

const log = `room "Shed"
  as-of last-entry
species praecox
remedy prazi
  target 2 mg/L
tank q1
  volume 50 L
  role quarantine
tank h1
  volume 20 L
  role hospital
2026-03-01
  q1 sick praecox 2 of 14 new 2 signs "flashing, white spots severe" case flukes-1
2026-03-03
  08:15 q1 sick praecox 3 of 14 new 1 signs "flashing, odd <b>look</b>" case flukes-1
  q1 move praecox 3 -> h1
  h1 dose prazi 40 mg
  h1 sample gill 2 of praecox kept ethanol at 96 % case flukes-1 to "state laboratory"
  h1 ask flukes-1 "Which worm is it?"
2026-03-04
  h1 lose praecox 1 found
  h1 send flukes-1 sent by "courier"
2026-03-09
  h1 result flukes-1 positive "monogeneans"
`;
const closed = `${log}2026-03-20
  q1 close flukes-1 recovered
`;
const shed = (text = log): string => folderOf({ "shed.tank": text });
const desk = { columns: 80, env: { NO_COLOR: "1" } };
const json = async (...args: string[]) =>
  casesReport.parse(JSON.parse((await atDesk([...args, "--json"])).out));

describe("standpipe cases", () => {
  test("lists what is open, with the losses of the room", async () => {
    const { status, out } = await atDesk(["cases", shed()], desk);
    expect(status).toBe(0);
    expect(out).toMatch(/^Casebook\nShed, 9 March 2026\n\nOpen cases\n/);
    expect(out).toMatch(/ flukes-1 +q1, h1 +1 March +3 of 14 praecox +1 +open, day 9\n/);
    expect(out).toContain("Losses of the room");
    expect(out).not.toContain("Closed cases");
    expect(out.match(/Take care:/g)).toHaveLength(1);
  });

  test("lists closed ones with --all", async () => {
    const folder = shed(closed);
    expect((await atDesk(["cases", folder], desk)).out).toContain(
      "No case is open on this day. A case is opened by",
    );
    const { out } = await atDesk(["cases", folder, "--all"], desk);
    expect(out).toMatch(/ flukes-1 +q1, h1 +3 of 14 praecox +1 +2026-03-01 +2026-03-20 +recovered\n/);
    const [room] = (await json("cases", folder, "--all")).logbooks;
    expect([room!.open.length, room!.closed[0]!.outcome]).toEqual([0, "recovered"]);
    expect((await json("cases", folder)).logbooks[0]!.closed).toEqual([]);
  });

  test("tells one as a whole", async () => {
    const { out } = await atDesk(["cases", shed(), "flukes-1"], desk);
    // 3 of 14 were affected, one of the 3 died: 21.4 %, 33.3 %, and 1 of 14 is 7.14 %.
    expect(out).toMatch(/ 3 of 14, 21\.4 % \(7\.57 to 47\.6\) +attack rate\n/);
    expect(out).toMatch(/ 1 of 3, 33\.3 % \(6\.15 to 79\.2\) +case-fatality\n/);
    expect(out).toMatch(/ 1 of 14, 7\.14 % \(1\.27 to 31\.5\) +mortality\n/);
    expect(out).toMatch(/ skin +white spots \(severe\) +1 March\n/);
    expect(out).toMatch(/ other +odd <b>look<\/b> +3 March\n/);
    expect(out).toContain("prazi, in h1");
    expect(out).toContain("2 gill of praecox, in ethanol at 96 %: result 9 March");
    expect(out).toContain("Which worm is it?  asked");
    expect(out).toContain("positive: monogeneans");
    expect(out).toContain("Tanks to hold");
    expect(out).toContain("3 March 08:15: q1 sick praecox 3 of 14");
    expect(out).toContain("4 March: h1 lose praecox 1 found  by tank and day");
  });

  test("is the same as JSON: rates with their why, the curve day by day, places", async () => {
    const [room] = (await json("cases", shed(), "flukes-1")).logbooks;
    const one = room!.case!;
    expect(one).toMatchObject({
      ever: 3,
      atRisk: 14,
      dead: 1,
      isLeast: false,
      since: "2026-03-01",
      closed: null,
    });
    expect(one.rates.map(({ is, count, outOf }) => `${is} ${count}/${outOf}`)).toEqual([
      "attack 3/14",
      "fatality 1/3",
      "mortality 1/14",
      "prevalence 3/14",
    ]);
    expect(JSON.stringify(one.rates[0]!.why)).toContain("q1 sick praecox 2 of 14");
    expect(one.curve).toHaveLength(9);
    expect(
      one.curve
        .filter(({ fresh, dead }) => fresh + dead > 0)
        .map(({ day, fresh, dead }) => [day, fresh, dead]),
    ).toEqual([
      ["2026-03-01", 2, 0],
      ["2026-03-03", 1, 0],
      ["2026-03-04", 0, 1],
    ]);
    expect(one.tanks.map(({ name, from }) => [name, from])).toEqual([
      ["q1", "2026-03-01"],
      ["h1", "2026-03-03"],
    ]);
    expect(one.courses.map(({ remedy, water }) => [remedy, water])).toEqual([["prazi", "h1"]]);
    expect(one.exposure?.hold.map(({ tank }) => tank)).toEqual(["q1", "h1"]);
    expect(one.entries.filter(({ by }) => by === "linked").map(({ kind }) => kind)).toEqual([
      "move",
      "dose",
      "lose",
    ]);
    expect(one.at).toMatchObject({ line: 13 });
  });

  test("knows no entry after the day it is asked for", async () => {
    const [room] = (await json("cases", shed(closed), "flukes-1", "--as-of", "2026-03-02")).logbooks;
    expect(room!.case).toMatchObject({ state: "open, day 2", ever: 2, dead: 0, results: [], samples: [] });
    const { status, err } = await atDesk(["cases", shed(closed), "flukes-1", "--as-of", "2026-02-01"], desk);
    expect([status, err]).toEqual([2, expect.stringContaining("no case is written here")]);
  });

  test("is a page to print on which a log can write no markup", async () => {
    const { out } = await atDesk(["cases", shed(), "flukes-1", "--format", "html"]);
    expect(out).toContain("%3Csvg");
    expect(out).toContain("New%20cases%20a%20day");
    expect(out).not.toContain("<b>look");
  });

  test("says what was meant by a name that is none, and that --all is of the casebook", async () => {
    const { status, err } = await atDesk(["cases", shed(), "fluks-1"], desk);
    expect([status, err]).toEqual([2, expect.stringContaining("did you mean “flukes-1”?")]);
    expect((await atDesk(["cases", shed(), "flukes-1", "--all"], desk)).err).toContain(
      "--all belongs to the casebook",
    );
  });

  test("reads a log from standard input", async () => {
    const { out } = await atDesk(["cases", "-"], { ...desk, input: log });
    expect(out).toContain("flukes-1");
  });

  test.each([40, 80, 120])("of the cellar fits %i columns", async (columns) => {
    for (const args of [["--all"], ["flukes-1"]]) {
      const { out } = await atDesk(["cases", cellar, ...args], { columns, env: { NO_COLOR: "1" } });
      expect(Math.max(...out.split("\n").map(widthOf))).toBeLessThanOrEqual(columns);
    }
  });
});

test("a case without samples says how one is written, with its own name and tank", async () => {
  const log = "species horn\ntank pond\n2026-03-01\n  pond sick horn 2 of 9 case shell-2\n";
  const { out } = await atDesk(["cases", shed(log), "shell-2", "--as-of", "2026-03-02"]);
  expect(out.replace(/\s+/g, " ")).toContain("pond sample gill 2 kept ethanol at 96 % case shell-2.");
});

describe("standpipe tank", () => {
  test("names the open cases of its water", async () => {
    const { out } = await atDesk(["tank", "h1", shed()], desk);
    expect(out).toMatch(
      /Open cases\n +flukes-1: since 1 March; 2 of 13 praecox show signs; 3 affected, 1 dead\n/,
    );
    const report = JSON.parse((await atDesk(["tank", "h1", shed(), "--json"])).out);
    expect(report.cases).toMatchObject([{ name: "flukes-1", since: "2026-03-01", ever: 3 }]);
    expect((await atDesk(["tank", "h1", shed(closed)], desk)).out).not.toContain("Open cases");
  });
});
