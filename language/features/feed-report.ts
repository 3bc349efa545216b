import { spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import {
  type Cell,
  figure,
  type Line,
  list,
  type Part,
  type Report,
  type Section,
  sectionsOfRooms,
  table,
  text,
} from "./document.ts";
import type {
  CultureCard,
  FeedingCard,
  FeedTankCard,
  NeedCard,
  NeedState,
  PantryCard,
} from "./feeding-cards.ts";

/** Feeding as a report: what is missing, what was fed, what is on hand, what grows. */

/** @param rooms each logbook with what it is called; of several, each section says whose it is */
export function feedReport(rooms: readonly { readonly title: string; readonly card: FeedingCard }[]): Report {
  const [first] = rooms;
  const about =
    rooms.length === 1 && first !== undefined
      ? [first.title, spokenDay(first.card.day)].filter(Boolean).join(", ")
      : "";
  return {
    title: "Feeding",
    about,
    sections: sectionsOfRooms(rooms, (card) => [
      missingSection(card),
      fedSection(card),
      rationSection(card),
      pantrySection(card),
      cultureSection(card),
    ]),
  };
}

function missingSection({ tanks, day }: FeedingCard): Section {
  const items = tanks.flatMap((tank) =>
    tank.needs
      .filter(({ is }) => is === "due" || is === "late" || is === "over")
      .map((need): Line => {
        const tone = need.is === "late" ? { tone: "warning" as const } : {};
        return { text: `${tank.name}: ${missingText(need)}`, note: forText(need), ...tone };
      }),
  );
  const hasNeeds = tanks.some(({ needs }) => needs.length > 0);
  const empty = hasNeeds
    ? "Nothing is missing: every tank got what its species need."
    : "No species here states what it needs: needs frozen at least 3 per 7 d";
  return {
    title: "Missing today",
    note: spokenDay(day),
    parts: [items.length === 0 ? text(empty) : list(items)],
  };
}

/** `frozen at least 3 in 7 days, got 1: overdue`. */
export function missingText({ text: stated, times, is }: NeedState): string {
  const state =
    is === "late" ? ": overdue" : is === "due" ? ": due today" : is === "over" ? ": too much" : "";
  return `${stated}, got ${times}${state}`;
}

const forText = ({ species }: NeedCard): string => `for ${species.join(", ")}`;

function fedSection({ tanks, kinds, days, day }: FeedingCard): Section {
  const title = `Fed in the last ${days === 1 ? "day" : `${days} days`}`;
  if (tanks.length === 0)
    return {
      title,
      parts: [
        text("Nothing was fed, and no tank has animals by the book. Under a day: dam feed cyclops 2 cubes"),
      ],
    };
  const rows = tanks.map((tank): Cell[] => [
    tank.name,
    ...kinds.map((kind) => kindCell(tank, kind)),
    lastText(tank, day),
  ]);
  return { title, parts: [table(["Tank", ...kinds.map(figure), "Last fed"], rows)] };
}

/** How often a tank got a kind of food: entries that list several of the kind are one. */
export function timesOf({ meals }: FeedTankCard, kind: string): number {
  return new Set(meals.filter((meal) => meal.kind === kind).map(({ entry }) => entry)).size;
}

function kindCell(tank: FeedTankCard, kind: string): Cell {
  const times = timesOf(tank, kind);
  const out = tank.needs.find(
    ({ food, is }) => food === kind && (is === "late" || is === "due" || is === "over"),
  );
  const shown = times === 0 ? "-" : String(times);
  if (out === undefined) return shown;
  const sign = out.is === "over" ? "too much" : "short";
  return { text: `${shown} ${sign}`, tone: out.is === "due" ? "plain" : "warning" };
}

function lastText({ last, meals }: FeedTankCard, day: number): string {
  const fasting = meals.at(-1)?.food === "none" ? ", fasting since" : "";
  if (last === null) return `not in the last months${fasting}`;
  return `${Math.floor(last.time) === day ? "today" : spokenDay(Math.floor(last.time), day)} ${last.text}${fasting}`;
}

function rationSection({ tanks, days }: FeedingCard): Section | undefined {
  const told = tanks.flatMap(({ name, ration }) =>
    ration === null || ration.gramsADay === null ? [] : [{ name, ration }],
  );
  if (told.length === 0) return undefined;
  const rows = told.map(({ name, ration }): Cell[] => [
    name,
    `${ration.unknown.length > 0 ? ">" : ""}${formatNumber(ration.gramsADay ?? Number.NaN)}`,
    ration.biomassG === null ? "" : formatNumber(ration.biomassG),
    ration.share === null ? "" : formatNumber(ration.share * 100),
    ration.ammoniaMgN === null ? "" : formatNumber(ration.ammoniaMgN),
  ]);
  const reasons = [...new Set(told.flatMap(({ ration }) => ration.unknown))];
  return {
    title: "Rations",
    note: `a day, over ${days} days`,
    parts: [
      table(["Tank", figure("g"), figure("animals, g"), figure("% of them"), figure("ammonia, mg N")], rows),
      ...(reasons.length === 0
        ? []
        : [
            text("> is without what has no weight:", "faint"),
            list(reasons.map((reason): Line => ({ text: reason, tone: "faint" }))),
          ]),
      text(
        "Ammonia: food × protein × 0.092 (Timmons & Ebeling, Recirculating Aquaculture; recalled), a planning figure, of foods that state their protein.",
        "faint",
      ),
    ],
  };
}

function pantrySection({ pantry, day }: FeedingCard): Section {
  const title = "On hand";
  if (pantry.length === 0)
    return { title, parts: [text("No food is defined. For example: food cyclops, below it kind frozen")] };
  const weighed = pantry.filter(({ onHand, remark }) => onHand !== null || remark !== "");
  const others = pantry.filter((item) => !weighed.includes(item));
  const rows = weighed.map((item): Cell[] => [
    item.remark === "" ? item.name : { text: item.name, tone: "warning" },
    item.kind,
    item.onHand === null ? "?" : item.onHandText,
    item.lastsText,
    goodText(item, day),
  ]);
  const remarks = weighed.filter(({ remark }) => remark !== "");
  const parts: Part[] = [];
  if (rows.length > 0) parts.push(table(["Food", "Kind", figure("On hand"), "Lasts", "Good until"], rows));
  if (remarks.length > 0)
    parts.push(
      list(remarks.map(({ name, remark }): Line => ({ text: `${name}: ${remark}`, tone: "warning" }))),
    );
  if (others.length > 0)
    parts.push(
      list(others.map(({ name, onHandText }): Line => ({ text: `${name}: ${onHandText}`, tone: "faint" }))),
    );
  if (others.some(({ onHand }) => onHand === null))
    parts.push(text("What is there is written as it is weighed or bought: room left cyclops 120 g", "faint"));
  return { title, parts };
}

function goodText({ expires, openedUntil }: PantryCard, day: number): string {
  const ends = [expires, openedUntil].filter((end) => end !== null);
  return ends.length === 0 ? "" : spokenDay(Math.min(...ends), day);
}

function cultureSection({ cultures, day }: FeedingCard): Section | undefined {
  if (cultures.length === 0) return undefined;
  const rows = cultures.map((each): Cell[] => [
    each.food,
    each.of,
    spokenDay(each.started, day),
    each.is === "overdue" ? { text: stateText(each), tone: "warning" } : stateText(each),
    each.harvests === 0 ? "never" : `${each.harvests}, last ${spokenDay(each.lastHarvest ?? day, day)}`,
  ]);
  // The latest of each food, and what lies out of the ranges.
  const hatches = cultures.filter(
    ({ hatch, food }, at) =>
      hatch.length > 0 &&
      (hatch.some(({ isWithin }) => !isWithin) ||
        !cultures.slice(at + 1).some((later) => later.food === food)),
  );
  const parts: Part[] = [table(["Culture", "Where", "Begun", "State", "Harvested"], rows)];
  if (hatches.length > 0) {
    parts.push(
      list(
        hatches.map(
          ({ food, started, hatch }): Line => ({
            text: `${food} begun on ${spokenDay(started, day)}: ${hatch.map((each) => each.text).join("; ")}`,
          }),
        ),
      ),
      text(`Orientation: ${hatches[0]!.hatchSource}.`, "faint"),
    );
  }
  return { title: "Cultures", parts };
}

function stateText({ is, text: window, hasBackUp }: CultureCard): string {
  switch (is) {
    case "running":
      return hasBackUp ? "running" : "running, no back-up";
    case "missed":
      return "never harvested";
    case "overdue":
      return `overdue, was ${window}`;
    case "ready":
      return window;
    case "growing":
      return window;
    case "harvested":
      return "harvested";
  }
}
