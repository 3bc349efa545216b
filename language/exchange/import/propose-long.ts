import { parameterNames } from "../../book/parameters.ts";
import type { Asking } from "./asking.ts";
import { parameterCodes, parameterNamed, readHead } from "./heads.ts";
import { fitsParameter, importUnit, unitSaid } from "./import-units.ts";
import type { ColumnAt, Mapping, Measured } from "./mapping.ts";
import type { Decimal } from "./number.ts";
import { measureOf } from "./propose-columns.ts";
import { flagColumn, isSignColumn } from "./propose-marks.ts";
import { Refused } from "./refused.ts";
import { ColumnEvidence, type Survey } from "./survey.ts";

export interface Long {
  readonly parameter: ColumnAt;
  readonly value: ColumnAt;
  readonly sign: ColumnAt | undefined;
  readonly flags: ColumnAt | undefined;
  readonly unit: ColumnAt | undefined;
  readonly means: Record<string, Measured | "ignore">;
  readonly roles: ReadonlyMap<number, string>;
}

const ofWords =
  /^(?:parameter(?:[ _](?:code|name))?|analyte|variable|determinand|characteristic(?:name)?|measure|test)$/i;

/** The column that says what is measured, if one does: by its head, or where dates are heads by its words. */
export function wordColumns({ layout, columns }: Survey): number[] {
  const byHead = layout.heads.findIndex(
    (head, at) => ofWords.test(head.trim()) && !columns[at]!.isDistinctFull && columns[at]!.filled > 0,
  );
  if (byHead >= 0 || layout.across === undefined) return byHead < 0 ? [] : [byHead];
  const byWords = layout.heads.findIndex((_, at) => {
    const words = [...columns[at]!.distinct.keys()];
    return (
      at < layout.across!.from &&
      words.length > 0 &&
      words.filter((word) => readHead(word).parameter !== undefined).length >= words.length / 2
    );
  });
  return byWords < 0 ? [] : [byWords];
}

/** One reading a row: a column says what, another how much. */
export function longForm(survey: Survey, asking: Asking, decimal: Decimal): Long | undefined {
  const { layout, columns, samples } = survey;
  const find = (form: RegExp, isFit: (at: number) => boolean): number =>
    layout.heads.findIndex((head, at) => form.test(head.trim()) && isFit(at));
  const [what = -1] = wordColumns(survey);
  const value = find(
    /^(?:value|result|reading|wert|messwert|resultvalue|measurement)$/i,
    (at) => columns[at]!.numbers >= columns[at]!.filled * 0.5 && columns[at]!.filled > 0,
  );
  if (what < 0 || value < 0 || what === value) return undefined;
  const sign = layout.heads.findIndex(
    (head, at) =>
      /greater|less than|^sign$|^qualifier$|^censor|^remark$|^[<>/]+$/i.test(head) &&
      isSignColumn(columns[at]!, head),
  );
  const unitAt = layout.heads.findIndex((head) => /^(?:units?|einheit)$/i.test(head.trim()));
  const at = (index: number): ColumnAt => ({ at: index + 1, head: layout.heads[index]! });
  const means: Record<string, Measured | "ignore"> = {};
  for (const word of [...columns[what]!.distinct.keys()].sort()) {
    const code = parameterCodes[word];
    const isCode = /^\d{5}$/.test(word);
    const head = readHead(word);
    const own = code?.[0] ?? (isCode ? undefined : head.parameter?.name);
    const given =
      asking.hasAnswer(`parameter:${word}`) || own === undefined
        ? asking.given(`parameter:${word}`, "parameter:*")
        : undefined;
    if (given?.includes(" ") === true) {
      means[word] = measuredOf(word, given);
      continue;
    }
    const place = { column: what + 1, word };
    const answer = asking.decide(
      {
        id: `parameter:${word}`,
        asks: `what is “${word}”?`,
        choices: [...parameterNames, "ignore"],
        hint: "a parameter, and its unit with its basis: nitrate mg/L N",
        ...place,
        isTypedToo: false,
      },
      own ?? "ignore",
      own === undefined ? "parameter:*" : "",
      (text) => parameterNamed(text) !== undefined,
    );
    const parameter = parameterNamed(answer ?? "");
    if (parameter === undefined) {
      means[word] = "ignore";
      if (answer !== "ignore" || given !== undefined) continue;
      if (isCode)
        asking.because(
          word,
          "a code that a log has no word for, as far as is known; parameter:CODE=NAME UNIT takes it",
          "likely",
        );
      else asking.because(word, head.not || "a log has no word for it");
      continue;
    }
    if (code !== undefined && parameter.name === code[0]) {
      means[word] = { parameter: code[0], unit: code[1] };
      asking.because(word, `${code[2]}, by the US water databases' codes (recalled)`);
      continue;
    }
    // Which figures and which unit go with a word is in its rows; a row with another unit is rejected when it is read.
    const figures = new ColumnEvidence();
    const units = new Set<string>();
    for (const { cells } of samples) {
      if (cells[what] !== word) continue;
      figures.add(cells[value] ?? "");
      if (unitAt >= 0 && cells[unitAt]) units.add(cells[unitAt]);
    }
    const [first] = units;
    const only = units.size === 1 ? unitSaid(first!) : undefined;
    const measured = { ...head, unit: head.unit ?? only, text: word };
    const measure = measureOf(measured, what, parameter, figures, decimal, asking, word, place);
    if (measure?.unit !== undefined) means[word] = { parameter: parameter.name, unit: measure.unit };
    else if (measure === undefined) means[word] = "ignore";
  }
  if (Object.values(means).every((each) => each === "ignore") && asking.questions.length === 0)
    throw new Refused(`no reading of “${layout.heads[what]}” is one that a log has a word for`);
  const flags = flagColumn(layout.heads, value);
  const roles = new Map([
    [what, "parameter"],
    [value, "value"],
  ]);
  if (sign >= 0) roles.set(sign, "sign");
  if (flags >= 0) roles.set(flags, "marks");
  if (unitAt >= 0) roles.set(unitAt, "unit");
  return {
    parameter: at(what),
    value: at(value),
    sign: sign < 0 ? undefined : at(sign),
    flags: flags < 0 ? undefined : at(flags),
    unit: unitAt < 0 ? undefined : at(unitAt),
    means,
    roles,
  };
}

/** As a mapping says it. */
export const mappedLong = ({
  parameter,
  value,
  sign,
  flags,
  unit,
  means,
}: Long): NonNullable<Mapping["long"]> => ({
  parameter,
  value,
  ...(sign === undefined ? {} : { sign }),
  ...(flags === undefined ? {} : { flags }),
  ...(unit === undefined ? {} : { unit }),
  means,
});

/** `nitrate mg/L N`, as an answer says it. */
function measuredOf(word: string, answer: string): Measured {
  const [name = "", ...rest] = answer.split(/\s+/);
  const parameter = parameterNamed(name);
  const unit = importUnit(parameter?.dimension === "pH" ? "pH" : rest.join(" "));
  if (parameter === undefined || unit === undefined || !fitsParameter(unit, parameter))
    throw new Refused(
      `parameter:${word}=${answer}: a parameter and its unit with its basis, as “nitrate mg/L N”, or ignore`,
    );
  return { parameter: parameter.name, unit: unit.symbol };
}
