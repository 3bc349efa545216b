/** Something a laboratory asks. What the log does not say stays empty, with where it would be stated: nothing is made up. */
export interface Field {
  readonly name: string;
  /** Empty where nobody says. */
  readonly text: string;
  /** Where it would be stated: `the volume of tank q1`. Empty where it is. */
  readonly missing: string;
}

/** @param missing where it would be stated */
export const field = (name: string, text: string, missing: string): Field =>
  text.trim() === "" ? { name, text: "", missing } : { name, text, missing: "" };
