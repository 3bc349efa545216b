import { describe, expect, test } from "vitest";
import { sheetReport } from "../../language/cli/schema.ts";
import { widthOf } from "../../language/cli/text.ts";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

const log = `room "Shed"
  as-of last-entry
species praecox "Melanotaenia praecox"
tank q1
  volume 48 L
tank q2
  volume 30 L
2026-03-01
  q1 count praecox 9
  q1 test nitrate <5, pH 7.2
  q1 sick praecox 2 of 9 signs "flashing" case flukes-1
2026-03-02
  08:30 q1 sample gill 2 of praecox kept formalin at 10 % volumes 20 into "tube 1" case flukes-1 to "state laboratory"
2026-03-03
  10:00 room send flukes-1 by "courier"
`;
const second = `2026-03-04
  q2 sick praecox 1 case fins
`;
const closed = `2026-03-05
  q1 close flukes-1 recovered
2026-03-09
  q1 lose praecox 1 found
`;
const me = JSON.stringify({ name: "A <b>keeper</b>", telephone: "000 111" });
const shed = (text = log, keeper = me): string => folderOf({ "shed.tank": text, "me.json": keeper });
const desk = { columns: 80, env: { NO_COLOR: "1" } };
const json = async (args: readonly string[]): Promise<unknown> =>
  JSON.parse((await atDesk(["sheet", ...args, "--json"])).out);

