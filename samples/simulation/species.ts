import type { Definition } from "./definition.ts";

/** The animals. Masses and times are round figures, of the order of what such animals weigh and take; no source. */

export interface Species {
  readonly name: string;
  readonly adultG: number;
  readonly isFish: boolean;
  /** Counted by the eye, as about so many, and never to the last animal. */
  readonly uncounted: boolean;
  /** No fewer than this are kept together. */
  readonly school: number;
  readonly definition: Definition;
}

type Properties = Definition["properties"];

function species(
  name: string,
  scientific: string,
  adultG: number,
  about: {
    kind?: string;
    diet?: string;
    school?: number;
    adult?: string;
    needs?: string;
    uncounted?: boolean;
    apart?: string;
    hatches?: string;
    swims?: string;
    base?: string;
  },
): Species {
  const properties: [string, string][] = [["kind", about.kind ?? "fish"]];
  if (about.diet !== undefined) properties.push(["diet", about.diet]);
  if (about.school !== undefined) properties.push(["school", `>= ${about.school}`]);
  if (about.adult !== undefined) properties.push(["adult", about.adult]);
  if (about.needs !== undefined) properties.push(["needs", about.needs]);
  properties.push(["weight", `${adultG} g`]);
  if (about.apart !== undefined) properties.push(["apart", about.apart]);
  if (about.hatches !== undefined) properties.push(["hatches", about.hatches]);
  if (about.swims !== undefined) properties.push(["swims", about.swims]);
  if (about.base !== undefined) properties.push(["base", about.base]);
  return {
    name,
    adultG,
    isFish: about.kind === undefined,
    uncounted: about.uncounted ?? false,
    school: about.school ?? 1,
    definition: { word: "species", name, title: scientific, properties: properties satisfies Properties },
  };
}

const frozenFirst = "frozen at least 3 per 7 d, dry at most 2 per 7 d";

export const allSpecies: readonly Species[] = [
  species("boesemani", "Melanotaenia boesemani", 9, {
    diet: "omnivore",
    school: 6,
    adult: "11 cm",
    needs: frozenFirst,
    apart: "shrimp",
  }),
  species("praecox", "Melanotaenia praecox", 3, {
    diet: "omnivore",
    school: 6,
    adult: "6 cm",
    needs: frozenFirst,
    hatches: "6..8 d at 25 C",
    swims: "1..2 d at 25 C",
    base: "10 C",
  }),
  species("maccullochi", "Melanotaenia maccullochi", 3, {
    diet: "omnivore",
    school: 6,
    adult: "6 cm",
    needs: frozenFirst,
  }),
  species("gertrudae", "Pseudomugil gertrudae", 0.4, {
    diet: "micro-predator",
    school: 6,
    adult: "3 cm",
    needs: frozenFirst,
    hatches: "11..14 d at 25 C",
    swims: "1..2 d at 25 C",
    base: "10 C",
  }),
  species("furcatus", "Pseudomugil furcatus", 0.8, {
    diet: "micro-predator",
    school: 6,
    adult: "5 cm",
    needs: "live at least 2 per 7 d, dry at most 2 per 7 d",
  }),
  species("woworae", "Oryzias woworae", 0.5, {
    diet: "micro-predator",
    adult: "3 cm",
    needs: frozenFirst,
    hatches: "9..12 d at 25 C",
    swims: "1..2 d at 25 C",
    base: "10 C",
  }),
  species("gardneri", "Fundulopanchax gardneri", 2, {
    diet: "carnivore",
    adult: "6 cm",
    needs: frozenFirst,
    apart: "shrimp",
    hatches: "16..21 d at 23 C",
    swims: "0.5..2 d at 23 C",
    base: "10 C",
  }),
  species("striatum", "Aphyosemion striatum", 1, {
    diet: "carnivore",
    adult: "5 cm",
    needs: frozenFirst,
    apart: "shrimp",
  }),
  species("wingei", "Poecilia wingei", 0.4, {
    diet: "omnivore",
    adult: "4 cm",
    needs: "dry at most 2 per 7 d",
    uncounted: true,
  }),
  species("formosa", "Heterandria formosa", 0.2, {
    diet: "omnivore",
    adult: "3 cm",
    needs: "dry at most 2 per 7 d",
    uncounted: true,
  }),
  species("cherry", "Neocaridina davidi, red line", 0.15, {
    kind: "shrimp",
    adult: "3 cm",
    needs: "fresh at least 2 per 7 d",
    uncounted: true,
  }),
  species("sky", "Neocaridina davidi, blue line", 0.15, {
    kind: "shrimp",
    adult: "3 cm",
    needs: "fresh at least 2 per 7 d",
    uncounted: true,
  }),
  species("horn", "Clithon corona", 1, { kind: "snail", adult: "2 cm" }),
  species("ramshorn", "Planorbella duryi", 0.4, { kind: "snail", adult: "2 cm", uncounted: true }),
];

export function speciesOf(name: string): Species {
  const found = allSpecies.find((each) => each.name === name);
  if (found === undefined) throw new RangeError(`no species is called ${name}`);
  return found;
}
