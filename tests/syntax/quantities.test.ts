import { describe, expect, it } from "vitest";
import { ambiguousSpelling } from "../../language/quantity/unit-codes.ts";
import { UNITS } from "../../language/quantity/units.ts";
import { parseBlock } from "../../language/syntax/parser.ts";
import { Mark, Piece, type Pieces } from "../../language/syntax/pieces.ts";

/** How numbers are read: `below 5 mg/L`, `range 23 27 C`; or what the grammar says of the line. */
function read(text: string): string {
  let said = "";
  parseBlock(
    text,
    {
      head: () => {},
      line: (pieces) => {
        said = Array.from({ length: pieces.count }, (_, at) => shown(pieces, at)).join(", ");
      },
      broken: ({ start, end, message }) => {
        said = `${text.slice(start, end)}: ${message}`;
      },
    },
    true,
  );
  return said;
}

function shown(pieces: Pieces, at: number): string {
  const kind = Object.entries(Piece).find(([, value]) => value === pieces.kind[at])![0];
  if (kind !== "quantity" && kind !== "lengths" && kind !== "sexed")
    return `${kind} ${pieces.word[at]}`.trim();
  const mark = Object.entries(Mark).find(([, value]) => value === pieces.mark[at])![0];
  const code = pieces.unit[at]!;
  const numbers = [pieces.value[at]!, pieces.second[at]!, pieces.third[at]!].filter(
    (value) => !Number.isNaN(value),
  );
  const unit = ambiguousSpelling(code) ?? UNITS[code]?.symbol ?? "";
  const name = kind === "quantity" ? mark : kind;
  return `${name} ${numbers.join(" ")} ${unit}`.trim();
}

describe("a number", () => {
  it.each([
    ["18 mg/L", "exact 18 mg/L"],
    ["18mg/L", "exact 18 mg/L"],
    ["30%", "exact 30 %"],
    ["7.2", "exact 7.2"],
    [".5", "exact 0.5"],
    ["-120 mV", "exact -120 mV"],
    ["<5 mg/L", "below 5 mg/L"],
    ["< 5", "below 5"],
    [">100", "above 100"],
    ["<= 25 mg/L", "atMost 25 mg/L"],
    ["≤25", "atMost 25"],
    [">=8", "atLeast 8"],
    ["~200", "about 200"],
    ["23..27 C", "range 23 27 C"],
    ["23 .. 27", "range 23 27"],
    ["23…27", "range 23 27"],
    ["~12..14", "range 12 14"],
    ["-2..3", "range -2 3"],
    ["3.5.20", "sexed 3 5 20"],
    ["150 x 55 x 50 cm", "lengths 150 55 50 cm"],
    ["150x55x50cm", "lengths 150 55 50 cm"],
    ["1.5x.5 m", "lengths 1.5 0.5 m"],
    ["x5", "word x5"],
    ["150 × 55", "lengths 150 55"],
    ["10 US gal", "exact 10 US gal"],
    ["10 gal", "exact 10 gal"],
    ["6 fl oz", "exact 6 fl oz"],
    ["70 mg/L CaCO3", "exact 70 mg/L CaCO3"],
    ["70 mg/L as CaCO3", "exact 70 mg/L CaCO3"],
    ["0.2 mg/L N", "exact 0.2 mg/L N"],
    ["12 µL/L", "exact 12 uL/L"],
    ["24 °C", "exact 24 C"],
  ])("%s", (text, said) => {
    expect(read(text)).toBe(said);
  });

  it("is followed by what is no unit of it", () => {
    expect(read("4 praecox")).toBe("exact 4, word praecox");
    expect(read("18 pH 7.2")).toBe("exact 18, word pH, exact 7.2");
    expect(read("7.2 pH")).toBe("exact 7.2 pH");
  });
});

describe("what is no number", () => {
  it.each([
    ["<5..10", "..: a range stands between two numbers or two names: 23..27, r1 .. r12"],
    ["23..", "..: a range needs its upper end, as in 23..27, not the end of the line"],
    ["<", "<: after < comes a number, not the end of the line"],
    ["~ praecox", "praecox: after ~ comes a number, not “praecox”"],
    ["%", "%: % comes after a number, as in 30 %"],
    ["12 (F", "F: the bracket of a unit is not closed: expected ) before the end of the line"],
    ["->", "->: after -> comes the name of a tank, not the end of the line"],
    ["-> 4", "4: after -> comes the name of a tank, not “4”"],
    ["@", "@: after @ comes the name of a group, not the end of the line"],
    ["r1 .. 4", "4: a range of names ends with a name, as in r1 .. r12, not “4”"],
    ["dam ¤", "¤: I cannot read “¤” here"],
  ])("%s", (text, said) => {
    expect(read(text)).toBe(said);
  });
});

describe("many broken lines", () => {
  it("are read in one pass, whatever their number", () => {
    const text = "  dam ¤ change\n".repeat(20_000);
    let broken = 0;
    parseBlock(text, { head: () => {}, line: () => {}, broken: () => broken++ }, true);
    expect(broken).toBe(20_000);
  });
});
