import type { Binder } from "./binder.ts";
import { type Defined, dateOf, one } from "./defined.ts";
import type { ShelfLife } from "./stations.ts";

/** How long something is good, as its definition states it. */
export function shelfLifeOf(binder: Binder, defined: Defined): ShelfLife {
  const { definition } = defined;
  return {
    expires: dateOf(one(definition, "expires")?.expires),
    opened: dateOf(one(definition, "opened")?.opened),
    keepsDays: binder.number(defined, one(definition, "keeps")?.keeps, "duration"),
  };
}
