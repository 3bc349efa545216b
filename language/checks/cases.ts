import { spokenDay } from "../book/dates.ts";
import { Kind, kindOf } from "../book/entries/registry.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { type CaseStory, caseStories } from "../room/case-book.ts";
import { signsOf } from "../room/case-signs.ts";
import { type Case, type CaseEntry, type SickEntry, threadsUntil } from "../room/cases.ts";
import { keptOfCase } from "../room/kept-of-case.ts";
import { keptWithLines } from "../room/kept-with-lines.ts";
import type { Logbook } from "../room/logbook.ts";
import { placeOfRow } from "../room/why.ts";
import { everFinding, moreFinding } from "./case-counts.ts";
import { freshName, namingCase, nearSigns } from "./case-words.ts";
import { page } from "./code.ts";
import type { Finding, Fix } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { atEndOfDay, replacing } from "./offers.ts";
import { days } from "./words.ts";

/** Cases against themselves: what names one that was not opened or is over, counts that cannot be, cases nobody writes of any more. */

/** An open case of which nothing was written for so long is quiet. A choice of this tool. */
export const quietDays = 14;

const prelude = `species praecox
tank q1
  volume 50 L
`;

const opened = `${prelude}2026-03-01
  q1 sick praecox 2 of 14 signs "flashing" case flukes-1
`;

export const casePages = [
  page({
    code: "case/none",
    severity: "warning",
    since: "0.3",
    title: "A case that was not opened",
    says: "The entry names a case that no sick entry opened by the end of its day, so it belongs to none. A case is opened by the signs of sick animals, or by a sample.",
    whatToDo: "Correct the name, or write down the sick animals with the case.",
    raises: `${opened}2026-03-04
  q1 result fluke-1 positive
#           ^^^^^^^ case/none`,
    fine: `${opened}2026-03-04
  q1 result flukes-1 positive`,
  }),
  page({
    code: "case/closed",
    severity: "information",
    since: "0.3",
    title: "After the case was closed",
    says: "The case is closed by then. What comes later is kept with it, but opens nothing: only sick animals open a case again.",
    whatToDo:
      "If animals are sick again, write a sick entry with the case; else correct the name or the day. A result that is late stays as it is.",
    raises: `${opened}2026-03-09
  q1 close flukes-1 recovered
2026-03-12
  q1 result flukes-1 positive
#           ^^^^^^^^ case/closed`,
    fine: `${opened}2026-03-09
  q1 result flukes-1 positive
2026-03-12
  q1 close flukes-1 recovered`,
  }),
  page({
    code: "case/more-than-at-risk",
    severity: "warning",
    since: "0.3",
    title: "More than there can be",
    says: "More animals show signs than are said to be at risk, more are new than show signs, or more are at risk than the book has in the tank. No rate is told of such figures.",
    whatToDo: "Correct the numbers, or count the animals.",
    raises: `${prelude}2026-03-01
  q1 sick praecox 15 of 14 case flukes-1
#                 ^^ case/more-than-at-risk`,
    fine: `${prelude}2026-03-01
  q1 sick praecox 14 of 14 case flukes-1`,
  }),
  page({
    code: "case/quiet",
    severity: "information",
    since: "0.3",
    title: "A case nobody writes of",
    says: `The case is open, and for ${quietDays} days nothing was written of it: no count of the sick, no dose, no sample, no loss. As long as it is open its tanks count as sick, and their animals are not free to go.`,
    whatToDo: "Write down how many show signs now (none is 0), or close the case.",
    raises: `${opened}#                                               ^^^^^^^^ case/quiet
2026-03-15
  q1 note "all is well"`,
    fine: `${opened}2026-03-14
  q1 note "all is well"`,
    source: "How long is quiet is a choice of this tool.",
  }),
  page({
    code: "case/unsigned",
    severity: "information",
    since: "0.3",
    title: "No sign of the vocabulary",
    says: "None of the words says a sign that the vocabulary knows, so none is counted or told by the site of the body. The words are kept as they are, on the sheet for the laboratory too.",
    whatToDo: "Write the signs one by one, parted by commas: clamped fins, flashing. Completion offers them.",
    raises: `${prelude}2026-03-01
  q1 sick praecox 2 of 14 signs "clampd fins" case flukes-1
#                               ^^^^^^^^^^^^^ case/unsigned`,
    fine: `${prelude}2026-03-01
  q1 sick praecox 2 of 14 signs "clamped fins, odd" case flukes-1`,
  }),
  page({
    code: "case/unnamed",
    severity: "hint",
    since: "0.3",
    title: "Sick animals without a case",
    says: "With a case the entries of one outbreak are told together: how many of how many, what was given, who else was exposed. Without one this entry stands alone.",
    whatToDo: "Name the case, or one that is open.",
    raises: `${prelude}2026-03-01
  q1 sick praecox 2 of 14 signs "flashing"
# ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ case/unnamed`,
    fine: opened,
  }),
] as const;

