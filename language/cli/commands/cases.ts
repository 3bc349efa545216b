import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { casebookCard, caseCard } from "../../features/case-card.ts";
import type { CaseCard } from "../../features/case-cards.ts";
import { casebookReport, caseCaution, caseReport } from "../../features/case-report.ts";
import { roomLossCard } from "../../features/losses-card.ts";
import { quarantineCard } from "../../features/quarantine-card.ts";
import { either, nearest } from "../../quantity/nearest.ts";
import { caseStories } from "../../room/case-book.ts";
import { casebookOf, caseOf } from "../cases/report.ts";
import { roomLossesOf } from "../cases/room-losses.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { type Opened, open } from "../open.ts";
import { logbookReport, printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { CasesReport } from "../schema.ts";
import { placesIn, quarantineOf } from "../tank/report.ts";
import { listed } from "../text.ts";
import { Status, Trouble } from "../world.ts";

export const cases: Command = {
  word: "cases",
  takes: "[DIR|-] [CASE]",
  summary: "cases: who is sick where, how many of how many, what was done; quarantines, losses of the room",
  about:
    "Open cases with their tanks, how many were affected of how many and died; quarantines that run; what the room loses against what is usual. " +
    "With the name of a case all of it: attack rate, case-fatality and mortality with intervals, the epidemic curve, signs, courses, samples, results, exposure, entries.",
  options: [jsonOption, asOfOption, formOption, { name: "all", doc: "closed cases too" }],
  examples: [
    ["standpipe cases samples/cellar --all", "the casebook of the sample room"],
    ["standpipe cases samples/cellar flukes-1", "one case as a whole"],
    ["standpipe cases flukes-1 --as-of 2025-10-05 --format markdown", "as it stood on a day, to keep"],
  ],
  run: runCases,
};

interface Found {
  readonly opened: Opened;
  readonly card: CaseCard;
}

async function runCases(call: Call): Promise<Status> {
  const { world } = call;
  const { paths, name } = wordsOf(call);
  if (name !== undefined && call.has("all"))
    throw new Trouble("--all belongs to the casebook: leave it out, or the name of the case");
  const { logbooks, unread } = await open(call, paths);
  const found = name === undefined ? undefined : find(logbooks, name, world.day);
  if (call.has("json")) {
    const rooms = found === undefined ? logbooks : [found.opened];
    const report: CasesReport = {
      standpipe: 1,
      command: "cases",
      logbooks: rooms.map((opened) => roomOf(opened, call, found?.card)),
      caution: caseCaution,
      unread: [...unread],
    };
    printJson(world, report);
  } else {
    if (found !== undefined) writeReport(call, caseReport(found.card, titleOf(found.opened)));
    else {
      const rooms = logbooks.map((opened) => ({ title: titleOf(opened), ...cardsOf(opened, world.day) }));
      writeReport(call, casebookReport(rooms, call.has("all")));
    }
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

const titleOf = ({ checked, folder }: Opened): string => checked.book.title || folder;

function cardsOf({ checked }: Opened, worldDay: number) {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  return {
    book: casebookCard(checked, worldDay),
    quarantines: quarantineCard(logbook, day),
    losses: roomLossCard(logbook, day),
  };
}

function roomOf(opened: Opened, call: Call, card: CaseCard | undefined): CasesReport["logbooks"][number] {
  const { world } = call;
  const { book, quarantines, losses } = cardsOf(opened, world.day);
  const at = placesIn(opened);
  return {
    ...logbookReport(opened, world.day),
    ...casebookOf(opened, book, call.has("all")),
    ...(card === undefined ? {} : { case: caseOf(opened, card) }),
    quarantines: quarantines.map((each) => quarantineOf(each, at)),
    losses: roomLossesOf(opened, losses),
  };
}

/** A word alone is a folder or file where there is one, else a case. */
function wordsOf({ words, world }: Call): {
  readonly paths: readonly string[];
  readonly name: string | undefined;
} {
  const [first, second, ...more] = words;
  if (more.length > 0) throw new Trouble(`one folder and one case: standpipe cases ${first} ${second}`);
  if (first === undefined) return { paths: [], name: undefined };
  if (second !== undefined) return { paths: [first], name: second };
  const isPath = first === "-" || /[/\\.]/.test(first) || existsSync(resolve(world.cwd, first));
  return isPath ? { paths: [first], name: undefined } : { paths: [], name: first };
}

/** The case of that name. Throws `Trouble` where no logbook has it, or several have. */
function find(logbooks: readonly Opened[], name: string, worldDay: number): Found {
  const found = logbooks.flatMap((opened): Found[] => {
    const card = caseCard(opened.checked, name, worldDay);
    return card === undefined ? [] : [{ opened, card }];
  });
  if (found.length > 1)
    throw new Trouble(
      `several logbooks have a case “${name}”; name one of ${listed(found.map(({ opened }) => opened.folder))}`,
    );
  if (found[0] !== undefined) return found[0];
  const names = new Set(
    logbooks.flatMap(({ checked: { logbook } }) =>
      caseStories(logbook, logbook.today(worldDay)).map((each) => each.name),
    ),
  );
  if (names.size === 0)
    throw new Trouble(`there is no folder and no case “${name}”: no case is written here`);
  const near = nearest(name, names);
  throw new Trouble(
    `no case is called “${name}”; ${near.length > 0 ? `did you mean ${either(near)}?` : `there are ${listed([...names])}`}`,
  );
}
