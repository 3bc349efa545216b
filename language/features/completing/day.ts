import { isoOf } from "../../book/dates.ts";
import { entryKinds, kindNumber, kindOf } from "../../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow } from "../../book/facts.ts";
import type { EntryKind } from "../../book/kind.ts";
import type { Block } from "../../book/source.ts";
import type { Station } from "../../book/stations.ts";
import { Piece } from "../../syntax/pieces.ts";
import { padTo, widthOf } from "../columns.ts";
import { blocksOn } from "../definition.ts";
import { type DueEntry, dueEntries } from "../due-entries.ts";
import { laidLines, problemsOf } from "../layout.ts";
import { lineEndOf } from "../lines.ts";
import { aimOf } from "../recent.ts";
import type { View } from "../view.ts";
import { offerArguments } from "./arguments.ts";
import type { Context } from "./context.ts";
import { literal, type Offer, type Offers } from "./offer.ts";
import { lastSheet } from "./sheet.ts";

/** Lines of a day: whole entries that are due, targets, kinds, then arguments. */
export function offerInDay(context: Context, block: Block, offers: Offers): void {
  const { pieces } = context;
  const time = pieces.count > 0 && pieces.kind[0] === Piece.time ? 1 : 0;
  const behind = pieces.count - time;
  if (behind === 0) {
    offerEntries(context, block, offers);
    offerSheet(context, block, offers);
    offerTargets(context, block, offers);
    return;
  }
  const target = `${pieces.kind[time] === Piece.group ? "@" : ""}${pieces.word[time]}`;
  if (behind === 1) {
    offerKinds(context, block, target, offers);
    return;
  }
  const kind = kindNumber(pieces.word[time + 1] ?? "");
  if (kind === undefined) return;
  offerArguments(context, kindOf(kind), time + 1, offers, { block, target, kind });
}

/** Whole entries: what is due on the day, the most overdue first. */
function offerEntries(context: Context, block: Block, offers: Offers): void {
  if (!context.isAtEnd) return;
  const width = targetWidth(block, context);
  for (const due of dueEntries(context.view, block.day)) {
    const { target, words, reason } = due;
    offers.add({
      label: `${target} ${words}${blankLabel(due)}`,
      sort: "due",
      detail: reason,
      text: `${literal(padTo(target, width))} ${dueText(due)}`,
      isSnippet: true,
      filterText: `${target} ${words.split(" ", 1)[0]}`,
      about: { is: "due", day: block.day, target, words },
    });
  }
}

/** The words of an entry that is due as a snippet, with places for what is still to be measured. */
export function dueText({ words, blanks, end }: DueEntry): string {
  const filled = blanks.map((blank, at) => `${literal(blank)}\${${at + 1}}`).join("");
  const gap = blanks.length > 0 && !blanks[0]!.startsWith(" ") ? " " : "";
  return `${literal(words)}${gap}${filled}${literal(end)}`;
}

function blankLabel({ blanks }: DueEntry): string {
  const shown = blanks.map((blank) => blank.trim().replace(/^,\s*/, "")).filter((blank) => blank !== "");
  return shown.length === 0 ? "" : ` ${shown.join(", ")}`;
}

/** The targets: those with something due first, then tanks, groups and the rest as they are defined. */
function offerTargets(context: Context, block: Block, offers: Offers): void {
  const { book } = context.view.checked;
  const due = dueEntries(context.view, block.day);
  const width = targetWidth(block, context);
  const put = (target: string, sort: Offer["sort"], title: string): Offer => {
    const reasons = due.filter((each) => each.target === target).map((each) => each.words);
    return {
      label: target,
      sort,
      detail: reasons.length === 0 ? title : reasons.join("; "),
      text: context.isAtEnd ? `${padTo(target, width)} ` : target,
      goesOn: context.isAtEnd,
      about: { is: "name", name: target.replace("@", "") },
    };
  };
  const inService = (station: Station): boolean => {
    const { from, until } = station as { from?: number; until?: number };
    return !(from !== undefined && from > block.day) && !(until !== undefined && until < block.day);
  };
  const tanks = book.tanks.filter(inService);
  const isDue = (target: string): boolean => due.some((each) => each.target === target);
  offers.add(
    ...tanks.filter((tank) => isDue(tank.name)).map((tank) => put(tank.name, "tank", tank.title)),
    ...tanks.map((tank) => put(tank.name, "tank", tank.title)),
    ...[...book.groups].map(([name, group]) => put(`@${name}`, "group", group.title)),
  );
  for (const station of book.stations) {
    if (station.kind === "system" || station.kind === "gear")
      offers.add(put(station.name, station.kind, station.title));
    else if (station.kind === "room") offers.add(put("room", "room", station.title));
  }
}

