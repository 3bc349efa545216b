import { shelfLifeOf } from "./bind-shelf-life.ts";
import type { Binder } from "./binder.ts";
import { type Defined, dateOf, nameplace, one } from "./defined.ts";
import type { Gear } from "./stations.ts";

/** A gear, and what it serves. @param served names of tanks and systems */
export function gearOf(binder: Binder, id: number, defined: Defined, served: ReadonlySet<string>): Gear {
  const { definition } = defined;
  const on = one(definition, "on")?.on;
  if (on !== undefined && !served.has(on.text))
    binder.unknown(defined, on, "name/target", "tank or system", served);
  return {
    id,
    kind: "gear",
    name: definition.name,
    title: definition.title,
    definition,
    place: nameplace(defined),
    body: -1,
    duties: [],
    sort: one(definition, "kind")?.kind?.text ?? "",
    on: on?.text ?? "",
    from: dateOf(one(definition, "from")?.from),
    lastsDays: Math.round(binder.number(defined, one(definition, "lasts")?.lasts, "duration")),
    ...shelfLifeOf(binder, defined),
  };
}
