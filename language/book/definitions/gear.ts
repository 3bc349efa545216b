import { type DefinitionKind, single } from "../property.ts";
import { choice, name, oneQuantity, quantity } from "../slots.ts";
import { at, every, expires, keeps, note, opened } from "./shared.ts";

export const gearKinds = [
  "filter",
  "heater",
  "pump",
  "lamp",
  "air",
  "meter",
  "kit",
  "uv",
  "feeder",
  "net",
  "hose",
  "bucket",
  "other",
] as const;

export const gear: DefinitionKind = {
  word: "gear",
  title: "Equipment",
  doc: "A filter, heater, lamp, meter or test kit, with duties of its own.",
  properties: [
    single("kind", "What it is.", { filling: choice(...gearKinds) }, "kind filter"),
    single("on", "The tank or system it serves.", { filling: name("tank", "system") }, "on dam"),
    single("power", "Electric power.", { filling: quantity("power", "power") }, "power 18 W"),
    single("from", "First day in use.", { filling: { is: "date" } }, "from 2025-03-01"),
    single(
      "lasts",
      "How long it lasts: it is due to be replaced so long after it was replaced last, or after its first day in use.",
      { filling: oneQuantity("time", "duration") },
      "lasts 365 d",
    ),
    keeps,
    opened,
    expires,
    every,
    at,
    note,
  ],
};
