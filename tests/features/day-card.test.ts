import { expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import type { DayCard } from "../../language/features/cards.ts";
import { dayCard } from "../../language/features/day-card.ts";
import { cellarView } from "../support/cellar.ts";
import { logbookOf } from "../support/marked.ts";

const room = `room "Shed"
  as-of last-entry
tank dam "Show tank"
  volume 200 L
  every 7 d change 30 %
tank q1
  volume 50 L
group all = dam, q1
remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
`;

const cardOf = (days: string, iso: string): DayCard | undefined =>
  dayCard(logbookOf(room + days), dayOf(iso), 0);

test("a day: its entries by target, in the order they were written, with times and litres", () => {
  const card = cardOf(
    `2026-03-01 "short day"
  dam change 30 %
  08:40 q1 note "eggs"   # on the mop
  @all feed none
  dam top-up 2 L
  sheet  nitrate  temperature (F)
    q1   -        77
    dam  <5       78  "before"
`,
    "2026-03-01",
  )!;
  expect(card).toMatchObject({ titles: ["short day"], isToday: true, entries: 6, litres: 60, topUpL: 2 });
  expect(card.tanks.map(({ name, isTank }) => [name, isTank])).toEqual([
    ["dam", true],
    ["q1", true],
    ["@all", false],
  ]);
  expect(card.tanks[0]).toMatchObject({ title: "Show tank", litres: 60 });
  expect(card.tanks[0]!.entries.map(({ kind, text }) => `${kind}: ${text}`)).toEqual([
    "change: change 30 %",
    "top-up: top-up 2 L",
    'test: nitrate <5, temperature 78 F, "before"',
  ]);
  expect(card.tanks[1]!.entries.map(({ clock, text }) => `${clock} ${text}`)).toEqual([
    '08:40 note "eggs"',
    " temperature 77 F",
  ]);
});

test("what was due by the end of the day and was not done", () => {
  const days = '2026-03-01\n  dam change 30 %\n2026-03-10\n  q1 note "away"\n2026-03-11\n  dam change 30 %\n';
  expect(cardOf(days, "2026-03-10")!.due.map(({ of, act, late }) => [of, act, late])).toEqual([
    ["dam", "change 30 %", 2],
  ]);
  expect(cardOf(days, "2026-03-11")!.due).toEqual([]);
});

test("a dose that is due stands among what is due today", () => {
  const days = "2026-03-01\n  q1 dose prazi 100 mg\n  dam change 30 %\n2026-03-08\n  dam change 30 %\n";
  expect(cardOf(days, "2026-03-08")!.due).toMatchObject([
    { of: "q1", act: "dose prazi", when: "2 of 3", text: "today" },
  ]);
});

test("findings of its lines, and the days before and after", () => {
  const card = cardOf(
    '2026-03-01\n  dam note "a"\n2026-03-04\n  dam chnge 30 %\n2026-03-09\n  dam note "b"\n',
    "2026-03-04",
  )!;
  expect(card.findings.map(({ code }) => code)).toEqual(["entry/kind"]);
  expect(card.before!.day).toBe(dayOf("2026-03-01"));
  expect(card.after!.day).toBe(dayOf("2026-03-09"));
  expect(card.isToday).toBe(false);
});

test("a day in two files is one day; a day nobody wrote has no card", () => {
  const checked = logbookOf(
    `--- a.tank ---\n${room}2026-03-01\n  dam note "a"\n--- b.tank ---\n2026-03-01 "b"\n  q1 note "c"\n`,
  );
  expect(dayCard(checked, dayOf("2026-03-01"), 0)).toMatchObject({ entries: 2, titles: ["b"] });
  expect(dayCard(checked, dayOf("2026-03-02"), 0)).toBeUndefined();
});

test("the cards of the sample's days are plain JSON", () => {
  const { checked, worldDay } = cellarView("room.tank");
  for (const { day } of checked.logbook.dayGroups) {
    const card = dayCard(checked, day, worldDay);
    expect(JSON.parse(JSON.stringify(card))).toEqual(card);
  }
});
