import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exposureReport } from "../../language/cli/schema.ts";
import { atDesk, folderOf, standpipe } from "./support.ts";

const plainDesk = { columns: 80, env: { NO_COLOR: "1" } };

const room = `room "Shed"
  as-of  last-entry
  trace  30 d
species praecox
system rack-water
  sump  20 L
tank b3
  volume  60 L
tank q1
  volume  60 L
tank d
  volume  60 L
tank r1
  volume  20 L
  system  rack-water
tank r2
  volume  20 L
  system  rack-water
`;
const log = `2026-02-25
  q1 arrive praecox 6 from "river nursery"
2026-03-01
  q1 move praecox 4 -> b3 with net
2026-03-06
  b3 carry wood -> r1
2026-03-08
  b3 move praecox 2 -> d
2026-03-09
  d lose praecox 2 culled
  d change 100 %
2026-03-10
  b3 sick praecox 2 of 9 case flukes-1
2026-03-14
  b3 sample gill 2 case flukes-1
2026-03-20
  room result flukes-1 positive
`;
const shed = { "room.tank": room, "log.tank": log };

describe("standpipe exposure", () => {
  test("tells of each open case what to hold, where it may have come from, and what it may have reached", async () => {
    const { status, out } = await atDesk(["exposure"], { ...plainDesk, cwd: folderOf(shed) });
    expect(status).toBe(0);
    expect(out).toContain("Case flukes-1\n  b3: first signs on 10 March\n");
    expect(out).toMatch(/Tanks to hold +3\n {2}1\. b3: first signs on 10 March/);
    expect(out).toContain("2. r1: wood from b3 into r1, 6 March  plants, wood, media; since 6 March");
    expect(out).toContain("3. r2: shares the water of r1; wood from b3 into r1, 6 March");
    expect(out).toContain("q1, 1 March: praecox moved from q1 to b3");
    expect(out).toContain("d emptied and refilled on 9 March; what lives in filter and gravel may outlast");
    expect(out).toContain("Take care: Only what is written is followed");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  test("is the same as JSON, with days, times and places", async () => {
    const { out } = await standpipe(["exposure", "--json"], { cwd: folderOf(shed) });
    const [book] = exposureReport.parse(JSON.parse(out)).logbooks;
    const [one] = book!.exposures;
    expect(one).toMatchObject({
      case: "flukes-1",
      by: "signs",
      from: "2026-02-08",
      day: "2026-03-20",
      closed: null,
    });
    expect(one?.hold.map(({ tank, kind, links }) => `${tank} ${kind} ${links}`)).toEqual([
      "b3 signs 0",
      "r1 plants, wood, media 1",
      "r2 plants, wood, media 2",
    ]);
    expect(one?.ended).toMatchObject([{ tank: "d", since: "2026-03-08T00:00", ended: "2026-03-09T00:00" }]);
    expect(one?.back.map(({ name, path }) => `${name}: ${path}`)).toEqual([
      "q1: q1 > b3",
      "net: net > b3",
      "arrival of “river nursery”, 25 February: arrival of “river nursery”, 25 February > q1 > b3",
    ]);
    expect(one?.forward.find(({ name }) => name === "d")?.steps).toMatchObject([
      { kind: "animals", from: "b3", to: "d", at: { file: "log.tank", line: 8 } },
    ]);
  });

  test("begins where the samples were taken, of a result", async () => {
    const cwd = folderOf(shed);
    const { out } = await atDesk(["exposure", "flukes-1", "--by", "result"], { ...plainDesk, cwd });
    expect(out).toContain("Result of case flukes-1\n  b3: sampled on 14 March, found positive\n");
    const { status, err } = await atDesk(
      ["exposure", "flukes-1", "--by", "result", "--as-of", "2026-03-19"],
      {
        ...plainDesk,
        cwd,
      },
    );
    expect([status, err]).toEqual([
      2,
      "standpipe: case flukes-1 has no positive result in any water on this day\n",
    ]);
  });

  test("follows a tank from a day, for so many days", async () => {
    const cwd = folderOf(shed);
    const { out } = await standpipe(["exposure", "q1", "--on", "2026-03-01", "--days", "1", "--json"], {
      cwd,
    });
    const [one] = exposureReport.parse(JSON.parse(out)).logbooks[0]!.exposures;
    expect(one).toMatchObject({
      title: "q1 on 1 March",
      by: "asked",
      case: "",
      from: "2026-02-28",
      windowDays: 1,
    });
    expect(one?.forward.map(({ name }) => name)).toEqual(["q1", "b3", "net", "r1", "r2", "d"]);
    // The arrival was four days before.
    expect(one?.back).toEqual([]);
  });

  test("says whose days they are where the room states none", async () => {
    const cwd = folderOf({ ...shed, "room.tank": room.replace("  trace  30 d\n", "") });
    const { out } = await atDesk(["exposure"], { ...plainDesk, cwd });
    expect(out).toContain("Followed: contacts from 30 days before the first signs on (a choice of this");
  });

  test("tells a case as it stood on a day, and a closed one as of its last", async () => {
    const cwd = folderOf({
      ...shed,
      "end.tank": "2026-03-21\n  b3 close flukes-1 recovered\n2026-03-22\n  b3 move praecox 1 -> q1\n",
    });
    const { out: early } = await atDesk(["exposure", "--as-of", "2026-03-05"], { ...plainDesk, cwd });
    expect(early).toContain("No case is open on this day.");
    const { out: none } = await atDesk(["exposure"], { ...plainDesk, cwd });
    expect(none).toContain("No case is open on this day.");
    const { out } = await atDesk(["exposure", "flukes-1"], { ...plainDesk, cwd });
    expect(out).toMatch(/Case flukes-1 +closed on 21 March: as it stood then/);
    expect(out).not.toContain("22 March:");
  });

  test("writes Markdown and a page, with the picture", async () => {
    const cwd = folderOf(shed);
    const { out: markdown } = await standpipe(["exposure", "--format", "markdown"], { cwd });
    expect(markdown).toMatch(/^# Exposure\n/);
    expect(markdown).toContain("](data:image/svg+xml;base64,");
    const { out: page } = await standpipe(["exposure", "--format", "html"], { cwd });
    expect(page).toMatch(/^<!DOCTYPE html>/);
    expect(page).toContain('src="data:image/svg+xml,');
  });

  test("says what is wrong with a call", async () => {
    const cwd = folderOf(shed);
    const wrong = async (...words: string[]): Promise<string> => {
      const { status, err } = await atDesk(["exposure", ...words], { ...plainDesk, cwd });
      expect(status).toBe(2);
      return err.replace(/^standpipe: /, "").trim();
    };
    expect(await wrong("flukes")).toBe("no case and no tank is called “flukes”; did you mean “flukes-1”?");
    expect(await wrong("--on", "2026-03-01")).toBe("--on DATE belongs to a tank: name it");
    expect(await wrong("flukes-1", "--on", "2026-03-01")).toBe(
      "--on belongs to a tank, and flukes-1 is a case; --as-of tells it as it stood on a day",
    );
    expect(await wrong("q1", "--by", "result")).toBe("--by result belongs to a case, and q1 is a tank");
    expect(await wrong("q1", "--on", "2026-04-01")).toBe("--on 2026-04-01 is after today, 2026-03-20");
    expect(await wrong("--days", "0")).toBe("--days takes a whole number of days, not “0”");
    expect(await wrong(".", "q1", "d")).toBe("one folder and one case or tank: standpipe exposure . q1");
  });

  test("of several rooms names each, and takes a name from the one that has it", async () => {
    const cwd = folderOf({
      "a/room.tank": room,
      "a/log.tank": log,
      "b/room.tank": room.replace("Shed", "Attic"),
      "b/log.tank": "2026-03-01\n  b3 note x\n",
    });
    const { out } = await atDesk(["exposure"], { ...plainDesk, cwd });
    expect(out).toContain("Shed: Case flukes-1");
    expect(out).toContain("Attic: Open cases");
    const { out: one } = await atDesk(["exposure", "flukes-1"], { ...plainDesk, cwd });
    expect(one).not.toContain("Attic");
    const { err } = await atDesk(["exposure", "b3"], { ...plainDesk, cwd });
    expect(err).toContain("several logbooks have “b3”; name one of");
  });
});

const anyLine = fc.constantFrom(
  "2026-03-01",
  "2026-03-02",
  "2026-03-09",
  "  b3 sick praecox 2 of 9 case w-1",
  "  rack-water sick praecox 1",
  "  q1 sick praecox 0 case w-1",
  "  room sick praecox 1 case w-2",
  "  b3 close w-1",
  "  r1 sample gill 2 case w-1",
  "  room result w-1 positive",
  "  b3 move praecox 2 -> q1 with net",
  "  r1 move praecox 2 -> r2",
  "  rack-water change 5 L from b3 with siphon",
  "  b3 change 20 L barrel “b”",
  "  q1 change 100 % barrel x",
  "  r2 plant fern from b3",
  "  09:00 b3 carry net, wood -> r1",
  '  b3 arrive praecox 3 from "水\u001b[31m <i>"',
  '  q1 sell praecox 1 to "水\u001b[31m <i>"',
  "  rack-water disinfect",
  "  room disinfect net",
  "  b3 disinfect",
);

test("any log is told in every form, without a fault, within the window, and with nothing that a terminal would obey", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(anyLine, { maxLength: 24, size: "max" }),
      fc.constantFrom([], ["w-1"], ["w-1", "--by", "result"], ["r1", "--on", "2026-03-02"]),
      async (lines, asked) => {
        const input = `${room}2026-02-28\n${lines.join("\n")}\n`;
        const call = ["exposure", "-", ...asked];
        const { status, out, err } = await atDesk(call, { ...plainDesk, columns: 60, input });
        // Nothing to begin at is told as such.
        expect(status === 0 || (status === 2 && /^standpipe: /.test(err))).toBe(true);
        for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(60);
        expect(out).not.toContain("\u001b");
        if (status !== 0) return;
        const { out: json } = await atDesk([...call, "--json"], { ...plainDesk, input });
        exposureReport.parse(JSON.parse(json));
        const { out: page } = await atDesk([...call, "--format", "html"], { ...plainDesk, input });
        expect(page).not.toContain("<i>");
        expect(page).not.toMatch(/NaN|undefined/);
      },
    ),
    { numRuns: 60 },
  );
});
