import { describe, expect, test } from "vitest";
import { tankReport, todayReport } from "../../language/cli/schema.ts";
import { folderOf, standpipe } from "./support.ts";

const log = `species praecox
remedy prazi
  target 2 mg/L
  repeat 2 times every 7 d
  change-after 50 %
  without carbon
remedy salt
  bath 10..30 g/L for 1..10 min
tank q1
  volume 50 L
2026-03-01
  q1 arrive praecox 4
  q1 remove carbon
  q1 dose prazi 100 mg
2026-03-02
  q1 bath praecox 2 with salt 120 g for 5 min volume 8 L
2026-03-08
  q1 dose prazi 10 mg
`;

describe("courses in the terminal", () => {
  test("the card of a tank as JSON: the latest course with its figures, and baths", async () => {
    const { out } = await standpipe([
      "tank",
      "q1",
      folderOf({ "log.tank": log }),
      "--json",
      "--as-of",
      "2026-03-05",
    ]);
    const card = tankReport.parse(JSON.parse(out));
    const { plan } = card.remedies[0]!;
    expect(plan).toMatchObject({
      state: "running",
      times: 2,
      begin: "2026-03-01",
      end: "2026-03-15",
      water: "q1",
    });
    expect(plan!.doses.map(({ time, isPlanned }) => [time.slice(0, 10), isPlanned])).toEqual([
      ["2026-03-01", false],
      ["2026-03-08", true],
    ]);
    // 2 mg/L for five days.
    expect(plan!.figures.exposure).toBeCloseTo(2 * 5 * 24, 3);
    expect(card.baths).toMatchObject([
      { time: "2026-03-02T00:00", text: "15 g/L for 5 min", concentration: 15000 },
    ]);
  });

  test("today tells what a course owes", async () => {
    const folder = folderOf({ "log.tank": log });
    const { out } = await standpipe(["today", folder, "--json", "--as-of", "2026-03-16"]);
    const { days } = todayReport.parse(JSON.parse(out));
    expect(days[0]!.courseSteps).toMatchObject([
      { at: "q1", act: "change 50 %", due: "2026-03-15", late: 1 },
      { at: "q1", act: "return carbon", due: "2026-03-15", late: 1 },
    ]);
    const { out: text } = await standpipe(["today", folder, "--as-of", "2026-03-16"]);
    expect(text).toContain("q1  change 50 %, owed after prazi: 1 day late");
  });
});
