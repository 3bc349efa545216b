import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

/** The calendar, read back by a library that is not the one that wrote it. */

interface Read {
  readonly uid: string;
  readonly title: string;
  readonly about: string;
  readonly from: string;
  /** Not included, as it stands in the file. */
  readonly until: string;
  readonly isDay: boolean;
  readonly place: string;
  readonly category: unknown;
  readonly status: unknown;
  readonly stamp: string;
  readonly sequence: number;
}

function read(text: string): Read[] {
  const calendar = new ICAL.Component(ICAL.parse(text));
  expect(calendar.getFirstPropertyValue("version")).toBe("2.0");
  return calendar.getAllSubcomponents("vevent").map((each) => {
    const event = new ICAL.Event(each);
    return {
      uid: event.uid,
      title: event.summary,
      about: event.description,
      from: event.startDate.toString(),
      until: event.endDate.toString(),
      isDay: event.startDate.isDate,
      place: event.location ?? "",
      category: each.getFirstPropertyValue("categories"),
      status: each.getFirstPropertyValue("status"),
      stamp: String(each.getFirstPropertyValue("dtstamp")),
      sequence: event.sequence,
    };
  });
}

/** RFC 5545, 3.1: every line ends in CR LF and has at most 75 octets before it. */
function expectLines(text: string): void {
  expect(text.endsWith("\r\n")).toBe(true);
  expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  for (const line of text.split("\r\n")) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  expect(text.replaceAll("\r\n", "")).not.toMatch(/\p{Cc}/u);
}

const room = `room "Shed"
  as-of last-entry
  quarantine 28 d
species praecox
  hatches 7..9 d at 25 C
tank dam
  place "left wall; low"
  volume 100 L
  every 7 d change 30 %
  every 7 d clean
tank q1
  role quarantine
  volume 40 L
  at least 2 per 7 d feed flake
food flake
  kind dry
  expires 2026-03-20
  opened 2026-01-15
  keeps 60 d
remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
  expires 2026-03-18
gear lamp
  on dam
  expires 2026-03-17
  every 30 d service
order o-1
  wants praecox 2
  due 2026-03-14
  buyer "Club, north"
order o-2
  wants praecox 1
  due 2026-03-16
`;
const log = `2026-03-01
  dam change 30 %
  dam clean
  dam arrive praecox 9
  lamp service checked
  q1 arrive praecox 4
  q1 feed flake
2026-03-08
  q1 dose prazi 80 mg
  dam spawn praecox 40 lot p1
2026-03-10
  dam sell praecox 1 order o-2 to "a neighbour"
`;
const shed = { "room.tank": room, "log.tank": log };

const calendarOf = async (files: Readonly<Record<string, string>>, ...more: string[]): Promise<Read[]> => {
  const { status, out, err } = await atDesk(["calendar", ...more], { cwd: folderOf(files) });
  expect([status, err]).toEqual([0, ""]);
  expectLines(out);
  return read(out);
};
const line = ({ from, title }: Read): string => `${from} ${title}`;

