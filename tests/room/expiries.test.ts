import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { codeActions } from "../../language/features/code-actions.ts";
import { expiriesOn } from "../../language/room/expiries.ts";
import { atCursor } from "../support/cursor.ts";
import { Room } from "../support/room.ts";

/** What is due to be replaced, with its day and how late it is: `ph-kit 2026-03-10 +3 expires`. */
function told(log: string, day: string): string[] {
  const { checked } = new Room(log);
  return expiriesOn(checked.logbook, dayOf(day)).map(
    ({ name, day: on, late, by }) => `${name} ${isoOf(on)} ${late > 0 ? "+" : ""}${late} ${by}`,
  );
}

const tank = "tank dam\n  volume 100 L\n";
const day = (date: string, ...entries: string[]): string =>
  `${date}\n${entries.map((entry) => `  ${entry}\n`).join("")}`;

describe("a gear", () => {
  const kit = `gear ph-kit\n  kind kit; expires 2026-03-10\n${tank}`;
  it("is told from two weeks before its day on, and past it", () => {
    expect(told(kit, "2026-02-23")).toEqual([]);
    expect(told(kit, "2026-02-24")).toEqual(["ph-kit 2026-03-10 -14 expires"]);
    expect(told(kit, "2026-03-10")).toEqual(["ph-kit 2026-03-10 0 expires"]);
    expect(told(kit, "2026-03-13")).toEqual(["ph-kit 2026-03-10 +3 expires"]);
  });
  it("that was replaced after its day is another one, whose day is not stated", () => {
    const replaced = `${kit}${day("2026-03-12", "room service ph-kit replaced")}`;
    expect(told(replaced, "2026-03-11")).toHaveLength(1);
    expect(told(replaced, "2026-03-13")).toEqual([]);
    expect(new Room(replaced, "2026-03-11").findings("gear")).toHaveLength(1);
    expect(new Room(replaced, "2026-03-13").findings("gear")).toEqual([]);
    // Before its day it may have been this one that came.
    expect(told(`${kit}${day("2026-03-01", "ph-kit service replaced")}`, "2026-03-13")).toHaveLength(1);
  });
  it("may be open for longer than it keeps, or last for a time: the earlier counts", () => {
    const buffer = `gear buffer\n  expires 2027-04-30; opened 2026-02-01; keeps 90 d\n${tank}`;
    expect(told(buffer, "2026-05-05")).toEqual(["buffer 2026-05-02 +3 opened"]);
    const lamp = `gear lamp-1\n  kind lamp; from 2026-01-01; lasts 100 d\n${tank}`;
    expect(told(lamp, "2026-04-01")).toEqual(["lamp-1 2026-04-11 -10 lasts"]);
    expect(told(`${lamp}${day("2026-03-30", "lamp-1 service replaced")}`, "2026-04-01")).toEqual([]);
  });
});

describe("a remedy", () => {
  const salt = (when: string): string => `remedy salt\n  target 1 g/L; ${when}\n${tank}`;
  it("is told of while it may be there", () => {
    expect(told(salt("expires 2026-03-10"), "2026-03-20")).toEqual(["salt 2026-03-10 +10 expires"]);
    const none = `${salt("expires 2026-03-10")}${day("2026-03-15", "room left salt 0 g")}`;
    expect(told(none, "2026-03-20")).toEqual([]);
    expect(new Room(none, "2026-03-20").findings("dose")).toEqual([]);
  });
  it("past its day is told at each dose, and in a bath", () => {
    const log = `species praecox\n${salt("bath 10..30 g/L for 1..30 min; expires 2026-03-10")}${day("2026-03-10", "dam dose salt 100 g")}${day("2026-03-12", "dam dose salt 100 g", "dam bath praecox 1 with salt 15 g/L for 10 min")}`;
    const found = new Room(log, "2026-03-12").findings("dose/expired");
    expect(found.map((each) => each.split(",")[0])).toEqual([
      "dose/expired-stock: salt: good until 10 March by its pack",
      "dose/expired: salt: good until 10 March by its pack",
      "dose/expired: salt: good until 10 March by its pack",
    ]);
  });
});

describe("a food", () => {
  const flake = (when: string): string => `food flake\n  kind dry; ${when}\n${tank}`;
  it("past its day is told while it is fed or on hand", () => {
    const log = flake("expires 2026-03-10");
    expect(told(log, "2026-03-09")).toEqual(["flake 2026-03-10 -1 expires"]);
    expect(told(log, "2026-03-20")).toEqual([]);
    expect(told(`${log}${day("2026-03-15", "dam feed flake")}`, "2026-03-20")).toHaveLength(1);
    expect(told(`${log}${day("2026-03-15", "dam feed flake")}`, "2026-05-20")).toEqual([]);
    expect(told(`${log}${day("2026-03-01", "room left flake 50 g")}`, "2026-05-20")).toHaveLength(1);
  });
  it("that is dry keeps three months where nothing is stated", () => {
    expect(told(flake("opened 2026-01-01"), "2026-04-01")).toEqual(["flake 2026-04-03 -2 opened"]);
  });
  it("that is open for long offers to write that a new pack was opened", () => {
    const log = `food flake\n  kind dry; ¦opened 2026-01-01; keeps 30 d\n${tank}${day("2026-03-01", "room left flake 50 g")}`;
    const { view } = atCursor(log, "2026-03-02");
    const at = view.source.blocks[0]!.text.indexOf("flake");
    const actions = codeActions(view, { start: at, end: at + 1 });
    expect(actions.map(({ title }) => title)).toContain(
      "A new pack was opened today: write opened 2026-03-02",
    );
  });
});

it("what is told of is in the order of its days", () => {
  const log = `remedy salt\n  target 1 g/L; expires 2026-03-12\ngear ph-kit\n  expires 2026-03-10\nfood flake\n  expires 2026-03-11\n${tank}`;
  expect(told(log, "2026-03-09").map((each) => each.split(" ")[0])).toEqual(["ph-kit", "flake", "salt"]);
});
