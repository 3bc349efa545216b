import { quantity } from "../calculation.ts";

/** What changes of water have in common. */

const LEVELS = [0, 1e6] as const;

/** A level of anything dissolved; nitrate may be said as the ion, as long as all levels are. */
export const level = (title: string) => quantity(title, "mg/L", LEVELS, { alike: "mg/L NO3" });
export const optionalLevel = (title: string) =>
  quantity(title, "mg/L", LEVELS, { alike: "mg/L NO3", optional: true });

/** What the new water itself holds. */
export const source = quantity("level of the new water", "mg/L", LEVELS, {
  alike: "mg/L NO3",
  otherwise: "0",
});

export const volume = quantity("net volume", "L", [0, 1e9], { isAbove: true, from: "volume" });
export const optionalVolume = quantity("net volume", "L", [0, 1e9], {
  isAbove: true,
  optional: true,
  from: "volume",
});

export const WELL_MIXED =
  "mass balance of a well-mixed volume: arithmetic; the same washout in Steffensen 1989, Fish Physiol. Biochem. 6:49-59, eq. 5, and CDC, MMWR 1994;43(RR-13), table S3-1";

export const SHOCK =
  "A large change is a shock of its own: match the temperature, treat chlorine before the water goes in, and spread what can wait.";

/** `change 35 %`, to the next whole per cent; nothing where none is needed. */
export function changeEntry(percent: unknown): string | undefined {
  if (typeof percent !== "number" || !(percent > 0)) return undefined;
  return `change ${Math.min(100, Math.ceil(percent - 1e-9))} %`;
}
