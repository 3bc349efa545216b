/**
 * What a keeper most likely meant by a figure that cannot be: pH 72 is 7.2 with the point left out. Offered as a
 * fix, never taken over unasked.
 */

/**
 * The one plausible figure a slip of the finger away: the point forgotten or misplaced by up to three places, else
 * two neighbouring digits swapped, else a minus too many. Of several of one kind the one nearest to `usual`; without
 * it only a single one counts, save that fewer places of the point go before more.
 * @param low @param high bounds of what can be, in the unit of the figure
 * @param usual a recent or typical reading, where there is one
 * @returns undefined when the figure is possible as it stands, or nothing near it is
 */
export function likelyMeant(value: number, low: number, high: number, usual?: number): number | undefined {
  const possible = (each: number) => each >= low && each <= high;
  if (!Number.isFinite(value) || possible(value)) return undefined;
  const moved = [1, 2, 3]
    .flatMap((places) => [shifted(value, -places), shifted(value, places)])
    .filter(possible);
  if (moved.length > 0) return nearestTo(usual, moved) ?? moved[0];
  const swapped = swaps(value).filter(possible);
  if (swapped.length > 0) return nearestTo(usual, swapped) ?? (swapped.length === 1 ? swapped[0] : undefined);
  return possible(-value) ? -value : undefined;
}

function nearestTo(usual: number | undefined, candidates: readonly number[]): number | undefined {
  if (usual === undefined) return undefined;
  return candidates.reduce((best, each) => (Math.abs(each - usual) < Math.abs(best - usual) ? each : best));
}

/** The decimal point moved, without the noise of a multiplication: 72 by one place is 7.2. */
function shifted(value: number, places: number): number {
  return Number(`${value}e${places}`);
}

/** The figures with two neighbouring digits in each other's place. */
function swaps(value: number): number[] {
  const text = String(value);
  const found: number[] = [];
  for (let i = 0; i + 1 < text.length; i++) {
    const [one, other] = [text[i]!, text[i + 1]!];
    if (one === other || !/\d/.test(one) || !/\d/.test(other)) continue;
    found.push(Number(text.slice(0, i) + other + one + text.slice(i + 2)));
  }
  return found;
}
