import type { Book } from "../../book/book.ts";
import { spokenDay } from "../../book/dates.ts";
import { nameOf, wordOf } from "../../book/interner.ts";
import type { Gear, Station } from "../../book/stations.ts";
import { days } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { ratesOf } from "../../room/case-rates.ts";
import { dutiesOn } from "../../room/due.ts";
import { dutyCard, rowLocation } from "../card-parts.ts";
import type { DutyCard, ResidentCard, SpanCard, TankCard, WaterCard } from "../cards.ts";
import { countText, openCasesOf } from "../case-card.ts";
import { dueToday } from "../day-card.ts";
import { electricCaution, isElectric } from "../electric-caution.ts";
import { emphasis, paragraphs, plain } from "../markdown.ts";
import { stationFindings, tankCard } from "../tank-card.ts";
import { counted, findingItems, headline, linked, type Scope, section } from "./parts.ts";
import { waterPicture } from "./picture.ts";

/** A tank, system, gear, group or the room at a glance. */

export function stationHover(scope: Scope, station: Station): string {
  switch (station.kind) {
    case "room":
      return roomHover(scope);
    case "gear":
      return gearHover(scope, station as Gear);
    default:
      return cardHover(scope, tankCard(scope.view.checked, station, scope.view.worldDay));
  }
}

function cardHover(scope: Scope, card: TankCard): string {
  const { name, title, role, volumeL, volumeText, place, system, residents, water, note } = card;
  const litres = volumeL === null ? "volume not stated" : `${formatNumber(volumeL)} L`;
  const shared =
    system !== null && system.name !== name
      ? `one water with ${system.name}${system.volumeL === null ? "" : `, ${formatNumber(system.volumeL)} L in all`}`
      : "";
  const how = volumeText.replace(/^[\d.]+ L /, "");
  const read = water.filter(({ readings }) => readings.length > 1);
  // What is made or used up in the tank tells more than what is held.
  const pictured =
    read.find(({ crossing }) => crossing !== null) ??
    read.find(({ production, limit }) => limit !== null && production !== null && isSure(production)) ??
    read.find(({ parameter }) => parameter === "nitrate") ??
    read[0];
  return paragraphs(
    headline(name, title, role, litres),
    plain(
      [place, how === "stated" || how === "in all" ? "" : `net volume: ${how}`, shared]
        .filter(Boolean)
        .join("; "),
    ),
    emphasis(note),
    // A hover shows some ten lines without scrolling: the picture is among them.
    pictured === undefined ? "" : waterPicture(name, pictured),
    residentsText(residents),
    quarantineText(scope, card),
    lastChange(scope, card),
    section(
      "Water",
      water.flatMap((each) => waterItem(scope, each)),
      10,
    ),
    remedies(scope, card),
    section("Open cases", openCases(scope, name)),
    section("Duties", dueItems(scope, name, card.duties), 4),
    section("Findings", findingItems(scope, card.findings), 4),
  );
}

/** Of a system the animals of all its tanks together. */
function residentsText(residents: readonly ResidentCard[]): string {
  const bySpecies = new Map<string, { animals: number; isAbout: boolean }>();
  for (const { species, animals, isAbout } of residents) {
    const known = bySpecies.get(species);
    bySpecies.set(species, {
      animals: (known?.animals ?? 0) + animals,
      isAbout: isAbout || known?.isAbout === true,
    });
  }
  const texts = [...bySpecies].map(
    ([name, { animals, isAbout }]) => `${isAbout ? "~" : ""}${formatNumber(animals, 6)} ${name}`,
  );
  return texts.length === 0 ? "No animals by the book." : plain(texts.join(", "));
}

/** How long quarantine lasts, what put it off, and each arrival with its own clock. */
function quarantineText(scope: Scope, { quarantine }: TankCard): string {
  if (quarantine === null) return "";
  const { dayText, text, putOff, arrivals } = quarantine;
  const on = (day: number): string => spokenDay(day, scope.today);
  const items = [
    ...putOff.map((each) => `${linked(scope, each.text, each.at)}${plain(`: put off to ${on(each.to)}`)}`),
    ...arrivals.map(
      (each) => `${linked(scope, each.text, each.at)}${plain(`: own clock until ${on(each.end)}`)}`,
    ),
  ];
  return section(`Quarantine ${text} (${dayText})`, items, 6);
}

function lastChange(scope: Scope, { changes, system, name }: TankCard): string {
  const last = changes.findLast(({ fraction }) => fraction > 0);
  if (last === undefined) return "";
  const of = system !== null && system.name !== name ? ` of ${system.name}` : "";
  return `Last change: ${linked(scope, spokenDay(last.time, scope.today), last.at)}${plain(`, ${last.text}${of}`)}`;
}

/** Whether a production is surely a rise or surely a fall. */
const isSure = ({ low, high }: SpanCard): boolean => low !== null && high !== null && (low > 0 || high < 0);

/** The last reading of a parameter, with its limit and where it heads; nothing where there is neither. */
function waterItem(scope: Scope, water: WaterCard): string[] {
  const { parameter, readings, limit, production, crossing } = water;
  const last = readings.at(-1);
  if (last === undefined) return limit === null ? [] : [plain(`${parameter} never tested (${limit.text})`)];
  const parts = [
    limit === null ? "" : limit.text,
    production === null || !isSure(production)
      ? ""
      : `${production.best > 0 ? "+" : ""}${production.text} a day`,
    crossing === null ? "" : `meets its limit ${crossing.text}`,
  ].filter((part) => part !== "");
  const value = last.isOutside ? `**${plain(last.text)}**` : plain(last.text);
  const rest = parts.length === 0 ? "" : plain(`; ${parts.join("; ")}`);
  return [
    `${plain(parameter)} ${value}, ${linked(scope, spokenDay(last.time, scope.today), last.at)}${rest}`,
  ];
}

