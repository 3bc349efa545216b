/** Work in pieces: who does it may do other things between them, or give it up. */
export type Steps<T> = Generator<void, T>;

/** All of it at once. */
export function finish<T>(steps: Steps<T>): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}

/** The items of a list, with a pause after each so many of them. */
export function* paused<T>(items: Iterable<T>, each: number, use: (item: T) => void): Steps<void> {
  let left = each;
  for (const item of items) {
    use(item);
    if (--left > 0) continue;
    left = each;
    yield;
  }
}
