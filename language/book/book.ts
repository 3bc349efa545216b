import type { DefinitionWord } from "../syntax/blocks.ts";
import { addLife, bindDuties, type DutySource } from "./bind-duties.ts";
import { gearOf } from "./bind-gear.ts";
import { membersOf } from "./bind-groups.ts";
import { foodOf, lotOf, orderOf, speciesOf } from "./bind-livestock.ts";
import { checkHarms, remedyOf } from "./bind-remedy.ts";
import { asOfOf, type Flow, flowOf, stepsOf } from "./bind-room.ts";
import { bodyOf, giveLimits, sharedSystem, systemOf, tankOf } from "./bind-tanks.ts";
import { checkSources, waterOf } from "./bind-water.ts";
import {
  type Absence,
  absencesOf,
  type Capacity,
  capacitiesOf,
  type DaysOff,
  daysOffOf,
  type WeekdayCapacities,
} from "./bind-working-days.ts";
import { Binder, type BoundProblem } from "./binder.ts";
import { type Defined, nameplace, one } from "./defined.ts";
import type { Definition } from "./definition.ts";
import { knownHarms } from "./definitions/remedy.ts";
import { animalKinds, knownTraits } from "./definitions/species.ts";
import { Kind, kindOf } from "./entries/registry.ts";
import { nameOf } from "./interner.ts";
import type { Value } from "./reading.ts";
import { RoomUnits } from "./room-units.ts";
import type { Block } from "./source.ts";
import type {
  Body,
  Duty,
  Food,
  Gear,
  Lot,
  Order,
  Place,
  Remedy,
  Species,
  Station,
  Tank,
  Water,
} from "./stations.ts";

/** The tanks of a group and where it is defined. */
export interface Group {
  readonly tanks: readonly Tank[];
  readonly place: Place;
  readonly title: string;
}

/** All definitions of a logbook, bound: what the days are read against. Made anew when a definition changes. */
export class Book {
  readonly title: string;
  readonly units: RoomUnits;
  readonly room: Definition | undefined;
  readonly roomPlace: Place | undefined;
  readonly quarantineDays: number;
  /** Days without a loss, a sign or a dose before a quarantine may end; NaN if it is not stated. */
  readonly clearDays: number;
  /** Days for which contacts of a sick tank are followed; NaN if it is not stated. */
  readonly traceDays: number;
  /** `last-entry`, or a day; NaN for the day of the world outside. */
  readonly asOf: "last-entry" | number;
  /** Of a day of which nothing else is stated: `room/capacity.ts` tells what one day holds. */
  readonly capacity: Capacity;
  readonly weekdayCapacities: WeekdayCapacities;
  /** Days on which nobody works in the room. */
  readonly absences: readonly Absence[];
  readonly daysOff: DaysOff;
  /** How fast water runs at a change. */
  readonly flow: Flow;
  /** How fine the tests read, canonical, by the number of the parameter; none that is not stated. */
  readonly steps: ReadonlyMap<number, number>;
  /** NaN if it is not stated. */
  readonly altitudeM: number;
  readonly stations: Station[] = [];
  readonly tanks: Tank[] = [];
  readonly bodies: Body[] = [];
  readonly gears: Gear[] = [];
  readonly duties: Duty[] = [];
  readonly waters: readonly Water[];
  readonly remedies: readonly Remedy[];
  readonly species: ReadonlyMap<string, Species>;
  readonly foods: ReadonlyMap<string, Food>;
  /** Lots that are defined; others are named by the entries that use them. */
  readonly lots: ReadonlyMap<string, Lot>;
  readonly orders: ReadonlyMap<string, Order>;
  /** How long animals fast before they are shipped; NaN if it is not stated. */
  readonly fastingDays: number;
  readonly groups = new Map<string, Group>();
  readonly problems: readonly BoundProblem[];
  /** Every defined name with its definition. */
  readonly names = new Map<string, { readonly definition: Definition; readonly place: Place }>();
  private readonly byName = new Map<number, Station>();
  private readonly byGroup = new Map<number, readonly Tank[]>();

