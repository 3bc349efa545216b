/** A definition block of the format, and how it is written: FORMAT.md sections 4 and 7. */

export interface Definition {
  /** `tank`, `species`, ... */
  readonly word: string;
  readonly name: string;
  readonly title?: string;
  /** The tanks of a group. */
  readonly members?: string;
  /** Property and value, in the order they are written. */
  readonly properties: readonly (readonly [property: string, value: string])[];
}

/** One definition as its lines, the values of its properties under each other. */
export function definitionLines(definition: Definition): string[] {
  const { word, name, title, members, properties } = definition;
  const head = [word, name];
  if (title !== undefined) head.push(quoted(title));
  if (members !== undefined) head.push("=", members);
  const width = Math.max(...properties.map(([property]) => property.length));
  const lines = properties.map(([property, value]) => `  ${property.padEnd(width)}  ${value}`);
  return [head.filter((part) => part !== "").join(" "), ...lines];
}

/** Definitions parted by blank lines, under an opening comment. */
export function definitionFile(comment: string, definitions: readonly Definition[]): string {
  const blocks = definitions.map((definition) => definitionLines(definition).join("\n"));
  return `${[`# ${comment}`, ...blocks].join("\n\n")}\n`;
}

export function quoted(text: string): string {
  return `"${text.replaceAll("\\", "\\\\").replaceAll('"', '\\"')}"`;
}
