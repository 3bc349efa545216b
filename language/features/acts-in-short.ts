import { namesInShort } from "./names-in-short.ts";

/** Something to do at a place. */
export interface PlacedAct {
  readonly at: string;
  /** `change 20..45 %`, `service canister`. */
  readonly act: string;
  /** What owes it: the place itself, or a gear that serves it. */
  readonly of: string;
}

/** What is due on a day, by place and in few words: `ford change, clean; r1 .. r4 clean`. */
export function actsInShort(work: readonly PlacedAct[]): string {
  const acts = new Map<string, string[]>();
  for (const { at, act, of } of work) {
    const word = act.split(" ")[0]!;
    // Of a gear its name is said, and the work that it is about.
    const named = ` ${act} `.includes(` ${of} `) ? act : word;
    const known = acts.get(at);
    if (known === undefined) acts.set(at, [named]);
    else if (!known.includes(named)) known.push(named);
  }
  const places = new Map<string, string[]>();
  for (const [at, words] of acts) {
    const said = words.join(", ");
    const known = places.get(said);
    if (known === undefined) places.set(said, [at]);
    else known.push(at);
  }
  return [...places].map(([said, at]) => `${namesInShort(at)} ${said}`).join("; ");
}
