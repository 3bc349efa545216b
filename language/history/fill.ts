/** Puts items into the queues of their keys. */
export function fill<T>(map: Map<string, T[]>, items: Iterable<T>, key: (item: T) => string): void {
  for (const item of items) {
    const name = key(item);
    const known = map.get(name);
    if (known === undefined) map.set(name, [item]);
    else known.push(item);
  }
}
