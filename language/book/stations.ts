import type { Definition } from "./definition.ts";
import type { FoodKind } from "./definitions/food.ts";
import type { AnimalKind } from "./definitions/species.ts";
import type { TankRole } from "./definitions/tank.ts";
import type { DutyForm } from "./duty-form.ts";
import type { NeedForm } from "./need-form.ts";
import type { Parameter } from "./parameters.ts";
import type { Block } from "./source.ts";

/** What is defined, with names bound and units applied. Volumes are litres, times days, concentrations mg/L unless a name says otherwise. */

/** A place in a block. Offsets are in the block's text. */
export interface Place {
  readonly block: Block;
  readonly start: number;
  readonly end: number;
}

/** Where an entry's target may lead: a tank, a system, a gear, or the room. */
export interface Station {
  /** Place in `Book.stations`. */
  readonly id: number;
  readonly kind: "room" | "system" | "tank" | "gear";
  readonly name: string;
  readonly title: string;
  readonly definition: Definition | undefined;
  /** Where its name stands; absent for a room that is not defined. */
  readonly place: Place | undefined;
  /** The body of water it is, or belongs to; -1 for room and gear. */
  readonly body: number;
  readonly duties: Duty[];
}

export interface Tank extends Station {
  readonly kind: "tank";
  /** Net volume; NaN if it is not stated. */
  readonly volumeL: number;
  /** How the volume was found, in words. */
  readonly volumeBy: string;
  readonly role: TankRole | undefined;
  readonly where: string;
  readonly system: string;
  readonly from: number;
  readonly until: number;
  /** By the number of the parameter. */
  readonly limits: ReadonlyMap<number, Limit>;
}

/** Water that is one: a tank of its own, or a system with its tanks and sump. */
export interface Body {
  readonly id: number;
  readonly name: string;
  readonly system: Station | undefined;
  readonly tanks: readonly Tank[];
  /** NaN if the volume of one of its tanks is not known. */
  readonly volumeL: number;
  /** What all its tanks bear, by the number of the parameter: of several the strictest. */
  readonly limits: ReadonlyMap<number, Limit>;
}

export interface Limit {
  readonly parameter: Parameter;
  /** Canonical; -Infinity and Infinity where there is no bound. */
  readonly low: number;
  readonly high: number;
  readonly place: Place;
  /** What states it: `tank dam`, `room`. */
  readonly by: string;
}

export interface Duty {
  /** Place in `Book.duties`. */
  readonly id: number;
  readonly station: Station;
  readonly form: DutyForm;
  readonly place: Place;
  /** What states it. */
  readonly by: string;
  /** The act in the keeper's words: `change 25..35 %`. */
  readonly act: string;
  readonly kind: number;
  /** Numbers of names (of a parameter for a test), any of which will do; undefined if the act names none. */
  readonly subjects: ReadonlySet<number> | undefined;
  /** The least amount that counts: a fraction, or litres if `amountIsVolume`; 0 if the act names none. */
  readonly least: number;
  readonly amountIsVolume: boolean;
}

export interface Water {
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  /** By the number of the parameter, canonical. */
  readonly content: ReadonlyMap<number, number>;
}

export interface Species {
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  readonly kind: AnimalKind;
  /** Its kind, its traits and its own name: what a remedy may name as harmed. */
  readonly traits: ReadonlySet<string>;
  readonly diet: string;
  readonly school: number;
  readonly adultCm: number;
  readonly needs: readonly NeedForm[];
}

export interface Food {
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  readonly kind: FoodKind | undefined;
  readonly expires: number;
}

export interface Remedy {
  /** Place in `Book.remedies`. */
  readonly id: number;
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  /** `uL/L` for a liquid that is dosed by volume in volume. All its concentrations are in it. */
  readonly unit: "mg/L" | "uL/L";
  readonly targetLow: number;
  readonly targetHigh: number;
  readonly ceiling: number;
  /** Active part of a solid; NaN if not stated. */
  readonly activeFraction: number;
  /** Active part of a liquid; NaN if not stated. */
  readonly activeMgPerML: number;
  readonly dropML: number;
  readonly repeatTimes: number;
  readonly repeatDays: number;
  readonly changeBefore: number;
  readonly halfLifeDays: number;
  readonly harms: readonly string[];
  readonly withdrawalDays: number;
  readonly source: string;
}

export interface Gear extends Station {
  readonly kind: "gear";
  readonly sort: string;
  readonly on: string;
  /** First day in use; NaN if not stated. */
  readonly from: number;
  readonly expires: number;
}
