import { one } from "../book/defined.ts";
import { lineAt } from "../book/entry.ts";
import { wordOf } from "../book/interner.ts";
import type { Body, Gear, Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import type { Finding } from "../checks/finding.ts";
import { formatNumber } from "../quantity/format.ts";
import { dutiesOn, roundOrder } from "../room/due.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Holding } from "../room/stock.ts";
import { stationBroods } from "./brood-card.ts";
import {
  byGravity,
  dutyCard,
  findingCard,
  known,
  rowLocation,
  stationLocation,
  unsettledCards,
} from "./card-parts.ts";
import type { DutyCard, FindingCard, ResidentCard, SystemCard, TankCard } from "./cards.ts";
import { caseItem, openCasesOf } from "./case-card.ts";
import { stepCards } from "./course-step-cards.ts";
import { bathCards } from "./courses-card.ts";
import { stationFeeding } from "./feed-matrix.ts";
import { lightCard } from "./light-card.ts";
import { freeCards } from "./orders-card.ts";
import { bearingCards, populationCards } from "./population-card.ts";
import { stationQuarantine } from "./quarantine-card.ts";
import { lateDays, remedyCards } from "./remedy-card.ts";
import { roundCards } from "./round-card.ts";
import { changeCards, waterCards } from "./water-card.ts";

/** Findings of entries older than this are not the tank's news any more. */
const newsDays = 30;

/**
 * A tank as it stands today, or a system with all that lives in its tanks.
 * @param station a tank or a system
 * @param worldDay today outside
 */
export function tankCard(checked: CheckedLogbook, station: Station, worldDay: number): TankCard {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  const ledger = logbook.ledgerOf(station);
  const isTank = station.kind === "tank";
  const limited = isTank ? (station as Tank) : strictestOf(ledger.body);
  const { name, title } = station;
  const {
    role = "",
    where = "",
    volumeL = ledger.body?.volumeL ?? Number.NaN,
    volumeBy = "in all",
  } = station as Partial<Tank>;
  return {
    is: "tank",
    name,
    title,
    day,
    at: stationLocation(station),
    role: isTank ? role : "system",
    place: where,
    note: noteOf(station),
    volumeL: known(volumeL),
    volumeText: Number.isFinite(volumeL) ? `${formatNumber(volumeL)} L ${volumeBy}` : "volume not stated",
    system: systemCard(ledger),
    water: waterCards(ledger, limited, day),
    rounds: roundCards(ledger, day),
    changes: changeCards(ledger, day),
    remedies: remedyCards(logbook, ledger, day),
    baths: bathCards(logbook, station, day, day - lateDays),
    feeding: stationFeeding(checked, station, day),
    residents: ledger.stock
      .in(isTank ? station.id : undefined)
      .sort(mostFirst)
      .map((holding) => residentCard(ledger, holding)),
    quarantine: stationQuarantine(logbook, station, day),
    free: freeCards(checked, day, isTank ? [name] : (ledger.body?.tanks.map((tank) => tank.name) ?? [])),
    cases: openCasesOf(checked, station.body, day).map((story) => caseItem(logbook, story, day)),
    broods: stationBroods(checked, station, day),
    light: isTank ? lightCard(logbook, station as Tank, day) : null,
    populations: populationCards(checked, tanksOf(station, ledger), day),
    bearing: bearingCards(checked, tanksOf(station, ledger), day),
    duties: [...stepCards(logbook, ledger, day), ...stationDuties(checked, station, day)],
    findings: [...unsettledCards(checked), ...stationFindings(checked, station, worldDay)],
  };
}

const tanksOf = (station: Station, { body }: Ledger): readonly Station[] =>
  station.kind === "tank" ? [station] : (body?.tanks ?? []);

/** What limits the water of a system: of several limits of its tanks the strictest. */
export function strictestOf(body: Body | undefined): Tank | undefined {
  const first = body?.tanks[0];
  return body === undefined || first === undefined ? undefined : { ...first, limits: body.limits };
}

function noteOf(station: Station): string {
  return one(station.definition, "note")?.note?.text ?? "";
}

function systemCard({ body }: Ledger): SystemCard | null {
  if (body?.system === undefined) return null;
  const { name, title } = body.system;
  return {
    name,
    title,
    volumeL: known(body.volumeL),
    tanks: body.tanks.map((tank) => tank.name),
    at: stationLocation(body.system),
  };
}

const mostFirst = (a: Holding, b: Holding): number => b.animals - a.animals;

function residentCard({ book, animals }: Ledger, holding: Holding): ResidentCard {
  const name = wordOf(holding.species);
  const species = book.species.get(name);
  const count = formatNumber(holding.animals, 6);
  let last = animals.length - 1;
  while (last >= 0 && animals.tag[last] !== holding.index) last--;
  return {
    species: name,
    of: book.stations[holding.tank]?.name ?? "",
    title: species?.title ?? "",
    kind: species?.kind ?? "",
    animals: holding.animals,
    isAbout: holding.isAbout,
    text: holding.isAbout ? `~${count}` : count,
    counted: known(holding.lastCountTime),
    at: last < 0 ? null : rowLocation(animals.block[last]!, animals.row[last]!),
  };
}

/** Gear that serves a tank, or the system it is on. */
function* gearOf(gears: readonly Gear[], station: Station, { body }: Ledger): Iterable<Gear> {
  for (const gear of gears) if (gear.on === station.name || gear.on === body?.system?.name) yield gear;
}

/** The duties of a tank or system, of its system and gear, the latest first. */
export function stationDuties(checked: CheckedLogbook, station: Station, day: number): DutyCard[] {
  const { logbook, book } = checked;
  const ledger = logbook.ledgerOf(station);
  const { body } = ledger;
  const own = [...new Set(body?.system === undefined ? [station] : [station, body.system])];
  const gears = [...gearOf(book.gears, station, ledger)];
  const states = [
    ...dutiesOn(ledger, own, day),
    ...gears.flatMap((gear) => dutiesOn(logbook.ledgerOf(gear), [gear], day)),
  ];
  return states
    .sort((a, b) => b.late - a.late || roundOrder.indexOf(a.duty.kind) - roundOrder.indexOf(b.duty.kind))
    .map((due) => dutyCard(book, due, day));
}

/** The findings about a tank or system, its system and gear, the gravest first. @param worldDay today outside */
export function stationFindings(checked: CheckedLogbook, station: Station, worldDay: number): FindingCard[] {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  const gears = gearOf(logbook.book.gears, station, logbook.ledgerOf(station));
  const { system } = logbook.book.bodies[station.body] ?? {};
  const stations: readonly Station[] = [station, ...(system === undefined ? [] : [system]), ...gears];
  const numbers = new Set(stations.map((each) => logbook.ledgerNumber(each)));
  const found = [...numbers].flatMap((number) => checked.findingsOf(number, worldDay));
  const defined = new Set(stations.flatMap(({ place }) => (place === undefined ? [] : [place.block])));
  for (const block of defined)
    for (const finding of checked.findingsOn(block, worldDay))
      if (
        !found.some(
          (each) => each.code === finding.code && each.block === block && each.start === finding.start,
        )
      )
        found.push(finding);
  return found
    .filter((finding) => Number.isNaN(finding.block.day) || finding.block.day > day - newsDays)
    .filter((finding) => isAbout(checked, finding, stations))
    .map(findingCard)
    .sort(byGravity);
}

/** Whether a finding is about one of some stations: by what it says, by the target of its line, or by the definition it is in. */
function isAbout(checked: CheckedLogbook, finding: Finding, stations: readonly Station[]): boolean {
  const { about, block, start } = finding;
  if (about !== undefined) return stations.includes(about);
  if (block.kind !== "day") return stations.some(({ place }) => place?.block === block);
  const line = lineAt(block, start);
  const target = line === undefined || line.is === "sheet" ? undefined : line.target;
  if (target === undefined) return false;
  if (!block.text.startsWith("@", target.start)) return stations.some(({ name }) => name === target.text);
  const tanks = checked.book.groups.get(target.text)?.tanks ?? [];
  return stations.some((station) => tanks.some((tank) => tank === station));
}
