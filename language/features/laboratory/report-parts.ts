import { type Cell, list, type Part, type Section, table, text } from "../document.ts";
import type { LaboratorySheet } from "../laboratory-sheet.ts";
import type { Field } from "./field.ts";
import { within } from "./water.ts";

/** What all parts of the report are made of. */

/** A line to fill in by hand. */
export const blank = (why: string): Cell => ({ text: why === "" ? line : `${line} ${why}`, tone: "faint" });
const line = "........................";

/** What is stated, or a line to fill in. */
export const stated = ({ text: words }: Field): Cell => (words === "" ? blank("") : words);

export const fieldTable = (fields: readonly Field[]): Part =>
  table(
    ["Asked", "Answer"],
    fields.map((each): Cell[] => [
      each.name,
      each.text === "" ? blank(each.missing === "" ? "" : "not stated") : each.text,
    ]),
  );

/** Something asked of which nothing is known. */
export const blankLine = (name: string): Part => fieldTable([{ name, text: "", missing: "" }]);

/** Every field that the log does not fill, with where it would be stated. */
export function stillToFill(sheet: LaboratorySheet): Section {
  const lacking = missingFields(sheet);
  return {
    title: "Not stated",
    note: lacking.length === 0 ? "nothing" : String(lacking.length),
    parts:
      lacking.length === 0
        ? [text("All that this sheet asks for is stated.")]
        : [
            text("Fill these in by hand, or state them and make the sheet again.", "faint"),
            list(
              lacking.map(({ of, name, missing }) => ({
                text: of === "" ? name : `${of}: ${within(name)}`,
                note: missing === "" ? "" : `would be stated by ${missing}`,
              })),
            ),
          ],
  };
}

export interface MissingField {
  readonly of: string;
  readonly name: string;
  readonly missing: string;
}

export function missingFields(sheet: LaboratorySheet): MissingField[] {
  const { keeper, tanks, animals, parcel, disease, sources, feedings, treatments, waters } = sheet;
  const of = (whose: string, fields: readonly Field[]): MissingField[] =>
    fields
      .filter(({ text: words }) => words === "")
      .map(({ name, missing }) => ({ of: whose, name, missing }));
  const all = [
    ...of("", [...keeper, parcel.laboratory, parcel.asked, disease.first]),
    ...(parcel.samples.length > 0 ? [] : of("", [noSample(sheet.case)])),
    ...tanks.flatMap(({ name, fields }) => of(name, fields)),
    ...animals.flatMap(({ tank, species, age, size }) => of(`${species} in ${tank}`, [age, size])),
    ...waters.flatMap(({ of: water, rows }) =>
      of(
        water,
        rows
          .filter(({ latest }) => latest === null)
          .map(({ title, parameter }) => ({ name: title, text: "", missing: `a “test” of ${parameter}` })),
      ),
    ),
    ...sources.flatMap(({ name, content }) => of(`water ${name}`, [content])),
    ...feedings.flatMap(({ tank, last, often }) => of(tank, [last, often])),
    ...treatments.flatMap(({ remedy, fields }) => of(remedy, fields)),
  ];
  const keys = all.map((each) => `${each.of} ${each.name}`);
  return all.filter((_, at) => keys.indexOf(keys[at]!) === at);
}

const noSample = (name: string): Field => ({
  name: "Samples",
  text: "",
  missing: `“sample … case ${name}” on the day it is taken`,
});
