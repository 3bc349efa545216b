import { bathRange, strength } from "../../checks/baths.ts";
import { bathOf } from "../../room/baths.ts";
import { whyEntry, whyStated } from "../../room/why.ts";
import type { LineFigure, Row } from "./row.ts";

/** How strong a bath is, by its mass and the volume of its vessel. */
export function bathFigure(row: Row): LineFigure | undefined {
  const { checked, block, facts, at, id, kind, time } = row;
  const bath = bathOf(checked.logbook, { day: block.day, time, block, facts, row: at, id, kind });
  // What cannot be computed is a finding; what is written as a concentration tells itself.
  if (bath === undefined || bath.unknown !== "" || Number.isNaN(bath.volumeL)) return undefined;
  const { remedy, words } = bath;
  const text = strength(bath.concentration, remedy.unit);
  if (words.endsWith("as written")) return undefined;
  return {
    kind: "dose",
    label: text,
    why: () => ({
      what: `bath in ${remedy.name}`,
      value: `${words} = ${text}${Number.isNaN(remedy.bathLow) ? "" : `, stated ${bathRange(remedy)}`}`,
      formula: "mass of the active part / volume of the vessel",
      source: "Masser & Jensen 1991, SRAC 410, Calculating treatments for ponds and tanks",
      from: [whyEntry({ block, row: id }), whyStated(remedy.place)],
    }),
  };
}
