import { type DefinitionKind, property, single } from "../property.ts";
import { count, name, quantity, text } from "../slots.ts";
import { note } from "./shared.ts";

export const order: DefinitionKind = {
  word: "order",
  title: "Order",
  doc: "What a buyer waits for. It is filled by the entries `ship` and `sell` that name it.",
  properties: [
    property(
      "wants",
      "What was ordered.",
      [
        {
          name: "species",
          doc: "What.",
          filling: name("species"),
          each: true,
          required: "a species: wants cherry 20",
        },
        {
          name: "animals",
          doc: "How many.",
          filling: count(),
          each: true,
          required: "a number: wants cherry 20",
        },
      ],
      ["wants cherry 20, horn 5"],
      { list: true, many: true },
    ),
    single("buyer", "Who ordered.", { filling: text("buyer") }, 'buyer "a breeder in the valley"'),
    single(
      "placed",
      "The day it came in: before it nothing is promised.",
      { filling: { is: "date" } },
      "placed 2026-03-20",
    ),
    single("due", "The day it is to leave by.", { filling: { is: "date" } }, "due 2026-04-07"),
    single("carrier", "How it is sent.", { filling: text("carrier") }, 'carrier "courier"'),
    single("route", "Where to, as routes are compared.", { filling: text("route") }, 'route "over the pass"'),
    single(
      "hours",
      "How long it is under way, delay included.",
      { filling: quantity("time", "duration") },
      "hours 24..36 h",
    ),
    single(
      "temperature",
      "How warm it is under way.",
      { filling: quantity("temperature", "temperature") },
      "temperature 20..25 C",
    ),
    single("price", "What it comes to.", { filling: quantity("price", "price") }, "price 60 EUR"),
    note,
  ],
};