describe("standpipe calendar", () => {
  test("has what is due in the next days, each as whole days", async () => {
    const events = await calendarOf(shed);
    expect(events.map(line)).toEqual([
      "2026-03-10 dam: change 30 %",
      "2026-03-10 dam: clean",
      "2026-03-10 q1: feed flake",
      "2026-03-14 order o-1 to Club, north",
      "2026-03-15 q1: dose 2 of 3 of prazi",
      "2026-03-15 dam: p1 to hatch",
      "2026-03-16 order o-2: gone",
      "2026-03-16 flake: open for as long as it keeps",
      "2026-03-17 dam: change 30 %",
      "2026-03-17 dam: clean",
      "2026-03-17 lamp: last day of use",
      "2026-03-18 prazi: last day of use",
      "2026-03-20 flake: last day of use",
      "2026-03-22 q1: dose 3 of 3 of prazi",
      // It was done within as many days before: an earlier calendar may have it on another day.
      "2026-03-31 dam: service lamp",
    ]);
    expect(events.every(({ isDay }) => isDay)).toBe(true);
    const [change] = events;
    expect(change).toMatchObject({
      until: "2026-03-11",
      place: "left wall; low",
      category: "work",
      status: "CONFIRMED",
      stamp: "2026-03-10T00:00:00Z",
    });
    expect(change?.about).toBe(
      "Due on 8 March 2026, 2 days late on 10 March 2026.\nLast done on 1 March 2026.\nEvery 7 days, stated in tank dam.",
    );
    expect(events.find(({ title }) => title.includes("dose 2"))?.about).toMatch(/label|veterinar/i);
    // From the first day on which it may be to the last.
    expect(events.find(({ title }) => title.includes("hatch"))?.until).toBe("2026-03-18");
    expect(events.find(({ title }) => title.includes("gone"))?.status).toBe("CANCELLED");
  });

  test("tells when a quarantine is over, further ahead", async () => {
    const events = await calendarOf(shed, "--days", "60");
    expect(events.map(line)).toContain("2026-03-29 q1: quarantine over");
  });

  test("is the same bytes for the same log, wherever it is read and in whatever time zone", async () => {
    const cwd = folderOf(shed);
    const zone = (TZ: string) => standpipe(["calendar"], { cwd, env: { TZ } });
    const { out } = await zone("UTC");
    expect((await zone("Pacific/Auckland")).out).toBe(out);
    expect((await zone("America/Los_Angeles")).out).toBe(out);
    const { out: elsewhere } = await standpipe(["calendar", cwd], { cwd: "/" });
    expect(elsewhere).toBe(out);
  });

  test("moves the event of what was done, and leaves all others their days and identities", async () => {
    const before = await calendarOf(shed);
    const after = await calendarOf({ ...shed, "log.tank": `${log}  dam change 30 %\n` });
    expect(after.map(({ uid }) => uid).sort()).toEqual(before.map(({ uid }) => uid).sort());
    const moved = after.filter(({ uid, from }) => before.find((each) => each.uid === uid)!.from !== from);
    expect(moved.map(line)).toEqual(["2026-03-17 dam: change 30 %", "2026-03-24 dam: change 30 %"]);
  });

  test("tells what was done of late where it is due now, be it after the days asked for", async () => {
    const done = `${log.replace("  lamp service checked\n", "")}  lamp service checked\n`;
    const events = await calendarOf({ ...shed, "log.tank": done }, "--days", "7");
    expect(events.map(line)).toContain("2026-04-09 dam: service lamp");
    const early = await calendarOf(shed, "--days", "7");
    expect(early.map(({ title }) => title)).not.toContain("dam: service lamp");
  });

  test("counts no entry after the day asked for, and a later calendar is known as the later", async () => {
    const [early] = await calendarOf(shed, "--as-of", "2026-03-05");
    const [late] = await calendarOf(shed);
    expect(early).toMatchObject({
      from: "2026-03-08",
      title: "dam: change 30 %",
      stamp: "2026-03-05T00:00:00Z",
    });
    expect(late!.sequence - early!.sequence).toBe(5);
  });

  test("tells apart what is stated twice, and rooms with like tanks", async () => {
    const twice = room.replace("  every 7 d clean\n", "  every 7 d clean\n  every 14 d clean\n");
    const events = await calendarOf({
      "a/room.tank": twice,
      "a/log.tank": log,
      "b/room.tank": room,
      "b/log.tank": log,
    });
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    expect(events[0]?.title).toMatch(/^Shed, /);
  });

  test("of a room of which nothing is due is empty and can be read", async () => {
    const events = await calendarOf({ "room.tank": 'room "Bare"\ntank a\n  volume 10 L\n' });
    expect(events).toEqual([]);
  });

  test("writes a file whole, and never over a log", async () => {
    const cwd = folderOf(shed);
    const { status, out, err } = await atDesk(["calendar", "--out", "due.ics"], { cwd });
    expect([status, out, err]).toEqual([0, "", "due.ics: 15 events of 14 days from 2026-03-10 on\n"]);
    expect(read(readFileSync(join(cwd, "due.ics"), "utf8"))).toHaveLength(15);
    expect(readdirSync(cwd).sort()).toEqual(["due.ics", "log.tank", "room.tank"]);
    const refused = await atDesk(["calendar", "--out", "log.tank"], { cwd });
    expect([refused.status, refused.err]).toEqual([
      2,
      "standpipe: --out log.tank: a file that ends in .tank is a log; a calendar ends in .ics\n",
    ]);
    expect(readFileSync(join(cwd, "log.tank"), "utf8")).toBe(log);
    const nowhere = await atDesk(["calendar", "--out", "no/due.ics"], { cwd });
    expect([nowhere.status, nowhere.err]).toEqual([
      2,
      "standpipe: no/due.ics: there is no such file or folder\n",
    ]);
    expect(existsSync(join(cwd, "no"))).toBe(false);
  });

  test("says what is wrong with a call", async () => {
    for (const days of ["0", "367", "two", "1.5"]) {
      const { status, err } = await atDesk(["calendar", "--days", days], { cwd: folderOf(shed) });
      expect([status, err]).toEqual([
        2,
        `standpipe: --days takes a whole number of days from 1 to 366, not “${days}”\n`,
      ]);
    }
  });

  test("of the sample room can be read, and is the same a second time", async () => {
    const { out } = await atDesk(["calendar", cellar]);
    expectLines(out);
    const events = read(out);
    expect(events.length).toBeGreaterThan(100);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    expect((await atDesk(["calendar", cellar])).out).toBe(out);
  });
});

test("any names and texts are read back as they are, each event with an identity of its own", async () => {
  const letters = fc.constantFrom(
    "ä",
    "水",
    "🐟",
    ";",
    ",",
    "\\",
    "'",
    ":",
    "n",
    "N",
    " ",
    "=",
    "\u0007",
    "\u2028",
    "END:VEVENT",
    "x",
  );
  const texts = fc.array(letters, { maxLength: 60 }).map((parts) => parts.join(""));
  const names = fc.stringMatching(/^[a-z][a-z0-9-]{0,90}$/);
  await fc.assert(
    fc.asyncProperty(texts, names, texts, async (title, tank, where) => {
      const input = `room "${title}"\n  as-of last-entry\ntank ${tank}\n  place "${where}"\n  every 3 d clean\n  every 9 d clean\n2026-03-01\n  ${tank} clean\n`;
      const { status, out } = await atDesk(["calendar", "-"], { input });
      expect(status).toBe(0);
      expectLines(out);
      const events = read(out);
      if (input.includes(`tank ${tank}`) && events.length > 0) {
        const plain = (text: string): string => text.replace(/[\p{Cc}\u2028\u2029]+/gu, " ").trim();
        expect(events[0]).toMatchObject({ title: `${tank}: clean`, from: "2026-03-04" });
        if (!where.includes("\\")) expect(events[0]?.place).toBe(plain(where));
        expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
      }
    }),
    { numRuns: 60 },
  );
});
