import type { Binder } from "./binder.ts";
import { type Defined, nameplace } from "./defined.ts";
import { parameterOf } from "./parameters.ts";
import type { Water } from "./stations.ts";

/** A source water with its content; a range counts as its middle. */
export function waterOf(binder: Binder, defined: Defined): Water {
  const { definition } = defined;
  const content = new Map<number, number>();
  for (const property of definition.properties) {
    if (property.word !== "content") continue;
    for (const { parameter, reading } of property.filled.items) {
      if (parameter === undefined || reading === undefined) continue;
      const known = parameterOf(parameter.text);
      const { first, second } = binder.reading(defined, known, reading);
      if (!Number.isNaN(first)) content.set(known.id, Number.isNaN(second) ? first : (first + second) / 2);
    }
  }
  return { name: definition.name, title: definition.title, place: nameplace(defined), content };
}
