import { calciumMgL, hardnessMgLCaCO3 } from "../../../language/science/hardness.ts";
import { cylinderL, rectangleL, trapezoidL } from "../../../language/science/volume.ts";
import { converted, type Inputs } from "../inputs.ts";
import type { Calculation, Calculations } from "../mapping.ts";

/** A plain conversion: `key` in one unit, said in another. */
function conversion(key: string, from: string, to: string): Calculation {
  return (given) => converted(given.number(key), from, to);
}

const rectangle = (given: Inputs, depth: string) =>
  rectangleL(given.in("L", "cm"), given.in("W", "cm"), given.in(depth, "cm"));
const cylinder = (given: Inputs) => cylinderL(given.in("diam", "cm"), given.in("D", "cm"));
const hardness = (given: Inputs) => hardnessMgLCaCO3(given.number("Ca_mg_L", 0), given.number("Mg_mg_L", 0));

/** Files 05 and 07. A dH here is a dGH: one size, two uses. */
export const units: Calculations = {
  mmol_per_dH: conversion("x_dH", "dH", "mmol/L Ca"),
  meq_per_dH: conversion("x_dH", "dH", "meq/L"),
  mgCaCO3_per_dH: conversion("x_dH", "dH", "mg/L CaCO3"),
  mgCaCO3_per_eH: conversion("x_English", "eH", "mg/L CaCO3"),
  mgCaCO3_per_fH: conversion("x_French", "fH", "mg/L CaCO3"),
  fH_per_dH: conversion("x_dH", "dH", "fH"),
  dH_per_mmol: conversion("x_mmol_L", "mmol/L Ca", "dH"),
  fH_per_mmol: conversion("x_mmol_L", "mmol/L Ca", "fH"),
  eH_per_mmol: conversion("x_mmol_L", "mmol/L Ca", "eH"),
  dH_from_meq: conversion("x_meq_L", "meq/L", "dH"),
  mgCaCO3_from_meq: conversion("x_meq_L", "meq/L", "mg/L CaCO3"),
  mgCaCO3_per_grain_per_USgal: conversion("x_gpg", "gpg", "mg/L CaCO3"),
  hardness_from_ca_mg: hardness,
  hardness_factor_ca: (given) => hardnessMgLCaCO3(given.number("x_Ca_mg_L"), 0),
  hardness_factor_mg: (given) => hardnessMgLCaCO3(0, given.number("x_Mg_mg_L")),
  hardness_from_ca_mg_dGH: (given) => converted(hardness(given), "mg/L CaCO3", "dGH"),
  dH_to_mgCaCO3: conversion("x_dH", "dH", "mg/L CaCO3"),
  mgCaCO3_to_dH: conversion("x_mgCaCO3_L", "mg/L CaCO3", "dH"),
  dKH_to_meq: conversion("x_dKH", "dKH", "meq/L"),
  meq_to_dKH: conversion("x_meq_L", "meq/L", "dKH"),
  dKH_to_mgHCO3: conversion("x_dKH", "dKH", "mg/L HCO3"),
  eH_to_dH: conversion("x_eH", "eH", "dH"),
  dH_to_mgCa: (given) => calciumMgL(converted(given.number("x_dH"), "dH", "meq/L")),

  us_gal_to_L: conversion("x_usgal", "US gal", "L"),
  imp_gal_to_L: conversion("x_impgal", "imp gal", "L"),
  cubic_inch_to_L: conversion("x_in3", "in3", "L"),
  us_tbsp_to_mL: conversion("x_tbsp", "US tbsp", "mL"),
  us_quart_to_L: conversion("x_usqt", "US qt", "L"),
  us_cup_to_mL: conversion("x_cup", "US cup", "mL"),
  imp_pint_to_mL: conversion("x_imppt", "imp pt", "mL"),
  cubic_foot_to_L: conversion("x_ft3", "ft3", "L"),
  us_tsp_to_mL: conversion("x_tsp", "US tsp", "mL"),
  us_gal_in_cubic_inches: conversion("x_usgal", "US gal", "in3"),
  imp_gal_in_us_gal: conversion("x_impgal", "imp gal", "US gal"),
  cubic_foot_in_us_gal: conversion("x_ft3", "ft3", "US gal"),
  litre_in_imp_gal: conversion("x_L", "L", "imp gal"),
  pound_to_g: conversion("x_lb", "lb", "g"),
  ounce_to_g: conversion("x_oz", "oz av", "g"),
  acre_foot_in_cubic_feet: (given) => given.in("x", "ft3"),
  acre_foot_in_us_gal: (given) => given.in("x", "US gal"),
  L_to_us_gal: conversion("x_L", "L", "US gal"),
  us_floz_to_mL: conversion("x_usfloz", "US fl oz", "mL"),
  F_to_C: conversion("x_F", "F", "C"),
  C_to_F: conversion("x_C", "C", "F"),
  tank_volume_rect: (given) => rectangle(given, "H"),
  tank_volume_rect_usgal: (given) => converted(rectangle(given, "H"), "L", "US gal"),
  volume_rect_ft3: (given) => converted(rectangle(given, "D"), "L", "ft3"),
  volume_cyl_ft3: (given) => converted(cylinder(given), "L", "ft3"),
  volume_cyl_m3: (given) => converted(cylinder(given), "L", "m3"),
  volume_trapezoid_m3: (given) =>
    converted(
      trapezoidL(given.in("a", "cm"), given.in("b", "cm"), given.in("h", "cm"), given.in("D", "cm")),
      "L",
      "m3",
    ),
};
