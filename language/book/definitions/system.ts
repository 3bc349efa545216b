import { type DefinitionKind, single } from "../property.ts";
import { oneQuantity } from "../slots.ts";
import { at, every, limits, note, takes } from "./shared.ts";

export const system: DefinitionKind = {
  word: "system",
  title: "System of tanks that share water",
  doc: "One sump, one return. Tanks join it with their `system` property; readings of one hold for all.",
  properties: [
    single(
      "sump",
      "The volume outside the tanks.",
      { filling: oneQuantity("volume", "volume") },
      "sump 90 L",
    ),
    limits,
    every,
    at,
    takes,
    note,
  ],
};
