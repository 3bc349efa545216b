import { describe, expect, test } from "vitest";
import { todayReport } from "../../language/cli/schema.ts";
import { widthOf } from "../../language/cli/text.ts";
import { atDesk, folderOf, standpipe } from "./support.ts";

const log = `room "Shed"
  quarantine 28 d
  clear 14 d
species praecox
tank q1
  volume 50 L
  role quarantine
  every 1 d clean
tank dam
  volume 100 L
  every 1 d clean
tank b1
  volume 60 L
  every 1 d clean
tank fry
  volume 20 L
  role grow-out
  every 1 d clean
tank h1
  volume 20 L
  role hospital
  every 1 d clean
system rack
  sump 20 L
  every 1 d change 10 %
tank r1
  volume 20 L
  system rack
  every 1 d clean
tank r2
  volume 20 L
  system rack
  every 1 d clean
2026-02-01
  dam count praecox 20
  fry count praecox 30
  b1 count praecox 4
  r2 count praecox 9
  h1 note "empty"
  r1 note "empty"
2026-03-01
  q1 arrive praecox 8 lot a17
  r2 move praecox 2 -> b1
2026-03-05
  r2 sick praecox 2 of 7 case flukes-1
`;
const on = async (asOf: string, text = log) => {
  const cwd = folderOf({ "room.tank": text });
  const { out, err, status } = await standpipe(["today", "--json", "--as-of", asOf], { cwd });
  expect([status, err]).toEqual([0, ""]);
  return todayReport.parse(JSON.parse(out)).days[0]!;
};
const shown = async (asOf: string, columns = 80, text = log): Promise<string> =>
  (
    await atDesk(["today", "--as-of", asOf], {
      cwd: folderOf({ "room.tank": text }),
      columns,
      env: { NO_COLOR: "1" },
    })
  ).out;

describe("the order of hands", () => {
  test("is that of the round, each place with its reason, a reminder before each dirtier class", async () => {
    const { round } = await on("2026-03-06");
    expect(round.map(({ at, stage, before }) => `${at} ${stage}${before === "" ? "" : " !"}`)).toEqual([
      "fry fry",
      "dam healthy",
      "b1 exposed !",
      "q1 quarantine !",
      "h1 hospital !",
      "rack sick !",
      "r1 sick",
      "r2 sick",
    ]);
    expect(round.slice(-3).map(({ reason }) => reason)).toEqual([
      "r2: case flukes-1 is open",
      "one water with r2: case flukes-1 is open",
      "case flukes-1 is open",
    ]);
  });

  test("is told of all tanks, whatever is due", async () => {
    const { hands } = await on("2026-03-06");
    expect(hands.map(({ at, stage }) => `${at} ${stage}`)).toEqual([
      "fry fry",
      "dam healthy",
      "b1 exposed",
      "q1 quarantine",
      "h1 hospital",
      "r1 sick",
      "r2 sick",
    ]);
    expect(hands[2]!.reason).toBe("case flukes-1 may have reached it");
  });

  test("is printed with a break and a reminder before each dirtier class, once", async () => {
    const text = await shown("2026-03-06");
    expect(text).toContain("  exposed: disinfect hands and tools first,");
    expect(text).toContain("  b1 case flukes-1 may have reached it\n");
    expect(text).toContain("  q1 quarantine until 29 March\n");
    expect(text.match(/disinfect hands and tools first/g)).toHaveLength(4);
    expect(text.indexOf("fry first")).toBeLessThan(text.indexOf("exposed:"));
  });

  test("says nothing of hands where all is well", async () => {
    const well = log.slice(0, log.indexOf("2026-03-01")).replace(/ {2}role (quarantine|hospital)\n/g, "");
    expect(await shown("2026-02-03", 80, well)).not.toContain("disinfect");
  });

  for (const columns of [24, 40, 80, 120])
    test(`fits ${columns} columns`, async () => {
      const lines = (await shown("2026-03-06", columns)).split("\n");
      expect(lines.filter((line) => widthOf(line) > columns)).toEqual([]);
    });
});

describe("quarantine in the report of the day", () => {
  test("is told while it runs and on its last day, with the day it is and what put it off", async () => {
    const { quarantine } = await on("2026-03-12");
    expect(quarantine).toMatchObject([
      { tanks: ["q1"], since: "2026-03-01", end: "2026-03-29", dayText: "day 12 of 28", daysLeft: 17 },
    ]);
    expect(quarantine[0]!.arrivals).toMatchObject([{ lot: "a17", animals: 8, day: "2026-03-01" }]);
    expect((await on("2026-03-29")).quarantine[0]).toMatchObject({ isOver: true, text: "ends today" });
    expect((await on("2026-03-30")).quarantine).toEqual([]);
    expect((await on("2026-02-28")).quarantine).toEqual([]);
  });

  test("is printed", async () => {
    const lost = `${log}2026-03-20\n  q1 lose praecox 1 found\n`;
    expect(await shown("2026-03-21", 100, lost)).toContain(
      "Quarantine\n  q1  day 21 of 33; until 3 April, 13 days left; 7 praecox; put off by a loss on 20 March\n",
    );
    expect(await shown("2026-04-04", 100, lost)).not.toContain("\nQuarantine\n");
  });
});
