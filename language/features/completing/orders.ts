import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { reasonText } from "../../checks/shipping-words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { freeOf, type OrderState, ordersOn, promised } from "../../room/orders.ts";
import { releaseOn } from "../../room/release.ts";
import { dueSaid } from "../orders-card.ts";
import type { Aim } from "../recent.ts";
import type { View } from "../view.ts";
import type { Offers } from "./offer.ts";

/** What is offered of orders behind `ship`, `sell` and `doa`: what waits first, and of a tank what is free. */

/** The entry whose arguments they are. */
interface Here {
  readonly block: { readonly day: number };
  readonly target: string;
  readonly kind: number;
}

const goes = (kind: number): boolean => kind === Kind.ship || kind === Kind.sell;

const waiting = (view: View, day: number): OrderState[] =>
  ordersOn(view.checked.logbook, day).filter(({ missing }) => missing > 0);

/** Whole arguments: what each open order still wants and this tank has, as `praecox 4, horn 2 order o-12`. */
export function offerOrdersToFill(view: View, here: Here, offers: Offers): void {
  if (!goes(here.kind)) return;
  const day = here.block.day;
  for (const { order, lines } of waiting(view, day)) {
    const items = lines.flatMap(({ species, missing, sources }) => {
      const own = sources.find(({ release }) => release.tank.name === here.target && release.isReady);
      const animals = Math.min(missing, own?.animals ?? 0);
      return animals > 0 ? [`${species} ${formatNumber(animals, 6)}`] : [];
    });
    if (items.length === 0) continue;
    const due = dueSaid(order.due, day);
    offers.add({
      label: `${items.join(", ")} order ${written(order.name)}`,
      sort: "due",
      detail: [order.buyer || order.title, due].filter(Boolean).join(", "),
      about: { is: "name", name: order.name },
    });
  }
}

const written = (name: string): string => (/^[\p{L}][\p{L}\p{N}_-]*$/u.test(name) ? name : `"${name}"`);

/** The orders that wait, the first due first; behind `doa` those that were shipped and of which nobody has reported. */
export function ordersToName(view: View, here: Here | undefined): { name: string; detail: string }[] {
  const { logbook } = view.checked;
  const day = here?.block.day ?? logbook.today(view.worldDay);
  if (here?.kind === Kind.doa)
    return ordersOn(logbook, day)
      .filter(({ gone }) => gone.some(({ how }) => how === "ship"))
      .map(({ order, gone }) => ({
        name: order.name,
        detail: `shipped ${spokenDay(gone.at(-1)!.row.day, day)}`,
      }))
      .reverse();
  return waiting(view, day).map(({ order, lines }) => ({
    name: order.name,
    detail: lines
      .filter(({ missing }) => missing > 0)
      .map(({ species, missing }) => `${formatNumber(missing, 6)} ${species}`)
      .join(", "),
  }));
}

/** The species that may go from the tanks aimed at: those of which most are free first, each with what is against it. */
export function freeSpecies(view: View, here: Here, { stations }: Aim): { name: string; detail: string }[] {
  if (!goes(here.kind)) return [];
  const { logbook, book } = view.checked;
  const day = here.block.day;
  const releases = releaseOn(logbook, day);
  return releases
    .filter(({ tank }) => stations.includes(tank))
    .map((release) => {
      const owed = promised(logbook, release.species, day, "").reduce((sum, { animals }) => sum + animals, 0);
      const free = freeOf(release, releases, owed);
      const against = release.reasons.map((reason) => reasonText(book, reason, day));
      const counts = `${formatNumber(free, 6)} of ${formatNumber(release.animals, 6)} free`;
      return { name: release.species, free, detail: [counts, ...against].join("; ") };
    })
    .sort((a, b) => b.free - a.free);
}
