import { isoOf } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import { wilson } from "../science/proportion.ts";
import { isOutside } from "../science/result.ts";
import type { CaseStory } from "./case-book.ts";
import { type CaseCount, type CaseDay, countOf } from "./case-count.ts";
import { keptOfCase } from "./kept-of-case.ts";
import type { Logbook } from "./logbook.ts";
import { type Why, whyEntry } from "./why.ts";

/** The rates of a case, with Wilson's interval (95 %). */

export type RateName = "attack" | "fatality" | "mortality" | "prevalence";

export interface CaseRate {
  readonly is: RateName;
  readonly count: number;
  readonly outOf: number;
  /** 0 to 1. */
  readonly best: number;
  readonly low: number;
  readonly high: number;
  /** The count is a least. */
  readonly isLeast: boolean;
  /** The day it is of; NaN for what is of the whole case until now. */
  readonly on: number;
  readonly why: Why;
}

export interface CaseRates {
  readonly count: CaseCount;
  /** Those that can be told. */
  readonly rates: readonly CaseRate[];
  /** Why there is no attack rate; empty where there is one. */
  readonly unknown: string;
}

/** The rates of a case up to the end of a day. */
export function ratesOf(logbook: Logbook, story: CaseStory, day: number): CaseRates {
  const entries = [
    ...story.entries,
    ...story.afterwards,
    ...story.deaths.map(({ entry }) => entry),
    ...story.moves.map(({ entry }) => entry),
  ];
  const tanks = story.homes.map(({ tank }) => tank);
  return keptOfCase(logbook, `rates ${story.name} ${story.episode} ${day}`, entries, tanks, () =>
    ratesOfCount(story, countOf(logbook, story, day)),
  );
}

export function ratesOfCount(story: CaseStory, count: CaseCount): CaseRates {
  const { ever, atRisk, dead, isLeast, affected, days } = count;
  const last = days.findLast((each) => !Number.isNaN(each.affected));
  const rates = [
    rateOf("attack", ever, atRisk, isLeast, () => whyAttack(story, count)),
    // The dead were ill: were more of them, the share would be smaller.
    rateOf("fatality", dead, ever, false, () => whyFatality(story, count)),
    rateOf("mortality", dead, atRisk, false, () => whyMortality(story, count)),
    ...(last === undefined
      ? []
      : [
          rateOf(
            "prevalence",
            last.affected,
            last.present,
            false,
            () => whyPrevalence(story, count, last),
            last.day,
          ),
        ]),
  ];
  return {
    count,
    rates: rates.filter((rate) => rate !== undefined),
    unknown: ever === 0 && affected === 0 ? "" : unknownBy(count),
  };
}

/** The share that shows signs on a day; undefined where it is not known. */
export const prevalenceOf = (day: CaseDay): Omit<CaseRate, "why" | "on"> | undefined =>
  shareOf("prevalence", day.affected, day.present, false);

function unknownBy({ atRisk, ever, atRiskBy }: CaseCount): string {
  if (Number.isNaN(atRisk) || atRiskBy === "unknown")
    return "not said of how many, and the book knows nothing of the species there";
  if (ever > atRisk)
    return `${formatNumber(ever, 6)} were affected of ${formatNumber(atRisk, 6)} at risk: one of the two is wrong`;
  return atRisk === 0 ? "nobody was at risk" : "";
}

function shareOf(
  is: RateName,
  count: number,
  outOf: number,
  isLeast: boolean,
): Omit<CaseRate, "why" | "on"> | undefined {
  // Of estimates the interval is that of the figure they were noted as.
  const limits = wilson(Math.round(count), Math.round(outOf));
  if (isOutside(limits)) return undefined;
  return { is, count, outOf, best: count / outOf, ...limits, isLeast };
}

function rateOf(
  is: RateName,
  count: number,
  outOf: number,
  isLeast: boolean,
  why: () => Why,
  on = Number.NaN,
): CaseRate | undefined {
  const share = shareOf(is, count, outOf, isLeast);
  return share === undefined
    ? undefined
    : {
        ...share,
        on,
        get why() {
          return why();
        },
      };
}

