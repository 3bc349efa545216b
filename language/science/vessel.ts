/**
 * Vessels whose water does not stand on a floor of one size: buckets, hatching cones, drums on their side,
 * bowls. Inside dimensions; elementary geometry. A height at which the water stands is answered up to the rim.
 */
import { negative, notPositive } from "./given.ts";
import { rootByHalving } from "./halving.ts";
import { beyond, type Figure, isOutside, type Outside, outside } from "./result.ts";

const CM3_PER_L = 1000;

/** A bucket or tub, round, wider or narrower at the top: pi h/3 (r1^2 + r1 r2 + r2^2) up to the water. */
export function bucketL(
  bottomDiameterCm: number,
  topDiameterCm: number,
  fullHeightCm: number,
  waterHeightCm: number,
): Figure {
  const refused =
    negative("bottom diameter", bottomDiameterCm, "cm") ??
    notPositive("top diameter", topDiameterCm, "cm") ??
    waterIn(fullHeightCm, waterHeightCm);
  if (refused !== undefined) return refused;
  const low = bottomDiameterCm / 2;
  const surface = low + (topDiameterCm / 2 - low) * (waterHeightCm / fullHeightCm);
  return (Math.PI * waterHeightCm * (low ** 2 + low * surface + surface ** 2)) / 3 / CM3_PER_L;
}

/** A hatching cone: a cone on its point, and a cylinder of its diameter above. */
export function conicalL(
  diameterCm: number,
  coneHeightCm: number,
  fullHeightCm: number,
  waterHeightCm: number,
): Figure {
  const refused =
    waterIn(fullHeightCm, waterHeightCm) ?? beyond("height of the cone", coneHeightCm, 0, fullHeightCm, "cm");
  if (refused !== undefined) return refused;
  const straight = Math.max(0, waterHeightCm - coneHeightCm);
  const floor = Math.PI * (diameterCm / 2) ** 2;
  if (coneHeightCm === 0) return notPositive("diameter", diameterCm, "cm") ?? (floor * straight) / CM3_PER_L;
  const cone = bucketL(0, diameterCm, coneHeightCm, Math.min(waterHeightCm, coneHeightCm));
  return isOutside(cone) ? cone : cone + (floor * straight) / CM3_PER_L;
}

/** A drum on its side: the circular segment r^2 acos((r-h)/r) - (r-h) sqrt(2rh - h^2), times its length. */
export function lyingCylinderL(diameterCm: number, lengthCm: number, waterHeightCm: number): Figure {
  const refused = notPositive("length", lengthCm, "cm") ?? waterIn(diameterCm, waterHeightCm, "diameter");
  if (refused !== undefined) return refused;
  const r = diameterCm / 2;
  const below = r - waterHeightCm;
  // The root cannot turn negative by the last bit at the rim.
  const halfChord = Math.sqrt(Math.max(0, waterHeightCm * (diameterCm - waterHeightCm)));
  const segment = r ** 2 * Math.atan2(halfChord, below) - below * halfChord;
  return (segment * lengthCm) / CM3_PER_L;
}

/** A round bowl, part of a sphere, by the diameter where it is widest: pi h^2 (3r - h)/3. */
export function bowlL(diameterCm: number, waterHeightCm: number): Figure {
  return (
    waterIn(diameterCm, waterHeightCm, "diameter") ??
    (Math.PI * waterHeightCm ** 2 * ((3 * diameterCm) / 2 - waterHeightCm)) / 3 / CM3_PER_L
  );
}

function waterIn(fullCm: number, waterHeightCm: number, name = "full height"): Outside | undefined {
  return notPositive(name, fullCm, "cm") ?? beyond("water height", waterHeightCm, 0, fullCm, "cm");
}

/**
 * How high a volume stands in a vessel, by halving.
 * @param litresAt the volume up to a height, one of the above with its dimensions filled in
 */
export function fillHeightCm(
  volumeL: number,
  fullHeightCm: number,
  litresAt: (waterHeightCm: number) => Figure,
): Figure {
  const full = litresAt(fullHeightCm);
  if (isOutside(full)) return full;
  const refused = negative("volume", volumeL, "L");
  if (refused !== undefined) return refused;
  // A vessel filled to the brim by its own figure must not overflow by the last bit.
  if (volumeL > full * (1 + 1e-12)) return outside(`the vessel holds ${full.toPrecision(3)} L`);
  return rootByHalving(0, fullHeightCm, (height) => (litresAt(height) as number) - volumeL);
}

/** The litres of the centimetre of water around a height; at the floor and the rim, of the half within. */
export function litresPerCm(
  waterHeightCm: number,
  fullHeightCm: number,
  litresAt: (waterHeightCm: number) => Figure,
): Figure {
  const refused = waterIn(fullHeightCm, waterHeightCm);
  if (refused !== undefined) return refused;
  const [low, high] = [Math.max(0, waterHeightCm - 0.5), Math.min(fullHeightCm, waterHeightCm + 0.5)];
  const [least, most] = [litresAt(low), litresAt(high)];
  if (isOutside(least)) return least;
  return isOutside(most) ? most : (most - least) / (high - low);
}
