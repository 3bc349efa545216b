import type { Texts } from "./evaluate.ts";

/**
 * Inputs as they are typed on one line, `total=0.5 mg/L pH=8 temperature=25 C`: each name up to `=`, its value up to the next name.
 * @returns the first word that belongs to no input, where the line begins with one
 */
export function givenIn(line: string): { readonly texts: Texts } | { readonly stray: string } {
  const names = [...line.matchAll(/(^|\s)([\p{L}][\p{L}\p{N}_-]*)\s*=/gu)];
  const stray = line.slice(0, names[0]?.index ?? line.length).trim();
  if (stray !== "") return { stray };
  const texts: Record<string, string> = {};
  names.forEach((match, at) => {
    const end = names[at + 1]?.index ?? line.length;
    texts[match[2]!] = line.slice(match.index + match[0].length, end).trim();
  });
  return { texts };
}