describe("standpipe sheet", () => {
  test("of the one case that is open, without its name", async () => {
    const { status, out, err } = await atDesk(["sheet", shed()], desk);
    expect([status, err]).toEqual([0, ""]);
    expect(out).toMatch(/^Laboratory sheet: case flukes-1\nShed, as of 3 March 2026, opened 1 March, open\n/);
    expect(out).toContain("2 gill of praecox");
    expect(out).toMatch(/Keeper +\.{24} not stated/);
  });

  test("takes the case and the folder in either order, and standard input", async () => {
    const cwd = shed(log + second);
    for (const args of [
      [cwd, "fins"],
      ["fins", cwd],
    ])
      expect((await atDesk(["sheet", ...args], desk)).out).toMatch(/^Laboratory sheet: case fins\n/);
    expect((await atDesk(["sheet", "fins"], { ...desk, cwd })).out).toMatch(/^Laboratory sheet: case fins\n/);
    expect((await atDesk(["sheet", "-", "fins"], { ...desk, input: log + second })).out).toMatch(
      /^Laboratory sheet: case fins\n/,
    );
  });

  test("of a closed case is as of its close, and of a day as of the day", async () => {
    const folder = shed(log + closed);
    expect((await atDesk(["sheet", folder, "flukes-1"], desk)).out).toContain(
      "as of 5 March 2026, opened 1 March, closed 5 March",
    );
    const early = sheetReport.parse(await json([folder, "flukes-1", "--as-of", "2026-03-01"]));
    expect(early).toMatchObject({ day: "2026-03-01", closed: null, samples: [], losses: [] });
  });

  test("as JSON has each part, null where nobody says", async () => {
    const report = sheetReport.parse(await json([shed()]));
    expect(report).toMatchObject({
      case: "flukes-1",
      since: "2026-03-01",
      day: "2026-03-03",
      tanks: [{ name: "q1", hasSigns: true }],
      course: [{ affected: 2, atRisk: 9, new: null, signs: "flashing" }],
      samples: [
        {
          day: "2026-03-02",
          clock: "08:30",
          count: 2,
          kept: "formalin",
          strengthPercent: { low: 10, high: 10 },
          volumes: 20,
          container: "tube 1",
          state: "sent",
          missing: [],
        },
      ],
      custody: [
        { step: "taken", since: "" },
        { step: "sent", clock: "10:00", since: "26 h", carrier: "courier" },
      ],
    });
    expect(report.keeper[0]).toEqual({
      name: "Keeper",
      text: null,
      missing: "setting standpipe.keeper.name, or “name” in the file of --keeper",
    });
    const nitrate = report.waters[0]!.rows.find(({ parameter }) => parameter === "nitrate")!;
    expect(nitrate).toMatchObject({
      latest: { text: "<5", day: "2026-03-01" },
      last30: { tests: 1, median: "<5" },
    });
    expect(report.waters[0]!.rows.find(({ parameter }) => parameter === "oxygen")!.latest).toBeNull();
    expect(report.missing).toContainEqual({
      of: "q1",
      name: "Dissolved oxygen",
      missing: "a “test” of oxygen",
    });
  });

  test("has the keeper's details from a file", async () => {
    const folder = shed();
    const report = sheetReport.parse(await json([folder, "--keeper", `${folder}/me.json`]));
    expect(report.keeper.map(({ text }) => text)).toEqual([
      "A <b>keeper</b>",
      null,
      "000 111",
      null,
      null,
      null,
    ]);
    const { out } = await atDesk(["sheet", folder, "--keeper", `${folder}/me.json`, "--format", "html"]);
    expect(out).toContain("A &#60;b&#62;keeper&#60;/b&#62;");
    expect(out).not.toContain("<b>");
  });

  test("is a page to print that fetches nothing and runs nothing", async () => {
    const { out } = await atDesk(["sheet", shed(), "--format", "html"]);
    expect(out).toContain("default-src 'none'");
    expect(out).toContain("size: A4");
    expect(out).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
  });

  test("is Markdown", async () => {
    const { out } = await atDesk(["sheet", shed(), "--format", "markdown"]);
    expect(out).toMatch(/^# Laboratory sheet: case flukes/m);
    expect(out).toContain("| 1 | 2 gill of praecox |");
  });

  test.each([40, 80, 120])("of the cellar fits %i columns", async (columns) => {
    const { out } = await atDesk(["sheet", cellar, "flukes-1", "--as-of", "2025-10-20"], {
      columns,
      env: { NO_COLOR: "1" },
    });
    expect(out).toContain("woworae");
    expect(Math.max(...out.split("\n").map(widthOf))).toBeLessThanOrEqual(columns);
  });

  test("runs as a process of its own", async () => {
    const { status, out } = await standpipe(["sheet", shed()]);
    expect(status).toBe(0);
    expect(out).toContain("Laboratory sheet: case flukes-1");
  });
});

describe("what is wrong with the call", () => {
  test.each([
    [log + second, [], "which case? standpipe sheet DIR CASE: open are fins and flukes-1"],
    [log + closed, [], "no case is open; closed are flukes-1"],
    [log, ["flukes-2"], "no case is called “flukes-2”; did you mean “flukes-1”?"],
    [log, ["worms"], "no case is called “worms”; there are flukes-1"],
    [log, ["a", "b"], "one folder and one case"],
    ["tank q1\n  volume 9 L\n2026-03-01\n  q1 clean\n", [], "no case is known on this day"],
  ])("is told (%#)", async (text, args, message) => {
    const { status, err } = await atDesk(["sheet", shed(text), ...args]);
    expect(status).toBe(2);
    expect(err).toContain(message);
  });

  test.each([
    ['{"nme": "A"}', "there is no field “nme”; did you mean “name”?"],
    ['{"phone": 1}', "there is no field “phone”"],
    ['{"name": 5}', "“name” takes a text in quotes"],
    ["[]", "it takes one object with name, address"],
    ['"A"', "it takes one object with name, address"],
    ["name: A", "this is no JSON"],
    [JSON.stringify({ address: "x".repeat(501) }), "“address” is longer than 500 letters"],
  ])("of the keeper's file %s names the field", async (text, message) => {
    const folder = shed(log, text);
    const { status, err } = await atDesk(["sheet", folder, "--keeper", `${folder}/me.json`]);
    expect(status).toBe(2);
    expect(err).toContain("me.json: ");
    expect(err).toContain(message);
  });

  test("of a keeper's file that is not there", async () => {
    const folder = shed();
    expect((await atDesk(["sheet", folder, "--keeper", `${folder}/you.json`])).err).toContain(
      "there is no such file",
    );
    expect((await atDesk(["sheet", folder, "--keeper", folder])).err).toContain("this is a folder");
  });

  test("of several logbooks that have the case", async () => {
    const folder = folderOf({ "a/shed.tank": log, "b/shed.tank": log });
    expect((await atDesk(["sheet", folder, "flukes-1"])).err).toContain(
      "several logbooks have a case “flukes-1”",
    );
  });
});
