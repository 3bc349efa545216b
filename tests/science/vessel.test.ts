import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Figure, isOutside } from "../../language/science/result.ts";
import {
  bowlL,
  bucketL,
  conicalL,
  fillHeightCm,
  litresPerCm,
  lyingCylinderL,
} from "../../language/science/vessel.ts";
import { cylinderL } from "../../language/science/volume.ts";

const length = fc.double({ min: 5, max: 120, noNaN: true });
const part = fc.double({ min: 0, max: 1, noNaN: true });

/** Litres below a height as a pile of thin slices, each as wide as its middle. */
function sliced(heightCm: number, areaCm2: (z: number) => number): number {
  const slices = 4000;
  let sum = 0;
  for (let slice = 0; slice < slices; slice++) sum += areaCm2(((slice + 0.5) / slices) * heightCm);
  return (sum * heightCm) / slices / 1000;
}

describe("vessels", () => {
  test("a fuel tank on its side, 10 m long, radius 0.725 m, full to 1.25 m, holds 15.138 m3 (published school problem)", () => {
    expect(lyingCylinderL(145, 1000, 125)).toBeCloseTo(15137.9, 0);
  });

  test("a capsule of 1 m with 2.5 m between its caps holds 2487 L (published worked example, pi 3.142)", () => {
    const capsule = (lyingCylinderL(100, 250, 100) as number) + (bowlL(100, 100) as number);
    expect(Math.abs(capsule - 2487)).toBeLessThan(1);
  });

  test("each shape is its own pile of slices", () => {
    fc.assert(
      fc.property(length, length, length, part, (d, other, h, share) => {
        const water = share * h;
        const bucket = (z: number) => Math.PI * ((d + (other - d) * (z / h)) / 2) ** 2;
        expect(Math.abs((bucketL(d, other, h, water) as number) - sliced(water, bucket))).toBeLessThan(1e-4);
        const cone = (z: number) => Math.PI * ((d / 2) * Math.min(1, z / (h / 2))) ** 2;
        expect(Math.abs((conicalL(d, h / 2, h, water) as number) - sliced(water, cone))).toBeLessThan(1e-3);
        const deep = share * d;
        const chord = (z: number) => 2 * Math.sqrt(z * (d - z)) * other;
        const lying = lyingCylinderL(d, other, deep) as number;
        // Slices of a round floor miss a little of it.
        expect(Math.abs(lying - sliced(deep, chord))).toBeLessThan(1e-4 * (1 + (d * d * other) / 1000));
        const disc = (z: number) => Math.PI * z * (d - z);
        expect(Math.abs((bowlL(d, deep) as number) - sliced(deep, disc))).toBeLessThan(1e-4);
      }),
    );
  });

  test("a bucket as wide below as above is a cylinder; drum and bowl filled to the rim are whole", () => {
    expect(bucketL(28, 28, 30, 20)).toBeCloseTo(cylinderL(28, 20), 10);
    expect(conicalL(20, 0, 40, 30)).toBeCloseTo(cylinderL(20, 30), 10);
    expect(lyingCylinderL(40, 90, 40)).toBeCloseTo(cylinderL(40, 90), 10);
    expect(lyingCylinderL(40, 90, 20)).toBeCloseTo(cylinderL(40, 90) / 2, 10);
    expect(bowlL(30, 30)).toBeCloseTo((Math.PI * 30 ** 3) / 6 / 1000, 10);
  });

  test("a volume stands as high as that height holds", () => {
    const shapes: readonly (readonly [number, (height: number) => Figure])[] = [
      [32, (height) => bucketL(22, 30, 32, height)],
      [60, (height) => conicalL(20, 25, 60, height)],
      [40, (height) => lyingCylinderL(40, 90, height)],
      [30, (height) => bowlL(30, height)],
    ];
    for (const [full, litresAt] of shapes) {
      const brim = litresAt(full) as number;
      expect(fillHeightCm(brim, full, litresAt)).toBeCloseTo(full, 4);
      expect(isOutside(fillHeightCm(brim + 0.01, full, litresAt))).toBe(true);
      fc.assert(
        fc.property(part, (share) => {
          const height = fillHeightCm(share * brim, full, litresAt) as number;
          expect(litresAt(height)).toBeCloseTo(share * brim, 8);
        }),
      );
    }
  });

  test("a centimetre of a bucket is more above than below, and what its circle says", () => {
    const bucket = (height: number) => bucketL(22, 30, 32, height);
    expect(litresPerCm(28, 32, bucket)).toBeGreaterThan(litresPerCm(5, 32, bucket) as number);
    expect(litresPerCm(16, 32, bucket)).toBeCloseTo((Math.PI * 13 ** 2) / 1000, 3);
    expect(litresPerCm(0, 32, (height) => bucketL(25, 25, 32, height))).toBeCloseTo(cylinderL(25, 1), 10);
  });

  test("vessels that cannot be give a reason", () => {
    for (const refused of [
      bucketL(-1, 30, 30, 10),
      bucketL(20, 0, 30, 10),
      bucketL(20, 30, 0, 0),
      bucketL(20, 30, 30, 31),
      bucketL(20, 30, 30, Number.NaN),
      conicalL(20, 50, 40, 10),
      conicalL(0, 0, 40, 10),
      conicalL(-5, 20, 40, 10),
      lyingCylinderL(40, 0, 10),
      lyingCylinderL(40, 90, 41),
      bowlL(30, -1),
      fillHeightCm(-1, 30, (height) => bowlL(30, height)),
      fillHeightCm(Number.NaN, 30, (height) => bowlL(30, height)),
      fillHeightCm(1, 31, (height) => bowlL(30, height)),
      litresPerCm(31, 30, (height) => bowlL(30, height)),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });
});
