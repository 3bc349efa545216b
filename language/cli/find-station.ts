import type { Station } from "../book/stations.ts";
import { either, nearest } from "../quantity/nearest.ts";
import type { Opened } from "./open.ts";
import { listed } from "./text.ts";
import { Trouble } from "./world.ts";

/** The tank or system of that name. Throws `Trouble` where no logbook has such a tank, or several have. */
export function findStation(logbooks: readonly Opened[], name: string): { opened: Opened; station: Station } {
  const found = logbooks.flatMap((opened) => {
    const station = stationsOf(opened).find((each) => each.name === name);
    return station === undefined ? [] : [{ opened, station }];
  });
  if (found.length > 1) {
    const folders = listed(found.map(({ opened }) => opened.folder));
    throw new Trouble(`several logbooks have a tank “${name}”; name one of ${folders}`);
  }
  if (found[0] !== undefined) return found[0];
  const names = logbooks.flatMap((opened) => stationsOf(opened).map((each) => each.name));
  if (names.length === 0) throw new Trouble("no tank is defined here");
  const near = nearest(name, names);
  throw new Trouble(
    `no tank is called “${name}”; ${near.length > 0 ? `did you mean ${either(near)}?` : `there are ${listed(names)}`}`,
  );
}

const stationsOf = ({ checked }: Opened): Station[] =>
  checked.book.stations.filter(({ kind }) => kind === "tank" || kind === "system");
