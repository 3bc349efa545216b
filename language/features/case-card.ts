import { spokenDay } from "../book/dates.ts";
import { Kind, kindOf } from "../book/entries/registry.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import { type CaseHome, type CaseStory, caseNamed, caseStories } from "../room/case-book.ts";
import type { CaseCount } from "../room/case-count.ts";
import { type CaseRate, prevalenceOf, type RateName, ratesOf, rateText } from "../room/case-rates.ts";
import { caseSigns } from "../room/case-signs.ts";
import type { Logbook } from "../room/logbook.ts";
import { known, rowLocation, whyCard } from "./card-parts.ts";
import type {
  CasebookCard,
  CaseCard,
  CaseDayCard,
  CaseItemCard,
  CasePlaceCard,
  CaseRateCard,
  CaseSignCard,
  CaseTankCard,
} from "./case-cards.ts";
import { entryLines } from "./case-lines.ts";
import { questionCards, resultCards, sampleCards } from "./case-samples-card.ts";
import { coursesCard } from "./courses-card.ts";
import { exposureCard } from "./exposure-card.ts";
import { exposureGraph } from "./pictures/exposure-graph.ts";

/** Cases as cards. */

/** @param worldDay today outside @param episode of a case that came back the latest, if none is asked for */
export function caseCard(
  checked: CheckedLogbook,
  name: string,
  worldDay: number,
  episode?: number,
): CaseCard | undefined {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  const story = caseNamed(logbook, name, day, episode);
  return story === undefined ? undefined : cardOf(checked, story, worldDay);
}

/** All cases up to today. */
export function casebookCard({ logbook }: CheckedLogbook, worldDay: number): CasebookCard {
  const day = logbook.today(worldDay);
  const items = caseStories(logbook, day).map((story) => caseItem(logbook, story, day));
  const latest = (of: (item: CaseItemCard) => number) => (a: CaseItemCard, b: CaseItemCard) => of(b) - of(a);
  return {
    day,
    open: items.filter(({ closed }) => closed === null).sort(latest(({ since }) => since)),
    closed: items.filter(({ closed }) => closed !== null).sort(latest(({ closed }) => closed!)),
  };
}

/** The open cases of which sick are in a tank, or in another whose water it shares; the latest first. */
export function openCasesOf(checked: CheckedLogbook, body: number, day: number): CaseStory[] {
  return caseStories(checked.logbook, day)
    .filter(({ closed, homes }) => Number.isNaN(closed) && homes.some(({ tank }) => tank.body === body))
    .reverse();
}

export function caseItem(logbook: Logbook, story: CaseStory, day: number): CaseItemCard {
  const { name, episode, since, closed, sick } = story;
  const { count } = ratesOf(logbook, story, day);
  const [first] = story.entries;
  return {
    name,
    episode,
    since,
    closed: known(closed),
    outcome: outcomeOf(story),
    state: stateText(story, day),
    species: [...new Set(sick.map((entry) => entry.species))],
    text: countText(story, count),
    affected: story.latest === undefined ? null : known(count.affected),
    ever: count.ever,
    isLeast: count.isLeast,
    atRisk: known(count.atRisk),
    dead: count.dead,
    tanks: story.homes.map((home) => tankCard(home, day)),
    target: story.entries.at(-1)?.stations[0]?.name ?? "",
    at: first === undefined ? null : rowLocation(first.block, first.row),
  };
}

function cardOf(checked: CheckedLogbook, story: CaseStory, worldDay: number): CaseCard {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  const { name } = story;
  const { count, rates, unknown } = ratesOf(logbook, story, day);
  const exposure = exposureCard(checked, { is: "thread", thread: story }, worldDay) ?? null;
  return {
    is: "case",
    ...caseItem(logbook, story, day),
    day,
    episodes: caseStories(logbook, day)
      .filter((each) => each.name === name)
      .map((each) => ({ episode: each.episode, since: each.since, closed: known(each.closed) })),
    places: placesOf(count),
    rates: rates.map((rate) => rateCard(rate, day)),
    unknown,
    curve: curveOf(story, count, day),
    signs: caseSigns(story).map(
      (sign): CaseSignCard => ({
        site: sign.site ?? "",
        word: sign.word,
        gloss: sign.gloss,
        grade: sign.grade ?? "",
        first: sign.first,
        last: sign.last,
        times: sign.entries.length,
        at: rowLocation(sign.entries[0]!.block, sign.entries[0]!.row),
      }),
    ),
    courses: coursesCard(
      logbook,
      { case: name },
      Number.isNaN(story.closed) ? day : story.closed,
      story.since,
    ),
    samples: sampleCards(logbook, story, day),
    results: resultCards(logbook, story, day),
    questions: questionCards(logbook, story, day),
    exposure,
    graph: exposure === null ? null : exposureGraph(exposure),
    entries: entryLines(story),
    caution:
      "Signs name no disease, and a rate no cause. Of a disease that must be notified ask the authority of the place; what to give is for a veterinarian.",
  };
}

