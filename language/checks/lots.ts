import { isoOf, spokenDay } from "../book/dates.ts";
import { kindOf } from "../book/entries/registry.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { keptFor } from "../room/kept-for-logbook.ts";
import type { Logbook } from "../room/logbook.ts";
import { type LotEntry, type LotStory, lotStories, speciesOfLot } from "../room/lots.ts";
import { placeOfRow } from "../room/why.ts";
import { page } from "./code.ts";
import type { Fix } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { replacing } from "./offers.ts";

/** Lots in entries against where they came from. */

const prelude = `species praecox
species horn
tank dam
  volume 300 L
`;

export const lotPages = [
  page({
    code: "lot/unknown",
    severity: "warning",
    since: "0.2",
    title: "A lot that came from nowhere",
    says: "No arrival, spawning or hatch makes this lot, and it is not defined. The entry counts for the species.",
    whatToDo: "Correct the name, name the lot where it came, or define it.",
    raises: `${prelude}2026-03-01
  dam arrive praecox 14 lot a17
  dam lose praecox 1 found lot a71
#                              ^^^ lot/unknown`,
    fine: `${prelude}2026-03-01
  dam arrive praecox 14 lot a17
  dam lose praecox 1 found lot a17`,
  }),
  page({
    code: "lot/too-early",
    severity: "warning",
    since: "0.2",
    title: "A lot before it was there",
    says: "The entry names a lot that came, was laid or hatched, or by its definition was born, only later.",
    whatToDo: "Correct the day or the lot.",
    raises: `${prelude}2026-03-01
  dam count praecox 20
  dam lose praecox 1 found lot a17
#                              ^^^ lot/too-early
2026-03-05
  dam arrive praecox 14 lot a17`,
    fine: `${prelude}2026-03-01
  dam arrive praecox 14 lot a17
  dam lose praecox 1 found lot a17`,
  }),
  page({
    code: "lot/species",
    severity: "warning",
    since: "0.2",
    title: "A lot of another species",
    says: "The lot holds animals of another species, by its definition or by how it came. A lot may hold several that came together.",
    whatToDo: "Correct the species or the lot.",
    raises: `${prelude}2026-03-01
  dam arrive praecox 14 lot a17
  dam arrive horn 4
  dam lose horn 1 found lot a17
#                           ^^^ lot/species`,
    fine: `${prelude}2026-03-01
  dam arrive praecox 14 lot a17
  dam arrive horn 4 lot a17
  dam lose horn 1 found lot a17`,
  }),
] as const;

/** What the entries that name lots tell, by the number of the ledger of the first of their tanks. */
export function lotFindings(logbook: Logbook): ReadonlyMap<number, readonly RowFinding[]> {
  return keptFor(logbook, "lot findings", () => {
    const stories = lotStories(logbook);
    const found = new Map<number, RowFinding[]>();
    for (const story of stories.values())
      for (const entry of story.entries) {
        const finding = lotFinding(logbook, stories, story, entry);
        if (finding === undefined) continue;
        const ledger = ledgerOf(logbook, entry);
        found.set(ledger, [...(found.get(ledger) ?? []), finding]);
      }
    return found;
  });
}

function ledgerOf(logbook: Logbook, { target }: LotEntry): number {
  const { book } = logbook;
  const station = target < 0 ? book.groupTanks(~target)?.[0] : book.station(target);
  return station === undefined ? logbook.ledgers.length - 1 : logbook.ledgerNumber(station);
}

function lotFinding(
  logbook: Logbook,
  stories: ReadonlyMap<string, LotStory>,
  story: LotStory,
  entry: LotEntry,
): RowFinding | undefined {
  const { name, stated, made } = story;
  const { block, row } = entry;
  const isMaker = made.includes(entry);
  const base = { block, row, slots: ["lot"], severity: () => "warning" as const };
  if (stated === undefined && made.length === 0) {
    const others = () =>
      [...stories.values()].filter((each) => each.made.length > 0 || each.stated !== undefined);
    const near = () =>
      nearest(
        name,
        others().map((each) => each.name),
      );
    return {
      ...base,
      code: "lot/unknown",
      message: () => `no lot is called “${name}”: none came or was bred by that name${didYouMean(near())}`,
      fixes: (place) => [...replacing(block, place, near()), ...defining(logbook, entry, name)],
    };
  }
  const species = speciesOfLot(story);
  const isOfStated = stated === undefined || stated.species === "" || stated.species === entry.species;
  if (species.size > 0 && (isMaker ? !isOfStated : !species.has(entry.species)))
    return {
      ...base,
      code: "lot/species",
      message: () =>
        `lot ${name} holds ${[...species].filter((each) => each !== entry.species || !isMaker).join(" and ")}, not ${entry.species}`,
      related: () => origin(story),
    };
  const [first] = made;
  const born = stated?.born ?? Number.NaN;
  const isBefore =
    stated !== undefined
      ? Math.floor(entry.time) < born
      : first !== undefined &&
        (entry.time < first.time ||
          (entry.time === first.time && story.entries.indexOf(entry) < story.entries.indexOf(first)));
  if (!isBefore || (isMaker && stated === undefined)) return undefined;
  const since =
    stated !== undefined
      ? `born ${isoOf(born)}`
      : `${kindOf(first!.kind).word} ${spokenDay(first!.time, entry.time)}`;
  return {
    ...base,
    code: "lot/too-early",
    message: () => `lot ${name} was not there yet (${since})`,
    related: () => origin(story),
  };
}

function origin({
  stated,
  made,
}: LotStory): { place: NonNullable<ReturnType<typeof placeOfRow>>; message: string }[] {
  const [first] = made;
  const place = stated?.place ?? (first === undefined ? undefined : placeOfRow(first.block, first.row));
  return place === undefined ? [] : [{ place, message: "where it is from" }];
}

/** A definition above the day, with the species of the entry; none for a name that a definition cannot have. */
function defining({ book }: Logbook, { block, species }: LotEntry, name: string): Fix[] {
  if (!/^[\p{L}][\p{L}\p{M}\p{N}_-]*$/u.test(name) || book.names.has(name)) return [];
  const eol = block.text.includes("\r\n") ? "\r\n" : "\n";
  const start = block.text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const text = `lot ${name}${eol}  species ${species}${eol}${eol}`;
  return [{ title: `Define lot “${name}”`, edits: [{ block, start, end: start, text }], isSure: false }];
}
