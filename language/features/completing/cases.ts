import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { casesUntil } from "../../room/cases.ts";
import type { Aim } from "../recent.ts";
import type { View } from "../view.ts";

/** The entry that names one. */
interface Here {
  readonly block: { readonly day: number };
  readonly kind: number;
}

/** Cases to name: those that are open, those of these targets first, the latest first; where a case may be opened again, the closed ones last. */
export function casesToName(
  view: View,
  here: Here | undefined,
  aim: Aim | undefined,
): { name: string; detail: string }[] {
  const day = here?.block.day ?? Number.POSITIVE_INFINITY;
  const cases = casesUntil(view.checked.logbook, day).filter(({ name }) => name !== "");
  const isOpen = ({ closed }: (typeof cases)[number]): boolean => Number.isNaN(closed);
  const isHere = ({ stations }: (typeof cases)[number]): boolean =>
    aim?.stations.some((station) =>
      stations.some((each) => each === station || (each.body >= 0 && each.body === station.body)),
    ) === true;
  const latest = [...cases].reverse();
  const open = latest.filter(isOpen);
  const offered = [...open.filter(isHere), ...open.filter((each) => !isHere(each))];
  const again = here?.kind === Kind.sick ? latest.filter((each) => !isOpen(each)) : [];
  const seen = new Set<string>();
  return [...offered, ...again]
    .filter(({ name }) => !seen.has(name) && seen.add(name))
    .map((each) => ({
      name: each.name,
      detail: isOpen(each)
        ? `open since ${spokenDay(each.since, here?.block.day)}, ${each.stations.map(({ name }) => name).join(", ")}`
        : `closed ${spokenDay(each.closed, here?.block.day)}`,
    }));
}
