import { mayMean } from "../book/binder.ts";
import type { Book } from "../book/book.ts";
import { Kind, kindOf } from "../book/entries/registry.ts";
import { type DayLine, linesOf, placeOfSlot } from "../book/entry.ts";
import { Col, intsPerRow, kindOfRow, unitOfAmount, unitOfSecond } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import { mayTarget } from "../book/kind.ts";
import { parameters } from "../book/parameters.ts";
import type { Value } from "../book/reading.ts";
import { type Block, idOfRow } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import type { Dimension } from "../quantity/dimension.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { AMBIGUOUS } from "../quantity/units.ts";
import { Piece } from "../syntax/pieces.ts";
import { page } from "./code.ts";
import type { Code } from "./codes.ts";
import type { Finding, Fix } from "./finding.ts";
import { declaring, defining, replacing } from "./offers.ts";

/** Names and units of entries against what is defined: what the text of a day alone cannot tell. */

const tank = `tank dam
  volume 100 L
`;

export const namePages = [
  page({
    code: "name/target",
    severity: "error",
    since: "0.1",
    title: "No such tank",
    says: "No tank, system, gear or group has this name, so the entry belongs to nothing and does not count.",
    whatToDo: "Correct the name, or define the tank.",
    raises: `${tank}2026-03-01
  dmm change 30 %
# ^^^ name/target`,
    fine: `${tank}2026-03-01
  dam change 30 %`,
  }),
  page({
    code: "name/destination",
    severity: "error",
    since: "0.1",
    title: "No such tank to move to",
    says: "The tank that animals are moved to is not defined: by the book they would go nowhere.",
    whatToDo: "Correct the name, or define the tank.",
    raises: `species praecox
${tank}2026-03-01
  dam move praecox 1 -> r44
#                    ^^^^^^ name/destination`,
    fine: `species praecox
${tank}tank r4
  volume 20 L
2026-03-01
  dam count praecox 4
  dam move praecox 1 -> r4`,
  }),
  page({
    code: "name/species",
    severity: "warning",
    since: "0.1",
    title: "No such species",
    says: "No species has this name. The animals are counted under it, but nothing is known of what they need or what harms them.",
    whatToDo: "Correct the name, or define the species.",
    raises: `species praecox
${tank}2026-03-01
  dam count precox 4
#           ^^^^^^ name/species`,
    fine: `species praecox
${tank}2026-03-01
  dam count praecox 4`,
  }),
  page({
    code: "name/remedy",
    severity: "warning",
    since: "0.1",
    title: "No such remedy",
    says: "No remedy has this name, so nothing can be said of what is in the water. Nothing is built in: what the label says must be stated.",
    whatToDo: "Define the remedy with what its label or the veterinarian says.",
    raises: `${tank}2026-03-01
  dam dose prazi 96 mg
#          ^^^^^ name/remedy`,
    fine: `remedy prazi
  target 2 mg/L
${tank}2026-03-01
  dam dose prazi 200 mg`,
  }),
  page({
    code: "name/water",
    severity: "warning",
    since: "0.1",
    title: "No such source water",
    says: "No water has this name: the change is computed as if it were pure.",
    whatToDo: "Correct the name, or define the water with its content.",
    raises: `water tap
${tank}2026-03-01
  dam change 30 % from tab
#                      ^^^ name/water`,
    fine: `water tap
${tank}2026-03-01
  dam change 30 % from tap`,
  }),
  page({
    code: "change/from-tank",
    severity: "information",
    since: "0.3",
    title: "Water of another tank",
    says: "The change is followed as a contact from that tank to this one. What its water held at the time is not carried over: what is computed of this water goes on as if pure water had come in.",
    whatToDo: "Test the water after the change: the readings count from there.",
    raises: `${tank}tank r4
  volume 20 L
2026-03-01
  r4 change 10 L from dam
#                     ^^^ change/from-tank`,
    fine: `water tap
${tank}tank r4
  volume 20 L
2026-03-01
  r4 change 10 L from tap`,
  }),
  page({
    code: "unit/ambiguous",
    severity: "error",
    since: "0.1",
    title: "A unit that may mean several",
    says: "This spelling means one thing in one country or trade and another elsewhere. It is never guessed: the entry waits until it is clear.",
    whatToDo: "Write the unit that is meant, or declare it in the units line of the room.",
    raises: `room "Shed"
${tank}2026-03-01
  dam change 10 gal
#            ^^^^^^ unit/ambiguous`,
    fine: `room "Shed"
  units gallon US
${tank}2026-03-01
  dam change 10 gal`,
  }),
  page({
    code: "entry/misplaced",
    severity: "error",
    since: "0.1",
    title: "Not something that happens there",
    says: "Animals are counted, moved and sold in tanks, also where several share their water; water is tested and changed in a tank or a system, not in a gear or the room. The entry does not count.",
    whatToDo: "Name the tank.",
    raises: `system rack-water
  sump 90 L
species cherry
2026-03-01
  rack-water count cherry 12
# ^^^^^^^^^^ entry/misplaced`,
    fine: `system rack-water
  sump 90 L
tank r1
  volume 24 L
  system rack-water
species cherry
2026-03-01
  r1 count cherry 12`,
  }),
  page({
    code: "change/too-much",
    severity: "warning",
    since: "0.1",
    title: "More than the tank holds",
    says: "A batch cannot change more water than there is.",
    whatToDo:
      "Correct the amount or the volume of the tank; write “flow” if it was drained and filled at once.",
    raises: `${tank}2026-03-01
  dam change 120 L
#            ^^^^^ change/too-much`,
    fine: `${tank}2026-03-01
  dam change 120 L flow`,
  }),
] as const;

