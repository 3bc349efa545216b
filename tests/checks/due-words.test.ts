import { describe, expect, it } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { hover } from "../../language/features/hover.ts";
import { atCursor } from "../support/cursor.ts";
import { Room } from "../support/room.ts";

/** What a finding says of a duty beside how late it is. */

const tank = (duty: string, more = ""): string =>
  `${more}tank dam\n  volume 100 L\n  from 2026-03-01\n  ${duty}\n`;
const overdue = (log: string, day: string): string[] => new Room(log, day).findings("duty");

describe("a duty that fell into an absence", () => {
  const room = (more = ""): string =>
    `room "Shed"\n  away from 2026-04-10 until 2026-04-13 "at the sea"${more}\n`;
  const log = (more = ""): string =>
    `${tank("every 7 d change 30 %", room(more))}2026-04-05\n  dam change 30 %\n2026-04-30\n  dam note "x"`;

  it("is late from the day after the first day back, and says why", () => {
    expect(overdue(log(), "2026-04-13")).toEqual([]);
    expect(overdue(log(), "2026-04-14")).toEqual([]);
    expect(overdue(log(), "2026-04-15")).toEqual([
      "duty/overdue: dam: change 30 % is 1 day late (last done on 5 April 2026; due on 12 April, in the absence until 13 April)",
    ]);
  });
  it("that someone else does goes on, and asks for what was done to be written", () => {
    expect(overdue(log(" covered change"), "2026-04-13")).toEqual([
      "duty/overdue: dam: change 30 % is 1 day late (last done on 5 April 2026; due on 12 April, in the absence until 13 April, when someone else does it: write what was done)",
    ]);
  });
  it("is told in the hover, with the first day back", () => {
    const { view, offset } = atCursor(log().replace("every 7 d", "ev¦ery 7 d"), "2026-04-13");
    const text = (hover(view, offset)?.markdown ?? "").replaceAll("\\", "");
    expect(text).toContain("due on 14 April; due on 12 April, in the absence until 13 April");
    expect(text).toContain("then the next day with work");
  });
  it("of a weekday off says so", () => {
    const log = `${tank("every 7 d change 30 %", 'room "Shed"\n  off sunday\n')}2026-04-05\n  dam change 30 %\n`;
    expect(overdue(log, "2026-04-13")).toEqual([]);
    expect(overdue(log, "2026-04-14")[0]).toContain("due on 12 April, a day off");
  });
});

describe("what was done and is less", () => {
  it("is told with what is missing", () => {
    const clean = `${tank("every 7 d clean glass")}2026-03-02\n  dam clean glass\n2026-03-08\n  dam clean front-glass`;
    expect(overdue(clean, "2026-03-11")[0]).toContain(
      "“dam clean front-glass” on 8 March does not count: missing is back-glass, side-glass",
    );
    const change = `${tank("every 7 d change 25..35 %")}2026-03-02\n  dam change 30 %\n2026-03-08\n  dam change 20 %`;
    expect(overdue(change, "2026-03-11")[0]).toContain(
      "“dam change 20 %” on 8 March does not count: it is less than “change 25..35 %”",
    );
    const service = `${tank("every 7 d service canister rinsed")}2026-03-08\n  dam service canister checked`;
    expect(overdue(service, "2026-03-11")[0]).toContain("it says no “rinsed” or “replaced”");
    const kits = `gear ph-kit\n  kind kit\ngear gh-kit\n  kind kit\n${tank("role show", 'room "Shed"\n  every 7 d check kits\n')}2026-03-02\n  room note "x"\n2026-03-08\n  room check gh-kit`;
    expect(overdue(kits, "2026-03-11")[0]).toContain("missing is ph-kit");
  });
  it("is not told once it was done in full", () => {
    const log = `${tank("every 2 d change 30 %")}2026-03-02\n  dam change 20 %\n2026-03-03\n  dam change 30 %`;
    expect(overdue(log, "2026-03-07")).toEqual([
      "duty/overdue: dam: change 30 % is 2 days late (last done on 3 March 2026)",
    ]);
  });
});

describe("what was calibrated", () => {
  it("is due anew from the day the gear was replaced", () => {
    const log = `gear ph-meter\n  kind meter\n  every 30 d service calibrated\n2026-03-01\n  ph-meter service calibrated\n2026-03-10\n  ph-meter service replaced`;
    expect(overdue(log, "2026-03-11")).toEqual([
      "duty/overdue: ph-meter: service calibrated is 1 day late (last done on 1 March 2026; “ph-meter service replaced” on 10 March: it has to be calibrated anew)",
    ]);
  });
});

describe("how long a gear lasts", () => {
  const lamp = (more: string): string => `gear lamp-1\n  kind lamp; lasts 100 d\n${more}`;
  it("is counted from its first day in use, then from each replacement", () => {
    const log = lamp("  from 2026-01-01\n2026-04-20\n  lamp-1 service replaced");
    expect(overdue(log, "2026-04-11")).toEqual([]);
    expect(overdue(log, "2026-04-12")[0]).toContain("service replaced is 1 day late");
    expect(overdue(log, "2026-04-21")).toEqual([]);
    expect(overdue(log, "2026-07-30")[0]).toContain("1 day late");
  });
  it("is counted from a later first day, if that is stated", () => {
    const log = lamp("  from 2026-05-01\n2026-01-20\n  lamp-1 service replaced");
    expect(new Room(log).duty("lamp-1", "service", "2026-05-02").due).toBe(dayOf("2026-05-01") + 100);
  });
  it("is not known of what has neither; what is only looked at does not begin it", () => {
    const room = new Room(lamp("2026-01-20\n  lamp-1 service checked"), "2027-01-20");
    expect(room.findings("duty")).toEqual([
      "duty/lasts: from when? state its first day in use: from 2026-03-01. Until then it is counted from the first “service lamp-1 replaced”",
    ]);
  });
  it("is left out where a duty says when it is replaced", () => {
    const room = new Room(lamp("  from 2026-01-01\n  every 50 d service replaced\n"));
    expect(room.checked.book.duties).toHaveLength(1);
    expect(room.findings("duty/lasts")).toEqual([
      "duty/lasts: “every 50 d service replaced” says already when it is replaced: this does not count",
    ]);
  });
  it("has a hover", () => {
    const { view, offset } = atCursor(lamp("  from 2026-01-01\n").replace("lasts", "la¦sts"), "2026-04-01");
    expect(hover(view, offset)?.markdown).toContain("due on 11 April");
  });
});

it("a food has no life of a gear: it keeps", () => {
  const [found] = new Room("food flake\n  lasts 90 d").findings();
  expect(found).toBe("definition/property: a food has no property “lasts”; did you mean “keeps”?");
});

it("work that a gear does not have is told of its kind, and of the kind by name", () => {
  expect(new Room("gear lamp-1\n  kind lamp\n  every 30 d service calibrated").findings("duty/work")).toEqual(
    ["duty/work: a lamp is not calibrated: replaced, checked, repaired can be asked for"],
  );
  expect(new Room(tank("every 30 d service filter calibrated")).findings("duty/work")).toHaveLength(1);
  expect(new Room(tank("every 30 d service canister calibrated")).findings("duty/work")).toEqual([]);
});
