import { entryKind } from "../kind.ts";
import { name, offering, oneQuantity } from "../slots.ts";
import { caseSlot } from "./case-slot.ts";

export const dose = entryKind({
  word: "dose",
  title: "Dose of a remedy",
  doc: "By mass or volume of the product, in drops, or by the concentration it adds. What is in the water now follows from it, from the changes since and from the half-life stated.",
  examples: ["dose praziquantel 96 mg", "dose praziquantel 2 mg/L", "dose blue-drops 40 drops"],
  target: "water",
  duty: true,
  sort: "health",
  slots: [
    {
      name: "remedy",
      doc: "A remedy that is defined in the log.",
      filling: name("remedy"),
      column: "subject",
      required: "a remedy: dose praziquantel 96 mg",
    },
    {
      name: "amount",
      doc: "How much of the product, or the concentration it adds.",
      filling: offering(
        oneQuantity(
          "mass, volume, drops or concentration",
          "mass",
          "volume",
          "concentration",
          "volume-concentration",
          "portion",
        ),
        "mg",
        "g",
        "mL",
        "drops",
        "mg/L",
      ),
      column: "amount",
      required: "an amount: dose praziquantel 96 mg",
    },
    caseSlot("The case it is given for."),
  ],
});