function remedies(scope: Scope, { remedies: given }: TankCard): string {
  const items = given.map(({ name, nowText, target, ceilingText, next, at }) => {
    const stated = [
      target === null ? "" : `target ${target.text}`,
      ceilingText === "" ? "" : `ceiling ${ceilingText}`,
    ];
    const parts = [
      nowText === "" ? "not known how much" : nowText,
      ...stated,
      next === null ? "" : `dose ${next.text}`,
    ];
    return `${linked(scope, name, at)} ${plain(parts.filter((part) => part !== "").join("; "))}`;
  });
  const caution = given[0]?.caution ?? "";
  return items.length === 0 ? "" : paragraphs(section("In the water", items), emphasis(caution));
}

/** Outbreaks that are not closed, in the water of a tank or system. */
function openCases(scope: Scope, name: string): string[] {
  const { checked } = scope.view;
  const named = checked.book.station(nameOf(name));
  if (named === undefined || named.body < 0) return [];
  return openCasesOf(checked, named.body, scope.today).map((story) => {
    const first = story.entries[0];
    const at = first === undefined ? null : rowLocation(first.block, first.row);
    const { count } = ratesOf(checked.logbook, story, scope.today);
    const where = story.homes.some(({ tank }) => tank === named || named.kind === "system")
      ? ""
      : `in ${story.homes.map(({ tank }) => tank.name).join(", ")}, of the same water; `;
    const words = `${where}since ${spokenDay(story.since, scope.today)}; ${countText(story, count)}`;
    return `${linked(scope, story.name, at)} ${plain(words)}`;
  });
}

/** Duties in the order in which they are owed; those with nothing to say are left out. */
export function dueItems(scope: Scope, name: string, duties: readonly DutyCard[]): string[] {
  return duties
    .filter(
      ({ due, form, times, timesStated }) => due !== null || (form === "at most" && times > timesStated),
    )
    .map(({ act, when, of, text, late, at, last, form, note }) => {
      const what = of === name ? act : `${of}: ${act}`;
      const done = last === null ? "never done" : `last ${spokenDay(last, scope.today)}`;
      const state = (late ?? 0) > 0 || form === "at most" ? `**${plain(text)}**` : plain(text);
      return `${linked(scope, what, at)} ${plain(when)}: ${state} ${plain(`(${[done, ...(note === undefined ? [] : [note])].join("; ")})`)}`;
    });
}

function gearHover(scope: Scope, gear: Gear): string {
  const { checked } = scope.view;
  const duties = dutiesOn(checked.logbook.ledgerOf(gear), [gear], scope.today).map((due) =>
    dutyCard(checked.book, due, scope.today),
  );
  const expires = Number.isNaN(gear.expires) ? "" : `use until ${spokenDay(gear.expires, scope.today)}`;
  return paragraphs(
    headline(gear.name, gear.title, gear.sort, gear.on === "" ? "" : `on ${gear.on}`),
    plain(expires),
    section("Duties", dueItems(scope, gear.name, duties)),
    isElectric(gear) ? `*${electricCaution}*` : "",
  );
}

export function groupHover(scope: Scope, name: string): string {
  const { checked, worldDay } = scope.view;
  const group = checked.book.groups.get(name);
  if (group === undefined) return headline(`@${name}`, "no such group");
  const duties = group.tanks
    .flatMap((tank) => dutiesOn(checked.logbook.ledgerOf(tank), [tank], scope.today))
    .filter(({ duty, late }) => duty.by === `group ${name}` && late >= 0)
    .sort((a, b) => b.late - a.late)
    .map((due) => dutyCard(checked.book, due, scope.today));
  const findings = group.tanks.flatMap((tank) => stationFindings(checked, tank, worldDay));
  const once = [
    ...new Map(findings.map((each) => [`${each.at.path} ${each.at.start} ${each.message}`, each])).values(),
  ];
  return paragraphs(
    headline(`@${name}`, group.title, counted(group.tanks.length, "tank")),
    plain(group.tanks.map((tank) => tank.name).join(", ")),
    section("Due", dueItems(scope, "", duties), 5),
    section("Findings", findingItems(scope, once), 4),
  );
}

/** How long arrivals stay apart; empty where the room does not state it. */
function apartText({ quarantineDays, clearDays }: Book): string {
  if (Number.isNaN(quarantineDays)) return "";
  const clear = Number.isNaN(clearDays)
    ? ""
    : `, and ${days(clearDays)} after the last loss, sign of disease or dose`;
  return `arrivals stay apart for ${days(quarantineDays)}${clear}`;
}

function roomHover(scope: Scope): string {
  const { checked, worldDay } = scope.view;
  const { title, tanks } = checked.book;
  const due = dueToday(checked, worldDay);
  const late = due.filter((duty) => (duty.late ?? 0) > 0).length;
  const animals = new Map<string, number>();
  for (const tank of tanks)
    for (const holding of checked.logbook.ledgerOf(tank).stock.in(tank.id))
      animals.set(wordOf(holding.species), (animals.get(wordOf(holding.species)) ?? 0) + holding.animals);
  return paragraphs(
    headline(
      title === "" ? "room" : title,
      counted(tanks.length, "tank"),
      counted(animals.size, "species", "species"),
    ),
    plain(apartText(checked.book)),
    plain(due.length === 0 ? "nothing is due" : `${due.length - late} due today, ${late} late`),
  );
}
