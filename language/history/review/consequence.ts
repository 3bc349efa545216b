import type { CheckedLogbook } from "../../checks/check.ts";
import type { Severity } from "../../checks/code.ts";
import type { Location } from "../../features/view.ts";

/** What is computed from a log, before and after: only what is not the same. */

export type FollowKind =
  | "finding"
  | "water"
  | "dose"
  | "stock"
  | "case"
  | "exposure"
  | "quarantine"
  | "shipping"
  | "brood"
  | "duty"
  | "volume";

/** One thing that follows from the log otherwise than before. */
export interface Consequence {
  readonly is: FollowKind;
  /** The tank, system or gear it is about; `room` for all of it. */
  readonly of: string;
  /** `nitrate: the limit is now crossed on 9 April, not 2 May`. */
  readonly text: string;
  /** The figure as it is shown; empty where there is none. */
  readonly before: string;
  readonly after: string;
  /** `worse` is what somebody has to look at: a limit crossed sooner, a finding that is new. */
  readonly tone: Tone;
  /** Of a finding. */
  readonly code: string;
  readonly severity: Severity | "";
  /** It says no more than that a date is another: told where it is asked for. */
  readonly isSmall: boolean;
  /** Where it shows, and on which side. */
  readonly at: Location | null;
  readonly side: "before" | "after";
  /** Places of the log it is drawn from: entries that changed there are told with it. Empty where only the water tells. */
  readonly from: readonly Location[];
  /** What it is about: a species, a parameter, a remedy. Changes that name it are told first. */
  readonly terms: readonly string[];
  /** Whether it is of the one tank, as its animals and duties are, or of all of its water. */
  readonly reach: "station" | "water";
}

export type Tone = "better" | "worse" | "plain";

/** What a consequence says; what it leaves out is as of a plain one. */
export type Told = Pick<Consequence, "text"> & Partial<Consequence>;

/**
 * One kind of thing that follows: everything there is of it on a day, by a key that is the same before and after, and what is said where
 * the two are not the same.
 */
export interface Follows<T extends Standing> {
  readonly is: FollowKind;
  readonly reach: Consequence["reach"];
  standing(checked: CheckedLogbook, day: number): Map<string, T>;
  /** Undefined where there is nothing to say. One of the two is there. */
  told(before: T | undefined, after: T | undefined, day: number): readonly Told[];
  /** Of what has no key in common whether it is the same thing after all. */
  isSame?(gone: T, made: T): boolean;
  /** Whether it was so already when the log before was last written: what only became so by the days since is small. */
  wasSo?(then: T | undefined): boolean;
}

export interface Standing {
  readonly of: string;
  readonly at: Location | null;
  readonly terms: readonly string[];
}

/**
 * All that a kind of things tells of two logs on a day.
 * @param own the day that was today for the log before; if it is the same day nothing became so since
 */
export function compared<T extends Standing>(
  follows: Follows<T>,
  before: CheckedLogbook,
  after: CheckedLogbook,
  day: number,
  own: number,
): Consequence[] {
  const { is, reach, standing, told, wasSo } = follows;
  const then = wasSo === undefined || own >= day ? undefined : standing(before, own);
  const was = standing(before, day);
  const now = standing(after, day);
  if (follows.isSame !== undefined) rename(was, now, follows.isSame);
  const keys = new Set([...now.keys(), ...was.keys()]);
  return [...keys].flatMap((key) => {
    const [old, fresh] = [was.get(key), now.get(key)];
    const one = fresh ?? old!;
    return told(old, fresh, day).map((each) => ({
      is,
      of: one.of,
      before: "",
      after: "",
      tone: "plain" as const,
      code: "",
      severity: "" as const,
      isSmall: false,
      at: one.at,
      side: fresh === undefined ? ("before" as const) : ("after" as const),
      from: one.at === null ? [] : [one.at],
      terms: one.terms,
      reach,
      ...each,
      ...(then !== undefined && each.tone === "better" && !wasSo!(then.get(key)) ? { isSmall: true } : {}),
    }));
  });
}

/** Gives what is the same thing under another key the key that it has now. */
function rename<T>(
  was: Map<string, T>,
  now: ReadonlyMap<string, T>,
  isSame: (gone: T, made: T) => boolean,
): void {
  const made = [...now].filter(([key]) => !was.has(key));
  for (const [key, gone] of [...was].filter(([key]) => !now.has(key))) {
    const at = made.findIndex(([, each]) => isSame(gone, each));
    if (at < 0) continue;
    was.delete(key);
    was.set(made.splice(at, 1)[0]![0], gone);
  }
}

/** `40 -> 38`; of what is new or gone the one side alone. */
export const arrow = (before: string, after: string): string => `${before} -> ${after}`;
