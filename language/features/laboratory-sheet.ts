import { Kind } from "../book/entries/registry.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { casesUntil } from "../room/cases.ts";
import { type SheetAnimals, sheetAnimals } from "./laboratory/animals.ts";
import { type SheetArrival, sheetArrivals } from "./laboratory/arrivals.ts";
import {
  type SheetChange,
  type SheetFeeding,
  type SheetSource,
  sheetChanges,
  sheetFeedings,
  sheetSources,
} from "./laboratory/care.ts";
import { type SheetDisease, sheetDisease } from "./laboratory/disease.ts";
import { type SheetEvent, sheetEvents } from "./laboratory/events.ts";
import { type SheetExposed, sheetExposed } from "./laboratory/exposed.ts";
import type { Field } from "./laboratory/field.ts";
import { type Keeper, keeperFields } from "./laboratory/keeper.ts";
import { type SheetParcel, sheetParcel } from "./laboratory/parcel.ts";
import { type SheetScope, sheetScope } from "./laboratory/scope.ts";
import { type SheetTank, sheetTanks } from "./laboratory/tank.ts";
import { type SheetBath, type SheetTreatment, sheetBaths, sheetTreatments } from "./laboratory/treatments.ts";
import { type SheetWaterCard, sheetWaters } from "./laboratory/water.ts";

/**
 * All that a laboratory asks of a case, from the log: to be sent with the samples. What it asks for follows the submission pages of university
 * and state fish laboratories (Maine, Cornell, Minnesota, Indiana, Tasmania). What nobody says is named as such, and nothing is made up.
 */
export interface LaboratorySheet {
  readonly case: string;
  readonly room: string;
  /** All that is told was known by its end. */
  readonly day: number;
  readonly since: number;
  /** From 1: a case that came back is told from when it was opened again. */
  readonly episode: number;
  /** NaN while it is open. */
  readonly closed: number;
  readonly keeper: readonly Field[];
  readonly tanks: readonly SheetTank[];
  readonly animals: readonly SheetAnimals[];
  readonly arrivals: readonly SheetArrival[];
  readonly disease: SheetDisease;
  readonly waters: readonly SheetWaterCard[];
  readonly sources: readonly SheetSource[];
  readonly changes: readonly SheetChange[];
  readonly feedings: readonly SheetFeeding[];
  readonly events: readonly SheetEvent[];
  readonly treatments: readonly SheetTreatment[];
  readonly baths: readonly SheetBath[];
  readonly exposed: SheetExposed;
  readonly parcel: SheetParcel;
}

/** The sheet of a case; undefined for one that is not known on the day. @param worldDay today outside */
export function laboratorySheet(
  checked: CheckedLogbook,
  name: string,
  keeper: Keeper,
  worldDay: number,
): LaboratorySheet | undefined {
  checked.refresh();
  const scope = sheetScope(checked, name, checked.logbook.today(worldDay));
  return scope === undefined ? undefined : sheetOf(scope, keeper);
}

function sheetOf(scope: SheetScope, keeper: Keeper): LaboratorySheet {
  const { story, book, day } = scope;
  return {
    case: story.name,
    room: book.title,
    day,
    since: story.since,
    episode: story.episode,
    closed: story.closed,
    keeper: keeperFields(keeper),
    tanks: sheetTanks(scope),
    animals: sheetAnimals(scope),
    arrivals: sheetArrivals(scope),
    disease: sheetDisease(scope),
    waters: sheetWaters(scope),
    sources: sheetSources(scope),
    changes: sheetChanges(scope),
    feedings: sheetFeedings(scope),
    events: sheetEvents(scope),
    treatments: sheetTreatments(scope),
    baths: sheetBaths(scope),
    exposed: sheetExposed(scope),
    parcel: sheetParcel(scope),
  };
}

/** Cases to choose one from: open ones first, the latest of each first. */
export interface SheetChoice {
  readonly name: string;
  readonly since: number;
  /** Null while it is open. */
  readonly closed: number | null;
  readonly tanks: readonly string[];
  readonly samples: number;
}

export function sheetChoices(checked: CheckedLogbook, worldDay: number): SheetChoice[] {
  checked.refresh();
  const { logbook } = checked;
  const byName = new Map<string, SheetChoice>();
  for (const { name, since, closed, stations, entries } of casesUntil(logbook, logbook.today(worldDay)))
    if (name !== "")
      byName.set(name, {
        name,
        since,
        closed: Number.isNaN(closed) ? null : closed,
        tanks: stations.map((station) => station.name),
        samples: entries.filter(({ kind }) => kind === Kind.sample).length,
      });
  return [...byName.values()].sort(
    (a, b) => Number(a.closed !== null) - Number(b.closed !== null) || b.since - a.since,
  );
}
