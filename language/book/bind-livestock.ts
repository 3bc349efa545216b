import type { Binder } from "./binder.ts";
import { type Defined, dateOf, nameplace, one, wordsOf } from "./defined.ts";
import type { FoodKind } from "./definitions/food.ts";
import type { AnimalKind } from "./definitions/species.ts";
import type { Food, Species } from "./stations.ts";

/** What lives in the room, and what it is fed. */

export function speciesOf(binder: Binder, defined: Defined): Species {
  const { definition } = defined;
  const kind = (one(definition, "kind")?.kind?.text ?? "fish") as AnimalKind;
  return {
    name: definition.name,
    title: definition.title,
    place: nameplace(defined),
    kind,
    traits: new Set([kind, definition.name, ...wordsOf(definition, "traits")]),
    diet: one(definition, "diet")?.diet?.text ?? "",
    school: one(definition, "school")?.school?.value ?? Number.NaN,
    adultCm: binder.number(defined, one(definition, "adult")?.adult, "length"),
    needs: definition.properties.flatMap((each) => each.needs ?? []),
  };
}

export function foodOf(defined: Defined): Food {
  const { definition } = defined;
  return {
    name: definition.name,
    title: definition.title,
    place: nameplace(defined),
    kind: one(definition, "kind")?.kind?.text as FoodKind | undefined,
    expires: dateOf(one(definition, "expires")?.expires),
  };
}
