import { spokenDay } from "../../book/dates.ts";
import { one } from "../../book/defined.ts";
import { Kind } from "../../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow } from "../../book/facts.ts";
import { nameOf } from "../../book/interner.ts";
import { parameters } from "../../book/parameters.ts";
import { unitText, type Value } from "../../book/reading.ts";
import type { Tank } from "../../book/stations.ts";
import { readingText } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { stationsOf } from "../figures/row.ts";
import { paragraphs, plain } from "../markdown.ts";
import { counted, headline, linked, type Scope, section } from "./parts.ts";
import { maybeAt } from "./places.ts";

/** What the keeper states of a species, a food or a source water, and where it is. */

export function speciesHover(scope: Scope, name: string): string {
  const { checked } = scope.view;
  const species = checked.book.species.get(name);
  const number = nameOf(name);
  const homes: {
    readonly tank: Tank;
    readonly animals: number;
    readonly isAbout: boolean;
    readonly counted: number;
  }[] = [];
  for (const tank of checked.book.tanks) {
    const holding = checked.logbook.ledgerOf(tank).stock.known(tank.id, number);
    if (holding !== undefined && holding.animals > 0)
      homes.push({
        tank,
        animals: holding.animals,
        isAbout: holding.isAbout,
        counted: holding.lastCountTime,
      });
  }
  homes.sort((a, b) => b.animals - a.animals);
  const total = homes.reduce((sum, { animals }) => sum + animals, 0);
  const about = homes.some(({ isAbout }) => isAbout) ? "~" : "";
  const items = homes.map(({ tank, animals, isAbout, counted: day }) => {
    const when = Number.isNaN(day) ? "never counted" : `counted ${spokenDay(day, scope.today)}`;
    return `${linked(scope, tank.name, maybeAt(tank.place))} ${plain(`${isAbout ? "~" : ""}${formatNumber(animals, 6)}, ${when}`)}`;
  });
  const needs = (species?.needs ?? []).map(
    ({ food, when, times, periodDays }) => `${food} ${when} ${times} per ${formatNumber(periodDays)} d`,
  );
  const traits = [...(species?.traits ?? [])].filter((trait) => trait !== name && trait !== species?.kind);
  const stated = [
    species?.diet ?? "",
    species === undefined || Number.isNaN(species.school) ? "" : `school of ${species.school} at least`,
    species === undefined || Number.isNaN(species.adultCm) ? "" : `adult ${formatNumber(species.adultCm)} cm`,
    traits.join(", "),
  ].filter((part) => part !== "");
  return paragraphs(
    headline(name, species?.title ?? "", species?.kind ?? "not defined"),
    plain(stated.join("; ")),
    needs.length === 0 ? "" : plain(`needs ${needs.join(", ")}`),
    items.length === 0
      ? "None by the book."
      : section(`${about}${formatNumber(total, 6)} by the book`, items),
  );
}

export function foodHover(scope: Scope, name: string): string {
  const { checked } = scope.view;
  const food = checked.book.foods.get(name);
  const definition = checked.book.names.get(name)?.definition;
  const portion = one(definition, "portion");
  const expires =
    food === undefined || Number.isNaN(food.expires) ? "" : spokenDay(food.expires, scope.today);
  const isOver = food !== undefined && food.expires < scope.today;
  const fed = fedOfLate(scope, name);
  return paragraphs(
    headline(name, food?.title ?? "", food?.kind ?? "", food === undefined ? "not defined" : ""),
    plain(
      [
        portion?.portion === undefined || portion.mass === undefined
          ? ""
          : `${written(portion.portion)} weighs ${written(portion.mass)}`,
        expires === "" ? "" : `${isOver ? "expired" : "expires"} ${expires}`,
      ]
        .filter((part) => part !== "")
        .join("; "),
    ),
    plain(
      fed.times === 0
        ? "Not fed in the last 7 days."
        : `Fed in the last 7 days: ${counted(fed.times, "time")} in ${counted(fed.tanks, "tank")}.`,
    ),
  );
}

/** How often a food was written in the last seven days, today among them, and to how many tanks. */
function fedOfLate({ view, today }: Scope, name: string): { readonly times: number; readonly tanks: number } {
  const { book, logbook } = view.checked;
  const number = nameOf(name);
  const tanks = new Set<number>();
  let times = 0;
  for (const { day, blocks } of logbook.dayGroups) {
    if (day <= today - 7 || day > today) continue;
    for (const { facts } of blocks) {
      for (let row = 0; row < facts.count; row++) {
        const column = (which: number): number => facts.ints[row * intsPerRow + which]!;
        if (kindOfRow(facts, row) !== Kind.feed || column(Col.subject) !== number) continue;
        times++;
        for (const station of stationsOf(book, column(Col.target))) tanks.add(station.id);
      }
    }
  }
  return { times, tanks: tanks.size };
}

export function waterHover(scope: Scope, name: string): string {
  const { book } = scope.view.checked;
  const water = book.waters.find((each) => each.name === name);
  const content = [...(water?.content ?? [])].flatMap(([id, value]) => {
    const parameter = parameters[id];
    return parameter === undefined ? [] : [`${parameter.name} ${readingText(book, parameter, value)}`];
  });
  return paragraphs(
    headline(name, water?.title ?? "", water === undefined ? "no such water" : "source water"),
    plain(water !== undefined && book.waters[0] === water ? "Used where an entry names none." : ""),
    plain(
      content.length === 0
        ? "Nothing is stated of what it holds: it counts as pure."
        : `Holds ${content.join(", ")}.`,
    ),
  );
}

const written = (value: Value): string => `${formatNumber(value.value)} ${unitText(value)}`.trim();
