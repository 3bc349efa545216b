import { type DefinitionKind, single } from "../property.ts";
import { choice, name, oneQuantity, quantity, text, words } from "../slots.ts";
import { at, every, limits, note, takes } from "./shared.ts";

const tankRoles = [
  "show",
  "breeding",
  "grow-out",
  "rack",
  "quarantine",
  "hospital",
  "holding",
  "culture",
  "storage",
] as const;
export type TankRole = (typeof tankRoles)[number];

export const tank: DefinitionKind = {
  word: "tank",
  title: "Tank",
  doc: "A vessel with water. Its net volume is stated, or follows from inside dimensions, fill height and what is displaced.",
  properties: [
    single(
      "volume",
      "The net volume: the water that is really in it.",
      { filling: oneQuantity("volume", "volume") },
      "volume 310 L",
    ),
    single(
      "inside",
      "Inside length, width and height.",
      { filling: { is: "lengths" } },
      "inside 150 x 55 x 50 cm",
    ),
    single("filled", "Height of the water.", { filling: oneQuantity("height", "length") }, "filled 46 cm"),
    single(
      "displaced",
      "Volume of sand, wood, rock.",
      { filling: oneQuantity("volume", "volume") },
      "displaced 38 L",
    ),
    single("system", "The system whose water it shares.", { filling: name("system") }, "system rack-water"),
    single("role", "What it is for.", { filling: choice(...tankRoles) }, "role show"),
    single("place", "Where it stands.", { filling: text("place") }, 'place "left wall"'),
    single("from", "First day in service.", { filling: { is: "date" } }, "from 2025-03-01"),
    single("until", "Last day in service.", { filling: { is: "date" } }, "until 2026-03-01"),
    single(
      "cap",
      "Largest adult length the tank suits.",
      { filling: quantity("length", "length") },
      "cap 8 cm",
    ),
    single(
      "holds",
      "The stocking it bears at most, as its keeper states it: animals, their weight, or weight in a litre.",
      { filling: oneQuantity("number, weight or weight in a litre", "count", "mass", "concentration") },
      "holds 120 g",
    ),
    single(
      "grazed",
      "Surfaces that are left for animals to graze on: a clean that names one of them is remarked on.",
      { filling: words("part", "back-glass", "side-glass", "wood", "stones", "sand") },
      "grazed back-glass, wood",
    ),
    limits,
    every,
    at,
    takes,
    note,
  ],
};
