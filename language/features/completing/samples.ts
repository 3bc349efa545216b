import { Kind } from "../../book/entries/registry.ts";
import { quote } from "../../book/reading.ts";
import type { Slot } from "../../book/slots.ts";
import { samplesUntil } from "../../room/samples.ts";
import { byUse } from "../recent.ts";
import type { View } from "../view.ts";
import type { Offers } from "./offer.ts";

/** Texts of samples: laboratories, carriers and containers that were named before, what is usual, what is asked. */

const containers: readonly (readonly [text: string, detail: string])[] = [
  ["jar, 50 mL", "room for 10 volumes and more of fixative"],
  ["screw tube, 2 mL", "a fin or a piece of gill in ethanol"],
  ["sealed bag on wet ice", "chilled"],
  ["clean sealed bottle, 0.25 L", "water, never the bag water (university laboratory of Minnesota)"],
  ["bag with oxygen, in a box", "live animals"],
];

const questions: readonly (readonly [text: string, detail: string])[] = [
  ["Parasitology: which parasite is it?", "of live or chilled animals"],
  ["Bacteriology, with the sensitivity of what grows", "of live or chilled animals"],
  ["Histology", "of tissue in formalin"],
  ["PCR for …", "of tissue in ethanol, or frozen"],
  ["Is it a disease that must be reported?", "the authority decides"],
];

interface Here {
  readonly block: { readonly day: number };
  readonly kind: number;
}

export function offerSampleTexts(view: View, { name }: Slot, here: Here | undefined, offers: Offers): void {
  if (here === undefined) return;
  const { kind } = here;
  if (kind === Kind.ask && name === "question") {
    for (const [text, detail] of questions) offers.add({ label: quote(text), sort: "usual", detail });
    return;
  }
  if (kind !== Kind.sample && kind !== Kind.send) return;
  const { samples, steps } = samplesUntil(view.checked.logbook, here.block.day);
  const before = (texts: readonly string[], detail: string): void => {
    const latestFirst = texts.filter((text) => text !== "").reverse();
    for (const text of byUse(latestFirst).slice(0, 10))
      offers.add({ label: quote(text), sort: "usual", detail });
  };
  if (name === "laboratory")
    before([...samples.map(({ laboratory }) => laboratory), ...steps.map(({ to }) => to)], "named before");
  if (name === "carrier")
    before(
      steps.map(({ carrier }) => carrier),
      "named before",
    );
  if (name === "container") {
    before(
      samples.map(({ container }) => container),
      "named before",
    );
    for (const [text, detail] of containers) offers.add({ label: quote(text), sort: "usual", detail });
  }
}
