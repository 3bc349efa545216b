import { editDistance } from "./units.ts";

/** The candidates a mistyped word may stand for, nearest first, at most three: for "did you mean". */
export function nearest(word: string, candidates: Iterable<string>): string[] {
  const wanted = word.toLowerCase();
  const within = wanted.length < 4 ? 1 : wanted.length < 8 ? 2 : 3;
  const found: { candidate: string; distance: number }[] = [];
  for (const candidate of new Set(candidates)) {
    if (Math.abs(candidate.length - wanted.length) > within) continue;
    const distance = editDistance(wanted, candidate.toLowerCase());
    // A word of which every letter would change is no neighbour.
    if (distance <= within && distance < Math.max(wanted.length, candidate.length))
      found.push({ candidate, distance });
  }
  found.sort((a, b) => a.distance - b.distance || (a.candidate < b.candidate ? -1 : 1));
  const best = found[0]?.distance ?? 0;
  return found
    .filter((each) => each.distance <= best + 1)
    .slice(0, 3)
    .map((each) => each.candidate);
}

/** `a, b or c`, in quotes. */
export function either(words: readonly string[]): string {
  const quoted = words.map((word) => `“${word}”`);
  if (quoted.length < 2) return quoted.join("");
  return `${quoted.slice(0, -1).join(", ")} or ${quoted.at(-1)}`;
}

/** The question that follows a message, or nothing. */
export function didYouMean(words: readonly string[]): string {
  return words.length === 0 ? "" : `; did you mean ${either(words)}?`;
}
