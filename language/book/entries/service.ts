import { entryKind } from "../kind.ts";
import { choice, nameOrWord } from "../slots.ts";

/** What is done to a gear; a duty may ask for one. */
export const serviceWorks = ["rinsed", "replaced", "calibrated", "checked", "repaired"] as const;

export const service = entryKind({
  word: "service",
  title: "Service of equipment",
  doc: "Work on a filter, pump, heater, lamp or meter.",
  examples: ["service canister rinsed", "service heater checked"],
  duty: true,
  usual: true,
  sort: "care",
  slots: [
    {
      name: "gear",
      doc: "What was serviced; may be left out where the entry's target is the gear.",
      filling: nameOrWord(
        "gear",
        "gear",
        "filter",
        "canister",
        "sponge",
        "pump",
        "heater",
        "lamp",
        "air-stone",
        "meter",
      ),
      column: "subject",
    },
    {
      name: "work",
      doc: "What was done.",
      filling: choice(...serviceWorks),
      column: "choice",
    },
  ],
});
