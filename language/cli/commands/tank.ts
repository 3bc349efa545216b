import { either, nearest } from "../../book/nearest.ts";
import type { Station } from "../../book/stations.ts";
import { tankCard } from "../../features/tank-card.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { type Opened, open } from "../open.ts";
import { printJson, tellUnread } from "../report.ts";
import type { TankReport } from "../schema.ts";
import { tankText } from "../tank/print.ts";
import { tankReport } from "../tank/report.ts";
import { listed } from "../text.ts";
import { Status, Trouble } from "../world.ts";

export const tank: Command = {
  word: "tank",
  takes: "NAME [DIR|-]",
  summary: "one tank, or a system: duties, water with charts, remedies, animals",
  about:
    "What there is to know of one tank. The chart of a parameter shows its readings, the course between them by mass balance, its limits, " +
    "and where it goes from today if water is changed as stated.",
  options: [jsonOption, asOfOption],
  examples: [
    ["standpipe tank ford samples/cellar", "one tank of the sample room"],
    ["standpipe tank rack-water samples/cellar --as-of 2025-12-24", "a system, as it stood on a day"],
  ],
  run: runTank,
};

async function runTank(call: Call): Promise<Status> {
  const { words, world, terminal } = call;
  const [name, ...paths] = words;
  if (name === undefined) throw new Trouble("which tank? standpipe tank NAME [DIR]");
  if (paths.length > 1) throw new Trouble(`one tank and one folder: standpipe tank ${name} ${paths[0]}`);
  const { logbooks, unread } = await open(call, paths);
  const { opened, station } = find(logbooks, name);
  const card = tankCard(opened.checked, station, world.day);
  if (call.has("json")) {
    const report: TankReport = {
      standpipe: 1,
      command: "tank",
      ...tankReport(opened, card),
      unread: [...unread],
    };
    printJson(world, report);
  } else {
    world.out.write(tankText(card, terminal));
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

/** Throws `Trouble` where no logbook has such a tank, or several have. */
function find(logbooks: readonly Opened[], name: string): { opened: Opened; station: Station } {
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
