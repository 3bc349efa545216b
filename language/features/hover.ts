import { dayOf } from "../book/dates.ts";
import type { Definition, Property } from "../book/definition.ts";
import { definitionKinds } from "../book/definitions/registry.ts";
import { kindOf } from "../book/entries/registry.ts";
import { type DayLine, lineAt } from "../book/entry.ts";
import { nameOf } from "../book/interner.ts";
import { findParameter, type Parameter } from "../book/parameters.ts";
import type { Item, Value } from "../book/reading.ts";
import type { Slot } from "../book/slots.ts";
import type { Block } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import { whyDuty } from "../checks/duties.ts";
import { dutiesOn } from "../room/due.ts";
import { dateAt } from "./dates-in-text.ts";
import { figureOf } from "./figures/figures.ts";
import { readOf } from "./figures/read.ts";
import { rowsOf } from "./figures/row.ts";
import { whyReading } from "./figures/test.ts";
import { caseHover } from "./hovers/case.ts";
import { dayHover } from "./hovers/day.ts";
import { doseHover } from "./hovers/dose.ts";
import { foodHover } from "./hovers/food.ts";
import { lightHover } from "./hovers/light.ts";
import { numberText } from "./hovers/number.ts";
import { orderHover } from "./hovers/order.ts";
import { parameterHover } from "./hovers/parameter.ts";
import type { Scope } from "./hovers/parts.ts";
import { remedyHover } from "./hovers/remedy.ts";
import { speciesHover, waterHover } from "./hovers/species.ts";
import { groupHover, stationHover } from "./hovers/station.ts";
import { threadHover } from "./hovers/thread.ts";
import { definitionHover, kindHover, propertyHover, sheetHover, slotHover } from "./hovers/words.ts";
import { bold, declared, paragraphs, plain } from "./markdown.ts";
import { type NameUse, nameAt } from "./names.ts";
import { blockAt, type Span, type View } from "./view.ts";
import { type Address, whyMarkdown } from "./why-text.ts";

/** What is told of what stands at a place. */
export interface Hover {
  readonly span: Span;
  readonly markdown: string;
}

export interface HoverOptions {
  /** Makes an address for a place of the log, so that entries in a hover lead to their lines. */
  readonly address?: Address;
}

/**
 * What is known of what stands at an offset: a name, a number with its figure and why, a word of the format, a date. With the reasons of
 * a finding there; its message the editor shows itself. Undefined in prose and where nothing is known.
 */
export function hover(view: View, offset: number, options: HoverOptions = {}): Hover | undefined {
  const found = blockAt(view, offset);
  if (found === undefined) return undefined;
  const { block, at } = found;
  const scope: Scope = {
    view,
    today: view.checked.logbook.today(view.worldDay),
    address: options.address,
  };
  const told = toldAt(scope, block, at, offset);
  const why = findingWhy(scope, block, at);
  if (told === undefined && why === undefined) return undefined;
  const span = told?.span ?? why!.span;
  return {
    span: { start: block.start + span.start, end: block.start + span.end },
    markdown: paragraphs(told?.markdown ?? "", why?.markdown ?? ""),
  };
}

/** What is told of a place, with a span in the block. */
type Told = Hover;

function toldAt(scope: Scope, block: Block, at: number, offset: number): Told | undefined {
  const { view } = scope;
  const date = dateAt(view.source.text, offset);
  if (date !== undefined)
    return {
      span: { start: date.start - block.start, end: date.end - block.start },
      markdown: dayHover(scope, dayOf(date.iso)),
    };
  const use = nameAt(view, offset);
  const named = use === undefined ? undefined : nameHover(scope, use);
  if (use !== undefined && named !== undefined) return { span: use, markdown: named };
  if (block.kind === "definition" && block.definition !== undefined)
    return inDefinition(scope, block, block.definition, at);
  const line = lineAt(block, at);
  const told = line === undefined ? undefined : inLine(scope, block, line, at);
  return told === undefined || line === undefined
    ? undefined
    : { ...told, markdown: paragraphs(told.markdown, lightHover(scope, block, line)) };
}