  /** @param blocks the definition blocks, in order of files and lines */
  constructor(blocks: readonly Block[]) {
    const defined = blocks.flatMap((block) =>
      block.definition === undefined ? [] : [{ block, definition: block.definition }],
    );
    const rooms = defined.filter(({ definition }) => definition.word === "room");
    const room = rooms[0];
    this.room = room?.definition;
    this.roomPlace = room === undefined ? undefined : headOf(room);
    this.title = this.room?.title ?? "";
    this.units = new RoomUnits(this.room);
    const binder = new Binder(this.units);
    this.problems = binder.problems;
    for (const { form, message } of this.units.problems)
      binder.report(room!.block, "definition/units", form, message);
    for (const other of rooms.slice(1)) {
      const related = [{ place: this.roomPlace!, message: "the first room" }];
      const message = "a logbook has one room block; this is another";
      binder.report(other.block, "definition/room", headOf(other), message, [], related);
    }
    for (const each of defined) this.name(binder, each);
    // What has no name, or one that is taken, is not there.
    const of = (word: DefinitionWord): Defined[] =>
      defined.filter(({ definition }) => {
        return definition.word === word && this.names.get(definition.name)?.definition === definition;
      });

    const quarantine = room === undefined ? undefined : one(room.definition, "quarantine")?.quarantine;
    this.quarantineDays = room === undefined ? Number.NaN : binder.number(room, quarantine, "duration");
    const stated = (word: "clear" | "trace"): Value | undefined =>
      room === undefined ? undefined : one(room.definition, word)?.[word];
    this.clearDays = room === undefined ? Number.NaN : binder.number(room, stated("clear"), "duration");
    this.traceDays = room === undefined ? Number.NaN : binder.number(room, stated("trace"), "duration");
    this.asOf = asOfOf(room);
    const fasting = room === undefined ? undefined : one(room.definition, "fasting")?.fasting;
    this.fastingDays = room === undefined ? Number.NaN : binder.number(room, fasting, "duration");
    const { capacity, weekdays } = capacitiesOf(binder, room);
    this.capacity = capacity;
    this.weekdayCapacities = weekdays;
    this.absences = absencesOf(binder, room);
    this.daysOff = daysOffOf(binder, room);
    this.flow = flowOf(binder, room);
    this.steps = stepsOf(binder, room);
    const altitude = room === undefined ? undefined : one(room.definition, "altitude")?.altitude;
    this.altitudeM = room === undefined ? Number.NaN : binder.number(room, altitude, "length") / 100;
    this.waters = of("water").map((each) => waterOf(binder, each));
    const waters = this.waters.map(({ name }) => name);
    for (const each of of("water")) checkSources(binder, each, waters);
    this.species = byName(of("species").map((each) => speciesOf(binder, each)));
    this.foods = byName(of("food").map((each) => foodOf(binder, each)));
    this.lots = byName(of("lot").map(lotOf));
    this.orders = byName(of("order").map((each) => orderOf(binder, each)));
    this.remedies = of("remedy").map((each, id) => remedyOf(binder, id, each));
    const traits = [...this.species.values()].flatMap((species) => [...species.traits]);
    const harmed = new Set([...animalKinds, ...knownTraits, ...knownHarms, ...traits]);
    for (const each of of("remedy")) checkHarms(binder, each, harmed);

    this.add({
      id: 0,
      kind: "room",
      name: "room",
      title: this.title,
      definition: this.room,
      place: this.roomPlace,
      body: -1,
      duties: [],
    });
    this.addWaters(binder, room, of("system"), of("tank"), of("group"));
    const served = new Set(this.stations.slice(1).map((station) => station.name));
    for (const each of of("gear"))
      this.gears.push(this.add(gearOf(binder, this.stations.length, each, served)));
    this.giveDuties(binder, room, of("system"), of("group"), [...of("tank"), ...of("gear")]);
  }

  /** The station with this name; undefined if there is none. */
  station(name: number): Station | undefined {
    return this.byName.get(name);
  }

  /** The tanks of a group; undefined if there is none with this name. */
  groupTanks(name: number): readonly Tank[] | undefined {
    return this.byGroup.get(name);
  }

  tank(name: string): Tank | undefined {
    return this.tanks.find((tank) => tank.name === name);
  }

  remedy(name: string): Remedy | undefined {
    return this.remedies.find((remedy) => remedy.name === name);
  }

  /** Names of a kind of definition, for completion and "did you mean". */
  namesOf(...words: readonly DefinitionWord[]): string[] {
    return [...this.names]
      .filter(([, { definition }]) => words.includes(definition.word))
      .map(([name]) => name);
  }

