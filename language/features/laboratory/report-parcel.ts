import { isoOf } from "../../book/dates.ts";
import { ethanolCaution, formalinCaution } from "../../checks/sample-words.ts";
import { type Cell, caution, figure, list, type Part, type Section, table, text } from "../document.ts";
import type { LaboratorySheet } from "../laboratory-sheet.ts";
import { blank } from "./report-parts.ts";
import { timeText } from "./treatments.ts";

/** The samples, where they have been, and what came of them. */

const outcomeWords: Readonly<Record<string, string>> = { "": "no outcome stated" };

export function parcelSections({ parcel }: LaboratorySheet): Section[] {
  const { samples, custody, results, hasFormalin, hasEthanol } = parcel;
  const when = (time: number, isTimed: boolean): string => (isTimed ? timeText(time) : isoOf(time));
  const box: Section = {
    title: "Samples in the box",
    note: samples.length === 0 ? "none" : String(samples.length),
    parts:
      samples.length === 0
        ? [
            text(
              "No sample of this case is written down: sample gill 2 of the species, kept formalin, with the case.",
            ),
            table(
              [figure("No."), "Sample", "Of tank", "Taken", "Kept", "Container"],
              [1, 2, 3].map((number): Cell[] => [String(number), blank(""), "", "", "", ""]),
            ),
          ]
        : [
            table(
              [figure("No."), "Sample", "Of tank", "Taken", "Kept", "Container", "For"],
              samples.map((sample, at): Cell[] => [
                String(at + 1),
                [sample.text, sample.note].filter(Boolean).join(": "),
                sample.tank,
                when(sample.time, sample.isTimed),
                sample.keptText === "" ? blank("") : sample.keptText,
                sample.container === "" ? blank("") : sample.container,
                sample.laboratory,
              ]),
            ),
            ...missingOf(samples),
            ...(hasFormalin ? [caution(formalinCaution)] : []),
            ...(hasEthanol ? [caution(ethanolCaution)] : []),
          ],
  };
  const way: Section = {
    title: "Chain of custody",
    parts: [
      ...(custody.length === 0
        ? []
        : [
            table(
              ["Step", "When", "After", "What, to whom", "By"],
              custody.map(({ step, time, isTimed, since, what, carrier, note }): Cell[] => [
                step,
                when(time, isTimed),
                since,
                [what, note].filter(Boolean).join(": "),
                carrier,
              ]),
            ),
          ]),
      table(
        ["Step", "Day and time", "Name", "Signature"],
        ["packed", "handed", "sent", "received"]
          .filter((step) => !custody.some((each) => each.step === step))
          .map((step): Cell[] => [step, blank(""), blank(""), blank("")]),
      ),
    ].filter((part) => part.is !== "table" || part.rows.length > 0),
  };
  const came: Section[] =
    results.length === 0
      ? []
      : [
          {
            title: "Results so far",
            parts: [
              table(
                ["Day", "Outcome", "Finding"],
                results.map(({ day: on, outcome, text: words }): Cell[] => [
                  isoOf(on),
                  outcomeWords[outcome] ?? outcome,
                  words,
                ]),
              ),
            ],
          },
        ];
  return [box, way, ...came];
}

function missingOf(samples: LaboratorySheet["parcel"]["samples"]): Part[] {
  const lacking = samples.flatMap(({ missing }, at) =>
    missing.length === 0 ? [] : [`No. ${at + 1}, not stated: ${missing.join(", ")}`],
  );
  return lacking.length === 0 ? [] : [list(lacking)];
}
