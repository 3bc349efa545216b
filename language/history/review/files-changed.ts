import type { LogMatching, LogText } from "../match-lines.ts";

/** A file that is there on one side alone, or under another name. */
export interface FileChange {
  readonly is: "added" | "removed" | "renamed";
  readonly path: string;
  /** What a renamed one was called; else empty. */
  readonly from: string;
}

/** The part of a file that is found again in another, from which on it is that one under another name. */
const enough = 0.5;

/** @param matching of the two states, which tells what stands where now */
export function filesChanged(
  before: readonly LogText[],
  after: readonly LogText[],
  { sameBlocks, units }: LogMatching,
): FileChange[] {
  const was = new Map(before.map(({ path, text }) => [path, text.length]));
  const now = new Map(after.map(({ path, text }) => [path, text.length]));
  const gone = before.filter(({ path }) => !now.has(path)).map(({ path }) => path);
  const made = after.filter(({ path }) => !was.has(path)).map(({ path }) => path);
  if (gone.length === 0 && made.length === 0) return [];
  const shared = new Map<string, Map<string, number>>();
  const share = (from: string, to: string, letters: number): void => {
    if (now.has(from) || was.has(to)) return;
    const of = shared.get(from) ?? new Map<string, number>();
    shared.set(from, of.set(to, (of.get(to) ?? 0) + letters));
  };
  for (const each of sameBlocks) share(each.before.path, each.after.path, each.after.text.length);
  for (const each of units)
    if (each.is === "same") share(each.before.block.path, each.after.block.path, each.after.text.length);
  const pairs = [...shared]
    .flatMap(([from, of]) => [...of].map(([path, letters]) => ({ from, path, letters })))
    .filter(({ from, path, letters }) => letters >= enough * Math.max(was.get(from)!, now.get(path)!, 1))
    .sort((a, b) => b.letters - a.letters);
  const found: FileChange[] = [];
  const taken = new Set<string>();
  for (const { from, path } of pairs) {
    if (taken.has(`from ${from}`) || taken.has(`to ${path}`)) continue;
    taken.add(`from ${from}`).add(`to ${path}`);
    found.push({ is: "renamed", path, from });
  }
  for (const path of made) if (!taken.has(`to ${path}`)) found.push({ is: "added", path, from: "" });
  for (const path of gone) if (!taken.has(`from ${path}`)) found.push({ is: "removed", path, from: "" });
  return found.sort((a, b) => (a.path < b.path ? -1 : 1));
}
