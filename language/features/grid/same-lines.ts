/**
 * Which lines are which after an edit: by line of the new text the old one that it is, -1 for one that is new. Lines at the beginning and the end
 * that are alike, then those that stand once in each text (as in Cohen's patience diff, recalled), wherever they stand now; what is between two of
 * them is the same lines said otherwise where it is as many.
 */
export function sameLines(old: readonly string[], fresh: readonly string[]): Int32Array {
  const was = new Int32Array(fresh.length).fill(-1);
  const most = Math.min(old.length, fresh.length);
  let first = 0;
  while (first < most && old[first] === fresh[first]) was[first] = first++;
  let last = 0;
  while (last < most - first && old.at(-1 - last) === fresh.at(-1 - last)) {
    last++;
    was[fresh.length - last] = old.length - last;
  }
  const [oldEnd, end] = [old.length - last, fresh.length - last];
  const taken = new Uint8Array(old.length);
  const [inOld, inFresh] = [placesOf(old, first, oldEnd), placesOf(fresh, first, end)];
  for (const [text, at] of inFresh) {
    const before = inOld.get(text) ?? -1;
    if (at < 0 || before < 0) continue;
    was[at] = before;
    taken[before] = 1;
  }
  for (let at = first; at < end; ) {
    if (was[at]! >= 0) {
      at++;
      continue;
    }
    let next = at;
    while (next < end && was[next]! < 0) next++;
    const from = at === 0 ? 0 : was[at - 1]! + 1;
    let to = from;
    while (to < oldEnd && taken[to] === 0) to++;
    // Of more or fewer nobody can tell which is which.
    if (to - from === next - at) for (let step = 0; at + step < next; step++) was[at + step] = from + step;
    at = next;
  }
  return was;
}

/** By text where it stands; -1 where it stands more than once. */
function placesOf(lines: readonly string[], first: number, end: number): Map<string, number> {
  const places = new Map<string, number>();
  for (let at = first; at < end; at++) places.set(lines[at]!, places.has(lines[at]!) ? -1 : at);
  return places;
}
