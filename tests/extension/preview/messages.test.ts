import { expect, test } from "vitest";
import {
  cardShape,
  memoryShape,
  toHostShape,
  toPreviewShape,
} from "../../../extension/views/preview/messages.ts";
import { casebookCard, caseCard } from "../../../language/features/case-card.ts";
import { dayCard } from "../../../language/features/day-card.ts";
import { tankCard } from "../../../language/features/tank-card.ts";
import { cellarView } from "../../support/cellar.ts";
import { placed } from "./placed.ts";

const { checked, worldDay } = cellarView("room.tank");
const subject = { uri: "file:///log.tank", tank: "dam" };

test("the cards of all tanks and systems of the sample pass the check, whole", () => {
  for (const station of checked.book.stations) {
    if (station.kind !== "tank" && station.kind !== "system") continue;
    const card = placed(checked, tankCard(checked, station, worldDay));
    expect(cardShape.parse(card)).toEqual(card);
  }
});

test("so do the cards of its days", () => {
  for (const { day } of checked.logbook.dayGroups.slice(-60)) {
    const card = placed(checked, dayCard(checked, day, worldDay));
    expect(cardShape.parse(card)).toEqual(card);
  }
});

test("so do the cards of its cases", () => {
  const { open, closed } = casebookCard(checked, worldDay);
  expect(open.length + closed.length).toBeGreaterThan(1);
  for (const { name, episode } of [...open, ...closed]) {
    const card = placed(checked, caseCard(checked, name, worldDay, episode)) as Record<string, unknown>;
    const parsed = cardShape.parse(card);
    // Of the exposure the preview is given what it shows; the picture comes drawn.
    expect({ ...parsed, exposure: undefined }).toEqual({ ...card, exposure: undefined });
    expect(Object.keys((parsed as { exposure: object }).exposure).sort()).toEqual([
      "ended",
      "hold",
      "past",
      "windowText",
    ]);
    const say = {
      say: "card",
      card,
      subject: { uri: "file:///log.tank", case: name, episode },
      isPinned: true,
    };
    expect(toPreviewShape.safeParse(say).success).toBe(true);
  }
});

test("a card that lacks a figure, or has another thing in its place, is refused", () => {
  const card = placed(checked, tankCard(checked, checked.book.tanks[0]!, worldDay)) as Record<
    string,
    unknown
  >;
  const say = (changed: object) =>
    toPreviewShape.safeParse({ say: "card", card: { ...card, ...changed }, subject, isPinned: false });
  expect(say({}).success).toBe(true);
  expect(say({ day: "today" }).success).toBe(false);
  expect(say({ water: undefined }).success).toBe(false);
  expect(say({ is: "group" }).success).toBe(false);
  expect(say({ day: Number.NaN }).success).toBe(false);
});

test("the host understands nothing but what the preview may say", () => {
  const range = { start: { line: 3, character: 2 }, end: { line: 3, character: 9 } };
  expect(toHostShape.safeParse({ say: "reveal", at: { uri: "file:///log.tank", range } }).success).toBe(true);
  for (const wrong of [
    null,
    "ready",
    {},
    { say: "run" },
    { say: "reveal", at: "file:///etc" },
    { say: "pin" },
  ])
    expect(toHostShape.safeParse(wrong).success).toBe(false);
});

test("what an older preview remembered is read as far as it goes", () => {
  expect(memoryShape.parse({})).toEqual({ isPinned: false, days: 120, scroll: 0, open: [] });
  expect(memoryShape.parse({ subject, isPinned: true, zoom: 2 })).toMatchObject({
    subject,
    isPinned: true,
    days: 120,
  });
  expect(memoryShape.safeParse({ days: "all" }).success).toBe(false);
});
