import { spokenDay } from "../book/dates.ts";
import type { Station } from "../book/stations.ts";
import { countText, expectedText, inbredText, shareText } from "../checks/brood-words.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import { isOpen, type Share, sharesOf, totalLiving } from "../room/brood-course.ts";
import type { BroodEntry, Counted } from "../room/brood-rows.ts";
import { comparedPairs, type Yield, yieldsUntil } from "../room/brood-yield.ts";
import { type Brood, broodsUntil, homeOf, waitDaysOf } from "../room/broods.ts";
import { developed, type Expected, nextExpected } from "../room/development.ts";
import { inbredOf, lineageUntil } from "../room/lineage.ts";
import type { Logbook } from "../room/logbook.ts";
import { whyExpected, whyInbred, whyShare } from "../room/why-brood.ts";
import type {
  BroodCard,
  BroodExpectedCard,
  BroodShareCard,
  BroodStageCard,
  BroodsCard,
  ComparedCard,
  PairCard,
} from "./brood-cards.ts";
import { known, rowLocation, whyCard } from "./card-parts.ts";

/** All broods as of a day outside. */
export function broodsCard(checked: CheckedLogbook, worldDay: number): BroodsCard {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  const cards = broodsUntil(logbook, day).map((brood) => broodCard(logbook, brood, day));
  const yields = yieldsUntil(logbook, day);
  const species = [...new Set(yields.map((each) => each.species))];
  return {
    day,
    broods: cards
      .filter((card) => card.isOpen)
      .sort(soonestFirst)
      .concat(cards.filter((card) => !card.isOpen).reverse()),
    pairs: yields.map((each) => pairCard(logbook, each, day)),
    compared: species.flatMap((each) => comparedPairs(yields, each).map(comparedCard)),
  };
}

const soonestFirst = (a: BroodCard, b: BroodCard): number =>
  (a.expected?.likely ?? Number.MAX_SAFE_INTEGER) - (b.expected?.likely ?? Number.MAX_SAFE_INTEGER);

/** The open broods of a tank, or of the tanks of a system: whose eggs, or any of whose young, are in it. */
export function stationBroods(checked: CheckedLogbook, station: Station, day: number): BroodCard[] {
  const { logbook } = checked;
  const isHere = (other: Station): boolean =>
    station.kind === "tank" ? other === station : other.body === station.body;
  return openBroods(logbook, day)
    .filter((brood) => {
      const { living, state } = brood.tally;
      return state === "eggs" || brood.lot === ""
        ? isHere(homeOf(brood, day))
        : [...living.keys()].some(isHere);
    })
    .map((brood) => broodCard(logbook, brood, day))
    .sort(soonestFirst);
}

/** Broods of which something is to be seen to. */
export function openBroods(logbook: Logbook, day: number): Brood[] {
  return broodsUntil(logbook, day).filter((brood) => isOpen(brood, day, waitDaysOf(logbook, brood.species)));
}

export function broodCard(logbook: Logbook, brood: Brood, day: number): BroodCard {
  const { lot, name, species, tally, parents, among } = brood;
  const { lots } = logbook.book;
  const stated = lots.get(lot);
  const lineage = lineageUntil(logbook, day);
  const all = lot === "" ? parents : (lineage.kindred.get(lot)?.parents ?? parents);
  const inbred = inbredOf(lineage, all);
  const first = brood.entries[0]!;
  const living = [...tally.living];
  const isWaited = isOpen(brood, day, waitDaysOf(logbook, species));
  return {
    name,
    lot,
    title: stated?.title ?? "",
    species,
    state: tally.state,
    isOpen: isWaited,
    stateText: stateText(brood, day),
    of: homeOf(brood, day).name,
    where:
      lot === ""
        ? []
        : living.map(([tank, count]) => ({ tank: tank.name, count: count.count, text: countText(count) })),
    among,
    stages: stagesOf(brood, day),
    shares: sharesOf(brood, day).map((share) => ({
      ...shareCard(share),
      why: whyCard(whyShare(brood, share, shareText(share))),
    })),
    expected: isWaited ? nextOf(logbook, brood, day) : null,
    took: tookOf(logbook, brood, day),
    father: all.father?.name ?? "",
    mother: all.mother?.name ?? "",
    line: stated?.line ?? "",
    generation: stated?.generation ?? "",
    inbreeding:
      inbred === undefined
        ? null
        : {
            low: inbred.low,
            high: inbred.high,
            text: inbredText(inbred),
            why: whyCard(whyInbred(name, inbred, inbredText(inbred))),
          },
    at: rowLocation(first.block, first.row),
  };
}

function stateText(brood: Brood, day: number): string {
  const { tally, lot, entries } = brood;
  const home = homeOf(brood, day).name;
  const last = spokenDay(entries.at(-1)!.day, day);
  switch (tally.state) {
    case "eggs":
      return `eggs in ${home}`;
    case "lost":
      return Number.isNaN(tally.hatchedOn) ? `no egg alive, ${last}` : `none left, ${last}`;
    case "gone":
      return `all passed on, ${last}`;
    default: {
      if (lot === "") return `${tally.state === "swimming" ? "swimming" : "hatched"} in ${home}`;
      const where = [...tally.living].map(([tank, count]) => `${countText(count)} in ${tank.name}`);
      return where.length === 0 ? `in ${home}` : where.join(", ");
    }
  }
}

