import { fill } from "../fill.ts";

/**
 * Of equal items each side may have changed or removed some, and which of them nobody can tell. What both changed alike is one; else it is
 * the same that is left on both sides, so that a line that stood twice and was corrected on each side once stands once more and is corrected once.
 */

/** @param base what each item of the base says, undefined for what is told by its place. @param ours what of it ours has, by index of the base; undefined where it was removed. @param theirs by index of theirs what it says. @param origin by index of theirs which of the base it is (-1: none); is set anew */
export function pairAlike(
  base: readonly (string | undefined)[],
  ours: readonly (string | undefined)[],
  theirs: readonly string[],
  origin: Int32Array,
): void {
  const groups = new Map<string, number[]>();
  base.forEach((said, at) => {
    if (said !== undefined) fill(groups, [at], () => said);
  });
  if (groups.size === base.length) return;
  const itemOf = new Int32Array(base.length).fill(-1);
  origin.forEach((from, at) => {
    if (from >= 0) itemOf[from] = at;
  });
  for (const [said, group] of groups) {
    const items = group.map((from) => itemOf[from]!).filter((at) => at >= 0);
    const isLeft = items.length === group.length && items.every((at) => theirs[at] === said);
    if (group.length > 1 && !isLeft && group.some((from) => ours[from] !== said))
      pairGroup(said, group, items, ours, theirs, origin);
  }
}

function pairGroup(
  said: string,
  group: readonly number[],
  items: readonly number[],
  ours: readonly (string | undefined)[],
  theirs: readonly string[],
  origin: Int32Array,
): void {
  // In the order of what they say, so that it is the same whichever side is ours.
  const bySaid = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
  const [left, changed, gone] = [
    group.filter((from) => ours[from] === said),
    group.filter((from) => ours[from] !== said && ours[from] !== undefined),
    group.filter((from) => ours[from] === undefined),
  ];
  changed.sort((a, b) => bySaid(ours[a]!, ours[b]!));
  const leftItems = items.filter((at) => theirs[at] === said);
  const changedItems = items
    .filter((at) => theirs[at] !== said)
    .sort((a, b) => bySaid(theirs[a]!, theirs[b]!));
  let goneItems = group.length - items.length;
  const pair = (slots: number[], slot: number, from: number[], item: number): void => {
    origin[from.splice(item, 1)[0]!] = slots.splice(slot, 1)[0]!;
  };
  for (let at = changedItems.length - 1; at >= 0; at--) {
    const slot = changed.findIndex((from) => ours[from] === theirs[changedItems[at]!]);
    if (slot >= 0) pair(changed, slot, changedItems, at);
  }
  // Where a line stands says which it is, as far as it can.
  for (let at = leftItems.length - 1; at >= 0; at--) {
    const slot = left.indexOf(origin[leftItems[at]!]!);
    if (slot >= 0) pair(left, slot, leftItems, at);
  }
  const pairAll = (slots: number[], from: number[]): void => {
    while (slots.length > 0 && from.length > 0) pair(slots, 0, from, 0);
  };
  const removeOf = (slots: number[]): void => {
    while (slots.length > 0 && goneItems-- > 0) slots.shift();
    goneItems = Math.max(0, goneItems);
  };
  pairAll(left, leftItems);
  removeOf(gone);
  pairAll(left, changedItems);
  pairAll(changed, leftItems);
  removeOf(left);
  pairAll(gone, leftItems);
  pairAll(changed, changedItems);
  pairAll(gone, changedItems);
}