/** The word of a `close`. */
export function outcomeOf({ outcome }: Pick<CaseStory, "outcome">): string {
  const slot = kindOf(Kind.close).slots.find(({ name }) => name === "outcome");
  return slot?.filling.is === "choice" ? (slot.filling.words[outcome - 1] ?? "") : "";
}

/** `open, day 12`, `closed 2 November: recovered`. The day of the first signs is the first. */
export function stateText(story: CaseStory, day: number): string {
  const { closed, since } = story;
  if (Number.isNaN(closed)) return `open, day ${day - since + 1}`;
  const outcome = outcomeOf(story);
  return `closed ${spokenDay(closed, day)}${outcome === "" ? "" : `: ${outcome}`}`;
}

const figure = (animals: number): string => formatNumber(animals, 6);

/** `3 of 14 praecox show signs; at least 5 affected, 2 dead`; of a closed case `5 of 14 praecox affected, 2 dead`. */
export function countText({ sick, latest, closed }: CaseStory, count: CaseCount): string {
  if (latest === undefined) return "no signs written down";
  const { affected, ever, isLeast, atRisk, dead } = count;
  const species = [...new Set(sick.map((entry) => entry.species))].join(", ");
  const least = isLeast ? "at least " : "";
  const of = (all: number, some: number): string => (some <= all ? ` of ${figure(all)}` : "");
  if (!Number.isNaN(closed))
    return `${least}${figure(ever)}${of(atRisk, ever)} ${species} affected, ${figure(dead)} dead`;
  const present = presentOf(count);
  const now = Number.isNaN(latest.affected)
    ? `${species} with signs`
    : `${figure(affected)}${of(present, affected)} ${species} ${affected === 1 ? "shows" : "show"} signs`;
  return `${now}; ${least}${figure(ever)} affected, ${figure(dead)} dead`;
}

/** All animals that are there now, of those that a case counts; NaN where nobody knows. */
export const presentOf = ({ strands }: CaseCount): number =>
  strands
    .filter((each) => each.present > 0 || each.affected > 0)
    .reduce((sum, each) => sum + each.present, 0);

function tankCard({ tank, from, by }: CaseHome, day: number): CaseTankCard {
  const when = spokenDay(from, day);
  return {
    name: tank.name,
    title: tank.title,
    from,
    text: by.kind === Kind.move ? `sick moved in ${when}` : `signs since ${when}`,
    at: rowLocation(by.block, by.row),
  };
}

const placesOf = ({ strands }: CaseCount): CasePlaceCard[] =>
  strands.map((each) => ({
    of: each.station.name,
    species: each.species,
    lot: each.lot,
    affected: each.affected,
    present: known(each.present),
    ever: each.ever,
    atRisk: known(each.atRisk),
    dead: each.dead,
  }));

export const rateTitles: Readonly<Record<RateName, string>> = {
  attack: "Attack rate",
  fatality: "Case-fatality",
  mortality: "Mortality",
  prevalence: "Showing signs",
};

const rateCard = (rate: CaseRate, day: number): CaseRateCard => ({
  is: rate.is,
  title: `${rateTitles[rate.is]}${Number.isNaN(rate.on) ? "" : ` on ${spokenDay(rate.on, day)}`}`,
  count: rate.count,
  outOf: rate.outOf,
  best: rate.best,
  low: rate.low,
  high: rate.high,
  isLeast: rate.isLeast,
  text: rateText(rate),
  why: whyCard(rate.why),
});

/** A case of years is drawn in so many days at most: the latest. */
const mostDays = 400;

/** Every day since the first signs, also those on which nothing was found: a curve has its gaps. */
function curveOf({ since, closed }: CaseStory, { days }: CaseCount, day: number): CaseDayCard[] {
  const last = Number.isNaN(closed) ? day : Math.max(closed, days.at(-1)?.day ?? closed);
  const found = new Map(days.map((each) => [each.day, each]));
  const from = Math.max(Math.min(since, days[0]?.day ?? since), last - mostDays + 1);
  return Array.from({ length: last - from + 1 }, (_, at): CaseDayCard => {
    const each = found.get(from + at);
    const { fresh = 0, dead = 0, affected = Number.NaN, present = Number.NaN } = each ?? {};
    const share = each === undefined ? undefined : prevalenceOf(each);
    const isTold = share !== undefined;
    const shown = Number.isNaN(affected)
      ? ""
      : `${figure(affected)}${isTold ? ` of ${figure(present)}` : ""} show signs`;
    const parts = [fresh > 0 ? `${figure(fresh)} new` : "", dead > 0 ? `${figure(dead)} dead` : "", shown];
    return {
      day: from + at,
      fresh,
      dead,
      affected: known(affected),
      present: isTold ? known(present) : null,
      low: share?.low ?? null,
      high: share?.high ?? null,
      text: `${spokenDay(from + at, day)}: ${parts.filter((part) => part !== "").join(", ") || "nothing new"}`,
    };
  });
}