function stagesOf(brood: Brood, day: number): BroodStageCard[] {
  const { tally, entries, lot } = brood;
  const stage = (
    word: BroodStageCard["stage"],
    on: number,
    counted: Counted,
    entry: BroodEntry | undefined,
  ): BroodStageCard[] =>
    Number.isNaN(on)
      ? []
      : [
          {
            stage: word,
            day: on,
            count: known(counted.count),
            isAbout: counted.isAbout,
            text: countText(counted),
            at: entry === undefined ? null : rowLocation(entry.block, entry.row),
          },
        ];
  const first = (is: BroodEntry["is"]): BroodEntry | undefined => entries.find((entry) => entry.is === is);
  const lastEggs = entries.findLast(({ is }) => is === "eggs");
  const isFollowed = lot !== "" && !Number.isNaN(tally.hatchedOn);
  return [
    ...stage("laid", tally.spawned, tally.laid, first("spawn")),
    ...stage("alive", lastEggs?.day ?? Number.NaN, tally.alive, lastEggs),
    ...stage("hatched", tally.hatchedOn, tally.hatched, first("hatch")),
    ...stage("swimming", tally.swamOn, tally.swimming, first("swim")),
    ...(isFollowed ? stage("living", day, totalLiving(brood), undefined) : []),
  ];
}

function shareCard(each: Share): Omit<BroodShareCard, "why"> {
  const { what, count, outOf, isAbout, share, low, high } = each;
  return {
    what,
    count,
    outOf,
    isAbout,
    share: known(share),
    low: known(low),
    high: known(high),
    text: shareText(each),
  };
}

/** The stage that is to come. */
function nextOf(logbook: Logbook, brood: Brood, day: number): BroodExpectedCard | null {
  const found = nextExpected(logbook, brood, day);
  return found === undefined ? null : expectedCard(logbook, brood, found, day);
}

function expectedCard(logbook: Logbook, brood: Brood, found: Expected, day: number): BroodExpectedCard {
  const { stage, by, earliest, likely, latest, low, high, soFar } = found;
  const text = expectedText(found, day);
  return {
    stage,
    by,
    earliest: known(earliest),
    likely: known(likely),
    latest: known(latest),
    text,
    is: day > latest ? "late" : day >= earliest ? "due" : "ahead",
    degreeDays: by === "days alone" ? null : { low, high, soFar: known(soFar) },
    why: whyCard(whyExpected(logbook, brood, found, text)),
  };
}

function tookOf(logbook: Logbook, brood: Brood, day: number): BroodCard["took"] {
  return (["hatch", "swim"] as const).flatMap((stage) => {
    const took = developed(logbook, brood, stage, day);
    if (took === undefined || brood.among > 0) return [];
    const { from, to, degreeDays, meanC } = took;
    const sum = Number.isNaN(degreeDays) ? "" : `, ${formatNumber(degreeDays, 3)} degree-days`;
    const mean = Number.isNaN(meanC) ? "" : ` at ${formatNumber(meanC, 3)} C`;
    return [
      {
        stage,
        days: to - from,
        degreeDays: known(degreeDays),
        meanC: known(meanC),
        text: `${days(to - from)}${sum}${mean}`,
      },
    ];
  });
}

function pairCard(logbook: Logbook, each: Yield, day: number): PairCard {
  const { name, species, father, mother, spawnings, interval, eggs, young, broods } = each;
  const first = broods[0]!;
  const inbred = inbredOf(lineageUntil(logbook, day), first.parents);
  const entry = first.entries[0]!;
  const number = (figures: Yield["eggs"]): string =>
    figures === undefined
      ? ""
      : `${figures.isAbout ? "~" : ""}${formatNumber(figures.median, 3)}${figures.all.length > 1 ? ` (${formatNumber(Math.min(...figures.all), 4)}..${formatNumber(Math.max(...figures.all), 4)})` : ""}`;
  return {
    name,
    species,
    father,
    mother,
    spawnings,
    interval:
      interval === undefined
        ? null
        : {
            ...interval,
            text:
              interval.least === interval.most
                ? days(interval.median)
                : `${days(interval.median)} (${formatNumber(interval.least)} to ${formatNumber(interval.most)})`,
          },
    eggs: eggs?.median ?? null,
    young: young?.median ?? null,
    eggsText: number(eggs),
    youngText: number(young),
    eggsAMonth: known(each.eggsAMonth),
    youngAMonth: known(each.youngAMonth),
    shares: each.shares.map(shareCard),
    inbreeding: inbred === undefined ? null : inbredText(inbred),
    at: rowLocation(entry.block, entry.row),
  };
}

function comparedCard({
  best,
  other,
  of,
  p,
  isApart,
}: ReturnType<typeof comparedPairs>[number]): ComparedCard {
  const chance = Number.isNaN(p) ? "" : ` (p ${formatNumber(p, 2)})`;
  return {
    species: best.species,
    best: best.name,
    other: other.name,
    of,
    p: known(p),
    isApart,
    text: isApart
      ? `${best.name} gave more ${of} at a spawning than ${other.name}${chance}`
      : `${best.name} and ${other.name} cannot be told apart by their ${of} at a spawning${chance}`,
  };
}