type CaseCode = (typeof casePages)[number]["code"];

/** What the entries of cases tell as of a day, by the number of the ledger of their first tank. */
export function caseFindings(logbook: Logbook, day: number): ReadonlyMap<number, readonly RowFinding[]> {
  return keptWithLines(logbook, `case findings ${day}`, () => {
    // What is written for later days is looked at too: an entry is right or wrong whatever is today.
    const { cases, strays, read } = threadsUntil(logbook, Number.POSITIVE_INFINITY);
    const found = new Map<number, RowFinding[]>();
    const add = (entry: CaseEntry, finding: RowFinding): void => {
      const ledger = logbook.ledgerNumber(entry.stations[0]!);
      found.set(ledger, [...(found.get(ledger) ?? []), finding]);
    };
    const names = [...new Set(cases.map(({ name }) => name))].filter((name) => name !== "");
    const taken = new Set(names);
    for (const { name, entry } of strays) add(entry, strayFinding(cases, names, name, entry));
    for (const each of cases) {
      // A sample may open a case; one that is named almost like another is rather that.
      const near =
        each.sick.length === 0
          ? nearest(
              each.name,
              names.filter((name) => name !== each.name),
            )
          : [];
      const [first] = each.entries;
      if (near.length > 0 && first !== undefined) add(first, strayFinding(cases, names, each.name, first));
      for (const entry of each.afterwards) add(entry, closedFinding(each, entry));
      for (const { entry, finding } of findingsOfSick(logbook, each)) add(entry, finding);
      if (each.name === "") for (const entry of each.sick) add(entry, unnamedFinding(cases, taken, entry));
    }
    for (const story of caseStories(logbook, Number.POSITIVE_INFINITY)) {
      const more = everFinding(logbook, story);
      if (
        more !== undefined &&
        !(found.get(logbook.ledgerNumber(more.stations[0]!)) ?? []).some(isSame(more.finding))
      )
        add(more, more.finding);
    }
    for (const story of caseStories(logbook, day)) {
      const quiet = quietFinding(logbook, story, day);
      if (quiet !== undefined) add(story.latest ?? story.entries[0]!, quiet);
    }
    return { value: found, blocks: read };
  });
}

/** What each entry of sick animals tells by itself, and by the book of its tank. */
const findingsOfSick = (logbook: Logbook, { name, episode, sick }: Case) =>
  keptOfCase(logbook, `sick ${name} ${episode} ${sick[0]?.time} ${sick[0]?.row}`, sick, [], () =>
    sick.flatMap((entry) =>
      [unsignedFinding(entry), moreFinding(logbook, entry)].flatMap((finding) =>
        finding === undefined ? [] : [{ entry, finding }],
      ),
    ),
  );

const isSame =
  ({ code, block, row }: RowFinding) =>
  (other: RowFinding): boolean =>
    other.code === code && other.block === block && other.row === row;

const severityOf = (code: CaseCode) => () => casePages.find((each) => each.code === code)!.severity;

const finding = (
  { block, row }: CaseEntry,
  code: CaseCode,
  slots: readonly string[],
): Pick<RowFinding, "code" | "block" | "row" | "slots" | "severity"> => ({
  code,
  block,
  row,
  slots,
  severity: severityOf(code),
});

function related(entry: CaseEntry | undefined, message: string): Finding["related"] {
  const place = entry === undefined ? undefined : placeOfRow(entry.block, entry.row);
  return place === undefined ? [] : [{ place, message }];
}

