/** Puts items into the queues of their keys. */
export function fill<T>(map: Map<string, T[]>, items: Iterable<T>, key: (item: T) => string): void {
  for (const item of items) {
    const name = key(item);
    const known = map.get(name);
    if (known === undefined) map.set(name, [item]);
    else known.push(item);
  }
}

/** Items that are taken one by one in the order in which they came, each by its key: however many have the same. */
export class Queues<T> {
  private readonly byKey = new Map<string, { readonly items: T[]; taken: number }>();

  add(key: string, item: T): void {
    const known = this.byKey.get(key);
    if (known === undefined) this.byKey.set(key, { items: [item], taken: 0 });
    else known.items.push(item);
  }

  /** Undefined where none of them is left. */
  take(key: string): T | undefined {
    const known = this.byKey.get(key);
    return known === undefined ? undefined : known.items[known.taken++];
  }

  get size(): number {
    return this.byKey.size;
  }

  *left(): Iterable<T> {
    for (const { items, taken } of this.byKey.values())
      for (let at = taken; at < items.length; at++) yield items[at]!;
  }
}
