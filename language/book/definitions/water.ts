import { type DefinitionKind, property, single } from "../property.ts";
import { name, text } from "../slots.ts";
import { note } from "./shared.ts";

export const water: DefinitionKind = {
  word: "water",
  title: "Source water",
  doc: "What goes in at a change or a top-up, with its own content. The first one defined is used where an entry names none.",
  properties: [
    property(
      "content",
      "What the water holds before it goes in.",
      [
        {
          name: "parameter",
          doc: "What it holds.",
          filling: { is: "name", of: ["parameter"] },
          each: true,
          required: "a parameter: content nitrate 6 mg/L",
        },
        {
          name: "reading",
          doc: "How much.",
          filling: { is: "reading", shape: "range" },
          each: true,
          required: "a value: content nitrate 6 mg/L",
        },
      ],
      ["content nitrate 6 mg/L, KH 5 dKH, GH 9 dGH, pH 7.6"],
      { list: true, many: true },
    ),
    property(
      "from",
      "The waters it is made of: their shares follow from what each holds.",
      [
        {
          name: "source",
          doc: "A water it is made of.",
          filling: name("water"),
          each: true,
          required: "a water: from tap, ro",
        },
      ],
      ["from tap, ro"],
      { list: true },
    ),
    single(
      "salts",
      "The salts that go into it, as formulas with their water of crystallisation.",
      { filling: text("formulas") },
      'salts "CaCl2.2H2O, MgSO4.7H2O"',
    ),
    note,
  ],
};
