import { clockOf, isoOf } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { lineAt } from "../../book/entry.ts";
import { Col, intsPerRow, kindOfRow } from "../../book/facts.ts";
import { idOfRow } from "../../book/source.ts";
import type { Remedy } from "../../book/stations.ts";
import { concentration } from "../../checks/words.ts";
import { caseOfBath } from "../../room/cases.ts";
import { eachRow, firstFrom } from "../../room/days.ts";
import { targetsOf } from "../../room/feeding.ts";
import type { Ledger } from "../../room/ledger.ts";
import { decayed, type RemedyStep, remedyAt, remedySteps } from "../../room/past.ts";
import { whyEntry } from "../../room/why.ts";
import { noPanel, panels } from "../pictures/panels.ts";
import { type Field, field } from "./field.ts";
import { type SheetScope, type SheetWater, waterName, watersOf } from "./scope.ts";

/** What was given, with what was in the water by dilution and the half-life stated. */
export interface SheetTreatment {
  readonly of: string;
  readonly remedy: string;
  readonly title: string;
  readonly active: Field;
  readonly strength: Field;
  /** `2 mg/L`, and the ceiling; empty where none is stated. */
  readonly target: string;
  readonly halfLife: Field;
  /** At the end of the day of the sheet; empty where it cannot be computed. */
  readonly now: string;
  readonly doses: readonly SheetDose[];
  readonly chart: string;
}

export interface SheetDose {
  readonly time: number;
  /** As written, without the day. */
  readonly text: string;
  /** In the water just before and just after; empty where it cannot be computed. */
  readonly before: string;
  readonly after: string;
}

/** A bath or dip: in a vessel of its own, as written. */
export interface SheetBath {
  readonly day: number;
  readonly text: string;
}

export const treatmentDays = 90;

export const sheetTreatments = (scope: SheetScope): SheetTreatment[] =>
  watersOf(scope).flatMap((water) =>
    scope.book.remedies.flatMap((remedy) => {
      const from = beginOf(water.ledger, remedy, scope.day);
      return from < 0 ? [] : [treatmentOf(scope, water, remedy, from)];
    }),
  );

/** The dose from which what was in the water of the last 90 days can be told; -1 if there was none in them. */
function beginOf({ doses }: Ledger, remedy: Remedy, day: number): number {
  const end = doses.from(day + 1);
  let at = doses.from(day + 1 - treatmentDays);
  while (at < end && doses.tag[at] !== remedy.id) at++;
  if (at === end) return -1;
  // What was there before came from doses before.
  for (let back = at - 1; back >= 0 && doses.second[at]! > 0; back--)
    if (doses.tag[back] === remedy.id) at = back;
  return at;
}

function treatmentOf({ day }: SheetScope, water: SheetWater, remedy: Remedy, from: number): SheetTreatment {
  const { ledger } = water;
  const { name, title, unit, active, targetLow, targetHigh, ceiling, halfLifeDays } = remedy;
  const words = (value: number): string => (Number.isFinite(value) ? concentration(value, unit) : "");
  const steps = remedySteps(ledger, remedy, day + 1, from);
  const target = Number.isFinite(targetLow)
    ? targetLow === targetHigh
      ? words(targetLow)
      : [words(targetLow), words(targetHigh)].filter(Boolean).join(" to ")
    : "";
  const first = Math.floor(steps[0]!.time);
  return {
    of: waterName(water),
    remedy: name,
    title,
    active: field("Active substance", active, `“active” of remedy ${name}`),
    strength: field("Strength of the product", strengthOf(remedy), `“strength” of remedy ${name}`),
    target: [target, Number.isFinite(ceiling) ? `at most ${words(ceiling)}` : ""].filter(Boolean).join(", "),
    halfLife: field(
      "Half-life in the water",
      Number.isNaN(halfLifeDays) ? "" : `${halfLifeDays} d, as stated`,
      `“half-life” of remedy ${name}; without it only changes of water thin it`,
    ),
    now: words(remedyAt(ledger, remedy, day + 1)),
    doses: steps
      .filter(({ is }) => is === "dose")
      .map(({ series, index, time, before, after }) => ({
        time,
        text: whyEntry({ block: series.block[index]!, row: series.row[index]! }).what.replace(
          /^\d{4}-\d{2}-\d{2} (?:\d{1,2}:\d{2} )?/,
          "",
        ),
        before: words(before),
        after: words(after),
      })),
    chart: panels([
      {
        ...noPanel,
        title: `${name}, ${unit}, computed`,
        from: first,
        to: day + 1,
        course: courseOf(remedy, steps, day + 1),
        limits: [targetLow, targetHigh, ceiling].filter(Number.isFinite),
      },
    ]),
  };
}

const strengthOf = ({ activeFraction, activeMgPerML }: Remedy): string =>
  Number.isFinite(activeMgPerML)
    ? `${activeMgPerML} mg/mL`
    : Number.isFinite(activeFraction)
      ? `${Number((activeFraction * 100).toPrecision(6))} %`
      : "";

/** Between two steps a decay is drawn in pieces of at most this many days. */
const pieceDays = 0.5;

function courseOf(
  { halfLifeDays }: Remedy,
  steps: readonly RemedyStep[],
  until: number,
): { time: number; value: number }[] {
  const points: { time: number; value: number }[] = [];
  steps.forEach(({ time, before, after }, at) => {
    const end = steps[at + 1]?.time ?? until;
    points.push({ time, value: at === 0 && Number.isNaN(before) ? 0 : before }, { time, value: after });
    if (!Number.isNaN(halfLifeDays))
      for (let later = time + pieceDays; later < end; later += pieceDays)
        points.push({ time: later, value: decayed(after, later - time, halfLifeDays) });
    if (at === steps.length - 1) points.push({ time: end, value: decayed(after, end - time, halfLifeDays) });
  });
  return points.filter(({ value }) => Number.isFinite(value));
}

/** Baths of animals of these tanks, or for the case, in the same days. */
export function sheetBaths(scope: SheetScope): SheetBath[] {
  const { logbook, book, tanks, story, day } = scope;
  const targets = new Set(tanks.flatMap((tank) => [...targetsOf(book, tank)]));
  const found: SheetBath[] = [];
  const groups = logbook.dayGroups;
  for (let at = firstFrom(groups, day + 1 - treatmentDays); at < groups.length; at++) {
    const group = groups[at]!;
    if (group.day > day) break;
    eachRow(group, (block, facts, row) => {
      if (kindOfRow(facts, row) !== Kind.bath) return;
      const isOwn =
        targets.has(facts.ints[row * intsPerRow + Col.target]!) ||
        (story.name !== "" && caseOfBath(block, idOfRow(block, row)) === story.name);
      const line = isOwn ? lineAt(block, facts.ints[row * intsPerRow + Col.start]!) : undefined;
      if (line?.is === "entry")
        found.push({
          day: group.day,
          text: block.text.slice(line.target?.start ?? line.start, line.end).replace(/\s+/g, " "),
        });
    });
  }
  return found;
}

/** `2026-03-03 08:40`; of what counts as at 00:00 the day. */
export const timeText = (time: number): string => {
  const clock = clockOf(time);
  return `${isoOf(time)}${clock === "00:00" ? "" : ` ${clock}`}`;
};
