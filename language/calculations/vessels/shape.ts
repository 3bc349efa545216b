import { type Figure, type Outside, outside } from "../../science/result.ts";
import { bowlL, bucketL, conicalL, lyingCylinderL } from "../../science/vessel.ts";
import { bowFrontL, cylinderL, polygonL, rectangleL, trapezoidL } from "../../science/volume.ts";
import { choice, type Given, quantity } from "../calculation.ts";

/** Vessels by their shape, and what has to be measured of each, inside. */

const length = (title: string) => quantity(title, "cm", [0, 1e5], { optional: true, isAbove: true });

export const SHAPES = [
  "box",
  "cylinder",
  "lying-cylinder",
  "bucket",
  "cone",
  "bowl",
  "bow-front",
  "trapezoid",
  "hexagon",
  "octagon",
] as const;
type Shape = (typeof SHAPES)[number];

export const shapeInputs = {
  shape: choice("shape, measured inside", SHAPES, { otherwise: "box" }),
  length: length("length"),
  width: length("width, front to back; of a bow front at its sides"),
  height: length("full height"),
  diameter: length("diameter, where it is widest"),
  bottom: length("diameter of a bucket at the bottom"),
  top: length("diameter of a bucket at the top"),
  cone: length("height of the cone alone, under a straight part"),
  middle: length("front to back of a bow front in its middle"),
  front: length("front side of a trapezoid"),
  back: length("back side of a trapezoid"),
  side: length("one side of a hexagon or octagon"),
};

type Dimension = Exclude<keyof typeof shapeInputs, "shape">;
type Sizes = Readonly<Record<Dimension, number>>;

interface Form {
  readonly is: string;
  readonly needs: readonly Dimension[];
  readonly may?: readonly Dimension[];
  /** The dimension up to which water can stand. */
  readonly full: Dimension;
  litres(sizes: Sizes, waterCm: number): Figure;
}

const polygon = (is: string, sides: number): Form => ({
  is,
  needs: ["side", "height"],
  full: "height",
  litres: ({ side }, waterCm) => polygonL(sides, side, waterCm),
});

const FORMS: Readonly<Record<Shape, Form>> = {
  box: {
    is: "a box",
    needs: ["length", "width", "height"],
    full: "height",
    litres: (of, waterCm) => rectangleL(of.length, of.width, waterCm),
  },
  cylinder: {
    is: "a cylinder",
    needs: ["diameter", "height"],
    full: "height",
    litres: ({ diameter }, waterCm) => cylinderL(diameter, waterCm),
  },
  "lying-cylinder": {
    is: "a lying cylinder",
    needs: ["diameter", "length"],
    full: "diameter",
    litres: (of, waterCm) => lyingCylinderL(of.diameter, of.length, waterCm),
  },
  bucket: {
    is: "a bucket",
    needs: ["bottom", "top", "height"],
    full: "height",
    litres: ({ bottom, top, height }, waterCm) => bucketL(bottom, top, height, waterCm),
  },
  cone: {
    is: "a cone",
    needs: ["diameter", "height"],
    may: ["cone"],
    full: "height",
    // Without a straight part it is a cone up to the rim.
    litres: ({ diameter, height, cone }, waterCm) =>
      conicalL(diameter, Number.isNaN(cone) ? height : cone, height, waterCm),
  },
  bowl: {
    is: "a bowl",
    needs: ["diameter", "height"],
    full: "height",
    litres: ({ diameter }, waterCm) => bowlL(diameter, waterCm),
  },
  "bow-front": {
    is: "a bow front",
    needs: ["length", "width", "middle", "height"],
    full: "height",
    litres: (of, waterCm) => bowFrontL(of.length, of.width, of.middle, waterCm),
  },
  trapezoid: {
    is: "a trapezoid",
    needs: ["front", "back", "width", "height"],
    full: "height",
    litres: (of, waterCm) => trapezoidL(of.front, of.back, of.width, waterCm),
  },
  hexagon: polygon("a hexagon", 6),
  octagon: polygon("an octagon", 8),
};

export interface Vessel {
  readonly fullHeightCm: number;
  litresAt(waterHeightCm: number): Figure;
}

/** The vessel that is measured; a reason that names what is missing or does not belong to the shape. */
export function vesselOf(given: Given<typeof shapeInputs>): Vessel | Outside {
  const { is, needs, may = [], full, litres } = FORMS[given.shape];
  const missing = needs.filter((name) => given[name] === undefined);
  if (missing.length > 0)
    return outside(`shape: ${is} is measured by ${needs.join(", ")}; ${missing.join(", ")} is missing`);
  const strange = DIMENSIONS.find(
    (name) => given[name] !== undefined && !needs.includes(name) && !may.includes(name),
  );
  if (strange !== undefined)
    return outside(`${strange}: ${is} has none, it is measured by ${[...needs, ...may].join(", ")}`);
  const sizes = Object.fromEntries(DIMENSIONS.map((name) => [name, given[name] ?? Number.NaN])) as Sizes;
  return { fullHeightCm: sizes[full], litresAt: (waterCm) => litres(sizes, waterCm) };
}

const DIMENSIONS = Object.keys(shapeInputs).filter((name) => name !== "shape") as Dimension[];

export const SHAPE_FORMULAS = [
  "box = length × width × height; cylinder = π/4 × diameter² × height; 1000 cm3 = 1 L",
  "lying cylinder = (r² acos((r - h)/r) - (r - h) √(2rh - h²)) × length, h the water height",
  "bucket = π h / 3 × (r1² + r1 r2 + r2²), r2 at the water; cone likewise from a point, its straight part a cylinder",
  "bowl = π h² (3r - h) / 3, part of a ball; bow front = box and the segment of a circle before it",
  "trapezoid = (front + back) / 2 × width × height; n sides = n × side² / (4 tan(π/n)) × height",
] as const;

export const GEOMETRY = "elementary geometry; a litre is 1000 cm3, by definition (SI)";
