import { type DefinitionKind, single } from "../property.ts";
import { choice, name, text } from "../slots.ts";
import { note } from "./shared.ts";

export const lot: DefinitionKind = {
  word: "lot",
  title: "Lot",
  doc: "Animals that are told apart from others of their species: a batch that came together, a brood, or one animal with a name. What entries do not say of it may be stated here.",
  properties: [
    single("species", "What they are.", { filling: name("species") }, "species praecox"),
    single("line", "The line or strain.", { filling: text("line") }, 'line "blue band"'),
    single("generation", "As it is counted in the line.", { filling: text("generation") }, 'generation "F2"'),
    single("father", "Its father: a lot, best of one animal.", { filling: name("lot") }, "father blue-1"),
    single("mother", "Its mother: a lot, best of one animal.", { filling: name("lot") }, "mother gold-2"),
    single("born", "The day they hatched or were born.", { filling: { is: "date" } }, "born 2026-02-11"),
    single("sex", "Of one animal.", { filling: choice("male", "female") }, "sex male"),
    single("from", "Where they came from.", { filling: text("supplier") }, 'from "river nursery"'),
    note,
  ],
};
