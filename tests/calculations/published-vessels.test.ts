import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Inputs } from "../published/inputs.ts";
import { answerOf, asked, plain } from "./asked.ts";
import { holdRows, type Scaled } from "./held.ts";

/** `L_cm=60` as `60 cm`, by whichever unit the row has. */
function size(given: Inputs, stem: string): string {
  for (const unit of ["cm", "in", "ft", "m"])
    if (given.has(`${stem}_${unit}`)) return `${given.text(`${stem}_${unit}`)} ${unit}`;
  throw new Error(`no ${stem}`);
}

const box = (given: Inputs, height: string): Scaled => ({
  calculation: "volume",
  texts: { length: size(given, "L"), width: size(given, "W"), height: size(given, height) },
  figure: "water",
});
const cylinder = (given: Inputs): Scaled => ({
  calculation: "volume",
  texts: { shape: "cylinder", diameter: size(given, "diam"), height: size(given, "D") },
  figure: "water",
});

holdRows(
  /07-[a-z-]+\.csv$/,
  {
    tank_volume_rect: (given) => box(given, "H"),
    tank_volume_rect_usgal: (given) => ({ ...box(given, "H"), figure: "US-gallons" }),
    volume_rect_ft3: (given) => box(given, "D"),
    volume_cyl_ft3: cylinder,
    volume_cyl_m3: cylinder,
    volume_trapezoid_m3: (given) => ({
      calculation: "volume",
      texts: {
        shape: "trapezoid",
        front: size(given, "a"),
        back: size(given, "b"),
        width: size(given, "h"),
        height: size(given, "D"),
      },
      figure: "water",
    }),
  },
  // Plain conversions, which every input does by its unit.
  [
    "us_gal_to_L",
    "imp_gal_to_L",
    "cubic_inch_to_L",
    "us_tbsp_to_mL",
    "us_quart_to_L",
    "us_cup_to_mL",
    "imp_pint_to_mL",
    "cubic_foot_to_L",
    "us_tsp_to_mL",
    "us_gal_in_cubic_inches",
    "imp_gal_in_us_gal",
    "cubic_foot_in_us_gal",
    "litre_in_imp_gal",
    "pound_to_g",
    "ounce_to_g",
    "acre_foot_in_cubic_feet",
    "acre_foot_in_us_gal",
    "L_to_us_gal",
    "us_floz_to_mL",
    "F_to_C",
  ],
);

/** A vessel of each shape, about as large as a bucket. */
const VESSELS: readonly Readonly<Record<string, string>>[] = [
  { shape: "box", length: "30", width: "20", height: "25" },
  { shape: "cylinder", diameter: "25", height: "30" },
  { shape: "lying-cylinder", diameter: "30", length: "40" },
  { shape: "bucket", bottom: "20", top: "26", height: "28" },
  { shape: "cone", diameter: "20", height: "40", cone: "15" },
  { shape: "cone", diameter: "20", height: "40" },
  { shape: "bowl", diameter: "30", height: "22" },
  { shape: "bow-front", length: "40", width: "20", middle: "26", height: "25" },
  { shape: "trapezoid", front: "40", back: "20", width: "25", height: "25" },
  { shape: "hexagon", side: "15", height: "25" },
  { shape: "octagon", side: "12", height: "25" },
];

describe.each(VESSELS.map((vessel) => [vessel.shape as string, vessel] as const))("a %s", (_, vessel) => {
  const full = asked("volume", vessel, "water").best!;

  it("stands as high as what is poured into it", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1, noNaN: true }), (part) => {
        const litres = plain(full * part);
        const height = asked("fill-height", { ...vessel, litres }, "height").best!;
        const water = asked("volume", { ...vessel, water: plain(height) }, "water").best!;
        expect(water).toBeCloseTo(full * part, 8);
      }),
      { numRuns: 25 },
    );
  });

  it("overflows with more, and says what it holds", () => {
    const { outside } = answerOf("fill-height", { ...vessel, litres: plain(full * 1.01) });
    expect(outside).toContain(`holds ${full.toPrecision(3)} L`);
  });

  it("a centimetre of it is what a centimetre adds", () => {
    const at = (water: number, figure: string) =>
      asked("volume", { ...vessel, water: plain(water) }, figure).best!;
    expect(at(10, "per-cm")).toBeCloseTo(at(10.5, "water") - at(9.5, "water"), 8);
  });

  it("names a measure that is missing, and one that it has not", () => {
    for (const name of Object.keys(vessel).filter((each) => !["shape", "cone"].includes(each))) {
      const { [name]: _left, ...rest } = vessel;
      expect(answerOf("volume", rest).outside).toContain(`${name} is missing`);
    }
    const strange = vessel.shape === "box" ? "diameter" : vessel.shape === "bucket" ? "side" : "bottom";
    expect(answerOf("volume", { ...vessel, [strange]: "10" }).outside).toContain(strange);
  });
});

it("parts of a volume are told in the order they are asked", () => {
  const { figures } = answerOf("parts-of-volume", { volume: "20 US gal", parts: "50 %, 10 %" });
  expect(figures.map(({ title, text }) => [title, text])).toEqual([
    ["50 % of it", "37.9 L"],
    ["10 % of it", "7.57 L"],
  ]);
});
