import { spokenDay } from "../../book/dates.ts";
import { formatNumber } from "../../quantity/format.ts";
import { dayCard } from "../day-card.ts";
import { emphasis, paragraphs, plain } from "../markdown.ts";
import { counted, findingItems, headline, linked, type Scope, section } from "./parts.ts";
import { dueItems } from "./station.ts";

/** A day: what was done, tank by tank, and what was left over at its end. */
export function dayHover(scope: Scope, day: number): string {
  const { checked, worldDay } = scope.view;
  const card = dayCard(checked, day, worldDay);
  const when = day === scope.today ? "today" : daysAway(day - scope.today);
  if (card === undefined) return headline(spokenDay(day), when, "nothing is logged");
  const water = [
    card.litres === 0 ? "" : `${formatNumber(card.litres)} L changed`,
    card.topUpL === 0 ? "" : `${formatNumber(card.topUpL)} L topped up`,
  ].filter((part) => part !== "");
  const tanks = card.tanks.map(({ name, entries }) => {
    const kinds = [...new Set(entries.map(({ kind }) => kind))].join(", ");
    return `${linked(scope, name, entries[0]?.at ?? null)} ${plain(kinds)}`;
  });
  return paragraphs(
    headline(spokenDay(day), when, counted(card.entries, "entry", "entries"), ...water),
    ...card.titles.map(emphasis),
    section("Done", tanks, 16),
    section(card.isToday ? "Due" : "Due and not done by its end", dueItems(scope, "", card.due), 6),
    section("Findings", findingItems(scope, card.findings), 6),
  );
}

function daysAway(days: number): string {
  if (days === -1) return "yesterday";
  if (days === 1) return "tomorrow";
  return days < 0 ? `${-days} days ago` : `in ${days} days`;
}
