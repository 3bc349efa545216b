import { entryOf } from "../book/entry.ts";
import type { Value } from "../book/reading.ts";
import { signVocabulary } from "../book/signs.ts";
import { nearest } from "../quantity/nearest.ts";
import type { CaseEntry } from "../room/cases.ts";
import type { Fix } from "./finding.ts";

/** Words of entries about cases, and what is put in their place. */

const phrases: ReadonlyMap<string, string> = new Map(
  signVocabulary.flatMap(({ word, also }) => [word, ...also].map((each) => [each, word])),
);

/** Signs of the vocabulary that a text may mean: spelt like it, else those that have one of its words. */
export function nearSigns(written: string): string[] {
  const lower = written.toLowerCase();
  const near = nearest(lower, phrases.keys()).map((phrase) => phrases.get(phrase)!);
  const words = lower.match(/\p{L}{4,}/gu) ?? [];
  // `flashin against wood`: a word of it is spelt like a sign.
  const within = words.flatMap((word) => nearest(word, phrases.keys()).map((phrase) => phrases.get(phrase)!));
  const sharing = [...phrases]
    .filter(([phrase]) => words.some((word) => phrase.includes(word.replace(/(?:ing|ed|s)$/, ""))))
    .map(([, word]) => word);
  return [...new Set([...near, ...within, ...sharing])].slice(0, 3);
}

/** Puts a case at the end of an entry, before its text. */
export function namingCase({ block, row }: CaseEntry, names: readonly string[]): Fix[] {
  const entry = entryOf(block, row);
  if (entry?.line.is !== "entry") return [];
  const values: (Value | undefined)[] = entry.line.items.flatMap((item) => Object.values(item));
  const end = Math.max(entry.line.kindWord?.end ?? 0, ...values.map((value) => value?.end ?? 0));
  return names.map((name, at) => ({
    title: `Write “case ${name}”`,
    edits: [{ block, start: end, end, text: ` case ${name}` }],
    isSure: at === 0 && names.length === 1,
  }));
}

/** A name that no case has: `praecox-1`. */
export function freshName(species: string, taken: ReadonlySet<string>): string {
  const stem = /^\p{L}[\p{L}\p{M}\p{N}_-]*$/u.test(species) ? species : "case";
  for (let number = 1; ; number++) if (!taken.has(`${stem}-${number}`)) return `${stem}-${number}`;
}
