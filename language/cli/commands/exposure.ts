import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { isoOf } from "../../book/dates.ts";
import { nameOf } from "../../book/interner.ts";
import type { CheckedLogbook } from "../../checks/check.ts";
import {
  type ExposureAsked,
  type ExposureSubject,
  exposureCard,
  openExposures,
} from "../../features/exposure-card.ts";
import type { ExposureCard } from "../../features/exposure-cards.ts";
import { exposureCaution, exposureReport } from "../../features/exposure-report.ts";
import { either, nearest } from "../../quantity/nearest.ts";
import { casesUntil } from "../../room/cases.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { exposuresOf } from "../exposure/report.ts";
import { type Opened, open } from "../open.ts";
import { asOfDay } from "../options.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { ExposureReport } from "../schema.ts";
import { listed } from "../text.ts";
import { Status, Trouble } from "../world.ts";

export const exposure: Command = {
  word: "exposure",
  takes: "[DIR|-] [CASE|TANK]",
  summary: "exposure: what a case may have reached and come from, and which tanks to hold",
  about:
    "Follows moved animals, shared water, barrels, plants and wood, and tools through the log, forward and backward in time, from a case, from the " +
    "result of its samples, or from a tank on a day; without a name from each open case. A contact counts only if it left after its origin was " +
    "reached; what was disinfected, or emptied and refilled, passes nothing on. Tanks to hold come in the order in which to hold them.",
  options: [
    jsonOption,
    asOfOption,
    formOption,
    { name: "on", value: "DATE", doc: "of a tank: as if it had it on this day (today)" },
    { name: "days", value: "N", doc: "follow contacts for so many days, whatever the room states" },
    {
      name: "by",
      value: "WHAT",
      choices: ["signs", "result"],
      doc: "of a case: from its first signs (the default), or from where its samples were taken",
    },
  ],
  examples: [
    ["standpipe exposure samples/cellar", "every open case"],
    ["standpipe exposure flukes-1 --by result", "from where the samples of the case were taken"],
    ["standpipe exposure q1 --on 2026-03-01 --days 14", "a tank, on a day, two weeks around"],
    ["standpipe exposure flukes-1 --format html > exposure.html", "with the picture, to print"],
  ],
  run: runExposure,
};

interface Asked extends ExposureAsked {
  /** NaN where no day is given. */
  readonly on: number;
}

async function runExposure(call: Call): Promise<Status> {
  const { world } = call;
  // Read first: what is wrong with the call is told before files are read.
  const asked = askedOf(call);
  const { paths, name } = wordsOf(call);
  if (name === undefined && !Number.isNaN(asked.on))
    throw new Trouble("--on DATE belongs to a tank: name it");
  const { logbooks, unread } = await open(call, paths);
  const rooms = name === undefined ? logbooks.map((opened) => all(opened, asked, world.day)) : [];
  if (name !== undefined) rooms.push(find(logbooks, name, asked, world.day));
  if (call.has("json")) {
    const report: ExposureReport = {
      standpipe: 1,
      command: "exposure",
      logbooks: rooms.map(({ opened, cards, day }) => exposuresOf(opened, cards, day)),
      caution: exposureCaution,
      unread: [...unread],
    };
    printJson(world, report);
  } else {
    writeReport(
      call,
      exposureReport(
        rooms.map(({ opened, cards, day }) => ({
          title: opened.checked.book.title || opened.folder,
          day,
          cards,
        })),
      ),
    );
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

const mostDays = 3660;

function askedOf(call: Call): Asked {
  const text = call.value("days");
  const days = text === undefined ? Number.NaN : /^\d+$/.test(text) ? Number(text) : -1;
  if (days < 1 || days > mostDays) throw new Trouble(`--days takes a whole number of days, not “${text}”`);
  return { on: asOfDay(call.value("on")), days, by: call.value("by") === "result" ? "result" : "signs" };
}

/** A word alone is a folder or file where there is one, else a case or a tank. */
function wordsOf({ words, world }: Call): {
  readonly paths: readonly string[];
  readonly name: string | undefined;
} {
  const [first, second, ...more] = words;
  if (more.length > 0)
    throw new Trouble(`one folder and one case or tank: standpipe exposure ${first} ${second}`);
  if (first === undefined) return { paths: [], name: undefined };
  if (second !== undefined) return { paths: [first], name: second };
  const isPath = first === "-" || /[/\\.]/.test(first) || existsSync(resolve(world.cwd, first));
  return isPath ? { paths: [first], name: undefined } : { paths: [], name: first };
}

interface Told {
  readonly opened: Opened;
  readonly cards: readonly ExposureCard[];
  readonly day: number;
}

const all = (opened: Opened, asked: Asked, worldDay: number): Told => ({
  opened,
  cards: openExposures(opened.checked, worldDay, asked),
  day: opened.checked.logbook.today(worldDay),
});

/** The case or tank of that name. Throws `Trouble` where no logbook has it, several have, or nothing can be told of it. */
function find(logbooks: readonly Opened[], name: string, asked: Asked, worldDay: number): Told {
  const found = logbooks.flatMap((opened) => {
    const { logbook } = opened.checked;
    const day = logbook.today(worldDay);
    const subject = subjectOf(opened.checked, name, asked, day);
    return subject === undefined ? [] : [{ opened, subject, day }];
  });
  if (found.length > 1)
    throw new Trouble(
      `several logbooks have “${name}”; name one of ${listed(found.map(({ opened }) => opened.folder))}`,
    );
  const [only] = found;
  if (only === undefined) throw unknown(logbooks, name, worldDay);
  const { opened, subject, day } = only;
  if (subject.is === "case" && !Number.isNaN(asked.on))
    throw new Trouble(`--on belongs to a tank, and ${name} is a case; --as-of tells it as it stood on a day`);
  if (subject.is === "station" && asked.by === "result")
    throw new Trouble(`--by result belongs to a case, and ${name} is a tank`);
  if (subject.is === "station" && subject.day > day)
    throw new Trouble(`--on ${isoOf(subject.day)} is after today, ${isoOf(day)}`);
  const card = exposureCard(opened.checked, subject, worldDay, asked);
  if (card !== undefined) return { opened, cards: [card], day };
  throw new Trouble(
    asked.by === "result"
      ? `case ${name} has no positive result in any water on this day`
      : `of case ${name} no sign is written in any water on this day; --by result begins at its samples`,
  );
}

function subjectOf(
  { logbook }: CheckedLogbook,
  name: string,
  asked: Asked,
  day: number,
): ExposureSubject | undefined {
  if (casesUntil(logbook, day).some((each) => each.name === name)) return { is: "case", name };
  const station = logbook.book.station(nameOf(name));
  if (station === undefined || station.body < 0) return undefined;
  return { is: "station", station, day: Number.isNaN(asked.on) ? day : asked.on };
}

function unknown(logbooks: readonly Opened[], name: string, worldDay: number): Trouble {
  const names = logbooks.flatMap(({ checked: { logbook } }) => [
    ...casesUntil(logbook, logbook.today(worldDay)).flatMap((each) => each.name || []),
    ...logbook.book.stations.filter(({ body }) => body >= 0).map((station) => station.name),
  ]);
  const known = [...new Set(names)];
  if (known.length === 0)
    return new Trouble(`there is no folder, case or tank “${name}”: no case and no tank is written here`);
  const near = nearest(name, known);
  return new Trouble(
    `no case and no tank is called “${name}”; ${near.length > 0 ? `did you mean ${either(near)}?` : `there are ${listed(known)}`}`,
  );
}
