import type { Binder } from "./binder.ts";
import type { Defined } from "./defined.ts";
import type { Tank } from "./stations.ts";

/** The tanks of a group, each once. */
export function membersOf(binder: Binder, group: Defined, tanks: ReadonlyMap<string, Tank>): Tank[] {
  const members = new Set<Tank>();
  for (const value of group.definition.members) {
    if (value.lastText === "") {
      const tank = tanks.get(value.text);
      if (tank === undefined) binder.unknown(group, value, "name/target", "tank", tanks.keys());
      else members.add(tank);
      continue;
    }
    const names = namesBetween(value.text, value.lastText);
    if (names.length === 0) {
      const message = "a range of names counts the number at their end, upwards: r1 .. r12";
      binder.report(group.block, "definition/members", value, message);
    }
    const missing = names.filter((name) => !tanks.has(name));
    for (const name of names) {
      const tank = tanks.get(name);
      if (tank !== undefined) members.add(tank);
    }
    if (missing.length > 0) {
      const some =
        missing.slice(0, 3).join(", ") + (missing.length > 3 ? ` and ${missing.length - 3} more` : "");
      binder.report(group.block, "name/target", value, `no tank is called ${some}`);
    }
  }
  return [...members];
}

/** `r1 .. r12`: all names between, by the number at their end. Empty if the names do not count. */
export function namesBetween(first: string, last: string): string[] {
  const from = /^(.*?)(\d+)$/.exec(first);
  const to = /^(.*?)(\d+)$/.exec(last);
  if (from === null || to === null || from[1] !== to[1]) return [];
  const low = Number(from[2]);
  const high = Number(to[2]);
  if (high < low || high - low > mostNames) return [];
  const width = from[2]!.startsWith("0") ? from[2]!.length : 0;
  return Array.from(
    { length: high - low + 1 },
    (_, index) => from[1]! + String(low + index).padStart(width, "0"),
  );
}

/** No room has more tanks; a slip of the finger should not make a million names. */
const mostNames = 999;
