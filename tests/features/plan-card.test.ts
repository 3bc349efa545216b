import { describe, expect, test } from "vitest";
import { type PlanCard, planCard } from "../../language/features/plan-card.ts";
import { Room } from "../support/room.ts";

const cardOf = (log: string, today: string, days = 4): PlanCard => {
  const { checked, today: day } = new Room(log, today);
  return planCard(checked, day, days);
};

const shed = `room "Shed"
  capacity 1 tanks, 100 L, 90 min
  takes    change 10 min
  away     from 2026-03-10 until 2026-03-11 "at the sea"
tank q
  volume 50 L; role quarantine
  every  7 d change 40 %
tank dam "Rainbow dam"
  volume 100 L
  every  7 d change 30..50 %
2026-03-01
  q change 40 %
  dam change 30 %
`;

describe("the plan as plain data", () => {
  test("has the stops of each day in the order of hands, what they take and what a day holds", () => {
    const card = cardOf(shed, "2026-03-08");
    expect(card).toMatchObject({
      day: "2026-03-08",
      fits: true,
      nearness: "No plan has less waiting: this is the least.",
    });
    const [first, second, third] = card.days;
    expect(first).toMatchObject({
      text: "8 March",
      away: null,
      tanks: 1,
      minutes: 10,
      holds: { tanks: 1, litres: 100, minutes: 90 },
    });
    expect([first, second].flatMap((day) => day!.stops.map(({ at, stage }) => [at, stage])).sort()).toEqual([
      ["dam", "healthy"],
      ["q", "quarantine"],
    ]);
    expect(first!.owed).toHaveLength(1);
    expect(third).toMatchObject({ away: "at the sea", stops: [] });
  });

  test("says of what was moved where it stood yesterday", () => {
    const base = `room "Shed"
  capacity 1 tanks
${["a", "b"].map((name) => `tank ${name}\n  volume 50 L\n  every 7 d clean\n`).join("")}2026-03-01
  a clean
2026-03-02
  b clean
`;
    const works = (log: string, day: string): string[] =>
      cardOf(log, day, 9).days.flatMap(({ day: on, stops }) =>
        stops.flatMap(({ work }) => work.map(({ at, moved }) => `${on} ${at} ${moved}`.trim())),
      );
    expect(works(base, "2026-03-08")).toEqual([
      "2026-03-08 a",
      "2026-03-09 b",
      "2026-03-15 a",
      "2026-03-16 b",
    ]);
    // a slipped: it has no day left that it could be moved from, and takes that of b.
    expect(works(base, "2026-03-09")).toContain("2026-03-10 b from 9 March");
  });

  test("is JSON as it stands", () => {
    const card = cardOf(shed.replace(/ {2}capacity.*\n/, ""), "2026-03-08");
    expect(card.days[0]!.holds).toEqual({ tanks: null, litres: null, minutes: null });
    expect(JSON.parse(JSON.stringify(card))).toEqual(card);
  });

  test("of a room without duties has its days, and says so", () => {
    const card = cardOf("tank dam\n  volume 10 L\n", "2026-03-08");
    expect(card.days).toHaveLength(4);
    expect(card.days.every(({ stops, owed }) => stops.length === 0 && owed.length === 0)).toBe(true);
    expect(card.fit).toContain("No duty");
  });
});
