import { type Limits, limitsIn, narrowest } from "./bind-limits.ts";
import type { Binder } from "./binder.ts";
import { type Defined, dateOf, nameplace, one } from "./defined.ts";
import type { TankRole } from "./definitions/tank.ts";
import type { Body, Limit, Station, Tank } from "./stations.ts";
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
