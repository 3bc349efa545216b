import type { Book } from "../book/book.ts";
import { endsOf, hopText, kindOfHop, nodeText } from "../checks/exposure-words.ts";
import type { Contact } from "../room/contact.ts";
import { type ContactNodes, nodesOf } from "../room/contact-nodes.ts";
import type { Hop } from "../room/exposed-tanks.ts";
import { allReached, type Exposure } from "../room/exposure-of-case.ts";
import { rowLocation } from "./card-parts.ts";
import type { ArrowCard, ExposureCard, LaneCard, ReachedCard, StepCard } from "./exposure-cards.ts";

/** The steps of ways, and what a picture of them takes: a lane for all that is named, an arrow for each contact. */

export function stepCards(hops: readonly Hop[], nodes: ContactNodes, day: number): StepCard[] {
  return hops.map((hop) => ({
    time: hop.is === "shared" ? hop.time : hop.contact.time,
    kind: kindOfHop(hop),
    ...endsOf(hop, nodes, day),
    text: hopText(hop, nodes, day),
    at: hop.is === "shared" ? null : locationOfContact(hop.contact),
  }));
}

const locationOfContact = ({ block, row }: Contact) => rowLocation(block, row);

type Ways = Pick<ExposureCard, "forward" | "back" | "beside">;

/** What was reached stands in order of time below where it came from; tools last. */
export function drawnOf(
  book: Book,
  exposure: Exposure,
  { forward, back, beside }: Ways,
): Pick<ExposureCard, "lanes" | "arrows"> {
  const arrows = arrowsOf({ forward, back, beside });
  const nodes = nodesOf(book);
  const sorts = new Map<string, ReachedCard["is"]>();
  for (const { name, is } of [...back, ...forward, ...beside.flatMap(({ reached }) => reached)])
    if (!sorts.has(name)) sorts.set(name, is);
  const named = new Set<string>();
  const others = [...back]
    .sort((a, b) => a.time - b.time || b.links - a.links)
    .filter(({ isOrigin }) => !isOrigin);
  for (const { name } of others) named.add(name);
  for (const { place } of [...exposure.origins].map(({ station }) => ({ place: station.name })))
    named.add(place);
  for (const { name } of forward) named.add(name);
  for (const { source } of beside) named.add(source);
  for (const { from, to } of arrows) named.add(from).add(to);
  const lanes = [...named].map((name) => laneOf(book, exposure, nodes, name, sorts.get(name) ?? "tank"));
  const isTool = ({ is }: LaneCard): number => Number(is === "tool");
  return { lanes: lanes.sort((a, b) => isTool(a) - isTool(b)), arrows };
}

/** Each contact once: what is on a way forward is told as that. */
function arrowsOf({ forward, back, beside }: Ways): ArrowCard[] {
  const known = new Map<string, ArrowCard>();
  const take = (ways: readonly ReachedCard[], way: ArrowCard["way"]): void => {
    for (const { steps } of ways)
      for (const { time, from, to, kind, text } of steps) {
        const key = `${time} ${kind} ${from} ${to}`;
        if (!known.has(key)) known.set(key, { time, from, to, kind, text, way });
      }
  };
  take(forward, "forward");
  take(back, "back");
  for (const { reached } of beside) take(reached, "beside");
  return [...known.values()].sort((a, b) => a.time - b.time);
}

function laneOf(
  book: Book,
  exposure: Exposure,
  nodes: ContactNodes,
  name: string,
  is: ReachedCard["is"],
): LaneCard {
  const { steps, until, origins } = exposure;
  const station = is === "tank" ? book.stations.find((each) => each.name === name) : undefined;
  const isHere = (node: number): boolean =>
    station === undefined ? nodeText(nodes.at(node), until) === name : node === station.body;
  const own = origins.filter((origin) => origin.station === station);
  return {
    name,
    is,
    isOrigin: own.length > 0,
    spells: allReached(exposure)
      .spells.filter(({ node }) => isHere(node))
      .map(({ first, end }) => ({ from: first.time, to: end < 0 ? null : steps[end]!.time })),
    signs: own.map(({ at, day }) => at?.time ?? day),
    cuts: steps.flatMap((step) => (step.is === "end" && isHere(step.node) ? [step.time] : [])),
  };
}
