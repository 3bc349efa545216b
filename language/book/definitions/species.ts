import { type DefinitionKind, property, single } from "../property.ts";
import { boundQuantity, choice, quantity, text, words } from "../slots.ts";
import { limits, note } from "./shared.ts";

export const animalKinds = ["fish", "shrimp", "snail", "crayfish", "amphibian", "plant"] as const;
/** Traits that are offered; a keeper may state others. */
export const knownTraits = ["scaleless", "fry", "egg-layer", "livebearer", "grazer"] as const;
export type AnimalKind = (typeof animalKinds)[number];

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
    single("also", "Another name.", { filling: text("name") }, 'also "dwarf rainbowfish"'),
    limits,
    note,
  ],
};
