import { inbredText } from "../checks/brood-words.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { broodEntries } from "../room/brood-rows.ts";
import { broodsUntil } from "../room/broods.ts";
import { inbredOf, type Kindred, type Lineage, lineageUntil } from "../room/lineage.ts";
import type { Logbook } from "../room/logbook.ts";
import { whyEntry } from "../room/why.ts";
import { whyInbred } from "../room/why-brood.ts";
import { broodCard } from "./brood-card.ts";
import type { AncestorCard, LotCard } from "./brood-cards.ts";
import { known, rowLocation, whyCard } from "./card-parts.ts";
import { locationOf } from "./view.ts";

/** So many generations back are listed. */
const mostBack = 5;

/** A lot, as of a day outside; undefined if nothing names it as a brood, a parent, or a lot that is defined. */
export function lotCard(checked: CheckedLogbook, name: string, worldDay: number): LotCard | undefined {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  const lineage = lineageUntil(logbook, day);
  const kin = lineage.kindred.get(name);
  if (kin === undefined) return undefined;
  const { definition, brood, parents } = kin;
  const inbred = inbredOf(lineage, parents);
  return {
    name,
    title: definition?.title ?? "",
    species: kin.species,
    sex: definition?.sex ?? "",
    line: definition?.line ?? "",
    generation: definition?.generation ?? "",
    born: known(kin.isBorn ? kin.livesFrom : Number.NaN),
    brood: brood === undefined ? null : broodCard(logbook, brood, day),
    entries: entriesOf(logbook, name, day),
    ancestors: ancestorsOf(lineage, kin),
    inbreeding:
      inbred === undefined
        ? null
        : {
            low: inbred.low,
            high: inbred.high,
            text: inbredText(inbred),
            why: whyCard(whyInbred(name, inbred, inbredText(inbred))),
          },
    young: youngOf(logbook, name, day),
  };
}

/** Names that `lotCard` knows. */
export const lotNames = ({ logbook }: CheckedLogbook, worldDay: number): string[] => [
  ...lineageUntil(logbook, logbook.today(worldDay)).kindred.keys(),
];

function entriesOf(logbook: Logbook, name: string, day: number): LotCard["entries"] {
  return broodEntries(logbook, day)
    .filter(({ lot }) => lot === name)
    .map((entry) => ({
      day: entry.day,
      // The words stand behind the date.
      text: whyEntry(entry).what.slice(11),
      at: rowLocation(entry.block, entry.row),
    }));
}

function ancestorsOf(lineage: Lineage, { parents }: Kindred): AncestorCard[] {
  const found: AncestorCard[] = [];
  let now = [{ parents, as: "" }];
  for (let back = 1; back <= mostBack && now.length > 0; back++) {
    const next: typeof now = [];
    for (const each of now)
      for (const role of ["father", "mother"] as const) {
        const parent = each.parents[role];
        const kin = parent === undefined ? undefined : lineage.kindred.get(parent.name);
        if (kin === undefined) continue;
        const as = each.as === "" ? role : `${each.as}'s ${role}`;
        const inbred = inbredOf(lineage, kin.parents);
        const { definition } = kin;
        found.push({
          name: kin.name,
          as,
          back,
          title: definition?.title ?? "",
          species: kin.species,
          line: definition?.line ?? "",
          generation: definition?.generation ?? "",
          isGroup: kin.isGroup,
          inbreedingText: inbred === undefined ? "" : inbredText(inbred),
          at: definition === undefined ? null : locationOf(definition.place),
        });
        next.push({ parents: kin.parents, as });
      }
    now = next;
  }
  return found;
}

function youngOf(logbook: Logbook, name: string, day: number): LotCard["young"] {
  return broodsUntil(logbook, day)
    .filter(({ parents }) => parents.father?.name === name || parents.mother?.name === name)
    .map((brood) => {
      const { stateText } = broodCard(logbook, brood, day);
      const entry = brood.entries[0]!;
      const other = brood.parents.father?.name === name ? brood.parents.mother : brood.parents.father;
      const by = other === undefined ? "" : ` with ${other.name}`;
      return { name: brood.name, text: `${stateText}${by}`, at: rowLocation(entry.block, entry.row) };
    });
}
