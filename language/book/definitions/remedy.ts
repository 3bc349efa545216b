import { knownParts } from "../entries/part-slot.ts";
import { type DefinitionKind, property, single } from "../property.ts";
import { boundQuantity, choice, offering, oneQuantity, quantity, text, words } from "../slots.ts";
import { expires, keeps, note, opened } from "./shared.ts";
import { animalKinds } from "./species.ts";

/** What is offered as harmed. */
export const knownHarms = [...animalKinds, "scaleless", "fry", "filter-bacteria"] as const;

export const remedy: DefinitionKind = {
  word: "remedy",
  title: "Remedy",
  doc: "What the label or the veterinarian says, stated by the keeper. Nothing is built in and nothing here is advice.",
  properties: [
    single(
      "target",
      "The concentration in the water that is aimed at.",
      { filling: boundQuantity("concentration", "concentration", "volume-concentration") },
      "target 2 mg/L",
      "target 1..3 mg/L",
    ),
    single(
      "ceiling",
      "The concentration never to exceed.",
      { filling: oneQuantity("concentration", "concentration", "volume-concentration") },
      "ceiling 5 mg/L",
    ),
    single(
      "strength",
      "The active part of the product.",
      { filling: oneQuantity("strength", "fraction", "concentration") },
      "strength 20 mg/mL",
      "strength 80 %",
    ),
    single(
      "active",
      "The active substance: what is published of it is then shown beside your own figures.",
      { filling: text("substance") },
      'active "praziquantel"',
    ),
    single("drop", "The volume of one drop.", { filling: oneQuantity("volume", "volume") }, "drop 0.05 mL"),
    property(
      "repeat",
      "The course: how many doses, how far apart.",
      [
        {
          name: "times",
          doc: "How many doses in all.",
          filling: oneQuantity("number of doses", "count"),
          required: "a number: repeat 3 times every 7 d",
        },
        { name: "word", doc: "Only for reading.", filling: choice("times") },
        {
          name: "interval",
          lead: "every",
          doc: "How far apart.",
          filling: oneQuantity("time", "duration"),
          required: "an interval: repeat 3 times every 7 d",
        },
      ],
      ["repeat 3 times every 7 d"],
    ),
    single(
      "change-before",
      "The water change owed before each repeat.",
      { filling: quantity("fraction", "fraction") },
      "change-before 25..50 %",
    ),
    single(
      "change-after",
      "The water change owed when the course is over.",
      { filling: quantity("fraction", "fraction") },
      "change-after 50 %",
    ),
    single(
      "without",
      "What is to be out of the water, or off, while it is given.",
      { filling: words("part", ...knownParts) },
      "without carbon, light",
    ),
    property(
      "bath",
      "As a bath or a dip in a vessel of its own: how strong, for how long.",
      [
        {
          name: "strength",
          doc: "The concentration in the vessel.",
          filling: quantity("concentration", "concentration", "volume-concentration"),
          required: "a concentration: bath 10..30 g/L for 1..10 min",
        },
        {
          name: "time",
          lead: "for",
          doc: "How long.",
          filling: offering(quantity("time", "duration"), "min", "h"),
        },
      ],
      ["bath 10..30 g/L for 1..10 min"],
    ),
    single(
      "half-life",
      "Time in which half of it is gone from the water by itself.",
      { filling: oneQuantity("time", "duration") },
      "half-life 3 d",
    ),
    single(
      "harms",
      "Kinds and traits of animals it harms.",
      { filling: words("kind or trait of animal", ...knownHarms) },
      "harms snail, scaleless",
    ),
    single(
      "withdrawal",
      "Time after a dose in which animals are not shipped.",
      { filling: oneQuantity("time", "duration") },
      "withdrawal 7 d",
    ),
    single(
      "source",
      "Where these figures stand.",
      { filling: text("source") },
      'source "label of the product"',
    ),
    keeps,
    opened,
    expires,
    single("price", "Price of a pack.", { filling: quantity("price", "price") }, "price 14 EUR"),
    note,
  ],
};
