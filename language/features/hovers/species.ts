import { spokenDay } from "../../book/dates.ts";
import { nameOf } from "../../book/interner.ts";
import { parameters } from "../../book/parameters.ts";
import type { Tank } from "../../book/stations.ts";
import { readingText } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { addedUp, stockBook } from "../../room/stock-book.ts";
import { paragraphs, plain } from "../markdown.ts";
import { cameText, wentText } from "../stock-report.ts";
import { headline, linked, type Scope, section } from "./parts.ts";
import { maybeAt } from "./places.ts";

/** What the keeper states of a species or a source water, and where it is. */

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
    plain(lateText(scope, name)),
  );
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

const lateDays = 30;

/** `In 30 days: born 10; died 2, sold 4.` What moved between tanks of the room is left out. */
function lateText({ view, today }: Scope, species: string): string {
  const period = { from: today - lateDays + 1, to: today };
  const rows = stockBook(view.checked.logbook, period).filter((row) => row.species === species);
  const sums = { ...addedUp(rows), movedIn: 0, movedOut: 0 };
  const flows = [cameText(sums), wentText(sums)].filter((words) => words !== "");
  return flows.length === 0 ? "" : `In ${lateDays} days: ${flows.join("; ")}.`;
}