/** A round with the heads of the last one. */
function offerSheet(context: Context, block: Block, offers: Offers): void {
  const last = lastSheet(context.view, block, Number.POSITIVE_INFINITY);
  if (last !== undefined) {
    offers.add({
      label: `sheet ${last.heads.join(" ")}`,
      sort: "sheet",
      detail: `as on ${isoOf(last.day)}`,
      text: `sheet  ${last.heads.join("  ")}${lineEndOf(context.view.source.text)}    `,
      goesOn: true,
    });
  }
  offers.add({
    label: "sheet",
    sort: "sheet",
    detail: "a round: heads once, a row a tank",
    text: "sheet  ",
    goesOn: true,
  });
}

/** What can be done to a target: what is due for it as a whole, then kinds by how often they are written for it. */
function offerKinds(context: Context, block: Block, target: string, offers: Offers): void {
  const { view, isAtEnd } = context;
  const aim = aimOf(view.checked.book, target);
  const due = dueEntries(view, block.day);
  const own = due.filter((each) => each.target === target);
  const others = due.filter(
    (each) =>
      each.target !== target &&
      !target.startsWith("@") &&
      each.duties.some((duty) => aim.stations.includes(duty.station)),
  );
  for (const each of [...own, ...others]) {
    offers.add({
      label: `${each.words}${blankLabel(each)}`,
      sort: "due",
      detail: each.reason,
      text: dueText(each),
      isSnippet: true,
      about: { is: "due", day: block.day, target: each.target, words: each.words },
    });
  }
  const isGear = aim.stations[0]?.kind === "gear";
  const isRoom = aim.stations[0]?.kind === "room";
  const often = kindsOften(view, block.day, aim.names);
  const ranked = [...entryKinds].sort((a, b) => (often.get(b.word) ?? 0) - (often.get(a.word) ?? 0));
  const fitting: readonly EntryKind[] =
    isGear || isRoom ? ranked.filter((kind) => withoutWater.has(kind.word)) : ranked;
  for (const kind of fitting) {
    offers.add({
      label: kind.word,
      sort: "kind",
      detail: kind.title,
      text: isAtEnd && kind.slots.length > 0 ? `${kind.word} ` : kind.word,
      goesOn: isAtEnd && kind.slots.length > 0,
      about: { is: "kind", word: kind.word },
    });
  }
}

/** What is done to the room and to gear. */
const withoutWater: ReadonlySet<string> = new Set(["service", "clean", "note"]);

/** So many days back tell what is usual for a target. */
const usualDays = 60;

function kindsOften(view: View, day: number, names: ReadonlySet<number>): Map<string, number> {
  const counts = new Map<string, number>();
  const { dayGroups } = view.checked.logbook;
  for (let at = dayGroups.length - 1; at >= 0; at--) {
    const group = dayGroups[at]!;
    if (group.day > day) continue;
    if (group.day < day - usualDays) break;
    for (const { facts } of group.blocks)
      for (let row = 0; row < facts.count; row++) {
        if (!names.has(facts.ints[row * intsPerRow + Col.target]!)) continue;
        const { word } = kindOf(kindOfRow(facts, row));
        counts.set(word, (counts.get(word) ?? 0) + 1);
      }
  }
  return counts;
}

/** The width of the targets of a block without the line that is being written, as its layout has it. */
function targetWidth(block: Block, context: Context): number {
  const written = context.replace.start - block.start;
  const widths = laidLines(block.text, true, problemsOf(block))
    .filter((line) => line.is === "entry" && !(line.start <= written && line.end >= written))
    .map((line) => {
      const piece = line.pieces[line.pieces[0]!.kind === Piece.time ? 1 : 0]!;
      return widthOf(block.text.slice(piece.start, piece.end));
    });
  return Math.max(5, ...widths);
}

/** Blocks in column 0: today first, then definitions. */
export function daysToStart(view: View): { day: number; detail: string }[] {
  const { logbook } = view.checked;
  const today = logbook.today(view.worldDay);
  const last = logbook.dayGroups.at(-1)?.day ?? today;
  const hasToday = blocksOn(view, today).length > 0;
  const days = [{ day: today, detail: hasToday ? "today; it has a block already" : "today" }];
  const next = { day: last + 1, detail: "the day after the last entry" };
  if (hasToday && last === today) days.unshift(next);
  else if (!hasToday && today - 1 > last) days.push({ day: today - 1, detail: "yesterday" });
  return days;
}
