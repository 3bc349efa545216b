import { isoOf, spokenDay } from "../book/dates.ts";
import { lineAt } from "../book/entry.ts";
import { nameOf } from "../book/interner.ts";
import { findParameter, type Parameter, parameterNames } from "../book/parameters.ts";
import type { Gear, Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { codePages } from "../checks/codes.ts";
import { whyDuty } from "../checks/duties.ts";
import type { Finding } from "../checks/finding.ts";
import { whyTrend } from "../checks/trends.ts";
import { limitText, readingSpan } from "../checks/words.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { dutiesOn } from "../room/due.ts";
import type { Ledger } from "../room/ledger.ts";
import { whyRound } from "../room/round.ts";
import { waterTrend } from "../room/water.ts";
import { type Why, whyEntry, whyStated } from "../room/why.ts";
import { whyRemedy, whyVolume } from "../room/why-dose.ts";
import { whyAnimals } from "../room/why-stock.ts";
import { whyCard } from "./card-parts.ts";
import type { WhyCard } from "./cards.ts";
import { figureOf } from "./figures/figures.ts";
import { readOf } from "./figures/read.ts";
import { rowsOf } from "./figures/row.ts";
import { whyReading } from "./figures/test.ts";
import { latestRound, toldOfRounds } from "./rounds.ts";
import { blockAt, type View } from "./view.ts";

/**
 * Any figure, asked why: by words, or by where it stands. The answer is a tree of entries, statements and formulas with their sources;
 * `whyText` writes it for a terminal, `whyMarkdown` for a hover, `whyJson` for programs.
 */

export type WhyAnswer = { readonly why: Why } | { readonly problem: string };

export { whyMarkdown, whyText } from "./why-text.ts";

/** The tree as plain JSON. */
export const whyJson: (why: Why) => WhyCard = whyCard;

/**
 * Answers a question in words, as of today: `dam nitrate` (the level), `q1 praziquantel` (what is in the water), `dam praecox` (the
 * number by the book), `dam change` (a duty, by words of its act), `dam volume`,
 * `dam free-ammonia` (what a round says together), `finding dose/above-ceiling h1`.
 * @param worldDay today outside
 */
export function why(checked: CheckedLogbook, worldDay: number, question: string): WhyAnswer {
  const [first, ...rest] = question.trim().split(/\s+/);
  if (first === undefined || first === "" || rest.length === 0)
    return { problem: "ask for a tank and a figure: dam nitrate, or for a finding: finding limit/above dam" };
  if (first === "finding") return whyFinding(checked, worldDay, rest[0] ?? "", rest[1]);
  const { book, logbook } = checked;
  const station = book.station(nameOf(first));
  if (station === undefined) {
    const near = nearest(first, book.namesOf("tank", "system", "gear"));
    return { problem: `no tank is called “${first}”${didYouMean(near)}` };
  }
  const day = logbook.today(worldDay);
  const found =
    (rest.length === 1 ? whyOfName(checked, station, rest[0]!, day) : undefined) ??
    whyOfRound(checked, station, rest, day) ??
    whyOfDuty(checked, station, rest, day);
  if (found !== undefined) return found;
  const words = rest.join(" ");
  const known = [
    ...parameterNames,
    ...book.namesOf("remedy", "species"),
    ...toldOfRounds.map(({ calculation }) => calculation.name),
    ...dutiesOf(checked, station).map(({ duty }) => duty.act.split(" ")[0]!),
  ];
  return {
    problem: `“${words}” is no parameter, remedy, species or duty of ${station.name}${didYouMean(nearest(words, known))}`,
  };
}

function whyOfName(
  checked: CheckedLogbook,
  station: Station,
  word: string,
  day: number,
): WhyAnswer | undefined {
  if (station.body < 0) return undefined;
  const ledger = checked.logbook.ledgerOf(station);
  if (word === "volume") return { why: whyVolume(ledger) };
  const parameter = findParameter(word);
  if (parameter !== undefined) {
    const why = whyWater(ledger, station, parameter, day);
    return why === undefined ? { problem: `${parameter.name} was never tested in ${station.name}` } : { why };
  }
  const remedy = checked.book.remedy(word);
  if (remedy !== undefined) {
    const why = whyRemedy(
      ledger,
      remedy,
      day + 1,
      `${remedy.name} in ${ledger.body?.name} on ${spokenDay(day)}`,
    );
    return { why };
  }
  const isSpecies = checked.book.species.has(word);
  if (station.kind !== "tank") {
    return isSpecies
      ? { problem: `animals are counted by tank; ${station.name} is a ${station.kind}` }
      : undefined;
  }
  if (!isSpecies && ledger.stock.known(station.id, nameOf(word)) === undefined) return undefined;
  return { why: whyAnimals(ledger, station as Tank, word, `${word} in ${station.name} by the book`) };
}

/** What the readings of a round say together, by the name of the calculation: `dam free-ammonia`, `dam free ammonia`. */
function whyOfRound(
  { logbook }: CheckedLogbook,
  station: Station,
  words: readonly string[],
  day: number,
): WhyAnswer | undefined {
  const told = toldOfRounds.find(({ calculation }) => calculation.name === words.join("-").toLowerCase());
  if (told === undefined || station.body < 0) return undefined;
  const latest = latestRound(logbook.ledgerOf(station), told, day);
  if (latest !== undefined) return { why: whyRound(latest.round, told.figure) };
  return { problem: `no round of ${station.name} has all that ${told.calculation.name} needs` };
}

/** Why a parameter is where it is: by its trend, or, of what does not mix, by its last reading. */
export function whyWater(
  ledger: Ledger,
  station: Station,
  parameter: Parameter,
  day: number,
): Why | undefined {
  const tank = station.kind === "tank" ? (station as Tank) : ledger.body?.tanks[0];
  const trend = waterTrend(ledger, parameter, tank, day);
  if (trend !== undefined) return whyTrend(ledger, trend, day);
  const series = ledger.readings[parameter.id];
  const last = (series?.from(day + 1) ?? 0) - 1;
  if (series === undefined || last < 0) return undefined;
  const limit = tank?.limits.get(parameter.id);
  return {
    what: `${parameter.name} in ${station.name}, last read on ${isoOf(series.time[last]!)}`,
    value: readingSpan(ledger.book, parameter, series.first[last]!, series.second[last]!),
    from: [
      whyEntry({ block: series.block[last]!, row: series.row[last]! }),
      ...(limit === undefined ? [] : [{ ...whyStated(limit.place), value: limitText(ledger.book, limit) }]),
    ],
  };
}

/** The duties of a station, of its system, and of the gear that serves them. */
function dutiesOf({ book }: CheckedLogbook, station: Station) {
  const system = book.bodies[station.body]?.system;
  const served = [station.name, ...(system === undefined ? [] : [system.name])];
  const gears = book.gears.filter((gear: Gear) => served.includes(gear.on));
  const stations = new Set<Station>([station, ...(system === undefined ? [] : [system]), ...gears]);
  return [...stations].flatMap((each) => each.duties.map((duty) => ({ station: each, duty })));
}

/** A duty by words of its act; of several the one that is owed first. */
function whyOfDuty(
  checked: CheckedLogbook,
  station: Station,
  words: readonly string[],
  day: number,
): WhyAnswer | undefined {
  const { logbook } = checked;
  const states = dutiesOf(checked, station)
    .filter(({ duty, station: of }) => {
      const said = `${duty.form.when} ${duty.act} ${of.name}`.toLowerCase().split(/[\s,]+/);
      return words.every((word) => said.includes(word.toLowerCase()));
    })
    .flatMap(({ station: of, duty }) =>
      dutiesOn(logbook.ledgerOf(of), [of], day).filter((due) => due.duty === duty),
    )
    .sort((a, b) => b.late - a.late);
  const [due] = states;
  return due === undefined ? undefined : { why: whyDuty(logbook.ledgerOf(due.station), due, day) };
}

/** The latest finding of a code, about one station or anywhere. */
function whyFinding(
  checked: CheckedLogbook,
  worldDay: number,
  code: string,
  name: string | undefined,
): WhyAnswer {
  if (!codePages.some((page) => page.code === code)) {
    const near = nearest(
      code,
      codePages.map((page) => page.code),
    );
    return { problem: `no finding has the code ${code}${didYouMean(near)}` };
  }
  const found = checked
    .findings(worldDay)
    .filter((finding) => finding.code === code)
    .filter((finding) => name === undefined || isAbout(checked, finding, name))
    .sort((a, b) => (b.block.day || Number.MAX_VALUE) - (a.block.day || Number.MAX_VALUE));
  const [latest] = found;
  if (latest === undefined)
    return { problem: `there is no finding ${code}${name === undefined ? "" : ` about ${name}`}` };
  return { why: latest.why ?? whyPlain(latest) };
}

/** Of a finding that follows from one line alone: what it says, and the line. */
function whyPlain({ message, block, start, end }: Finding): Why {
  return { what: message, value: "", from: [whyStated({ block, start, end })] };
}

/** Whether a finding is about a tank, system or gear: by what it says, by the target of its line, or by its definition. */
function isAbout({ book }: CheckedLogbook, { about, block, start }: Finding, name: string): boolean {
  if (about !== undefined) return about.name === name;
  if (block.kind !== "day") return block.definition?.name === name;
  const line = lineAt(block, start);
  const target = line === undefined || line.is === "sheet" ? undefined : line.target;
  if (target === undefined) return false;
  if (!block.text.startsWith("@", target.start)) return target.text === name;
  return book.groups.get(target.text)?.tanks.some((tank) => tank.name === name) === true;
}

/**
 * Why what stands at an offset is so: a finding there; of an entry what follows from it, as it was just then; of a statement in a
 * definition the figure it leads to today. Undefined where nothing is computed.
 */
export function whyAt(view: View, offset: number): Why | undefined {
  const found = blockAt(view, offset);
  if (found === undefined) return undefined;
  const { block, at } = found;
  const { checked, worldDay } = view;
  const findings = checked
    .findingsOn(block, worldDay)
    .filter((finding) => finding.start <= at && at <= finding.end)
    .sort((a, b) => a.end - a.start - (b.end - b.start));
  for (const finding of findings) if (finding.why !== undefined) return finding.why;
  if (block.kind === "definition") return whyDefined(view, offset);
  const line = lineAt(block, at);
  if (line === undefined) return undefined;
  const pointed = rowsOf(checked, block, line).find((row) => row.start <= at && at <= row.end);
  const read = pointed === undefined ? undefined : readOf(pointed);
  return read === undefined ? figureOf(checked, block, line)?.why() : whyReading(read);
}

function whyDefined({ checked, worldDay, source }: View, offset: number): Why | undefined {
  const block = source.blockAt(offset)!;
  const at = offset - block.start;
  const { book, logbook } = checked;
  const day = logbook.today(worldDay);
  const due = book.duties
    .filter(({ place }) => place.block === block && place.start <= at && at <= place.end)
    .flatMap((duty) =>
      dutiesOn(logbook.ledgerOf(duty.station), [duty.station], day).filter((each) => each.duty === duty),
    )
    .sort((a, b) => b.late - a.late)[0];
  if (due !== undefined) return whyDuty(logbook.ledgerOf(due.station), due, day);
  const station = book.stations.find((each) => each.definition === block.definition);
  if (station === undefined || station.body < 0) return undefined;
  const ledger = logbook.ledgerOf(station);
  for (const tank of ledger.body?.tanks ?? []) {
    for (const limit of tank.limits.values()) {
      const { place, parameter } = limit;
      if (place.block === block && place.start <= at && at <= place.end)
        return whyWater(ledger, tank, parameter, day);
    }
  }
  return whyVolume(ledger);
}
