import type { Signature, Slot } from "../book/slots.ts";

/** Signatures as one line: `change amount [batch|flow] [from source] [at temperature] ["text"]`. */

/** Of more words the name of the slot is told: completion has them all. */
const mostWords = 6;

/** The parts of a signature, in the order of its slots. */
export function slotText({ name, lead, filling, required }: Slot): string {
  const what =
    filling.is === "choice" && filling.words.length <= mostWords
      ? filling.words.join("|")
      : filling.is === "destination"
        ? `-> ${name}`
        : name;
  const led = lead === undefined ? what : lead === what ? `${lead} …` : `${lead} ${what}`;
  return required === undefined ? `[${led}]` : led;
}

/** @param hasNote whether a text may stand at its end, as in an entry */
export function signatureLabel({ word, slots, list }: Signature, hasNote: boolean): string {
  const last = slots.findLastIndex((slot) => slot.each === true);
  const parts = slots.map((slot, at) => slotText(slot) + (list === true && at === last ? ", …" : ""));
  return [word, ...parts, ...(hasNote ? ['["text"]'] : [])].join(" ");
}
