/** Work that takes long, in steps: after each it says how much of it is done, from 0 to 1, so that others have their turn and it can be given up. */
export type Steps<Result> = Generator<number, Result, undefined>;

/** All steps at once. */
export function atOnce<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}

/** So many cells or rows are one step. */
export const perStep = 100;
