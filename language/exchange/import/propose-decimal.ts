import type { Asking } from "./asking.ts";
import type { Decimal } from "./number.ts";
import type { Survey } from "./survey.ts";

/** Point or comma, as all cells tell. */
export function decimalOf({ columns, layout }: Survey, asking: Asking): Decimal | undefined {
  // Dates and codes with points are no numbers.
  const numeric = columns.filter(({ moments, filled }) => moments < filled / 2);
  const sum = (key: "point" | "comma" | "either"): number =>
    numeric.reduce((total, column) => total + column[key], 0);
  const [point, comma, either] = [sum("point"), sum("comma"), sum("either")];
  const isComma = comma > 0 && comma >= point;
  const isPoint = point > 0 || either === 0 || layout.delimiter === ",";
  const sample =
    numeric.flatMap(({ distinct }) => [...distinct.keys()]).find((cell) => /^\d{1,3},\d{3}$/.test(cell)) ??
    "1,234";
  const isOpen = !isComma && !isPoint;
  const answer = asking.decide(
    {
      id: "decimal",
      asks: isOpen
        ? `“${sample}” may be ${sample.replace(",", "")} or ${sample.replace(",", ".")}; no cell settles it`
        : "are numbers written with a point or with a comma?",
      choices: ["point", "comma"],
      hint: isOpen ? "point: the comma parts thousands" : "",
      isTypedToo: false,
    },
    isComma ? "comma" : isPoint ? "point" : undefined,
    "",
    (text) => text === "." || text === ",",
  );
  if (answer === undefined) return undefined;
  if (isComma && answer === "comma") asking.because("numbers", "written with a decimal comma");
  return answer === "comma" || answer === "," ? "," : ".";
}
