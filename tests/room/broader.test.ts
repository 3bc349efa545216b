import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { Room } from "../support/room.ts";

/** What counts for what: an entry that says as much as a duty asks for, or more, does it; one that says less does not. */

const definitions = `room "Shed"
system rack-water
  sump 90 L
tank dam
  volume 100 L
tank r1
  volume 20 L
  system rack-water
tank r2
  volume 20 L
  system rack-water
group rack = r1 .. r2
gear canister
  kind filter
  on dam
gear heater-1
  kind heater
  on dam
gear ph-meter
  kind meter
gear ph-kit
  kind kit
gear gh-kit
  kind kit
gear lamp-1
  kind lamp
  on dam
species praecox
species fern
  kind plant
food cyclops
  kind frozen
food flake
  kind dry
remedy salt
  target 1 g/L
remedy praziquantel
  target 2 mg/L
`;

/** Days since an entry did a duty of a station, or `no`. The duty was done in February by hand of its own words. */
function by(duty: string, ...entries: string[]): "done" | "no" {
  const [owner, act] = duty.split(": ") as [string, string];
  const with_ = definitions.replace(
    new RegExp(`^(\\w+ ${owner}\\b.*|${owner} .*)$`, "m"),
    `$1\n  every 10 d ${act}`,
  );
  const room = new Room(`${with_}2026-03-01\n${entries.map((entry) => `  ${entry}\n`).join("")}`);
  return Number.isNaN(room.duty(owner, act).last) ? "no" : "done";
}

