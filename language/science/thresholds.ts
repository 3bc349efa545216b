/**
 * Published thresholds of water quality. They are what their authors wrote for their animals; a species' own
 * needs and local rules come first. Rows marked `recalled` were not re-read and must be confirmed before they
 * become anybody's default.
 */
export interface Threshold {
  readonly parameter: string;
  /** The animals meant, where the source says so. */
  readonly group?: "coldwater" | "tropical_fresh" | "tropical_marine";
  readonly value: number;
  readonly unit: string;
  readonly source: string;
  readonly recalled: boolean;
}

const OATA = "OATA Water Quality Criteria; CIEH Model Conditions for Pet Vending 2013";
const NRAC = "NRAC Bulletin 111-1993 (Bowser & Buttner)";
const PIPER = "Piper et al. 1982, Fish Hatchery Management";
const CLINICAL = "Clinical Guide to Fish Medicine (Wiley)";

function trade(
  group: Threshold["group"] & string,
  parameter: string,
  value: number,
  unit = "mg/L",
): Threshold {
  return { parameter, group, value, unit, source: OATA, recalled: true };
}

function published(parameter: string, value: number, unit: string, source: string): Threshold {
  return { parameter, value, unit, source, recalled: false };
}

export const THRESHOLDS: readonly Threshold[] = [
  trade("coldwater", "free_ammonia_max", 0.02),
  trade("coldwater", "nitrite_max", 0.2),
  trade("coldwater", "nitrate_max_above_ambient", 50),
  trade("coldwater", "DO_min", 6),
  trade("tropical_fresh", "free_ammonia_max", 0.02),
  trade("tropical_fresh", "nitrite_max", 0.2),
  trade("tropical_fresh", "nitrate_max_above_ambient", 50),
  trade("tropical_fresh", "DO_min", 6),
  trade("tropical_marine", "free_ammonia_max", 0.01),
  trade("tropical_marine", "nitrite_max", 0.125),
  trade("tropical_marine", "nitrate_max", 100),
  trade("tropical_marine", "DO_min", 5.5),
  trade("tropical_marine", "pH_min", 8.1, "pH"),
  published("DO_stress_warmwater", 3, "mg/L", NRAC),
  published("DO_stress_coldwater", 5, "mg/L", NRAC),
  published("NH3_stress", 0.02, "mg/L", NRAC),
  published("T_stress_coldwater", 21, "C", NRAC),
  published("pH_culture_min", 6.5, "pH", `${PIPER}, p. 11`),
  published("pH_culture_max", 9, "pH", `${PIPER}, p. 11`),
  published("feed_rate_min", 0.5, "% of body weight a day", `${PIPER}, p. 210`),
  published("feed_rate_max", 10, "% of body weight a day", `${PIPER}, p. 210`),
  published("haul_total_ammonia_harm_6h_trout", 11, "mg/L", `${PIPER}, p. 357`),
  published(
    "haul_density_min_channel_catfish",
    0.7,
    "kg/L",
    "Wynne 2007, World Aquaculture 38(1):42, trips of 1 to 4 h",
  ),
  published(
    "haul_density_max_channel_catfish",
    1,
    "kg/L",
    "Wynne 2007, World Aquaculture 38(1):42, trips of 1 to 4 h",
  ),
  published("seawater_salinity_min", 32, "g/L", CLINICAL),
  published("seawater_salinity_max", 35, "g/L", CLINICAL),
  published("CO2_target_max", 20, "mg/L", CLINICAL),
  published("chloride_insurance_catfish", 100, "mg/L", "SRAC 462 (Durborow, Crosby & Brunson 1997)"),
];

/** The threshold of a parameter, for a group of animals where the source has groups. */
export function threshold(parameter: string, group?: string): Threshold | undefined {
  return THRESHOLDS.find((each) => each.parameter === parameter && each.group === group);
}
