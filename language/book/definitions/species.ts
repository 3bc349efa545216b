import { type DefinitionKind, property, single } from "../property.ts";
import { boundQuantity, choice, oneQuantity, quantity, type Slot, text, words } from "../slots.ts";
import { limits, note } from "./shared.ts";

export const animalKinds = ["fish", "shrimp", "snail", "crayfish", "amphibian", "plant"] as const;
/** Traits that are offered; a keeper may state others. */
export const knownTraits = ["scaleless", "fry", "egg-layer", "livebearer", "grazer"] as const;
export type AnimalKind = (typeof animalKinds)[number];

const stage = (example: string): Slot[] => [
  {
    name: "time",
    doc: "How long.",
    filling: quantity("time", "duration"),
    required: `a time: ${example}`,
  },
  {
    name: "temperature",
    lead: "at",
    doc: "At which temperature.",
    filling: oneQuantity("temperature", "temperature"),
    required: `a temperature: ${example}`,
  },
];

export const species: DefinitionKind = {
  word: "species",
  title: "Species",
  doc: "An animal or plant that is kept, and what it needs.",
  properties: [
    single("kind", "What it is.", { filling: choice(...animalKinds) }, "kind fish"),
    single(
      "traits",
      "Words that a remedy may name as harmed.",
      { filling: words("trait", ...knownTraits) },
      "traits scaleless",
    ),
    single(
      "diet",
      "What it eats.",
      { filling: choice("omnivore", "carnivore", "herbivore", "grazer", "micro-predator") },
      "diet omnivore",
    ),
    single(
      "school",
      "The smallest decent group.",
      { filling: boundQuantity("number of animals", "count") },
      "school >= 8",
    ),
    single("adult", "Adult length.", { filling: quantity("length", "length") }, "adult 6 cm"),
    property(
      "needs",
      "What it must or may be fed, by food or kind of food.",
      [],
      ["needs frozen at least 3 per 7 d, dry at most 2 per 7 d"],
      { form: "needs", list: true, many: true },
    ),
    single("weight", "What an adult weighs.", { filling: quantity("weight", "mass") }, "weight 2.5 g"),
    single(
      "apart",
      "What it should not be kept with: kinds, traits or names of species.",
      { filling: words("kind, trait or species", ...animalKinds, ...knownTraits) },
      "apart shrimp, fry",
    ),
    property("hatches", "How long the eggs take at a temperature.", stage("hatches 7..10 d at 25 C"), [
      "hatches 7..10 d at 25 C",
    ]),
    property(
      "swims",
      "How long the hatched young take until they swim, at a temperature.",
      stage("swims 2..3 d at 25 C"),
      ["swims 2..3 d at 25 C"],
    ),
    single(
      "base",
      "The temperature at which its eggs stop developing: degree-days count from there; 0 C where none is stated.",
      { filling: oneQuantity("temperature", "temperature") },
      "base 10 C",
    ),
    single("also", "Another name.", { filling: text("name") }, 'also "dwarf rainbowfish"'),
    limits,
    note,
  ],
};
