import { spokenDay } from "../../../book/dates.ts";
import { entryOf } from "../../../book/entry.ts";
import { locationOf } from "../../../features/view.ts";
import { type Case, casesUntil } from "../../../room/cases.ts";
import { isOpenOn } from "../../../room/exposure-of-case.ts";
import type { Follows, Standing } from "../consequence.ts";

interface CaseStanding extends Standing {
  readonly name: string;
  readonly since: number;
  readonly isOpen: boolean;
}

/** Cases that were opened or closed. */
export const cases: Follows<CaseStanding> = {
  is: "case",
  reach: "station",

  standing({ logbook }, day) {
    return new Map(
      casesUntil(logbook, day).map((each) => [
        each.name === "" ? JSON.stringify([each.stations.map(({ name }) => name), each.since]) : each.name,
        {
          of: each.stations[0]?.name ?? "room",
          at: lastEntry(each),
          terms: [each.name],
          name: each.name === "" ? "signs without a case" : `case ${each.name}`,
          since: each.since,
          isOpen: isOpenOn(each, day),
        },
      ]),
    );
  },

  told(before, after, day) {
    const state = (each: CaseStanding | undefined): string =>
      each === undefined ? "" : `${each.isOpen ? "open" : "closed"} since ${spokenDay(each.since, day)}`;
    const words = {
      before: before === undefined ? "" : word(before),
      after: after === undefined ? "" : word(after),
    };
    if (after === undefined)
      return [{ text: `${before!.name} is no more (it was ${word(before!)})`, ...words }];
    if (before === undefined)
      return [
        {
          text: `${after.name}: ${after.isOpen ? state(after) : "opened and closed"}`,
          tone: after.isOpen ? "worse" : "plain",
          ...words,
        },
      ];
    if (before.isOpen !== after.isOpen)
      return [
        {
          text: `${after.name} is ${after.isOpen ? "open again" : "closed now"}`,
          tone: after.isOpen ? "worse" : "better",
          ...words,
        },
      ];
    if (before.since === after.since) return [];
    return [
      {
        text: `${after.name} began on ${spokenDay(after.since, day)}, not ${spokenDay(before.since, day)}`,
        ...words,
      },
    ];
  },
};

const word = ({ isOpen }: CaseStanding): string => (isOpen ? "open" : "closed");

function lastEntry({ entries }: Case): Standing["at"] {
  const last = entries.at(-1);
  if (last === undefined) return null;
  const entry = entryOf(last.block, last.row);
  return locationOf({ block: last.block, start: entry?.start ?? 0, end: entry?.end ?? 0 });
}
