import { either, nearest } from "../../quantity/nearest.ts";
import { molarMass } from "../../science/elements.ts";
import { isOutside, type Outside, outside } from "../../science/result.ts";
import { saltOf } from "../../science/salts.ts";

/**
 * Salts as they are written: by formula, `CaCl2.2H2O`, or by a name of chemistry or of the shelf. The water of
 * crystallisation is part of the mass, so a name that leaves it open (`calcium chloride`) is not here.
 */
const NAMES: Readonly<Record<string, string>> = {
  "sodium chloride": "NaCl",
  "table salt": "NaCl",
  salt: "NaCl",
  "potassium chloride": "KCl",
  "calcium chloride dihydrate": "CaCl2.2H2O",
  "calcium chloride anhydrous": "CaCl2",
  "calcium chloride hexahydrate": "CaCl2.6H2O",
  "magnesium chloride hexahydrate": "MgCl2.6H2O",
  gypsum: "CaSO4.2H2O",
  "calcium sulfate dihydrate": "CaSO4.2H2O",
  "plaster of paris": "2CaSO4.H2O",
  "calcium sulfate hemihydrate": "2CaSO4.H2O",
  "epsom salt": "MgSO4.7H2O",
  "magnesium sulfate heptahydrate": "MgSO4.7H2O",
  "magnesium sulfate anhydrous": "MgSO4",
  "potassium sulfate": "K2SO4",
  "sodium bicarbonate": "NaHCO3",
  "baking soda": "NaHCO3",
  "potassium bicarbonate": "KHCO3",
  "potassium carbonate": "K2CO3",
  "sodium carbonate": "Na2CO3",
  "washing soda": "Na2CO3.10H2O",
  "calcium carbonate": "CaCO3",
  chalk: "CaCO3",
  dolomite: "CaMg(CO3)2",
  "potassium nitrate": "KNO3",
  saltpetre: "KNO3",
  "calcium nitrate tetrahydrate": "Ca(NO3)2.4H2O",
  "magnesium nitrate hexahydrate": "Mg(NO3)2.6H2O",
  "monopotassium phosphate": "KH2PO4",
  "dipotassium phosphate": "K2HPO4",
  urea: "CO(NH2)2",
};

/** The formula of what is written, whatever it brings; a reason that names the input where it does not read. */
export function formulaNamed(input: string, text: string): string | Outside {
  const said = text.trim();
  const name = said.toLowerCase().replaceAll(/\s+/g, " ");
  const named = Object.hasOwn(NAMES, name) ? NAMES[name]! : undefined;
  const formula = named ?? said.replaceAll(/\s*[·*•]\s*/g, ".");
  if (!isOutside(molarMass(formula))) return formula;
  return outside(
    `${input}: “${said}” is no formula of known elements and no salt known by that name${hint(name)}`,
  );
}

/** The same of a salt whose ions are known. */
export function saltNamed(input: string, text: string): string | Outside {
  const formula = formulaNamed(input, text);
  if (isOutside(formula)) return formula;
  if (!isOutside(saltOf(formula))) return formula;
  return outside(`${input}: what ${formula} dissolves to is not known here`);
}

/** Several, parted by commas. */
export function saltsNamed(input: string, text: string): readonly string[] | Outside {
  const found: string[] = [];
  for (const part of text.split(/[,;]/).filter((each) => each.trim() !== "")) {
    const formula = saltNamed(input, part);
    if (isOutside(formula)) return formula;
    if (found.includes(formula)) return outside(`${input}: ${formula} stands in the list twice`);
    found.push(formula);
  }
  return found;
}

/** The nearest names: those that begin so, those spelled nearly so, those of which the first word is (`epson`). */
function hint(name: string): string {
  const all = Object.keys(NAMES);
  const firstOf = (each: string): string => each.split(" ")[0]!;
  const begun = all.filter((each) => each.startsWith(name));
  const spelled = begun.length > 0 ? begun : nearest(name, all);
  const firsts = nearest(firstOf(name), all.map(firstOf));
  const near = spelled.length > 0 ? spelled : all.filter((each) => firsts.includes(firstOf(each)));
  return near.length === 0 ? "" : `; known is ${either(near.slice(0, 3))}`;
}