  private name(binder: Binder, defined: Defined): void {
    const { block, definition } = defined;
    if (definition.word === "room" || definition.name === "") return;
    const known = this.names.get(definition.name);
    const place = nameplace(defined);
    if (known === undefined) {
      this.names.set(definition.name, { definition, place });
      return;
    }
    const message = `“${definition.name}” is already the name of a ${known.definition.word}; the first counts`;
    const related = [{ place: known.place, message: `the first “${definition.name}”` }];
    binder.report(block, "name/twice", place, message, [], related);
  }

  private add<T extends Station>(station: T): T {
    this.stations.push(station);
    this.byName.set(nameOf(station.name), station);
    return station;
  }

  private addWaters(
    binder: Binder,
    room: Defined | undefined,
    systems: readonly Defined[],
    tanks: readonly Defined[],
    groups: readonly Defined[],
  ): void {
    const shared = systems.map((defined, body) => ({
      ...defined,
      station: this.add(systemOf(this.stations.length, body, defined)),
    }));
    const byName = new Map(shared.map((system) => [system.station.name, system.station]));
    let bodies = shared.length;
    const made = tanks.map((defined) => {
      const system = byName.get(sharedSystem(binder, defined, byName));
      const tank = this.add(tankOf(binder, this.stations.length, system?.body ?? bodies++, defined));
      this.tanks.push(tank);
      return { tank, defined };
    });
    const tanksByName = new Map(this.tanks.map((tank) => [tank.name, tank]));
    const members = groups.map((defined) => ({ defined, tanks: membersOf(binder, defined, tanksByName) }));
    for (const { defined, tanks } of members) {
      const { name, title } = defined.definition;
      this.groups.set(name, { tanks, place: nameplace(defined), title });
      this.byGroup.set(nameOf(name), tanks);
    }
    const systemsByName = new Map(shared.map((system) => [system.station.name, system]));
    giveLimits(binder, made, room, systemsByName, members);
    for (let id = 0; id < bodies; id++) {
      const own = this.tanks.filter((tank) => tank.body === id);
      this.bodies.push(bodyOf(binder, id, own, shared[id]));
    }
  }

  /** A duty of a group is a duty of each of its tanks; one of the room that needs a tank, a duty of every tank. */
  private giveDuties(
    binder: Binder,
    room: Defined | undefined,
    systems: readonly Defined[],
    groups: readonly Defined[],
    others: readonly Defined[],
  ): void {
    const itself = (defined: Defined): DutySource => {
      const station = this.byName.get(nameOf(defined.definition.name))!;
      return { defined, stationsFor: () => [station] };
    };
    const ofGroup = (defined: Defined): DutySource => {
      const { tanks } = this.groups.get(defined.definition.name)!;
      return { defined, stationsFor: () => tanks };
    };
    // Animals are counted in tanks, also where their system says so.
    const ofSystem = (defined: Defined): DutySource => {
      const { stationsFor } = itself(defined);
      return {
        defined,
        stationsFor: (form) =>
          kindOf(form.kind).target === "tank"
            ? this.tanks.filter((tank) => tank.system === defined.definition.name)
            : stationsFor(form),
      };
    };
    const ofRoom = (defined: Defined): DutySource => ({
      defined,
      // What is done to things, not to water, is the room's own.
      stationsFor: ({ kind }) => (ofTheRoom.has(kind) ? [this.stations[0]!] : this.tanks),
    });
    const widestFirst = [
      ...(room === undefined ? [] : [ofRoom(room)]),
      ...systems.map(ofSystem),
      ...groups.map(ofGroup),
      ...others.map(itself),
    ];
    bindDuties(binder, widestFirst, this);
    for (const defined of others) {
      const gear = this.gears.find(({ name }) => name === defined.definition.name);
      if (gear !== undefined) addLife(binder, gear, defined);
    }
    for (const station of this.stations) {
      for (const duty of station.duties) (duty as { id: number }).id = this.duties.push(duty) - 1;
    }
  }
}

/** Kinds of entries of which a duty of the room is the room's own: what is done to things, and not in each tank. */
const ofTheRoom: ReadonlySet<number> = new Set([Kind.service, Kind.check, Kind.disinfect, Kind.left]);

/** The word that opens a definition. */
function headOf({ block, definition }: Defined): Place {
  const start = block.text.charCodeAt(0) === byteOrderMark ? 1 : 0;
  return { block, start, end: start + definition.word.length };
}

const byteOrderMark = 0xfeff;

function byName<T extends { readonly name: string }>(all: readonly T[]): Map<string, T> {
  return new Map(all.map((each) => [each.name, each]));
}
