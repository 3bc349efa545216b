import { spokenDay } from "../book/dates.ts";
import { expectedText } from "../checks/brood-words.ts";
import { homeOf } from "../room/broods.ts";
import type { AwaitedResult, ComesMeanwhile } from "../room/comes-meanwhile.ts";
import type { Culture } from "../room/cultures.ts";
import { targetWords } from "../room/pantry.ts";
import type { Quarantine } from "../room/quarantine.ts";
import { windowText } from "./figures/feed.ts";

/** What comes of itself on days away, in words. */

export function broodComes({ brood, expected }: ComesMeanwhile["broods"][number], day: number): string {
  const home = homeOf(brood, day).name;
  const name = brood.lot === "" ? `${brood.species} in ${home}` : `${brood.lot} (${brood.species}, ${home})`;
  return `${name} to ${expected.stage} ${expectedText(expected, day)}`;
}

export const cultureComes = ({ name, start, readyFrom, readyUntil }: Culture, day: number): string =>
  `${name} in ${targetWords(start)} ready ${windowText(readyFrom, readyUntil, day)}`;

export function quarantineComes({ tanks, end, signs }: Quarantine, day: number): string {
  const names = tanks.map(({ name }) => name).join(", ");
  const when = signs.length > 0 ? `not before ${spokenDay(end, day)}` : `over ${spokenDay(end, day)}`;
  return `quarantine of ${names} ${when}`;
}

export function resultComes({ case: name, laboratory, left }: AwaitedResult, day: number): string {
  const from = laboratory === "" ? "" : ` from ${laboratory}`;
  return `result${name === "" ? "" : ` of ${name}`}${from} awaited since ${spokenDay(left.day, day)}`;
}
