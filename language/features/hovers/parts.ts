import type { FindingCard } from "../cards.ts";
import { link, list, plain } from "../markdown.ts";
import type { Location, View } from "../view.ts";
import type { Address } from "../why-text.ts";

/** What all hovers work with. */
export interface Scope {
  readonly view: View;
  /** Today, for the logbook. */
  readonly today: number;
  readonly address: Address | undefined;
}

/** Words that lead to a place, where places have addresses; the words are escaped. */
export function linked({ address }: Scope, words: string, place: Location | null): string {
  const href = place === null ? undefined : address?.(place);
  return href === undefined ? plain(words) : link(words, href);
}

/** The first line: a name, its title, and a few words. */
export function headline(name: string, ...words: readonly string[]): string {
  const said = words.filter((word) => word !== "").map(plain);
  return [`**${plain(name)}**`, ...said].join(" · ");
}

/** A list with its heading; empty without items. Of many the first are shown, and how many more there are. */
export function section(heading: string, items: readonly string[], most = 8): string {
  if (items.length === 0) return "";
  const shown = items.length > most + 1 ? items.slice(0, most) : items;
  const more = items.length - shown.length;
  return `${plain(heading)}\n\n${list(more > 0 ? [...shown, `… ${more} more`] : shown)}`;
}

export function findingItems(scope: Scope, findings: readonly FindingCard[]): string[] {
  return findings
    .filter(({ severity }) => severity !== "hint")
    .map(({ message, at }) => linked(scope, message, at));
}

/** `1 tank`, `3 tanks`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
