import { UNITS } from "../quantity/units.ts";
import { isOutside } from "../science/result.ts";
import { netVolumeL, rectangleL } from "../science/volume.ts";
import { Mark } from "../syntax/pieces.ts";
import { bindDuties } from "./bind-duties.ts";
import { remedyOf } from "./bind-remedy.ts";
import { dayOf } from "./dates.ts";
import type { Definition, Property } from "./definition.ts";
import type { FoodKind } from "./definitions/food.ts";
import type { AnimalKind } from "./definitions/species.ts";
import type { TankRole } from "./definitions/tank.ts";
import { nameOf } from "./interner.ts";
import { didYouMean, nearest } from "./nearest.ts";
import { parameterOf } from "./parameters.ts";
import type { Mend, Problem } from "./problem.ts";
import type { Item, Value } from "./reading.ts";
import { RoomUnits } from "./room-units.ts";
import type { Block } from "./source.ts";
import type {
  Body,
  Duty,
  Food,
  Gear,
  Limit,
  Place,
  Remedy,
  Species,
  Station,
  Tank,
  Water,
} from "./stations.ts";

/** A problem of a definition that only shows beside the others. */
export interface BoundProblem extends Problem {
  readonly block: Block;
  readonly related?: readonly { readonly place: Place; readonly message: string }[];
}

/** No station. */
export const nowhere = -1;

/** All definitions of a logbook, bound: what the days are read against. Made anew when a definition changes. */
export class Book {
  readonly title: string;
  readonly units: RoomUnits;
  readonly room: Definition | undefined;
  readonly roomPlace: Place | undefined;
  readonly quarantineDays: number;
  /** `last-entry`, or a day; NaN for the day of the world outside. */
  readonly asOf: "last-entry" | number;
  readonly capacity: { readonly tanks: number; readonly litres: number; readonly minutes: number };
  readonly stations: Station[] = [];
  readonly tanks: Tank[] = [];
  readonly bodies: Body[] = [];
  readonly gears: Gear[] = [];
  readonly duties: Duty[] = [];
  readonly waters: Water[] = [];
  readonly remedies: Remedy[] = [];
  readonly species = new Map<string, Species>();
  readonly foods = new Map<string, Food>();
  readonly groups = new Map<
    string,
    { readonly tanks: readonly Tank[]; readonly place: Place; readonly title: string }
  >();
  readonly problems: BoundProblem[] = [];
  /** Every defined name with its definition. */
  readonly names = new Map<string, { readonly definition: Definition; readonly place: Place }>();
  private readonly byName = new Map<number, Station>();
  private readonly byGroup = new Map<number, readonly Tank[]>();