const interval = "E. B. Wilson 1927, J. Am. Stat. Assoc. 22:209-212, 95 %";
const definition =
  "Attack rate and case-fatality: CDC, Principles of Epidemiology, 3rd ed., lesson 3 (recalled)";

/** `4 of 14, 28.6 % (11.7 to 54.6)`. */
export function rateText({ count, outOf, best, low, high, isLeast }: Omit<CaseRate, "why" | "on">): string {
  const share = `${formatNumber(best * 100, 3)} % (${formatNumber(low * 100, 3)} to ${formatNumber(high * 100, 3)})`;
  return `${isLeast ? "at least " : ""}${formatNumber(count, 6)} of ${formatNumber(outOf, 6)}, ${share}`;
}

const shareText = (is: RateName, count: number, outOf: number, isLeast = false): string => {
  const share = shareOf(is, count, outOf, isLeast);
  return share === undefined ? "" : rateText(share);
};

function whyAttack(story: CaseStory, count: CaseCount): Why {
  return {
    what: `attack rate of ${story.name}`,
    value: shareText("attack", count.ever, count.atRisk, count.isLeast),
    formula: "affected ever / at risk",
    source: `${definition}; the interval: ${interval}`,
    from: [whyEver(story, count), whyAtRisk(count)],
  };
}

function whyEver({ sick, deaths }: CaseStory, { ever, isLeast, from }: CaseCount): Why {
  const isFrom = (entry: (typeof from)[number]): boolean => from.includes(entry);
  return {
    what: "affected ever",
    value: `${isLeast ? "at least " : ""}${formatNumber(ever, 6)}`,
    formula:
      "in each place those stated as new; else no fewer than showed signs at any time, with the dead until then, and those moved on " +
      "to another tank of the case, which are not counted there again",
    from: [...sick.filter(isFrom), ...deaths.map(({ entry }) => entry).filter(isFrom)].map(whyEntry),
  };
}

function whyAtRisk({ atRisk, atRiskBy, strands, from }: CaseCount): Why {
  return {
    what: "at risk",
    value: formatNumber(atRisk, 6),
    formula:
      atRiskBy === "book"
        ? "by the book of the species in its tanks on the day of the first signs"
        : "the most that an entry states, with those that had died or left by then; where none is stated the book on the day of the first signs",
    from: [
      ...strands
        .filter((each) => each.atRisk > 0)
        .map(
          (each): Why => ({
            what: `${each.species}${each.lot === "" ? "" : ` of lot ${each.lot}`} in ${each.station.name}`,
            value: formatNumber(each.atRisk, 6),
            from: [],
          }),
        ),
      ...from.slice(0, 1).map(whyEntry),
    ],
  };
}

function whyDead({ deaths }: CaseStory, { dead, from }: CaseCount): Why {
  return {
    what: "deaths",
    value: formatNumber(dead, 6),
    formula:
      "those that name the case; and of its species in its tanks while it was open, but not what was culled, is missing or jumped",
    from: deaths
      .map(({ entry }) => entry)
      .filter((entry) => from.includes(entry))
      .map(whyEntry),
  };
}

function whyFatality(story: CaseStory, count: CaseCount): Why {
  return {
    what: `case-fatality of ${story.name}`,
    value: shareText("fatality", count.dead, count.ever),
    formula: "deaths / affected ever",
    source: `${definition}; the interval: ${interval}`,
    from: [whyDead(story, count), whyEver(story, count)],
  };
}

function whyMortality(story: CaseStory, count: CaseCount): Why {
  return {
    what: `mortality of ${story.name}`,
    value: shareText("mortality", count.dead, count.atRisk),
    formula: "deaths / at risk",
    source: `the interval: ${interval}`,
    from: [whyDead(story, count), whyAtRisk(count)],
  };
}

function whyPrevalence({ sick }: CaseStory, { from }: CaseCount, { day, affected, present }: CaseDay): Why {
  return {
    what: `showing signs on ${isoOf(day)}`,
    value: shareText("prevalence", affected, present),
    formula: "showing signs / there, at the end of the day",
    source: `the interval: ${interval}`,
    from: sick.filter((entry) => entry.day <= day && from.includes(entry)).map(whyEntry),
  };
}