describe("each row of the table in FORMAT.md", () => {
  const page = readFileSync(new URL("../../language/FORMAT.md", import.meta.url), "utf8");
  const [, table = ""] = /\| duty +\| is done by[^\n]*\n\|[- |]+\n((?:\|[^\n]*\n)+)/.exec(page) ?? [];
  const codes = (cell = ""): string[] => [...cell.matchAll(/`([^`]+)`/g)].map(([, code]) => code!);
  const rows = table
    .trim()
    .split("\n")
    .map((row) => row.split("|").slice(1, -1));
  it("is there", () => expect(rows.length).toBeGreaterThan(20));
  for (const [duty, done, not] of rows) {
    it(codes(duty)[0]!, () => {
      expect(codes(done)).not.toEqual([]);
      expect(codes(not)).not.toEqual([]);
      for (const entry of codes(done)) expect(by(codes(duty)[0]!, entry), entry).toBe("done");
      for (const entry of codes(not)) expect(by(codes(duty)[0]!, entry), entry).toBe("no");
    });
  }
});

describe("a service", () => {
  it.each([
    // The duty, what does it, what does not.
    ["service canister", ["service canister", "service canister rinsed", "service canister checked"], []],
    [
      "service canister rinsed",
      ["service canister rinsed", "service canister replaced"],
      ["service canister", "service canister checked", "service canister repaired"],
    ],
    [
      "service canister replaced",
      ["service canister replaced"],
      ["service canister", "service canister rinsed", "service canister repaired"],
    ],
    [
      "service canister repaired",
      ["service canister repaired", "service canister replaced"],
      ["service canister rinsed"],
    ],
    [
      "service heater-1 checked",
      [
        "service heater-1",
        "service heater-1 checked",
        "service heater-1 replaced",
        "service heater-1 repaired",
        "check heater-1",
        "check heater",
        "check heaters, lamps",
        "check",
        "check all",
      ],
      ["check lamp-1", "check lamps", "service canister checked"],
    ],
  ])("%s", (act, done, not) => {
    for (const entry of done) expect(by(`dam: ${act}`, `dam ${entry}`), entry).toBe("done");
    for (const entry of not) expect(by(`dam: ${act}`, `dam ${entry}`), entry).toBe("no");
  });

  it("that the room owes of a gear is done wherever the gear is, and one of nothing named by the room alone", () => {
    for (const entry of [
      "room service ph-meter calibrated",
      "ph-meter service calibrated",
      "dam service ph-meter calibrated",
      "@rack service ph-meter calibrated",
    ])
      expect(by("room: service ph-meter calibrated", entry), entry).toBe("done");
    expect(by("room: service", "room service")).toBe("done");
    expect(by("room: service", "ph-meter service calibrated")).toBe("no");
  });

  it("of a kind of gear does the duty of the only one that is there", () => {
    expect(by("canister: service rinsed", "dam service filter rinsed")).toBe("done");
    expect(by("canister: service rinsed", "r1 service filter rinsed")).toBe("no");
    expect(by("ph-kit: service", "room service kit")).toBe("no");
  });
});

describe("what was calibrated", () => {
  const meter = (entries: string): Room =>
    new Room(
      `gear ph-meter\n  kind meter\n  from 2026-01-01\n  every 30 d service calibrated\n2026-03-01\n  ph-meter service calibrated\n${entries}`,
    );
  it("is not by a replacement, which has the new one owe it from its day", () => {
    const room = meter('2026-03-10\n  ph-meter service replaced\n2026-03-12\n  room note "x"');
    expect(room.duty("ph-meter", "service", "2026-03-09")).toMatchObject({ late: -22 });
    expect(room.duty("ph-meter", "service", "2026-03-10")).toMatchObject({ late: 0 });
    expect(room.duty("ph-meter", "service", "2026-03-12")).toMatchObject({ late: 2 });
  });
  it("and is again once the new one is", () => {
    const room = meter("2026-03-10\n  ph-meter service replaced\n  ph-meter service calibrated");
    expect(room.duty("ph-meter", "service", "2026-03-12")).toMatchObject({ late: -28, undone: undefined });
  });
  it("is not taken back by a look", () => {
    const room = meter("2026-03-10\n  ph-meter service checked");
    expect(room.duty("ph-meter", "service", "2026-03-12")).toMatchObject({ late: -19 });
  });
});

describe("duties of one gear with different work", () => {
  it("stand beside each other", () => {
    const room = new Room(`tank dam
  volume 100 L
gear canister
  kind filter
  on dam
  from 2026-01-01
  every 28 d service rinsed
  every 365 d service replaced
2026-02-01
  dam service canister rinsed
2026-03-01
  canister service replaced`);
    expect(room.checked.book.duties.map(({ act }) => act)).toEqual(["service rinsed", "service replaced"]);
    expect(room.duty("canister", "service rinsed", "2026-02-10").late).toBe(-19);
    expect(room.duty("canister", "service replaced", "2026-02-10").last).toBeNaN();
    expect(room.duty("canister", "service rinsed", "2026-03-02").late).toBe(-27);
    expect(room.duty("canister", "service replaced", "2026-03-02").late).toBe(-364);
  });
});

describe("a clean", () => {
  it("without a part, or of all, counts for each; one of the glass for each glass; a part does not count for the whole", () => {
    for (const entry of ["dam clean", "dam clean all", "dam clean glass", "dam clean front-glass, gravel"])
      expect(by("dam: clean front-glass", entry), entry).toBe("done");
    expect(by("dam: clean front-glass", "dam clean back-glass")).toBe("no");
    expect(by("dam: clean glass", "dam clean front-glass")).toBe("no");
    expect(by("dam: clean gravel", "dam clean glass")).toBe("no");
    expect(by("dam: clean all", "dam clean glass, gravel")).toBe("no");
    expect(by("dam: clean all", "dam clean")).toBe("done");
    expect(by("dam: clean", "dam clean front-glass")).toBe("done");
  });
  it("of all parts on one day is one of the whole; what is grazed is left out", () => {
    expect(by("dam: clean glass", "dam clean front-glass, back-glass", "dam clean side-glass")).toBe("done");
    const grazed = `tank dam\n  volume 100 L\n  grazed back-glass, side-glass\n  every 7 d clean glass\n2026-03-01\n  dam clean front-glass`;
    expect(new Room(grazed).duty("dam", "clean").last).not.toBeNaN();
  });
  it("of a system or a group counts for its tanks, of one tank not for the system", () => {
    expect(by("r1: clean", "rack-water clean")).toBe("done");
    expect(by("r1: clean", "@rack clean")).toBe("done");
    expect(by("r1: clean", "r2 clean")).toBe("no");
    expect(by("rack-water: clean", "r1 clean")).toBe("no");
  });
});

describe("water", () => {
  it("is tested for all that share it, and changed for all where the system is named", () => {
    expect(by("r1: test nitrate", "r2 test nitrate 5, pH 7")).toBe("done");
    expect(by("rack-water: test nitrate", "r2 test nitrate 5")).toBe("done");
    expect(by("r1: test nitrate", "r1 test pH 7")).toBe("no");
    expect(by("r1: change 30 %", "rack-water change 30 %")).toBe("done");
    expect(by("r1: change 30 %", "r1 change 50 %")).toBe("done");
    expect(by("r1: change 30 %", "r1 change 20 %")).toBe("no");
    expect(by("rack-water: change 30 %", "r1 change 100 %")).toBe("no");
  });
});

describe("a feeding", () => {
  it("of a food counts for its kind; that nothing was fed does a duty to feed, and is no time of several", () => {
    expect(by("dam: feed frozen", "dam feed cyclops")).toBe("done");
    expect(by("dam: feed", "dam feed flake")).toBe("done");
    expect(by("dam: feed cyclops", "dam feed flake")).toBe("no");
    expect(by("dam: feed frozen", "dam feed none")).toBe("no");
    expect(by("dam: feed", 'dam feed none "fasting"')).toBe("done");
    const atLeast = `tank dam\n  volume 100 L\n  at least 2 per 7 d feed\n2026-03-01\n  dam feed none\n`;
    expect(new Room(atLeast).duty("dam", "feed").times).toBe(0);
  });
});

describe("a look", () => {
  it("at all of a kind counts for each of it, at one not for all", () => {
    for (const entry of [
      "room check kits",
      "room check kit",
      "room check",
      "room check all",
      "room check ph-kit, gh-kit",
    ])
      expect(by("room: check kits", entry), entry).toBe("done");
    expect(by("room: check kits", "room check ph-kit")).toBe("no");
    expect(by("room: check kits", "room check remedies")).toBe("no");
    expect(by("room: check ph-kit", "room check kits")).toBe("done");
    expect(by("ph-kit: check", "room check kits")).toBe("done");
    expect(by("ph-kit: check", "room check ph-kit")).toBe("done");
    expect(by("ph-kit: check", "room check lamps")).toBe("no");
    expect(by("heater-1: check", "dam check heater")).toBe("done");
    expect(by("heater-1: check", "r1 check heater")).toBe("no");
    expect(by("heater-1: check", "room check heaters")).toBe("done");
  });
  it("at the remedies or foods counts for each of them", () => {
    expect(by("room: check praziquantel", "room check remedies")).toBe("done");
    expect(by("room: check remedies", "room check praziquantel")).toBe("no");
    expect(by("room: check remedies", "room check praziquantel, salt")).toBe("done");
    expect(by("room: check foods", "room check flake, cyclops")).toBe("done");
  });
  it("is what a service is, too, of the gear that it names", () => {
    expect(by("dam: check heater", "dam service heater-1 replaced")).toBe("done");
    expect(by("heater-1: check", "dam service heater-1 repaired")).toBe("done");
    expect(by("dam: check heater", "dam service canister")).toBe("no");
    expect(by("dam: check", "dam service canister")).toBe("no");
    expect(by("heater-1: service checked", "dam check heater-1")).toBe("done");
    expect(by("heater-1: service replaced", "dam check heater-1")).toBe("no");
  });
  it("of the room is one duty of the room, not one of each tank", () => {
    const room = new Room(
      `${definitions.replace('room "Shed"', 'room "Shed"\n  every 30 d check remedies, kits')}`,
    );
    expect(room.checked.book.duties.map(({ station, act }) => `${station.name}: ${act}`)).toEqual([
      "room: check remedies",
      "room: check kits",
    ]);
  });
});

it("what is left of a food is weighed for the room, wherever it is written", () => {
  expect(by("room: left cyclops", "dam left cyclops 20 g")).toBe("done");
  expect(by("room: left cyclops", "room left flake 20 g")).toBe("no");
});

it("a test of one parameter is no part of another's, whatever their numbers", () => {
  const room =
    new Room(`${definitions.replace("tank dam", "tank dam\n  every 10 d test temperature")}2026-03-01
  dam test temperature 24, nitrate 5
2026-03-15
  dam test nitrate 5
`);
  expect(room.duty("dam", "test temperature").less).toBeUndefined();
});
