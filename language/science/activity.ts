/** What the ions of fresh water do to each other: the more there are, the less each acts. */
import { beyond, type Figure } from "./result.ts";

/**
 * Activity coefficient of an ion of one charge, by Davies 1962 (Ion Association; recalled):
 * log g = -0.509 (sqrt I/(1 + sqrt I) - 0.3 I), at 25 C. From 0 to 40 C the factor 0.509 lies between 0.49 and
 * 0.53 (recalled), which is 0.5 % of g in tap water. Kept to 0.1 mol/L.
 */
export function ionActivity(ionicStrengthMolL: number): Figure {
  const root = Math.sqrt(ionicStrengthMolL);
  return (
    beyond("ionic strength", ionicStrengthMolL, 0, 0.1, "mol/L") ??
    10 ** (-0.509 * (root / (1 + root) - 0.3 * ionicStrengthMolL))
  );
}

/**
 * Ionic strength of fresh water, mol/L, about: 1.6e-5 times the conductivity at 25 C (Russell, as in Snoeyink &
 * Jenkins 1980, Water Chemistry; recalled).
 */
export function ionicStrengthOf(at25USPerCm: number): Figure {
  return beyond("conductivity", at25USPerCm, 0, 2000, "uS/cm") ?? 1.6e-5 * at25USPerCm;
}
