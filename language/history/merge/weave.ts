/** Two lists that were made of one, put into one order again: what both have in the first's, with what is only in the second where it stands there. */

/** What the three lists have of one thing. */
export interface Strand<T> {
  readonly base: T | undefined;
  readonly ours: T | undefined;
  readonly theirs: T | undefined;
}

/** A list with, by index, which item of the base it is (-1: none) and whether it stands in another place than there. */
export interface Side<T> {
  readonly items: readonly T[];
  readonly origin: Int32Array;
  readonly isMoved: (at: number) => boolean;
  /** From this index on stands what closes the list: comments and blank lines below its last line. */
  readonly tail: number;
}

interface Link<T> {
  strand: Strand<T>;
  /** The index in ours; -1 for what is only in theirs. */
  readonly at: number;
  previous: Link<T> | undefined;
  next: Link<T> | undefined;
}

/**
 * One list of all strands, those that were removed on a side included: what becomes of them is asked of the strand.
 * @param twins which item of theirs, by index, both added alike: the index in ours, or -1
 */
export function weave<T>(base: readonly T[], ours: Side<T>, theirs: Side<T>, twins: Int32Array): Strand<T>[] {
  const inTheirs = new Int32Array(base.length).fill(-1);
  theirs.origin.forEach((from, at) => {
    if (from >= 0) inTheirs[from] = at;
  });
  const twinOf = new Int32Array(ours.items.length).fill(-1);
  twins.forEach((at, index) => {
    if (at >= 0) twinOf[at] = index;
  });
  const nothing = { base: undefined, ours: undefined, theirs: undefined };
  const first: Link<T> = { strand: nothing, at: -1, previous: undefined, next: undefined };
  const links: Link<T>[] = [];
  ours.items.forEach((item, at) => {
    const from = ours.origin[at]!;
    const other = from >= 0 ? inTheirs[from]! : twinOf[at]!;
    const strand = { base: base[from], ours: item, theirs: other < 0 ? undefined : theirs.items[other] };
    const link: Link<T> = { strand, at, previous: undefined, next: undefined };
    put(link, links.at(-1) ?? first);
    links.push(link);
  });
  const inOurs = new Int32Array(base.length).fill(-1);
  ours.origin.forEach((from, at) => {
    if (from >= 0) inOurs[from] = at;
  });
  let cursor = first;
  theirs.items.forEach((item, at) => {
    const from = theirs.origin[at]!;
    const own = from >= 0 ? inOurs[from]! : twins[at]!;
    const known = own < 0 ? undefined : links[own]!;
    const isTaken = known !== undefined && from >= 0 && theirs.isMoved(at) && !ours.isMoved(own);
    if (known !== undefined && !isTaken) {
      cursor = known;
      return;
    }
    if (known !== undefined) takeOut(known);
    const strand = { base: base[from], ours: undefined, theirs: item };
    const link: Link<T> = known ?? { strand, at: -1, previous: undefined, next: undefined };
    // What ours put in the same place comes first, but not what closes the list.
    const isTail = at >= theirs.tail;
    let behind = cursor;
    while (behind.next !== undefined && isOnlyOurs(behind.next) && (isTail || behind.next.at < ours.tail))
      behind = behind.next;
    put(link, behind);
    cursor = link;
  });
  const strands: Strand<T>[] = [];
  for (let link = first.next; link !== undefined; link = link.next) strands.push(link.strand);
  return strands;
}

const isOnlyOurs = <T>({ strand, at }: Link<T>): boolean =>
  at >= 0 && strand.base === undefined && strand.theirs === undefined;

function put<T>(link: Link<T>, behind: Link<T>): void {
  link.previous = behind;
  link.next = behind.next;
  if (behind.next !== undefined) behind.next.previous = link;
  behind.next = link;
}

function takeOut<T>({ previous, next }: Link<T>): void {
  if (previous !== undefined) previous.next = next;
  if (next !== undefined) next.previous = previous;
}
