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
  /** Largest adult length it suits; NaN if it is not stated. */
  readonly capCm: number;
  /** What it bears at most; undefined if it is not stated. */
  readonly holds: Stocking | undefined;
  /** Surfaces left for animals to graze on. */
  readonly grazed: readonly string[];
  /** By the number of the parameter. */
  readonly limits: ReadonlyMap<number, Limit>;
}

/** A stocking: so many animals, so many grams, or so many grams in a litre. */
export interface Stocking {
  readonly is: "animals" | "grams" | "grams a litre";
  readonly most: number;
  readonly place: Place;
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
  /** Numbers of names that are parts of what it names: all of them on one day do it. */
  readonly parts: ReadonlySet<number> | undefined;
  /** Numbers of names of which a look does it: of a duty to check, and of one to service as `checked`. */
  readonly looks: ReadonlySet<number> | undefined;
  /** The work that a service must say, by its number among the choices; 0 for any. */
  readonly work: number;
  /** Follows from how long a gear lasts: it is counted from its stated first day, and of nothing else. */
  readonly isLife: boolean;
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
  /** Names of the waters it is made of; none where it comes as it is. */
  readonly from: readonly string[];
  /** Formulas of the salts that go into it, parted by commas; empty if none are stated. */
  readonly salts: string;
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
  /** What an adult weighs; NaN if it is not stated. */
  readonly weightG: number;
  readonly needs: readonly NeedForm[];
  /** Kinds, traits and names of species it should not be kept with. */
  readonly apart: readonly string[];
  /** From laid to hatched, and from hatched to swimming; undefined where nothing is stated. */
  readonly hatches: Development | undefined;
  readonly swims: Development | undefined;
  /** Degree-days count from this temperature. */
  readonly baseC: number;
}

/** A stage by the time it takes at a temperature. */
export interface Development {
  readonly lowDays: number;
  readonly highDays: number;
  readonly temperatureC: number;
}

/** How long something is good. */
export interface ShelfLife {
  /** The last day of use; NaN if it is not stated. */
  readonly expires: number;
  /** When the pack was opened, and how long it keeps from then; NaN if it is not stated. */
  readonly opened: number;
  readonly keepsDays: number;
}

export interface Food extends ShelfLife {
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  readonly kind: FoodKind | undefined;
  readonly proteinFraction: number;
  /** Grams of one portion, by the symbol of the portion. */
  readonly portionG: ReadonlyMap<string, number>;
  /** Of a live food: days from its start until it can be harvested, from the first to the last; NaN if it is not stated. */
  readonly readyFromDays: number;
  readonly readyUntilDays: number;
  /** Of a pack, in the unit it is written in; NaN if it is not stated. */
  readonly price: number;
}

/** Animals that are told apart: what a definition states of a lot. */
export interface Lot {
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  readonly species: string;
  readonly line: string;
  readonly generation: string;
  /** Names of lots; empty if they are not stated. */
  readonly father: string;
  readonly mother: string;
  /** NaN if it is not stated. */
  readonly born: number;
  readonly sex: "male" | "female" | undefined;
  readonly supplier: string;
}

/** What a buyer waits for. */
export interface Order {
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  readonly wants: readonly { readonly species: string; readonly animals: number; readonly place: Place }[];
  readonly buyer: string;
  /** The day it came in; NaN if it is not stated. */
  readonly placed: number;
  /** The day it is to leave by; NaN if it is not stated. */
  readonly due: number;
  readonly carrier: string;
  readonly route: string;
  /** Under way, from the shortest to the longest; NaN if it is not stated. */
  readonly lowHours: number;
  readonly highHours: number;
  readonly lowC: number;
  readonly highC: number;
}

export interface Remedy extends ShelfLife {
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
  /** Owed when the course is over. */
  readonly changeAfter: number;
  /** What is to be out while it is given. */
  readonly without: readonly string[];
  /** The active substance in lower case; empty if it is not stated. */
  readonly active: string;
  /** As a bath or a dip: from the weakest to the strongest, from the shortest to the longest. */
  readonly bathLow: number;
  readonly bathHigh: number;
  readonly bathLowMinutes: number;
  readonly bathHighMinutes: number;
  readonly halfLifeDays: number;
  readonly harms: readonly string[];
  readonly withdrawalDays: number;
  readonly source: string;
}

export interface Gear extends Station, ShelfLife {
  readonly kind: "gear";
  readonly sort: string;
  readonly on: string;
  /** First day in use; NaN if not stated. */
  readonly from: number;
  /** How long it lasts from the day it was new; NaN if it is not stated. */
  readonly lastsDays: number;
}
