import { entryOf } from "../book/entry.ts";
import { type SeenSign, type SignGrade, type SignSite, signSites, signsIn } from "../book/signs.ts";
import type { Block } from "../book/source.ts";
import type { Case, CaseEntry } from "./cases.ts";

/** The signs of a case by the site of the body, each with when it was seen. */

export interface CaseSign {
  /** As the vocabulary has it; else as it was written. */
  readonly word: string;
  /** Undefined for what the vocabulary does not know. */
  readonly site: SignSite | undefined;
  readonly gloss: string;
  /** The worst that was said. */
  readonly grade: SignGrade | undefined;
  readonly first: number;
  readonly last: number;
  /** Its entries, in order. */
  readonly entries: readonly CaseEntry[];
}

interface Read {
  readonly revision: number;
  readonly rows: Map<number, readonly SeenSign[]>;
}
const read = new WeakMap<Block, Read>();

/** The signs that an entry of sick animals names; none where it names none. Kept until its block is edited. */
export function signsOf({ block, row }: Pick<CaseEntry, "block" | "row">): readonly SeenSign[] {
  let known = read.get(block);
  if (known?.revision !== block.revision) {
    known = { revision: block.revision, rows: new Map() };
    read.set(block, known);
  }
  const signs = known.rows.get(row);
  if (signs !== undefined) return signs;
  const made = signsIn(entryOf(block, row)?.item.signs?.text ?? "");
  known.rows.set(row, made);
  return made;
}

/** By site, and those that the vocabulary does not know last; of a site the earliest first. */
export function caseSigns({ sick }: Pick<Case, "sick">): CaseSign[] {
  const known = new Map<string, CaseSign>();
  for (const entry of sick)
    for (const { sign, written, grade } of signsOf(entry)) {
      const word = sign?.word ?? written;
      const before = known.get(word);
      known.set(word, {
        word,
        site: sign?.site,
        gloss: sign?.gloss ?? "",
        grade: worse(before?.grade, grade),
        first: before?.first ?? entry.day,
        last: entry.day,
        entries: [...(before?.entries ?? []), entry],
      });
    }
  const rank = ({ site }: CaseSign): number =>
    site === undefined ? signSites.length : signSites.indexOf(site);
  return [...known.values()].sort((a, b) => rank(a) - rank(b) || a.first - b.first);
}

const grades: readonly (SignGrade | undefined)[] = [undefined, "mild", "moderate", "severe"];

const worse = (a: SignGrade | undefined, b: SignGrade | undefined): SignGrade | undefined =>
  grades.indexOf(a) < grades.indexOf(b) ? b : a;
