import { entryKind } from "../kind.ts";
import { count, name, offering, oneQuantity, quantity } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const bath = entryKind({
  word: "bath",
  title: "Bath or dip",
  doc: "Animals of this tank in a vessel of its own, for a time; a dip is a short bath. Nothing of it comes into the tank's water. Stay beside it, and take them out when they roll or gasp.",
  examples: [
    "bath praecox 3 with salt 15 g/L for 10 min volume 8 L",
    "bath praecox 2 with salt 120 g for 5 min volume 8 L",
  ],
  target: "tank",
  duty: false,
  sort: "health",
  slots: [
    {
      name: "species",
      doc: "Which animals.",
      filling: name("species"),
      column: "subject",
      required: "a species: bath praecox 3 with salt 15 g/L for 10 min",
    },
    {
      name: "animals",
      doc: "How many.",
      filling: count(),
      column: "amount",
      required: "a number: bath praecox 3 with salt 15 g/L for 10 min",
    },
    {
      name: "remedy",
      lead: "with",
      doc: "A remedy that is defined in the log.",
      filling: name("remedy"),
      column: "object",
      required: "a remedy: bath praecox 3 with salt 15 g/L for 10 min",
    },
    {
      name: "amount",
      doc: "The concentration in the vessel, or how much of the product went into it.",
      filling: offering(
        oneQuantity(
          "concentration, mass, volume or drops",
          "concentration",
          "volume-concentration",
          "mass",
          "volume",
          "portion",
        ),
        "g/L",
        "mg/L",
        "uL/L",
        "g",
        "mL",
      ),
      column: "second",
      required: "a strength: bath praecox 3 with salt 15 g/L for 10 min",
    },
    {
      name: "time",
      lead: "for",
      doc: "How long.",
      filling: offering(quantity("time", "duration"), "min", "h"),
      required: "a time: bath praecox 3 with salt 15 g/L for 10 min",
    },
    {
      name: "volume",
      lead: "volume",
      doc: "The water in the vessel.",
      filling: oneQuantity("volume", "volume"),
    },
    lotSlot("Of which batch, brood or animal."),
    { name: "case", lead: "case", doc: "The case it belongs to.", filling: name("case") },
  ],
});
