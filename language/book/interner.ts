/**
 * Words as small whole numbers, for facts kept in columns. One table serves a whole process: a number, once given, keeps its word.
 */
const numbers = new Map<string, number>();
const words: string[] = [];

/** No word. */
export const noName = -1;

/** The number of a word; a new one if it was not seen before. */
export function nameOf(word: string): number {
  const known = numbers.get(word);
  if (known !== undefined) return known;
  const made = words.length;
  numbers.set(word, made);
  words.push(word);
  return made;
}

/** The word of a number that `nameOf` gave; the empty text for `noName`. */
export function wordOf(name: number): string {
  return words[name] ?? "";
}

/** How many words there are: numbers are below it. */
export function nameCount(): number {
  return words.length;
}