function nameHover(scope: Scope, use: NameUse): string | undefined {
  const { name, sort } = use;
  switch (sort) {
    case "tank":
    case "system":
    case "gear": {
      const station = scope.view.checked.book.station(nameOf(name));
      return station === undefined ? undefined : stationHover(scope, station);
    }
    case "group":
      return groupHover(scope, name);
    case "species":
      return speciesHover(scope, name);
    case "food":
      return foodHover(scope, name);
    case "water":
      return waterHover(scope, name);
    case "remedy":
      return remedyHover(scope, name);
    case "order":
      return orderHover(scope, use);
    case "case":
      return caseHover(scope, name) ?? threadHover(scope, use);
    default:
      return threadHover(scope, use);
  }
}

const within = (value: Span | undefined, at: number): boolean =>
  value !== undefined && value.start <= at && at <= value.end;

function inLine(scope: Scope, block: Block, line: DayLine, at: number): Told | undefined {
  const { book } = scope.view.checked;
  if (line.is === "sheet") {
    if (within(line.word, at)) return { span: line.word, markdown: sheetHover() };
    const head = line.cells.find((cell) => within(cell, at));
    const parameter = head === undefined ? undefined : findParameter(head.text);
    return head === undefined || parameter === undefined
      ? undefined
      : { span: head, markdown: parameterHover(scope, parameter, undefined) };
  }
  const { target } = line;
  const station = target === undefined ? undefined : book.station(nameOf(target.text));
  if (target !== undefined && within(target, at))
    return station === undefined ? undefined : { span: target, markdown: stationHover(scope, station) };
  if (line.is === "row") {
    const cell = line.cells.findIndex((each) => within(each, at));
    const value = line.cells[cell];
    const column = line.columns[cell];
    if (value === undefined || column === undefined || Number.isNaN(value.value)) return undefined;
    const { parameter, unit } = column;
    const filling = parameter === undefined ? ({ is: "count" } as const) : ({ is: "reading" } as const);
    const text = numberText(book, value, filling, parameter, value.unit === -1 ? unit : value.unit);
    return figured(scope, block, line, at, value, text);
  }
  if (within(line.kindWord, at) && line.kind !== undefined)
    return { span: line.kindWord!, markdown: kindHover(line.kind) };
  if (line.kind === undefined) return undefined;
  for (const item of line.items) {
    const slot = line.kind.slots.find(({ name }) => within(item[name], at));
    if (slot !== undefined) return inSlot(scope, block, line, item, slot, at, line.kind.word, station);
  }
  return undefined;
}

function inSlot(
  scope: Scope,
  block: Block,
  line: DayLine | undefined,
  item: Item,
  slot: Slot,
  at: number,
  signature: string,
  station: Station | undefined,
): Told | undefined {
  const value = item[slot.name]!;
  const { filling } = slot;
  const parameter = parameterOf(item);
  if (filling.is === "name" && filling.of[0] === "parameter")
    return parameter === undefined
      ? undefined
      : { span: value, markdown: parameterHover(scope, parameter, station) };
  if (filling.is === "choice" || filling.is === "name" || filling.is === "words")
    return { span: value, markdown: slotHover(signature, slot, value.text) };
  if (Number.isNaN(value.value)) return undefined;
  const text = numberText(scope.view.checked.book, value, filling, parameter);
  return line === undefined
    ? { span: value, markdown: paragraphs(bold(text), declared(slot.doc)) }
    : figured(scope, block, line, at, value, text);
}

function parameterOf(item: Item): Parameter | undefined {
  return item.parameter === undefined ? undefined : findParameter(item.parameter.text);
}

