import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { periodReport, tankReport } from "../../language/cli/schema.ts";
import { atDesk, folderOf, standpipe } from "./support.ts";

const plainDesk = { columns: 88, env: { NO_COLOR: "1" } };
const day = (at: number): string => isoOf(dayOf("2026-01-01") + at);
const rated = (from: number, values: readonly number[]): string =>
  values.map((value, at) => `${day(from + 7 * at)}\n  dam algae thread ${value}\n`).join("");
const files = {
  "room.tank": `room "Shed"
tank dam
  volume 100 L
tank bare
  volume 100 L
${day(0)}
  dam light 9 h at 70 %
${rated(3, [3, 3, 2, 3, 3, 2])}${day(40)}
  dam light 7 h at 70 %
${rated(49, [1, 2, 1, 1, 0, 1])}${day(95)}
  dam trim stems 100 g
`,
};

describe("the light, the algae and the plants of a tank", () => {
  test("as text: how it is set, the last ratings, what each change brought, and what that cannot tell", async () => {
    const folder = folderOf(files);
    const { out } = await atDesk(["tank", "dam", folder, "--as-of", day(100)], plainDesk);
    const section = /\nLight, algae, plants[\s\S]*?(?=\n\n|$)/.exec(out)?.[0] ?? "";
    expect(section).toMatch(/^\nLight, algae, plants +7 h at 70 % since 10 February\n/);
    expect(section).toContain("thread algae  1 on 19 February, 2 on 26 February");
    expect(section).toContain("trimmed  6 April: 100 g stems");
    const words = section.replace(/\s+/g, " ");
    expect(words).toContain("10 February: light from 9 h at 70 % to 7 h at 70 %, 22 % less light a day");
    expect(words).toContain("thread algae: 3 before (6), 1 after (6); lower: -2 (95 % interval -2 to -1)");
    expect(words).toContain("One tank before and after, with none beside it that was left as it was");
  });

  test("is left out where nothing says anything of it", async () => {
    const folder = folderOf(files);
    const { out } = await atDesk(["tank", "bare", folder, "--as-of", day(100)], plainDesk);
    expect(out).not.toContain("Light, algae");
    const { out: json } = await standpipe(["tank", "bare", folder, "--json", "--as-of", day(100)]);
    expect(tankReport.parse(JSON.parse(json)).light).toBe(null);
  });

  test("as JSON, with days and places, as it was known on a day", async () => {
    const folder = folderOf(files);
    const { out } = await standpipe(["tank", "dam", folder, "--json", "--as-of", day(70)]);
    const { light } = tankReport.parse(JSON.parse(out));
    expect(light).toMatchObject({
      text: "7 h at 70 %",
      since: day(40),
      changes: [
        { day: day(40), days: 23, isClosed: false, at: { file: expect.stringMatching(/room\.tank$/) } },
      ],
    });
    expect(light!.changes[0]!.compared[0]).toMatchObject({
      what: "thread algae",
      isMain: true,
      before: { count: 3, text: "3" },
      after: { count: 4 },
    });
    const { out: early } = await standpipe(["tank", "dam", folder, "--json", "--as-of", day(30)]);
    expect(tankReport.parse(JSON.parse(early)).light).toMatchObject({ text: "9 h at 70 %", changes: [] });
  });

  test("a report tells of a change when as many days after it are over as there were before", async () => {
    const folder = folderOf(files);
    const told = async (from: number, to: number) => {
      const { out } = await standpipe([
        "report",
        folder,
        "--json",
        "--from",
        day(from),
        "--to",
        day(to),
        "--as-of",
        day(100),
      ]);
      return periodReport
        .parse(JSON.parse(out))
        .logbooks[0]!.lights.map(({ tank, text }) => `${tank} ${text}`);
    };
    // The log begins 40 days before the change, so that 41 days are compared: the last is day 88.
    expect(await told(82, 88)).toEqual(["dam light from 9 h at 70 % to 7 h at 70 %"]);
    expect(await told(75, 87)).toEqual([]);
    expect(await told(89, 95)).toEqual([]);
    const { out } = await atDesk(
      ["report", folder, "--from", day(82), "--to", day(88), "--as-of", day(100)],
      plainDesk,
    );
    expect(out).toMatch(/\nLight changed, before and after +1\n {2}dam, 10 February: light from/);
  });
});
