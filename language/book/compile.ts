import type { Signature, Slot } from "./slots.ts";

/** A signature made ready for matching. */
export interface Compiled {
  readonly signature: Signature;
  readonly slots: readonly Slot[];
  readonly leads: ReadonlyMap<string, number>;
  readonly choices: ReadonlyMap<string, readonly [slot: number, code: number]>;
  /** Slots without a lead, by what fills them, in order. */
  readonly names: readonly number[];
  readonly numbers: readonly number[];
  readonly texts: readonly number[];
  readonly destination: number;
  readonly date: number;
  readonly lengths: number;
  readonly required: readonly number[];
  /** Slots that are filled only behind another, with that one. */
  readonly behind: ReadonlyMap<number, number>;
}

const compiled = new WeakMap<Signature, Compiled>();

/** The compiled form of a signature; made once. */
export function compile(signature: Signature): Compiled {
  const known = compiled.get(signature);
  if (known !== undefined) return known;
  const leads = new Map<string, number>();
  const choices = new Map<string, readonly [number, number]>();
  const names: number[] = [];
  const numbers: number[] = [];
  const texts: number[] = [];
  const required: number[] = [];
  const behind = new Map<number, number>();
  let destination = -1;
  let date = -1;
  let lengths = -1;
  signature.slots.forEach((slot, at) => {
    if (slot.required !== undefined) required.push(at);
    if (slot.behind !== undefined)
      behind.set(
        at,
        signature.slots.findIndex(({ name }) => name === slot.behind),
      );
    const { filling } = slot;
    if (slot.lead !== undefined) {
      leads.set(slot.lead, at);
      return;
    }
    if (filling.is === "choice")
      for (const [code, word] of filling.words.entries()) choices.set(word, [at, code + 1]);
    else if (filling.is === "name" || filling.is === "words") names.push(at);
    else if (filling.is === "quantity" || filling.is === "count" || filling.is === "reading")
      numbers.push(at);
    else if (filling.is === "text") texts.push(at);
    else if (filling.is === "destination") destination = at;
    else if (filling.is === "date") date = at;
    else if (filling.is === "lengths") lengths = at;
  });
  const made: Compiled = {
    signature,
    slots: signature.slots,
    leads,
    choices,
    names,
    numbers,
    texts,
    destination,
    date,
    lengths,
    required,
    behind,
  };
  compiled.set(signature, made);
  return made;
}
