/**
 * Which of two lists' items are the same, in order: a longest common subsequence, and where the lists are long a good one. What occurs once
 * in both is matched first (patience), so a list of many thousands costs little more than its sorting.
 */

/** Pairs of indices, rising in both. */
export type Pairs = readonly (readonly [a: number, b: number])[];

/** The most cells that a table of what is left may have. */
const mostCells = 1 << 22;

export function align(a: readonly string[], b: readonly string[]): Pairs {
  const pairs: [number, number][] = [];
  const numbers = new Map<string, number>();
  // Numbers are compared faster than texts that begin alike.
  const numbered = (list: readonly string[]): Int32Array =>
    Int32Array.from(list, (item) => {
      const known = numbers.get(item) ?? numbers.size;
      if (known === numbers.size) numbers.set(item, known);
      return known;
    });
  alignWithin(numbered(a), numbered(b), 0, a.length, 0, b.length, pairs);
  return pairs;
}

function alignWithin(
  a: Int32Array,
  b: Int32Array,
  fromA: number,
  toA: number,
  fromB: number,
  toB: number,
  pairs: [number, number][],
): void {
  while (fromA < toA && fromB < toB && a[fromA] === b[fromB]) pairs.push([fromA++, fromB++]);
  const tail: [number, number][] = [];
  while (fromA < toA && fromB < toB && a[toA - 1] === b[toB - 1]) tail.push([--toA, --toB]);
  if (fromA < toA && fromB < toB) {
    if ((toA - fromA) * (toB - fromB) <= mostCells) byTable(a, b, fromA, toA, fromB, toB, pairs);
    else {
      let [lastA, lastB] = [fromA, fromB];
      const anchors = uniquePairs(a, b, fromA, toA, fromB, toB);
      // Without anything that occurs once, what is left counts as changed as a whole.
      if (anchors.length > 0) {
        for (const [atA, atB] of [...anchors, [toA, toB] as const]) {
          alignWithin(a, b, lastA, atA, lastB, atB, pairs);
          if (atA < toA) pairs.push([atA, atB]);
          [lastA, lastB] = [atA + 1, atB + 1];
        }
      }
    }
  }
  pairs.push(...tail.reverse());
}

function byTable(
  a: Int32Array,
  b: Int32Array,
  fromA: number,
  toA: number,
  fromB: number,
  toB: number,
  pairs: [number, number][],
): void {
  const width = toB - fromB + 1;
  // No run is longer than the shorter list, which is short where a table is made.
  const longest = new Uint16Array((toA - fromA + 1) * width);
  for (let i = toA - fromA - 1; i >= 0; i--) {
    for (let j = width - 2; j >= 0; j--) {
      longest[i * width + j] =
        a[fromA + i] === b[fromB + j]
          ? longest[(i + 1) * width + j + 1]! + 1
          : Math.max(longest[(i + 1) * width + j]!, longest[i * width + j + 1]!);
    }
  }
  for (let i = 0, j = 0; fromA + i < toA && fromB + j < toB; ) {
    if (a[fromA + i] === b[fromB + j]) pairs.push([fromA + i++, fromB + j++]);
    else if (longest[(i + 1) * width + j]! >= longest[i * width + j + 1]!) i++;
    else j++;
  }
}

/** What occurs once in both, as long a run of it as rises in both. */
function uniquePairs(
  a: Int32Array,
  b: Int32Array,
  fromA: number,
  toA: number,
  fromB: number,
  toB: number,
): Pairs {
  const inA = onceIn(a, fromA, toA);
  const inB = onceIn(b, fromB, toB);
  const both: [number, number][] = [];
  for (const [item, at] of inA) {
    const other = inB.get(item);
    if (at >= 0 && other !== undefined && other >= 0) both.push([at, other]);
  }
  return rising(both.sort(([one], [two]) => one - two));
}

function onceIn(list: Int32Array, from: number, to: number): Map<number, number> {
  const found = new Map<number, number>();
  for (let at = from; at < to; at++) found.set(list[at]!, found.has(list[at]!) ? -1 : at);
  return found;
}

/** The longest run of pairs whose second rises, by patience sorting. */
function rising(pairs: Pairs): Pairs {
  const tops: number[] = [];
  const before = new Int32Array(pairs.length).fill(-1);
  for (let at = 0; at < pairs.length; at++) {
    let low = 0;
    let high = tops.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (pairs[tops[middle]!]![1] < pairs[at]![1]) low = middle + 1;
      else high = middle;
    }
    if (low > 0) before[at] = tops[low - 1]!;
    tops[low] = at;
  }
  const found: (readonly [number, number])[] = [];
  for (let at = tops.at(-1) ?? -1; at >= 0; at = before[at]!) found.push(pairs[at]!);
  return found.reverse();
}