/** Findings of the names and units in one day block. */
export function nameFindings(book: Book, block: Block): Finding[] {
  const { facts } = block;
  const findings: Finding[] = [];
  for (let row = 0; row < facts.count; row++) {
    const at = row * intsPerRow;
    const target = facts.ints[at + Col.target]!;
    const kind = kindOfRow(facts, row);
    const isKnown = target >= 0 ? book.station(target) !== undefined : book.groupTanks(~target) !== undefined;
    const station = target >= 0 ? book.station(target) : undefined;
    if (!isKnown) findings.push(unknownTarget(book, block, row, target));
    else if (station !== undefined && !mayTarget(kindOf(kind), station.kind))
      findings.push(misplaced(block, row, kind, station));
    const subject = facts.ints[at + Col.subject]!;
    const object = facts.ints[at + Col.object]!;
    if (subject !== noName && hasSpecies[kind] === 1 && !book.species.has(wordOf(subject))) {
      findings.push(unknown(book, block, row, "species", "name/species", wordOf(subject), "species"));
    } else if (kind === Kind.dose && book.remedy(wordOf(subject)) === undefined) {
      findings.push(unknown(book, block, row, "remedy", "name/remedy", wordOf(subject), "remedy"));
    }
    if (object !== noName) {
      if ((kind === Kind.move || kind === Kind.carry) && book.station(object)?.kind !== "tank") {
        findings.push(unknown(book, block, row, "destination", "name/destination", wordOf(object), "tank"));
      } else if (
        (kind === Kind.change || kind === Kind.topUp) &&
        !book.waters.some((water) => water.name === wordOf(object))
      ) {
        findings.push(
          kind === Kind.change && book.station(object)?.kind === "tank"
            ? fromTank(block, row, wordOf(object))
            : unknown(book, block, row, "source", "name/water", wordOf(object), "water"),
        );
      } else if (kind === Kind.bath && book.remedy(wordOf(object)) === undefined) {
        findings.push(unknown(book, block, row, "remedy", "name/remedy", wordOf(object), "remedy"));
      }
    }
    for (const [column, code] of [
      ["amount", unitOfAmount(facts, row)],
      ["second", unitOfSecond(facts, row)],
    ] as const) {
      if (code >= noUnit) continue;
      const found = ambiguous(book, block, row, column, code);
      if (found !== undefined) findings.push(found);
    }
  }
  return oncePerPlace(findings);
}

const hasSpecies: number[] = [];
for (const kind of [
  Kind.count,
  Kind.arrive,
  Kind.lose,
  Kind.move,
  Kind.sell,
  Kind.ship,
  Kind.spawn,
  Kind.hatch,
  Kind.condition,
  Kind.sick,
  Kind.bath,
]) {
  hasSpecies[kind] = 1;
}

function unknownTarget(book: Book, block: Block, row: number, target: number): Finding {
  const isGroup = target < 0;
  const word = wordOf(isGroup ? ~target : target);
  const place = placeOfTarget(block, row);
  const candidates = isGroup ? [...book.groups.keys()] : book.stations.map((station) => station.name);
  const near = nearest(word, candidates);
  const isGroupName = !isGroup && book.groups.has(word);
  const sign = isGroup ? "@" : "";
  const fixes: Fix[] = isGroupName
    ? [{ title: `Write “@${word}”`, edits: [{ block, ...place, text: `@${word}` }], isSure: true }]
    : [
        ...replacing(
          block,
          place,
          near.map((each) => sign + each),
        ),
        ...(isGroup ? [] : [defining(book, block, "tank", word)]),
      ];
  return {
    code: "name/target",
    severity: "error",
    block,
    ...{ start: place.start, end: place.end },
    message: isGroupName
      ? `“${word}” is a group: write “@${word}” for an entry in each of its tanks`
      : `no ${isGroup ? "group" : "tank"} is called “${word}”${didYouMean(near)}`,
    fixes,
    related: [],
    why: undefined,
  };
}

/** Where the target of a row stands. */
function placeOfTarget(block: Block, row: number): { start: number; end: number } {
  const start = block.facts.ints[row * intsPerRow + Col.start]!;
  // Most rows begin with it, and a log may have many that name nothing: their day is not read again.
  const target = block.facts.ints[row * intsPerRow + Col.target]!;
  const written = target < 0 ? `@${wordOf(~target)}` : wordOf(target);
  const above = block.text.lastIndexOf("\n", start - 1) + 1;
  if (
    /^[ \t]*(?:\d{1,2}:\d{2}[ \t]+)?$/.test(block.text.slice(above, start)) &&
    block.text.startsWith(`${written} `, start)
  )
    return { start, end: start + written.length };
  const line = linesOf(block).find((each) => start >= each.start && start <= each.end);
  const named = line === undefined || line.is === "sheet" ? undefined : line.target;
  return named === undefined ? { start: 0, end: 0 } : { start: named.start, end: named.end };
}

