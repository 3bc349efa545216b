import { lineAt } from "../book/entry.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { nameOf } from "../book/interner.ts";
import { idOfRow } from "../book/source.ts";
import type { Duty, Station } from "../book/stations.ts";
import { placeOfRow } from "../room/why.ts";
import { blockAt, type Location, locationOf, type View } from "./view.ts";

/** From a duty to the entries that fulfilled it, and back. */

/** The duties at an offset: those that a property states, or those that an entry's word fulfils, whatever it was done to. */
export function dutiesAt(view: View, offset: number): Duty[] {
  const found = blockAt(view, offset);
  if (found === undefined) return [];
  const { block, at } = found;
  const { book } = view.checked;
  if (block.kind === "definition")
    return book.duties.filter(({ place }) => place.block === block && at >= place.start && at <= place.end);
  const line = lineAt(block, at);
  if (line?.is !== "entry" || line.kindWord === undefined || line.kind?.duty !== true) return [];
  if (at < line.kindWord.start || at > line.kindWord.end) return [];
  const { facts } = block;
  const rows = new Set<number>();
  for (let row = 0; row < facts.count; row++) {
    const start = facts.ints[row * intsPerRow + Col.start]!;
    if (start >= line.start && start <= line.end) rows.add(idOfRow(block, row));
  }
  return stationsOf(view, line.target?.text ?? "")
    .flatMap((station) => station.duties)
    .filter((duty) => {
      const done = view.checked.logbook.ledgerOf(duty.station).duties.done(duty);
      for (let time = done.from(block.day); time < done.length && done.time[time]! < block.day + 1; time++)
        if (done.block[time] === block && rows.has(done.row[time]!)) return true;
      return false;
    });
}

/** The entries that fulfilled some duties, each once a duty. */
export function entriesOf(view: View, duties: readonly Duty[]): { duty: Duty; place: Location }[] {
  const { logbook } = view.checked;
  return duties.flatMap((duty) => {
    const done = logbook.ledgerOf(duty.station).duties.done(duty);
    return Array.from({ length: done.length }, (_, at) => at).flatMap((at) => {
      const place = placeOfRow(done.block[at]!, done.row[at]!);
      return place === undefined ? [] : [{ duty, place: locationOf(place) }];
    });
  });
}

/** What a target stands for: a station, the tanks of a group, the gear that serves a tank, and the room. */
function stationsOf({ checked }: View, name: string): readonly Station[] {
  const { book } = checked;
  const number = nameOf(name);
  const station = book.station(number);
  const named = station === undefined ? (book.groupTanks(number) ?? []) : [station];
  // A tool of the room may be disinfected wherever it is.
  return [
    ...new Set([
      ...named,
      ...book.gears.filter((gear) => named.some((each) => each.name === gear.on)),
      book.stations[0]!,
    ]),
  ];
}
