import { clockOf, spokenDay } from "../../book/dates.ts";
import { one } from "../../book/defined.ts";
import { Kind } from "../../book/entries/registry.ts";
import { nameOf } from "../../book/interner.ts";
import { unitText, type Value } from "../../book/reading.ts";
import type { Food } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import { type Culture, culturesOn } from "../../room/cultures.ts";
import { type PantryItem, pantryItem, targetWords } from "../../room/pantry.ts";
import { supplyRows } from "../../room/supply-rows.ts";
import { rowLocation } from "../card-parts.ts";
import { windowText } from "../figures/feed.ts";
import { stationsOf } from "../figures/row.ts";
import { paragraphs, plain } from "../markdown.ts";
import { lastsText } from "../pantry-card.ts";
import { counted, headline, linked, type Scope, section } from "./parts.ts";

/** A food: what is stated of it, what is on hand and for how long, where it was fed, its cultures. */

export function foodHover(scope: Scope, name: string): string {
  const { checked } = scope.view;
  const { logbook, book } = checked;
  const food = book.foods.get(name);
  const item = pantryItem(logbook, name, scope.today);
  const cultures = culturesOn(logbook, scope.today).filter(
    (each) => each.name === name && each.is !== "harvested",
  );
  return paragraphs(
    headline(name, food?.title ?? "", food?.kind ?? "", food === undefined ? "not defined" : ""),
    plain(statedText(scope, food, name, item)),
    plain(onHandText(scope, item, food)),
    fedText(scope, name, item),
    section(
      "Cultures",
      cultures.map((each) => cultureItem(scope, each)),
    ),
  );
}

function statedText({ view, today }: Scope, food: Food | undefined, name: string, item: PantryItem): string {
  const portion = one(view.checked.book.names.get(name)?.definition, "portion");
  const day = (end: number): string => spokenDay(end, today);
  const open = item.openedUntil;
  return [
    portion?.portion === undefined || portion.mass === undefined
      ? ""
      : `${written(portion.portion)} weighs ${written(portion.mass)}`,
    food === undefined || Number.isNaN(food.expires)
      ? ""
      : `${food.expires < today ? "expired" : "expires"} ${day(food.expires)}`,
    Number.isNaN(open) || food === undefined
      ? ""
      : `opened ${day(food.opened)}, ${open < today ? "was good" : "good"} until ${day(open)}`,
  ]
    .filter((part) => part !== "")
    .join("; ");
}

function onHandText({ today }: Scope, item: PantryItem, food: Food | undefined): string {
  const { unknown, onHand, unit, use, runsOut, anchors } = item;
  // What is raised is not weighed.
  if (unknown !== "") return food?.kind === "live" && anchors.length === 0 ? "" : `On hand: ${unknown}.`;
  const lasts = lastsText(item);
  const parts = [
    `${formatNumber(onHand)} ${unit} on hand`,
    use === undefined ? "" : `${formatNumber(use.aDay)} ${unit} a day`,
    lasts === "" ? "" : `lasts ${lasts}, until ${spokenDay(runsOut, today)}`,
  ];
  return parts.filter((part) => part !== "").join("; ");
}

/** How often it was fed in the last seven days, and when and where last. */
function fedText(scope: Scope, name: string, { lastUsed }: PantryItem): string {
  const { view, today } = scope;
  const { book, logbook } = view.checked;
  const rows = supplyRows(logbook, new Set([Kind.feed]), today - 6, today, nameOf(name));
  const tanks = new Set(rows.flatMap(({ target }) => stationsOf(book, target).map(({ id }) => id)));
  const late =
    rows.length === 0
      ? "Not fed in the last 7 days"
      : `Fed in the last 7 days: ${counted(rows.length, "time")} in ${counted(tanks.size, "tank")}`;
  if (lastUsed === undefined) return plain(`${late}.`);
  const last = `last fed ${spokenDay(lastUsed.day, today)} to ${targetWords(lastUsed)}`;
  return `${plain(`${late};`)} ${linked(scope, last, rowLocation(lastUsed.block, lastUsed.id))}${plain(".")}`;
}

function cultureItem(scope: Scope, { start, is, readyFrom, readyUntil }: Culture): string {
  const begun = `begun ${spokenDay(start.time, scope.today)} ${clockOf(start.time)}`;
  const window = Number.isNaN(readyFrom) ? "" : `, ready ${windowText(readyFrom, readyUntil, scope.today)}`;
  const state = is === "overdue" || is === "missed" ? ", not harvested" : "";
  return linked(
    scope,
    `${targetWords(start)}: ${begun}${window}${state}`,
    rowLocation(start.block, start.id),
  );
}

const written = (value: Value): string => `${formatNumber(value.value)} ${unitText(value)}`.trim();
