import { type Outside, outside } from "../science/result.ts";

/**
 * Which of several inputs is given, where each would say the same and so one leads.
 * @returns a reason where none is given, or more than one
 */
export function oneOf<Name extends string>(
  given: Readonly<Partial<Record<Name, unknown>>>,
  names: readonly Name[],
): Name | Outside {
  const [first, ...more] = names.filter((name) => given[name] !== undefined);
  if (first === undefined) return outside(`one of ${names.join(", ")} is needed, and none is given`);
  if (more.length === 0) return first;
  return outside(`${[first, ...more].join(" and ")} are given, and only one of them can lead`);
}