function strayFinding(
  cases: readonly Case[],
  names: readonly string[],
  name: string,
  entry: CaseEntry,
): RowFinding {
  const later = cases.find((each) => each.name === name && each.since > entry.day);
  const openThen = (): string[] =>
    cases
      .filter((each) => each.name !== "" && each.since <= entry.day && !(each.closed < entry.day))
      .map((each) => each.name);
  const near = (): string[] => {
    const spelt = nearest(
      name,
      names.filter((each) => each !== name),
    );
    return spelt.length > 0 ? spelt : [...new Set(openThen())].slice(0, 3);
  };
  return {
    ...finding(entry, "case/none", ["case"]),
    message: () =>
      later !== undefined
        ? `${name} is opened only on ${spokenDay(later.since, entry.day)}`
        : `no sick animals opened a case “${name}”${didYouMean(near())}`,
    related: () => (later === undefined ? [] : related(later.entries[0], `${name} is opened here`)),
    fixes: (place) => (later !== undefined ? [] : replacing(entry.block, place, near())),
  };
}

const closeOf = ({ entries }: Case): CaseEntry | undefined =>
  entries.findLast(({ kind }) => kind === Kind.close);

function closedFinding(each: Case, entry: CaseEntry): RowFinding {
  return {
    ...finding(entry, "case/closed", ["case"]),
    message: () =>
      entry.kind === Kind.close
        ? `${each.name} was closed on ${spokenDay(each.closed, entry.day)} already`
        : `${each.name} was closed on ${spokenDay(each.closed, entry.day)}; a sick entry would open it again`,
    related: () => related(closeOf(each), "closed here"),
  };
}

/** Signs of which the vocabulary knows none. */
function unsignedFinding(entry: SickEntry): RowFinding | undefined {
  const signs = signsOf(entry);
  if (signs.length === 0 || signs.some(({ sign }) => sign !== undefined)) return undefined;
  return {
    ...finding(entry, "case/unsigned", ["signs"]),
    message: () => {
      const [only, ...others] = signs;
      const what = others.length === 0 ? `“${only!.written}” is no sign` : "none of these is a sign";
      return `${what} of the vocabulary${didYouMean(nearSigns(only!.written))}`;
    },
    fixes: ({ start, end }): Fix[] => {
      // Only where the text is written as it is read: without a sign that escapes another.
      const isPlain = !entry.block.text.slice(start, end).includes("\\");
      return !isPlain
        ? []
        : signs.flatMap((seen) =>
            replacing(
              entry.block,
              { start: start + 1 + seen.start, end: start + 1 + seen.end },
              nearSigns(seen.written),
            ).map((fix) => ({ ...fix, isSure: fix.isSure && signs.length === 1 })),
          );
    },
  };
}

/** An open case of which nothing was written lately. */
function quietFinding(logbook: Logbook, story: CaseStory, day: number): RowFinding | undefined {
  const { name, closed, entries, deaths, linked, latest } = story;
  if (!Number.isNaN(closed)) return undefined;
  const written = [...entries, ...deaths.map(({ entry }) => entry), ...linked];
  const last = Math.max(...written.map((entry) => entry.day));
  if (day - last < quietDays) return undefined;
  const at = latest ?? entries[0]!;
  return {
    ...finding(at, "case/quiet", ["case"]),
    message: () => `${name} is open, and nothing was written of it for ${days(day - last)}`,
    fixes: () => {
      const today = logbook.dayGroups.find((group) => group.day === day)?.blocks.at(-1);
      const target = at.stations.length === 1 ? at.stations[0]!.name : "";
      if (today === undefined || target === "") return [];
      return [
        ...(latest === undefined ? [] : [`${target} sick ${latest.species} 0 case ${name}`]),
        ...["recovered", "unresolved"].map(
          (outcome) => `${target} ${kindOf(Kind.close).word} ${name} ${outcome}`,
        ),
      ].map((entry) => atEndOfDay(today, entry));
    },
    related: () =>
      related(
        written.findLast((entry) => entry.day === last),
        "the last entry",
      ),
  };
}

/** Sick animals without a case: one that is open for them, else a new one. */
function unnamedFinding(cases: readonly Case[], taken: ReadonlySet<string>, entry: SickEntry): RowFinding {
  const open = (): string[] =>
    cases
      .filter(
        (each) =>
          each.name !== "" &&
          each.since <= entry.day &&
          !(each.closed < entry.day) &&
          each.sick.some(
            ({ species, stations }) =>
              species === entry.species && stations.some((station) => entry.stations.includes(station)),
          ),
      )
      .map((each) => each.name);
  return {
    ...finding(entry, "case/unnamed", []),
    message: () => {
      const [known] = open();
      return known === undefined
        ? `sick ${entry.species} without a case`
        : `sick ${entry.species} without a case; ${known} is open here`;
    },
    fixes: () => namingCase(entry, [...new Set([...open(), freshName(entry.species, taken)])]),
  };
}
