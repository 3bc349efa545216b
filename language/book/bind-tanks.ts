import { noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import { type Limits, limitsIn, narrowest } from "./bind-limits.ts";
import type { Binder } from "./binder.ts";
import { type Defined, dateOf, nameplace, one, wordsOf } from "./defined.ts";
import type { TankRole } from "./definitions/tank.ts";
import type { Body, Limit, Station, Stocking, Tank } from "./stations.ts";
import { netVolumeOf } from "./volume.ts";

/** Systems, tanks and the bodies of water they make. */

/** @param id its place among the stations @param body the number of its water */
export function systemOf(id: number, body: number, defined: Defined): Station {
  const { definition } = defined;
  return {
    id,
    kind: "system",
    name: definition.name,
    title: definition.title,
    definition,
    place: nameplace(defined),
    body,
    duties: [],
  };
}

/** The largest adult length a tank suits: of a range or bound its upper end. */
function capOf(binder: Binder, defined: Defined): number {
  const cap = one(defined.definition, "cap")?.cap;
  const high = binder.upper(cap, "length");
  return Number.isNaN(high) ? binder.number(defined, cap, "length") : high;
}

const mgPerG = 1000;

function holdsOf(binder: Binder, defined: Defined): Stocking | undefined {
  const holds = one(defined.definition, "holds")?.holds;
  if (holds === undefined) return undefined;
  const place = { block: defined.block, start: holds.start, end: holds.end };
  const dimension = holds.unit === noUnit ? "count" : UNITS[holds.unit]?.dimension;
  if (dimension === "count") return { is: "animals", most: holds.value, place };
  const is = dimension === "mass" ? "grams" : "grams a litre";
  const most = binder.number(defined, holds, dimension === "mass" ? "mass" : "concentration") / mgPerG;
  return Number.isNaN(most) ? undefined : { is, most, place };
}

/** The name of the system whose water a tank shares; empty where it has its own. An unknown one is reported. */
export function sharedSystem(binder: Binder, tank: Defined, systems: ReadonlyMap<string, Station>): string {
  const system = one(tank.definition, "system")?.system;
  if (system === undefined || system.text === "own") return "";
  if (systems.has(system.text)) return system.text;
  binder.unknown(tank, system, "name/system", "system", systems.keys());
  return "";
}

/** A tank without its limits: those of its groups are not known before the tanks are. */
export function tankOf(
  binder: Binder,
  id: number,
  body: number,
  defined: Defined,
): Tank & { limits: Limits } {
  const { definition } = defined;
  const { volumeL, by } = netVolumeOf(binder, defined);
  return {
    id,
    kind: "tank",
    name: definition.name,
    title: definition.title,
    definition,
    place: nameplace(defined),
    body,
    duties: [],
    volumeL,
    volumeBy: by,
    role: one(definition, "role")?.role?.text as TankRole | undefined,
    where: one(definition, "place")?.place?.text ?? "",
    system: one(definition, "system")?.system?.text ?? "",
    from: dateOf(one(definition, "from")?.from),
    until: dateOf(one(definition, "until")?.until),
    capCm: capOf(binder, defined),
    holds: holdsOf(binder, defined),
    grazed: wordsOf(definition, "grazed"),
    limits: new Map(),
  };
}

/** Gives each tank its limits: what is stated narrower takes the place of what is stated wider; of two groups the later. */
export function giveLimits(
  binder: Binder,
  tanks: readonly { readonly tank: Tank & { limits: Limits }; readonly defined: Defined }[],
  room: Defined | undefined,
  systems: ReadonlyMap<string, Defined>,
  groups: readonly { readonly tanks: readonly Tank[]; readonly defined: Defined }[],
): void {
  const ofRoom = room === undefined ? [] : [limitsIn(binder, room)];
  const bySystem = new Map([...systems].map(([name, defined]) => [name, limitsIn(binder, defined)]));
  const byGroup = groups.map((group) => ({
    tanks: new Set(group.tanks),
    limits: limitsIn(binder, group.defined),
  }));
  for (const { tank, defined } of tanks) {
    const ofSystem = bySystem.get(tank.system);
    const ofGroups = byGroup.filter((group) => group.tanks.has(tank)).map((group) => group.limits);
    const own = limitsIn(binder, defined);
    tank.limits = narrowest([...ofRoom, ...(ofSystem === undefined ? [] : [ofSystem]), ...ofGroups, own]);
  }
}

/** The water of one tank, or of a system with its tanks. */
export function bodyOf(
  binder: Binder,
  id: number,
  tanks: readonly Tank[],
  system?: Defined & { station: Station },
): Body {
  const sump = system === undefined ? undefined : one(system.definition, "sump")?.sump;
  const sumpL = system === undefined || sump === undefined ? 0 : binder.number(system, sump, "volume");
  return {
    id,
    name: system?.station.name ?? tanks[0]?.name ?? "",
    system: system?.station,
    tanks,
    volumeL: tanks.reduce((sum, tank) => sum + tank.volumeL, sumpL),
    limits: strictest(tanks),
  };
}

/** What all of some tanks bear. */
function strictest(tanks: readonly Tank[]): Limits {
  const limits = new Map<number, Limit>();
  for (const tank of tanks) {
    for (const [id, limit] of tank.limits) {
      const known = limits.get(id);
      if (known === undefined) {
        limits.set(id, limit);
        continue;
      }
      const tells =
        limit.high < known.high || (limit.high === known.high && limit.low > known.low) ? limit : known;
      limits.set(id, {
        ...tells,
        low: Math.max(known.low, limit.low),
        high: Math.min(known.high, limit.high),
      });
    }
  }
  return limits;
}
