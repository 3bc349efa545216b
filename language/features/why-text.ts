import type { Why } from "../room/why.ts";
import { code, plain } from "./markdown.ts";
import { type Location, locationOf } from "./view.ts";

/** A tree of reasons in words: indented for a terminal, as a list for a hover. */

/** Makes an address for a place of the log, if there is one: for links in Markdown. */
export type Address = (place: Location) => string | undefined;

/** Lines indented by two spaces a level, with formulas and sources below what they explain. */
export function whyText(why: Why, depth = 0): string {
  const pad = "  ".repeat(depth);
  const lines = [`${pad}${headline(why)}`];
  if (why.formula !== undefined) lines.push(`${pad}  formula: ${why.formula}`);
  if (why.source !== undefined) lines.push(`${pad}  source: ${why.source}`);
  for (const each of why.from) lines.push(whyText(each, depth + 1));
  return lines.join("\n");
}

const headline = ({ what, value }: Why): string => (value === "" ? what : `${what}: ${value}`);

/** So many reasons of one kind are listed; of more the latest. */
const mostShown = 12;

/** The same as nested lists of Markdown; entries are links where there is an address for them. */
export function whyMarkdown(why: Why, address?: Address): string {
  const { what, value, from } = why;
  const head = value === "" ? `**${plain(what)}**` : `**${plain(value)}** ${plain(what)}`;
  return [head, ...notes(why, 0), ...branches(from, 0, address)].join("\n");
}

function branches(from: readonly Why[], depth: number, address: Address | undefined): string[] {
  const hidden = from.length - mostShown;
  const shown = hidden > 1 ? from.slice(hidden) : from;
  const pad = "    ".repeat(depth);
  const more = hidden > 1 ? [`${pad}- … ${hidden} more before`] : [];
  return [
    ...more,
    ...shown.flatMap((each) => [
      `${pad}- ${item(each, address)}`,
      ...notes(each, depth + 1),
      ...branches(each.from, depth + 1, address),
    ]),
  ];
}

function item({ what, value, place }: Why, address: Address | undefined): string {
  const href = place === undefined ? undefined : address?.(locationOf(place));
  const words =
    href === undefined ? (place === undefined ? plain(what) : code(what)) : `[${plain(what)}](${href})`;
  return value === "" ? words : `${words}: ${plain(value)}`;
}

function notes({ formula, source }: Why, depth: number): string[] {
  const pad = "    ".repeat(depth);
  return [
    ...(formula === undefined ? [] : [`${pad}- ${code(formula)}`]),
    ...(source === undefined ? [] : [`${pad}- *${plain(source)}*`]),
  ];
}
