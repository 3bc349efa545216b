import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { broodsCard } from "../../features/brood-card.ts";
import type { LotCard } from "../../features/brood-cards.ts";
import { broodCaution, broodsReport, lotReport } from "../../features/brood-report.ts";
import { lotCard, lotNames } from "../../features/lot-card.ts";
import { either, nearest } from "../../quantity/nearest.ts";
import { broodsReportOf } from "../broods/report.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { type Opened, open } from "../open.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { BroodsReport } from "../schema.ts";
import { listed } from "../text.ts";
import { Status, Trouble } from "../world.ts";

export const broods: Command = {
  word: "broods",
  takes: "[DIR|-] [BROOD]",
  summary: "broods: what hatches when, survival by stage, parents and inbreeding, what pairs give",
  about:
    "Open broods with where they are, expected dates by the warmth of their own water, and survival by stage; what each pair gives and which can be told apart. " +
    "With the name of a lot its whole course, its ancestors with inbreeding, and its young.",
  options: [jsonOption, asOfOption, formOption],
  examples: [
    ["standpipe broods samples/cellar", "the broods of the sample room"],
    ["standpipe broods samples/cellar pb-1", "one brood: its course, its ancestors, its inbreeding"],
    ["standpipe broods samples/cellar --as-of 2025-10-01 --format markdown", "as it stood on a day, to keep"],
  ],
  run: runBroods,
};

async function runBroods(call: Call): Promise<Status> {
  const { world } = call;
  const { paths, name } = wordsOf(call);
  const { logbooks, unread } = await open(call, paths);
  const asked = name === undefined ? undefined : find(logbooks, name, world.day);
  const rooms = asked === undefined ? logbooks : [asked.opened];
  if (call.has("json")) {
    const report: BroodsReport = {
      standpipe: 1,
      command: "broods",
      logbooks: rooms.map((opened) =>
        broodsReportOf(opened, broodsCard(opened.checked, world.day), asked?.card),
      ),
      caution: broodCaution,
      unread: [...unread],
    };
    printJson(world, report);
  } else if (asked !== undefined) {
    writeReport(call, lotReport(asked.card, asked.opened.checked.logbook.today(world.day)));
    tellUnread(call, unread);
  } else {
    const titled = rooms.map((opened) => ({
      title: opened.checked.book.title || opened.folder,
      card: broodsCard(opened.checked, world.day),
    }));
    writeReport(call, broodsReport(titled));
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

/** A word alone is a folder or file where there is one, else a brood. */
function wordsOf({ words, world }: Call): {
  readonly paths: readonly string[];
  readonly name: string | undefined;
} {
  const [first, second, ...more] = words;
  if (more.length > 0) throw new Trouble(`one folder and one brood: standpipe broods ${first} ${second}`);
  if (first === undefined) return { paths: [], name: undefined };
  if (second !== undefined) return { paths: [first], name: second };
  const isPath = first === "-" || /[/\\.]/.test(first) || existsSync(resolve(world.cwd, first));
  return isPath ? { paths: [first], name: undefined } : { paths: [], name: first };
}

/** The lot of that name. Throws `Trouble` where no logbook has it, or several have. */
function find(logbooks: readonly Opened[], name: string, day: number): { opened: Opened; card: LotCard } {
  const found = logbooks.flatMap((opened) => {
    const card = lotCard(opened.checked, name, day);
    return card === undefined ? [] : [{ opened, card }];
  });
  if (found.length > 1)
    throw new Trouble(
      `several logbooks have a lot “${name}”; name one of ${listed(found.map(({ opened }) => opened.folder))}`,
    );
  if (found[0] !== undefined) return found[0];
  const names = logbooks.flatMap(({ checked }) => lotNames(checked, day));
  if (names.length === 0)
    throw new Trouble(`there is no folder and no brood “${name}”: no brood has a name here`);
  const near = nearest(name, names);
  throw new Trouble(
    `no brood, and no parent, is called “${name}”; ${near.length > 0 ? `did you mean ${either(near)}?` : `there are ${listed(names)}`}`,
  );
}
