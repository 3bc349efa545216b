import type { Binder } from "./binder.ts";
import { type Defined, nameplace, one, property } from "./defined.ts";
import { parameterOf } from "./parameters.ts";
import type { Water } from "./stations.ts";

/** Reports waters that one is said to be made of and that are not there. */
export function checkSources(binder: Binder, defined: Defined, waters: readonly string[]): void {
  for (const { source } of property(defined.definition, "from")?.filled.items ?? [])
    if (source !== undefined && !waters.includes(source.text))
      binder.unknown(defined, source, "name/water", "source water", waters);
}

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
  const of = property(definition, "from")?.filled.items ?? [];
  const from = [...new Set(of.flatMap(({ source }) => source?.text ?? []))];
  const salts = one(definition, "salts")?.salts?.text ?? "";
  return { name: definition.name, title: definition.title, place: nameplace(defined), content, from, salts };
}