  /** @param blocks the definition blocks, in order of files and lines */
  constructor(blocks: readonly Block[]) {
    const of = (word: Definition["word"]): { block: Block; definition: Definition }[] =>
      blocks.flatMap((block) =>
        block.definition?.word === word ? [{ block, definition: block.definition }] : [],
      );
    const rooms = of("room");
    const first = rooms[0];
    this.room = first?.definition;
    this.roomPlace = first === undefined ? undefined : { block: first.block, start: 0, end: 4 };
    for (const other of rooms.slice(1)) {
      this.report(
        other.block,
        "definition/room",
        0,
        4,
        "a logbook has one room block; this is another",
        [],
        [{ place: this.roomPlace!, message: "the first room" }],
      );
    }
    this.title = first?.definition.title ?? "";
    this.units = new RoomUnits(this.room);
    for (const { form, message } of this.units.problems)
      this.report(first!.block, "definition/units", form.start, form.end, message);
    for (const block of blocks) this.name(block);

    this.quarantineDays = this.duration(one(this.room, "quarantine")?.quarantine);
    this.asOf = asOfOf(this.room);
    this.capacity = this.capacityOf(this.room);

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
    for (const { block, definition } of of("water")) this.waters.push(this.water(block, definition));
    for (const { block, definition } of of("species")) this.addSpecies(block, definition);
    for (const { block, definition } of of("food")) this.addFood(block, definition);
    for (const { block, definition } of of("remedy")) {
      if (!this.isFirst(definition)) continue;
      this.remedies.push(remedyOf(this, this.remedies.length, definition, nameplace(block, definition)));
    }
    this.addWaterBodies(of("system"), of("tank"), of("group"));
    for (const { block, definition } of of("gear")) this.addGear(block, definition);
    bindDuties(this, of("system"), of("group"), of("tank"), of("gear"), rooms.slice(0, 1));
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
  namesOf(...words: readonly Definition["word"][]): string[] {
    return [...this.names]
      .filter(([, { definition }]) => words.includes(definition.word))
      .map(([name]) => name);
  }

  report(
    block: Block,
    code: string,
    start: number,
    end: number,
    message: string,
    mends: readonly Mend[] = [],
    related?: BoundProblem["related"],
  ): void {
    this.problems.push({
      block,
      code,
      start,
      end,
      message,
      counts: true,
      mends,
      ...(related === undefined ? {} : { related }),
    });
  }

  /** A value in the canonical unit of a dimension; NaN where it is missing. An unsettled unit is reported. */
  number(block: Block, value: Value | undefined, dimension: Parameters<RoomUnits["canonical"]>[2]): number {
    if (value === undefined) return Number.NaN;
    const canonical = this.units.canonical(value.value, value.unit, dimension);
    if (Number.isNaN(canonical))
      this.report(block, "unit/ambiguous", value.start, value.end, this.ambiguity(value));
    return canonical;
  }

  private ambiguity(value: Value): string {
    return `“${value.text}”: this unit may mean more than one thing; say which in the units line of the room`;
  }

  private duration(value: Value | undefined): number {
    return value === undefined ? Number.NaN : this.units.canonical(value.value, value.unit, "duration");
  }

  private name(block: Block): void {
    const { definition } = block;
    if (definition === undefined || definition.word === "room" || definition.name === "") return;
    const known = this.names.get(definition.name);
    const place = nameplace(block, definition);
    if (known !== undefined) {
      this.report(
        block,
        "name/twice",
        definition.nameStart,
        definition.nameEnd,
        `“${definition.name}” is already the name of a ${known.definition.word}; the first counts`,
        [],
        [{ place: known.place, message: `the first “${definition.name}”` }],
      );
      return;
    }
    this.names.set(definition.name, { definition, place });
  }

  /** Whether a definition is the one its name stands for. */
  private isFirst(definition: Definition): boolean {
    return this.names.get(definition.name)?.definition === definition;
  }

  private add(station: Station): void {
    this.stations.push(station);
    this.byName.set(nameOf(station.name), station);
  }

  private capacityOf(room: Definition | undefined): Book["capacity"] {
    const capacity = { tanks: Number.NaN, litres: Number.NaN, minutes: Number.NaN };
    for (const item of property(room, "capacity")?.filled.items ?? []) {
      const { amount } = item;
      if (amount === undefined) continue;
      const dimension = amount.unit < 0 ? "count" : UNITS[amount.unit]?.dimension;
      if (dimension === "count") capacity.tanks = amount.value;
      if (dimension === "volume") capacity.litres = this.units.canonical(amount.value, amount.unit, "volume");
      if (dimension === "duration")
        capacity.minutes = this.units.canonical(amount.value, amount.unit, "duration") * 1440;
    }
    return capacity;
  }

  private water(block: Block, definition: Definition): Water {
    const content = new Map<number, number>();
    for (const each of definition.properties) {
      if (each.word !== "content") continue;
      for (const { parameter, reading } of each.filled.items) {
        if (parameter === undefined || reading === undefined) continue;
        const known = parameterOf(parameter.text);
        content.set(known.id, this.units.reading(known, reading.value, reading.unit));
      }
    }
    return { name: definition.name, title: definition.title, place: nameplace(block, definition), content };
  }

  private addSpecies(block: Block, definition: Definition): void {
    if (!this.isFirst(definition)) return;
    const kind = (one(definition, "kind")?.kind?.text ?? "fish") as AnimalKind;
    const traits = new Set([kind, definition.name]);
    // A list of words fills one slot: the words are read from its place.
    const said = property(definition, "traits");
    if (said !== undefined) for (const word of wordsOf(block, said)) traits.add(word);
    this.species.set(definition.name, {
      name: definition.name,
      title: definition.title,
      place: nameplace(block, definition),
      kind,
      traits,
      diet: one(definition, "diet")?.diet?.text ?? "",
      school: one(definition, "school")?.school?.value ?? Number.NaN,
      adultCm: this.number(block, one(definition, "adult")?.adult, "length"),
      needs: definition.properties.flatMap((each) => each.needs ?? []),
    });
  }

  private addFood(block: Block, definition: Definition): void {
    if (!this.isFirst(definition)) return;
    this.foods.set(definition.name, {
      name: definition.name,
      title: definition.title,
      place: nameplace(block, definition),
      kind: one(definition, "kind")?.kind?.text as FoodKind | undefined,
      expires: dateOf(one(definition, "expires")?.expires),
    });
  }

  private addWaterBodies(
    systems: readonly Defined[],
    tanks: readonly Defined[],
    groups: readonly Defined[],
  ): void {
    const bodyOfSystem = new Map<string, number>();
    const systemStations = new Map<string, Station>();
    for (const { block, definition } of systems) {
      if (!this.isFirst(definition)) continue;
      const body = bodyOfSystem.size;
      bodyOfSystem.set(definition.name, body);
      const station: Station = {
        id: this.stations.length,
        kind: "system",
        name: definition.name,
        title: definition.title,
        definition,
        place: nameplace(block, definition),
        body,
        duties: [],
      };
      systemStations.set(definition.name, station);
      this.add(station);
    }
    let bodies = bodyOfSystem.size;
    const made: { tank: Tank; block: Block; definition: Definition }[] = [];
    for (const { block, definition } of tanks) {
      if (!this.isFirst(definition)) continue;
      const system = one(definition, "system")?.system;
      let body = system === undefined || system.text === "own" ? undefined : bodyOfSystem.get(system.text);
      if (system !== undefined && system.text !== "own" && body === undefined) {
        const near = nearest(system.text, bodyOfSystem.keys());
        this.report(
          block,
          "name/system",
          system.start,
          system.end,
          `no system is called “${system.text}”${didYouMean(near)}`,
          near.map((text) => ({ title: `Write “${text}”`, text })),
        );
      }
      if (body === undefined) body = bodies++;
      const { volumeL, by } = this.volumeOf(block, definition);
      const tank: Tank = {
        id: this.stations.length,
        kind: "tank",
        name: definition.name,
        title: definition.title,
        definition,
        place: nameplace(block, definition),
        body,
        duties: [],
        volumeL,
        volumeBy: by,
        role: one(definition, "role")?.role?.text as TankRole | undefined,
        where: one(definition, "place")?.place?.text ?? "",
        system: system?.text ?? "",
        from: dateOf(one(definition, "from")?.from),
        until: dateOf(one(definition, "until")?.until),
        limits: new Map(),
      };
      this.add(tank);
      this.tanks.push(tank);
      made.push({ tank, block, definition });
    }
    for (let id = 0; id < bodies; id++) {
      const members = this.tanks.filter((tank) => tank.body === id);
      const system = [...systemStations.values()].find((station) => station.body === id);
      const sump = system?.definition === undefined ? undefined : one(system.definition, "sump")?.sump;
      const sumpL = sump === undefined ? 0 : this.units.canonical(sump.value, sump.unit, "volume");
      const volumeL = members.reduce((sum, tank) => sum + tank.volumeL, sumpL);
      this.bodies.push({ id, name: system?.name ?? members[0]?.name ?? "", system, tanks: members, volumeL });
    }
    const groupsOfTank = new Map<string, Defined[]>();
    for (const { block, definition } of groups) {
      if (!this.isFirst(definition)) continue;
      const members = this.members(block, definition);
      this.groups.set(definition.name, {
        tanks: members,
        place: nameplace(block, definition),
        title: definition.title,
      });
      this.byGroup.set(nameOf(definition.name), members);
      for (const tank of members)
        groupsOfTank.set(tank.name, [...(groupsOfTank.get(tank.name) ?? []), { block, definition }]);
    }
    const room =
      this.roomPlace === undefined || this.room === undefined
        ? []
        : [{ block: this.roomPlace.block, definition: this.room }];
    for (const { tank, block, definition } of made) {
      const limits = tank.limits as Map<number, Limit>;
      const system = systemStations.get(tank.system);
      const wider =
        system?.place === undefined || system.definition === undefined
          ? []
          : [{ block: system.place.block, definition: system.definition }];
      for (const source of [...room, ...wider, ...(groupsOfTank.get(tank.name) ?? []), { block, definition }])
        this.takeLimits(limits, source);
    }
  }

  private volumeOf(block: Block, definition: Definition): { volumeL: number; by: string } {
    const stated = one(definition, "volume")?.volume;
    if (stated !== undefined) return { volumeL: this.number(block, stated, "volume"), by: "stated" };
    const inside = one(definition, "inside")?.inside;
    if (inside === undefined) {
      this.report(
        block,
        "definition/volume",
        definition.nameStart,
        definition.nameEnd,
        `the volume of ${definition.name} is not stated: give volume, or inside and filled`,
      );
      return { volumeL: Number.NaN, by: "not stated" };
    }
    const scale = this.units.canonical(1, inside.unit, "length");
    const filled = one(definition, "filled")?.filled;
    const heightCm = filled === undefined ? inside.third * scale : this.number(block, filled, "length");
    if (Number.isNaN(inside.third) && filled === undefined) {
      this.report(
        block,
        "definition/volume",
        inside.start,
        inside.end,
        "inside needs length x width x height, or length x width and filled",
      );
      return { volumeL: Number.NaN, by: "not stated" };
    }
    if (filled !== undefined && heightCm > inside.third * scale) {
      this.report(
        block,
        "definition/volume",
        filled.start,
        filled.end,
        `filled higher than the tank is inside (${inside.third * scale} cm)`,
      );
    }
    const displaced = one(definition, "displaced")?.displaced;
    const grossL = rectangleL(inside.value * scale, inside.second * scale, heightCm);
    const net = netVolumeL(grossL, displaced === undefined ? 0 : this.number(block, displaced, "volume"));
    if (isOutside(net)) {
      const at = displaced ?? inside;
      this.report(
        block,
        "definition/volume",
        at.start,
        at.end,
        `more is displaced than fits: ${net.outside}`,
      );
      return { volumeL: Number.NaN, by: "not stated" };
    }
    return {
      volumeL: net,
      by: `inside ${inside.value} x ${inside.second} cm, filled ${heightCm} cm${displaced === undefined ? "" : `, less ${displaced.value} L`}`,
    };
  }

  private members(block: Block, definition: Definition): Tank[] {
    const members: Tank[] = [];
    const seen = new Set<string>();
    for (const value of definition.members) {
      for (const name of value.lastText === "" ? [value.text] : namesBetween(value.text, value.lastText)) {
        const tank = this.tank(name);
        if (tank !== undefined) {
          if (!seen.has(name)) members.push(tank);
          seen.add(name);
          continue;
        }
        const near = nearest(
          name,
          this.tanks.map((each) => each.name),
        );
        const mends = value.lastText === "" ? near.map((text) => ({ title: `Write “${text}”`, text })) : [];
        this.report(
          block,
          "name/target",
          value.start,
          value.end,
          `no tank is called “${name}”${didYouMean(near)}`,
          mends,
        );
      }
      if (value.lastText !== "" && namesBetween(value.text, value.lastText).length === 0) {
        this.report(
          block,
          "definition/members",
          value.start,
          value.end,
          "a range of names counts the number at their end: r1 .. r12",
        );
      }
    }
    return members;
  }

  private takeLimits(limits: Map<number, Limit>, { block, definition }: Defined): void {
    for (const each of definition.properties) {
      if (each.word !== "limits") continue;
      for (const item of each.filled.items) {
        const limit = this.limitOf(block, definition, item);
        if (limit !== undefined) limits.set(limit.parameter.id, limit);
      }
    }
  }

  private limitOf(block: Block, definition: Definition, { parameter, bounds }: Item): Limit | undefined {
    if (parameter === undefined || bounds === undefined) return undefined;
    const known = parameterOf(parameter.text);
    const value = this.units.reading(known, bounds.value, bounds.unit);
    const second = this.units.reading(known, bounds.second, bounds.unit);
    const place = { block, start: parameter.start, end: bounds.end };
    const by = definition.word === "room" ? "room" : `${definition.word} ${definition.name}`;
    const { mark } = bounds;
    if (mark === Mark.range) return { parameter: known, low: value, high: second, place, by };
    if (mark === Mark.atMost || mark === Mark.below)
      return { parameter: known, low: -Infinity, high: value, place, by };
    if (mark === Mark.atLeast || mark === Mark.above)
      return { parameter: known, low: value, high: Infinity, place, by };
    this.reportOnce(
      block,
      "definition/limit",
      bounds.start,
      bounds.end,
      "a limit is a range or a bound: 23..27 C, <= 25 mg/L, >= 5 mg/L",
    );
    return undefined;
  }

  private reportOnce(block: Block, code: string, start: number, end: number, message: string): void {
    const known = this.problems.some(
      (each) => each.block === block && each.code === code && each.start === start,
    );
    if (!known) this.report(block, code, start, end, message);
  }

  private addGear(block: Block, definition: Definition): void {
    if (!this.isFirst(definition)) return;
    const on = one(definition, "on")?.on;
    if (on !== undefined && this.byName.get(nameOf(on.text)) === undefined) {
      const near = nearest(on.text, this.namesOf("tank", "system"));
      this.report(
        block,
        "name/target",
        on.start,
        on.end,
        `no tank or system is called “${on.text}”${didYouMean(near)}`,
        near.map((text) => ({ title: `Write “${text}”`, text })),
      );
    }
    const gear: Gear = {
      id: this.stations.length,
      kind: "gear",
      name: definition.name,
      title: definition.title,
      definition,
      place: nameplace(block, definition),
      body: -1,
      duties: [],
      sort: one(definition, "kind")?.kind?.text ?? "",
      on: on?.text ?? "",
      expires: dateOf(one(definition, "expires")?.expires),
    };
    this.add(gear);
    this.gears.push(gear);
  }
}

export interface Defined {
  readonly block: Block;
  readonly definition: Definition;
}

/** Where a definition's name stands. */
export function nameplace(block: Block, definition: Definition): Place {
  return { block, start: definition.nameStart, end: definition.nameEnd };
}

/** The first property with this word. */
export function property(definition: Definition | undefined, word: string): Property | undefined {
  return definition?.properties.find((each) => each.word === word);
}

/** The filled slots of the first property with this word. */
export function one(definition: Definition | undefined, word: string): Item | undefined {
  return property(definition, word)?.filled.items[0];
}

/** The words of a property that is a list of words. */
export function wordsOf(block: Block, said: Property): string[] {
  const text = block.text.slice(said.start, said.end);
  return text
    .slice(said.word.length)
    .split(",")
    .map((word) => word.trim())
    .filter((word) => word !== "");
}

/** The day a date value names; NaN where it is missing. */
export function dateOf(value: Value | undefined): number {
  return value === undefined ? Number.NaN : dayOf(value.text);
}

/** `r1 .. r12`: all names between, by the number at their end. Empty if the names do not count. */
export function namesBetween(first: string, last: string): string[] {
  const from = /^(.*?)(\d+)$/.exec(first);
  const to = /^(.*?)(\d+)$/.exec(last);
  if (from === null || to === null || from[1] !== to[1]) return [];
  const low = Number(from[2]);
  const high = Number(to[2]);
  if (high < low || high - low > 999) return [];
  const width = from[2]!.startsWith("0") ? from[2]!.length : 0;
  return Array.from(
    { length: high - low + 1 },
    (_, index) => from[1]! + String(low + index).padStart(width, "0"),
  );
}

function asOfOf(room: Definition | undefined): Book["asOf"] {
  const item = one(room, "as-of");
  if (item?.word !== undefined) return "last-entry";
  return dateOf(item?.date);
}
