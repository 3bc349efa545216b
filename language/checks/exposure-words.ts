import { spokenDay } from "../book/dates.ts";
import type { Contact, Cut } from "../room/contact.ts";
import type { ContactNode, ContactNodes } from "../room/contact-nodes.ts";
import type { Hop } from "../room/exposed-tanks.ts";

/** Contacts, and what they are between, in the words of findings, cards and pictures. */

/** `net`, `barrel b-12`, `lot a17 of “river nursery”`: what is outside in quotes, as it is written. @param day the year of which needs no saying */
export function nodeText(node: ContactNode, day: number): string {
  switch (node.is) {
    case "water":
      return node.body.name;
    case "barrel":
      return `barrel ${node.name}`;
    case "tool":
      return node.name;
    case "party":
      return node.name === "" ? "a buyer who is not named" : `“${node.name}”`;
    case "consignment":
      return consignmentText(node, day);
  }
}

function consignmentText(
  { lot, supplier, day: on, isPlants }: Extract<ContactNode, { is: "consignment" }>,
  day: number,
): string {
  if (lot !== "") return `lot ${lot}${supplier === "" ? "" : ` of “${supplier}”`}`;
  const what = isPlants ? "plants" : "arrival";
  return `${what} of ${supplier === "" ? "" : `“${supplier}”, `}${spokenDay(on, day)}`;
}

/** What went, without its day: `praecox moved from a to b`, `net used in b`. */
export function hopText(hop: Hop, nodes: ContactNodes, day: number): string {
  if (hop.is === "shared") return `${hop.from.name} and ${hop.to.name} share their water`;
  const { kind, what, from, to, fromStation, toStation } = hop.contact;
  const [origin, target] = [
    fromStation?.name ?? nodeText(nodes.at(from), day),
    toStation?.name ?? nodeText(nodes.at(to), day),
  ];
  switch (kind) {
    case "animals":
      if (fromStation !== undefined && toStation !== undefined)
        return `${what} moved from ${origin} to ${target}`;
      if (toStation !== undefined) return `${what} into ${target}: ${origin}`;
      return fromStation !== undefined ? `${what} from ${origin} to ${target}` : `${what} sent by ${origin}`;
    case "water":
      return `water of ${origin} into ${target}`;
    case "barrel":
      return `water of ${origin} into ${target}`;
    case "things":
      return fromStation === undefined
        ? `${what} into ${target}: ${origin}`
        : `${what} from ${origin} into ${target}`;
    case "tool":
      if (fromStation !== undefined && toStation !== undefined)
        return `${what} carried from ${origin} to ${target}`;
      return `${what} used in ${fromStation === undefined ? target : origin}`;
  }
}

/** From where a hop goes, and to where: the station that its line names, else what it is. */
export function endsOf(hop: Hop, nodes: ContactNodes, day: number): { from: string; to: string } {
  if (hop.is === "shared") return { from: hop.from.name, to: hop.to.name };
  const { from, to, fromStation, toStation } = hop.contact;
  return {
    from: fromStation?.name ?? nodeText(nodes.at(from), day),
    to: toStation?.name ?? nodeText(nodes.at(to), day),
  };
}

/** `a > net > b`. */
export function pathText(hops: readonly Hop[], nodes: ContactNodes, day: number): string {
  const ends = hops.map((hop) => endsOf(hop, nodes, day));
  return [ends[0]?.from, ...ends.map(({ to }) => to)].filter((name) => name !== undefined).join(" > ");
}

export type HopKind = Contact["kind"] | "shared";
export const kindOfHop = (hop: Hop): HopKind => (hop.is === "shared" ? "shared" : hop.contact.kind);

/** The kinds by how close they are, as `rankOf` has them. */
export const rankWords = ["animals", "water", "plants, wood, media", "tools"] as const;

export function cutText({ how, station, time, node }: Cut, nodes: ContactNodes, day: number): string {
  const name = station?.name ?? nodeText(nodes.at(node), day);
  const on = spokenDay(Math.floor(time), day);
  return how === "disinfected"
    ? `${name} disinfected on ${on}`
    : `${name} emptied and refilled on ${on}; what lives in filter and gravel may outlast that`;
}
