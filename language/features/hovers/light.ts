import { algaeScale } from "../../book/algae-scale.ts";
import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import type { DayLine } from "../../book/entry.ts";
import type { Block } from "../../book/source.ts";
import type { Tank } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import { type LightChange, lightChanges, lightSettings, tanksMeant } from "../../room/light-changes.ts";
import { comparedAround } from "../../room/light-compared.ts";
import { type AlgaeRating, algaeRatings, growths, trims } from "../../room/plant-rows.ts";
import type { LogRow } from "../../room/rare-rows.ts";
import { type Row, rowsOf } from "../figures/row.ts";
import { comparedChangeCard, lightChangeCard } from "../light-card.ts";
import type { LightChangeCard } from "../light-cards.ts";
import { algaeName, lightChangeLines, settingText } from "../light-words.ts";
import { emphasis, paragraphs, plain } from "../markdown.ts";
import { type Scope, section } from "./parts.ts";

/** So many tanks of a group are told, and so many ratings of before. */
const mostTanks = 3;
const mostRatings = 5;
const backDays = 365;

/**
 * What an entry of light, algae or plants says beside the ones before it, and what came of it: of a change of light and of a planting the days before
 * and after, of a rating and a trimming those around the last change of light. Empty for other entries, and for what is still to come.
 */
export function lightHover(scope: Scope, block: Block, line: DayLine): string {
  const { checked } = scope.view;
  const [row] = rowsOf(checked, block, line);
  if (row === undefined || block.day > scope.today) return "";
  const told = tellers.get(row.kind);
  if (told === undefined) return "";
  const logRow = rowOf(row);
  const tanks = tanksMeant(checked.logbook, logRow);
  const parts = tanks
    .slice(0, mostTanks)
    .map((tank) => told(scope, logRow, tank))
    .map((part, at) => (tanks.length > 1 && part !== "" ? paragraphs(plain(tanks[at]!.name), part) : part));
  const more = tanks.length > mostTanks ? plain(`… ${tanks.length - mostTanks} more tanks`) : "";
  return parts.every((part) => part === "") ? "" : paragraphs(...parts, more);
}

const rowOf = ({ block, facts, at, id, kind, time }: Row): LogRow => ({
  day: block.day,
  time,
  block,
  facts,
  row: at,
  id,
  kind,
});

type Teller = (scope: Scope, row: LogRow, tank: Tank) => string;

const tellers = new Map<number, Teller>([
  [Kind.light, lightText],
  [Kind.service, lampText],
  [Kind.algae, algaeText],
  [Kind.trim, trimText],
  [Kind.plant, plantText],
]);

const isRow = (a: LogRow, b: LogRow): boolean => a.block === b.block && a.id === b.id;

function lightText(scope: Scope, row: LogRow, tank: Tank): string {
  const { logbook } = scope.view.checked;
  const settings = lightSettings(logbook, tank, scope.today);
  const at = settings.findIndex((setting) => isRow(setting.row, row));
  const [setting, before] = [settings[at], settings[at - 1]];
  if (setting === undefined) return "";
  if (before === undefined)
    return plain(
      `How the light was when this was written, ${settingText(setting)}: nothing before it to compare with.`,
    );
  const change = lightChanges(logbook, tank, scope.today).find((each) => isRow(each.row, row));
  return change === undefined
    ? plain(`As it was set on ${spokenDay(before.row.day, scope.today)}: nothing changed.`)
    : changeText(scope, tank, change);
}

function lampText(scope: Scope, row: LogRow, tank: Tank): string {
  const { logbook } = scope.view.checked;
  const change = lightChanges(logbook, tank, scope.today).find((each) => isRow(each.row, row));
  return change === undefined ? "" : changeText(scope, tank, change);
}

const changeText = (scope: Scope, tank: Tank, change: LightChange): string =>
  cardText(scope, lightChangeCard(scope.view.checked.logbook, tank, change, scope.today), "Before and after");

function cardText(scope: Scope, card: LightChangeCard, heading: string): string {
  return paragraphs(
    section(heading, lightChangeLines(card, scope.today).map(plain), 12),
    emphasis(card.remark),
  );
}

function algaeText(scope: Scope, row: LogRow, tank: Tank): string {
  const { logbook } = scope.view.checked;
  const all = algaeRatings(logbook, tank, row.day - backDays, row.day);
  const own = all.find((each) => isRow(each.row, row));
  if (own === undefined) return "";
  const before = all.filter(
    (each) => each.sort === own.sort && each.isShare === own.isShare && each.row.time < own.row.time,
  );
  const known = before
    .slice(-mostRatings)
    .map((each) => `${ratingText(each)} on ${spokenDay(each.row.day, scope.today)}`);
  return paragraphs(
    plain(own.isShare ? "Share of the surface it grows on." : meaning(own)),
    plain(`${algaeName(own.sort)} before: ${known.length === 0 ? "not rated in a year" : known.join(", ")}`),
    lastChangeText(scope, row, tank),
  );
}

/** What a rating means; of a range, or between two figures, what both do. */
function meaning({ reading }: AlgaeRating): string {
  const ends = new Set([Math.floor(reading.low), Math.ceil(reading.high)]);
  return algaeScale
    .filter(({ rating }) => ends.has(rating))
    .map(({ rating, words, cover }) => `${rating}: ${words}, ${cover} of the surface`)
    .join("; ");
}

const ratingText = ({ reading: { low, high }, isShare }: AlgaeRating): string =>
  `${low === high ? formatNumber(low) : `${formatNumber(low)}..${formatNumber(high)}`}${isShare ? " %" : ""}`;

function trimText(scope: Scope, row: LogRow, tank: Tank): string {
  const all = trims(scope.view.checked.logbook, tank, row.day - backDays, row.day);
  const growth = growths(all).find(({ day }) => day === row.day);
  const grown =
    growth === undefined
      ? "What grew cannot be told: it needs the mass of this trimming, and one on a day before it."
      : `Grown: ${formatNumber(growth.gramsAWeek)} g a week since the trimming of ${spokenDay(growth.since, scope.today)}, if as much was left standing.`;
  return paragraphs(plain(grown), lastChangeText(scope, row, tank));
}

function plantText(scope: Scope, row: LogRow, tank: Tank): string {
  const { logbook } = scope.view.checked;
  const card = comparedChangeCard(logbook, comparedAround(logbook, tank, row, scope.today), scope.today);
  return cardText(scope, card, "Before and after this planting");
}

/** The last change of light up to the day of an entry, with what came of it by today. */
function lastChangeText(scope: Scope, row: LogRow, tank: Tank): string {
  const change = lightChanges(scope.view.checked.logbook, tank, row.day).at(-1);
  return change === undefined ? "" : changeText(scope, tank, change);
}
