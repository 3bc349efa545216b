import { tankCard } from "../../features/tank-card.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { findStation } from "../find-station.ts";
import { open } from "../open.ts";
import { printJson, tellUnread } from "../report.ts";
import type { TankReport } from "../schema.ts";
import { tankText } from "../tank/print.ts";
import { tankReport } from "../tank/report.ts";
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
  const { opened, station } = findStation(logbooks, name);
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