/** A number of an entry: itself, then what follows from its entry and why. */
function figured(scope: Scope, block: Block, line: DayLine, at: number, value: Value, text: string): Told {
  const { checked } = scope.view;
  const row = rowsOf(checked, block, line).find((each) => each.start <= at && at <= each.end);
  const read = row === undefined ? undefined : readOf(row);
  const figure = figureOf(checked, block, line);
  const why = read === undefined ? figure?.why() : whyReading(read);
  return {
    span: value,
    markdown: paragraphs(
      bold(text),
      figure === undefined ? "" : plain(figure.label),
      row === undefined ? "" : doseHover(scope, row),
      why === undefined ? "" : whyMarkdown(why, scope.address),
    ),
  };
}

function inDefinition(scope: Scope, block: Block, definition: Definition, at: number): Told | undefined {
  const kind = definitionKinds[definition.word];
  const lead = block.text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const word = { start: lead, end: lead + definition.word.length };
  if (within(word, at)) return { span: word, markdown: definitionHover(kind) };
  const property = definition.properties.find((each) => within(each, at));
  if (property === undefined) return undefined;
  const declaredAs = kind.properties.find((each) => each.word === property.word);
  const name = { start: property.start, end: property.start + property.word.length };
  if (property.duty !== undefined || property.word === "lasts") {
    const told = dutyHover(scope, block, property);
    if (told !== undefined) return told;
  }
  if (declaredAs === undefined) return undefined;
  if (!within(name, at)) {
    const station = scope.view.checked.book.stations.find((each) => each.definition === definition);
    for (const item of property.filled.items) {
      const slot = declaredAs.slots.find((each) => within(item[each.name], at));
      if (slot === undefined) continue;
      const parameter = parameterOf(item);
      // A limit, or what a water holds: beside the number where the parameter stands.
      if (slot.filling.is === "reading" && parameter !== undefined && station !== undefined) {
        const value = item[slot.name]!;
        const text = numberText(scope.view.checked.book, value, slot.filling, parameter);
        return { span: value, markdown: paragraphs(bold(text), parameterHover(scope, parameter, station)) };
      }
      return inSlot(scope, block, undefined, item, slot, at, property.word, station);
    }
  }
  return { span: name, markdown: propertyHover(kind, declaredAs) };
}

/** A duty: when it was last done and is due, of each station that has it. */
function dutyHover(scope: Scope, block: Block, property: Property): Told | undefined {
  const { checked } = scope.view;
  const form = property.duty ?? property;
  const states = checked.book.duties
    .filter(({ place }) => place.block === block && place.start === form.start)
    .flatMap((duty) => {
      const ledger = checked.logbook.ledgerOf(duty.station);
      return dutiesOn(ledger, [duty.station], scope.today)
        .filter((due) => due.duty === duty)
        .map((due) => ({ ledger, due }));
    })
    .sort((a, b) => b.due.late - a.due.late);
  const kind = property.duty?.kind ?? states[0]?.due.duty.kind;
  if (kind === undefined) return undefined;
  const most = 6;
  const whys = states
    .slice(0, most)
    .map(({ ledger, due }) => whyMarkdown(whyDuty(ledger, due, scope.today), scope.address));
  const more = states.length > most ? plain(`… ${states.length - most} more`) : "";
  const words = block.text.slice(form.start, form.end).replace(/\s+/g, " ");
  return {
    span: { start: form.start, end: form.end },
    markdown: paragraphs(bold(words), declared(kindOf(kind).title), ...whys, more),
  };
}

/** Why there is a finding at a place; of several the one that marks least. */
function findingWhy(scope: Scope, block: Block, at: number): Told | undefined {
  const { checked, worldDay } = scope.view;
  const [finding] = checked
    .findingsOn(block, worldDay)
    .filter((each) => each.start <= at && at <= each.end && each.why !== undefined)
    .sort((a, b) => a.end - a.start - (b.end - b.start));
  const why = finding?.why;
  if (finding === undefined || why === undefined) return undefined;
  return { span: finding, markdown: `${plain(`Why ${finding.code}`)}\n\n${whyMarkdown(why, scope.address)}` };
}