function misplaced(block: Block, row: number, kind: number, station: Station): Finding {
  const { word, target } = kindOf(kind);
  const what = station.kind === "room" ? "the room" : `“${station.name}” is a ${station.kind}`;
  return {
    code: "entry/misplaced",
    severity: "error",
    block,
    ...placeOfTarget(block, row),
    message:
      target === "tank"
        ? `${word} is about the animals of a tank: name the tank (${what})`
        : `${word} is about water: name a tank or a system (${what})`,
    fixes: [],
    related: [],
    why: undefined,
  };
}

function unknown(
  book: Book,
  block: Block,
  row: number,
  slot: string,
  code: Code,
  word: string,
  sort: "species" | "remedy" | "water" | "tank",
): Finding {
  const place = headOfCell(block, row)?.word ?? placeOfSlot(block, idOfRow(block, row), slot);
  const near = nearest(word, book.namesOf(sort));
  const arrow = slot === "destination" ? "-> " : "";
  return {
    code,
    severity: code === "name/destination" ? "error" : "warning",
    block,
    start: place.start,
    end: place.end,
    message: `no ${sort === "water" ? "source water" : sort} is called “${word}”${didYouMean(near)}`,
    fixes: [
      ...replacing(
        block,
        place,
        near.map((each) => arrow + each),
      ),
      defining(book, block, sort, word),
    ],
    related: [],
    why: undefined,
  };
}

/** Water of another tank: an exposure is traced by it, what it holds is not known. */
function fromTank(block: Block, row: number, tank: string): Finding {
  return {
    code: "change/from-tank",
    severity: "information",
    block,
    ...placeOfSlot(block, idOfRow(block, row), "source"),
    message: `what the water of ${tank} holds is not known at this time: the change is computed as if it were pure`,
    fixes: [],
    related: [],
    why: undefined,
  };
}

function ambiguous(
  book: Book,
  block: Block,
  row: number,
  column: "amount" | "second",
  code: number,
): Finding | undefined {
  const { facts } = block;
  const kind = kindOfRow(facts, row);
  const spelling = ambiguousSpelling(code) ?? "";
  const parameter = kind === Kind.test ? parameters[facts.ints[row * intsPerRow + Col.subject]!] : undefined;
  const slots = kindOf(kind).slots.filter((slot) => slot.column === column);
  const wanted: readonly Dimension[] =
    parameter === undefined
      ? slots.flatMap(({ filling }) => (filling.is === "quantity" ? filling.of : []))
      : [parameter.dimension];
  const settled =
    parameter === undefined
      ? book.units.unitAmong(code, wanted)
      : book.units.unitFor(code, parameter.dimension, parameter);
  if (settled !== undefined) return undefined;
  const place =
    headOfCell(block, row)?.unit ??
    placeOfSlot(block, idOfRow(block, row), ...slots.map((slot) => slot.name));
  const units = (AMBIGUOUS.get(spelling) ?? []).filter((unit) => wanted.includes(unit.dimension));
  const written = block.text.slice(place.start, place.end);
  const at = written.lastIndexOf(spelling);
  const [before, behind] = [written.slice(0, at), written.slice(at + spelling.length)];
  return {
    code: "unit/ambiguous",
    severity: "error",
    block,
    start: place.start,
    end: place.end,
    message: mayMean(spelling, units),
    fixes: [
      ...replacing(
        block,
        place,
        units.map((unit) => before + unit.symbol + behind),
      ),
      ...declaring(book, spelling),
    ],
    related: [],
    why: undefined,
  };
}

/** Of the cell of a sheet the head of its column: the word, and the unit in brackets where the cell has none of its own. */
function headOfCell(block: Block, row: number): { word: Value; unit: Value | undefined } | undefined {
  const start = block.facts.ints[row * intsPerRow + Col.start]!;
  let sheet: DayLine | undefined;
  for (const line of linesOf(block)) {
    if (line.is === "sheet") sheet = line;
    if (start < line.start || start > line.end || line.is !== "row" || sheet?.is !== "sheet") continue;
    const column = line.cells.findIndex((cell) => cell.start === start);
    const heads = sheet.cells.filter((cell) => cell.kind === Piece.word);
    const word = heads[column];
    if (word === undefined) return undefined;
    const next = sheet.cells[sheet.cells.indexOf(word) + 1];
    const hasUnit = next?.kind === Piece.columnUnit && line.cells[column]?.unit === noUnit;
    return { word, unit: hasUnit ? next : undefined };
  }
  return undefined;
}

function oncePerPlace(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter((finding) => {
    const key = `${finding.code} ${finding.start}`;
    return !seen.has(key) && seen.add(key);
  });
}
