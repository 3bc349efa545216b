/** Water in a tank from its inside dimensions. Elementary geometry; 1 L = 1000 cm3 (SI). */
import { type Figure, outside } from "./result.ts";

const CM3_PER_L = 1000;

/** A tank with a rectangular floor. */
export function rectangleL(lengthCm: number, widthCm: number, waterHeightCm: number): number {
  return (lengthCm * widthCm * waterHeightCm) / CM3_PER_L;
}

/** An upright cylinder: a vat, a hatching cone's straight part. */
export function cylinderL(diameterCm: number, waterHeightCm: number): number {
  return (Math.PI * (diameterCm / 2) ** 2 * waterHeightCm) / CM3_PER_L;
}

/**
 * A tank whose floor is a trapezoid (a corner tank, a pond): two parallel sides and the distance between
 * them.
 */
export function trapezoidL(frontCm: number, backCm: number, depthCm: number, waterHeightCm: number): number {
  return (((frontCm + backCm) / 2) * depthCm * waterHeightCm) / CM3_PER_L;
}

/** A tank whose floor is a regular polygon: six sides, eight sides. Area n*s^2 / (4 tan(pi/n)). */
export function polygonL(sides: number, sideCm: number, waterHeightCm: number): number {
  return ((sides * sideCm ** 2) / (4 * Math.tan(Math.PI / sides))) * (waterHeightCm / CM3_PER_L);
}

/**
 * A bow front: a rectangle with a circular segment before it. The segment of chord c and height s lies on a
 * circle of radius r = s/2 + c^2/(8s); its area is r^2 acos(1 - s/r) - (r - s) sqrt(2rs - s^2).
 * @param sideWidthCm front to back at the sides
 * @param middleWidthCm front to back in the middle, at least `sideWidthCm` and by at most half the length
 * more
 */
export function bowFrontL(
  lengthCm: number,
  sideWidthCm: number,
  middleWidthCm: number,
  waterHeightCm: number,
): Figure {
  const bow = middleWidthCm - sideWidthCm;
  if (bow < 0 || bow > lengthCm / 2) return outside("the bow is at most a half circle before the sides");
  const rectangle = lengthCm * sideWidthCm;
  return ((rectangle + segmentCm2(lengthCm, bow)) * waterHeightCm) / CM3_PER_L;
}

function segmentCm2(chordCm: number, heightCm: number): number {
  // A flat segment is two thirds of its box (a parabola); the circle's formula cancels there.
  if (heightCm < 1e-4 * chordCm) return (2 / 3) * chordCm * heightCm;
  const radius = heightCm / 2 + chordCm ** 2 / (8 * heightCm);
  return radius ** 2 * Math.acos(1 - heightCm / radius) - ((radius - heightCm) * chordCm) / 2;
}

/** What is left for water when sand, wood and rock displace some. */
export function netVolumeL(insideL: number, displacedL = 0): Figure {
  if (displacedL >= insideL) return outside("what is displaced leaves no water");
  return insideL - displacedL;
}

/** How far the water stands when a volume is in the tank: the inverse of `rectangleL` for the fill height. */
export function waterHeightCm(volumeL: number, lengthCm: number, widthCm: number): number {
  return (volumeL * CM3_PER_L) / (lengthCm * widthCm);
}
