import { ionicStrengthOf } from "../../science/activity.ts";
import { MEQ_PER_DEGREE } from "../../science/hardness.ts";
import type { Figure } from "../../science/result.ts";
import { quantity } from "../calculation.ts";

/** What of a fresh water says where its carbonate stands. */
export const carbonateWater = {
  KH: quantity("alkalinity", "dKH", [0, 1000], { from: "reading KH" }),
  temperature: quantity("temperature", "C", [-5, 50], { from: "reading temperature" }),
  conductivity: quantity("conductivity at 25 C, for the activity of ions", "uS/cm", [0, 1e5], {
    optional: true,
    from: "reading conductivity",
  }),
};

export const meqLOf = (dKH: number): number => dKH * MEQ_PER_DEGREE;

/** 0, ions taken to be fully active, where no conductivity is given. */
export const ionicStrength = (conductivity: number | undefined): Figure =>
  conductivity === undefined ? 0 : ionicStrengthOf(conductivity);

export const CARBONATE_SOURCES = [
  "Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040",
  "activity of ions: Davies 1962, Ion Association, recalled; ionic strength by conductivity: Snoeyink & Jenkins 1980, Water Chemistry, recalled",
] as const;

/** 420 ppm is near what outdoor air had in 2023 (NOAA, recalled). */
export const roomAir = quantity("carbon dioxide of the room's air", "uL/L", [0, 1e6], {
  otherwise: "420 ppm",
  isAbove: true,
  alike: "ppm",
});
