import { entryKind } from "../kind.ts";
import { offering, quantity } from "../slots.ts";

export const light = entryKind({
  word: "light",
  title: "Light",
  doc: "The photoperiod from this day on, and its intensity. What is not said stays as it was. Algae, what is trimmed and what is tested are compared before and after a change of it.",
  examples: ["light 8 h", "light 8 h at 60 %"],
  duty: false,
  usual: true,
  sort: "plants",
  slots: [
    {
      name: "period",
      doc: "Hours a day.",
      filling: offering(quantity("time a day", "duration"), "h"),
      column: "amount",
    },
    {
      name: "intensity",
      lead: "at",
      doc: "Share of full power, lux, or photon flux.",
      filling: quantity("intensity", "fraction", "illuminance", "light-flux"),
      column: "second",
    },
  ],
});
