/**
 * What is published of the substances that ornamental fish are treated with, to stand beside what the keeper states of a remedy. For
 * orientation only: of other fish, other water and other products; no default and no advice, and nothing is checked against it.
 */

/** `read`: an excerpt of the source was read. `recalled`: from memory, to be looked up. */
export type Known = "read" | "recalled";

export interface PublishedRange {
  /** `dip`, `prolonged`, `eggs`. */
  readonly use: string;
  readonly low: number;
  readonly high: number;
  readonly unit: "mg/L" | "g/L" | "uL/L";
  /** For how long, or how often; empty where nothing is said. */
  readonly time: string;
  readonly source: string;
  readonly known: Known;
}

export interface PublishedNote {
  readonly text: string;
  readonly source: string;
  readonly known: Known;
}

export interface PublishedDose {
  /** The active substance. */
  readonly substance: string;
  /** How keepers may write it, in lower case. */
  readonly names: readonly string[];
  readonly ranges: readonly PublishedRange[];
  /** How it is given, and how often. */
  readonly notes: readonly PublishedNote[];
  readonly cautions: readonly PublishedNote[];
}

export const publishedCaution =
  "Published for orientation, of other fish and other water: no advice, and no dose. Species, temperature, hardness, the label, the law and a veterinarian decide; in many places medicines, antibiotics first of all, may be given on a prescription only.";

const manual = "veterinary manual, table of drugs approved for aquaculture in the USA";
const cards = "revision cards of a veterinary-manual chapter, weak: look it up in the manual";
const formulary = "exotic animal formulary, fish chapter";
const saltArticles = "articles on salt in a magazine of the seafood industry";
const tetras = "Acta Amazonica, trial on juvenile Hemigrammus";
const filters = "International Journal of Recirculating Aquaculture 1, 2000";
const memory = "no source at hand";

const range = (
  use: string,
  low: number,
  high: number,
  unit: PublishedRange["unit"],
  time: string,
  source: string,
  known: Known = "read",
): PublishedRange => ({ use, low, high, unit, time, source, known });
const read = (text: string, source: string): PublishedNote => ({ text, source, known: "read" });
const recalled = (text: string, source = memory): PublishedNote => ({ text, source, known: "recalled" });

export const publishedDoses: readonly PublishedDose[] = [
  {
    substance: "sodium chloride",
    names: ["salt", "nacl", "sodium-chloride", "cooking salt", "sea salt"],
    ranges: [
      range("dip", 30, 30, "g/L", "0.5..10 min, ended when fish roll", cards),
      range("transport", 5, 10, "g/L", "", cards),
      range("prolonged", 1, 3, "g/L", "", memory, "recalled"),
      range("eggs", 20, 30, "g/L", "10..15 min", saltArticles),
      range("eggs and fry", 3, 5, "g/L", "", saltArticles),
    ],
    notes: [read("try it on a few first", cards)],
    cautions: [
      recalled("plants, many snails, species of soft water and some catfish and loaches do not bear it"),
    ],
  },
  {
    substance: "formalin (37 % formaldehyde)",
    names: ["formalin", "formaldehyde", "formol"],
    ranges: [
      range("bath", 0, 250, "uL/L", "at most 1 h; salmonids above 10 C at most 170 uL/L", manual),
      range("eggs", 1000, 2000, "uL/L", "15 min", manual),
      range("prolonged", 15, 25, "mg/L", "with strong aeration", cards),
    ],
    notes: [
      read("repeated after 5..10 d in ponds; a few fish are tried first; not kept below 4.4 C", manual),
    ],
    cautions: [
      read(
        "1-h baths on 3 days of 250 uL/L killed all and of 100 uL/L 66 % of juvenile tetras; 25 uL/L for 24 h cut flukes by 78 %",
        tetras,
      ),
      read("167 mg/L in a recycled bath did not harm a sand filter significantly, 300 mg/L did", filters),
      recalled("oxygen falls; with a white precipitate it is thrown away"),
      read(
        "for people: a carcinogen, no contact with skin and eyes, limits in air 0.75 ppm over 8 h and 2 ppm over 15 min (USA); far lower ones are recommended",
        "OSHA and NIOSH on formaldehyde",
      ),
    ],
  },
  {
    substance: "copper (as Cu2+)",
    names: ["copper", "copper sulphate", "copper sulfate", "copper-sulphate", "copper-sulfate", "cuso4"],
    ranges: [range("sea water", 0.18, 0.2, "mg/L", "at most 3 weeks, tested often", cards)],
    notes: [
      recalled(
        "fresh water: CuSO4·5H2O in mg/L = alkalinity in mg/L CaCO3 / 100, and not below an alkalinity of 50 mg/L; measured twice a day",
        "SRAC fact sheets on copper sulphate",
      ),
    ],
    cautions: [
      read(
        "kills invertebrates and plants: half of an amphipod, a prawn and a snail died at 0.020..0.039 mg/L in 96 h, of another snail at 0.016 mg/L in 3 weeks; one snail with a lid stood 1.7 mg/L",
        "papers on the toxicity of copper to Gammarus, Macrobrachium, Physa and Theodoxus",
      ),
      read("0.3 mg/L of copper sulphate for 24 h killed 80 % of juvenile tetras", tetras),
      recalled("binds to the ground and comes out of it later"),
    ],
  },
  {
    substance: "praziquantel",
    names: ["praziquantel", "prazi"],
    ranges: [
      range("bath", 2, 2, "mg/L", "30 h, best of five in one trial on flukes", "trial on monogenean flukes"),
      range("prolonged", 2, 10, "mg/L", "", memory, "recalled"),
    ],
    notes: [read("repeated for flukes that lay eggs", "trial on monogenean flukes")],
    cautions: [recalled("eggs survive it; it breaks down and adsorbs")],
  },
  {
    substance: "levamisole",
    names: ["levamisole", "levamisol", "levamisole hydrochloride", "levamisole hcl"],
    ranges: [
      range("bath", 1, 2, "mg/L", "24 h", memory, "recalled"),
      range(
        "bath, one trial on tambaqui",
        125,
        125,
        "mg/L",
        "24 h without a death: so far do sources differ",
        "trial on monogenean flukes",
      ),
    ],
    notes: [recalled("repeated after 2..3 weeks")],
    cautions: [recalled("dark and without carbon is common practice; on prescription in places")],
  },
  {
    substance: "metronidazole",
    names: ["metronidazole", "metronidazol"],
    ranges: [range("bath", 25, 25, "mg/L", "every 48 h, 3 times; or in the food", memory, "recalled")],
    notes: [],
    cautions: [recalled("on prescription; never for fish that are eaten")],
  },
  {
    substance: "malachite green",
    names: ["malachite green", "malachite-green", "malachite"],
    ranges: [range("prolonged", 0.05, 0.1, "mg/L", "", memory, "recalled")],
    notes: [],
    cautions: [
      recalled(
        "forbidden in fish that are eaten, suspected to cause cancer; tetras and scaleless fish bear half or none, plants, eggs and shrimp none",
      ),
      read("set off blooms of cyanobacteria, and ammonium, in model ponds", "Water 13:411"),
    ],
  },
  {
    substance: "methylene blue",
    names: ["methylene blue", "methylene-blue", "methylthioninium chloride"],
    ranges: [range("prolonged", 1, 3, "mg/L", "against fungus of eggs, and nitrite", memory, "recalled")],
    notes: [],
    cautions: [recalled("stains; kills the bacteria of the filter; plants suffer")],
  },
  {
    substance: "acriflavine",
    names: ["acriflavine", "acriflavin"],
    ranges: [
      range("prolonged", 4, 4, "mg/L", "", formulary),
      range("bath", 10, 10, "mg/L", "4 h", formulary),
    ],
    notes: [],
    cautions: [recalled("a dye: it stains")],
  },
  {
    substance: "benzalkonium chloride",
    names: ["benzalkonium chloride", "benzalkonium-chloride", "benzalkonium"],
    ranges: [
      range("prolonged", 0.5, 0.5, "mg/L", "", formulary),
      range("bath", 10, 10, "mg/L", "10 min", formulary),
    ],
    notes: [],
    cautions: [
      read(
        "1..2 mg/L in a recycled bath cut nitrification: 63 % less ammonia removed after several doses",
        filters,
      ),
      recalled("invertebrates"),
    ],
  },
  {
    substance: "hydrogen peroxide",
    names: ["hydrogen peroxide", "hydrogen-peroxide", "h2o2", "peroxide"],
    ranges: [
      range(
        "eggs of warm-water fish, in a flow",
        750,
        1000,
        "mg/L",
        "15 min, daily or every other day",
        manual,
      ),
    ],
    notes: [],
    cautions: [read("100 mg/L in standing water almost stopped nitrification within 24 h", filters)],
  },
  {
    substance: "chloramine-T",
    names: ["chloramine-t", "chloramine t", "tosylchloramide"],
    ranges: [],
    notes: [
      read(
        "on the label for bacterial gill disease and columnaris of some farmed fish",
        "US Food and Drug Administration, approved aquaculture drugs",
      ),
    ],
    cautions: [read("9 mg/L impaired nitrification", filters)],
  },
  {
    substance: "potassium permanganate",
    names: ["permanganate", "potassium permanganate", "potassium-permanganate", "kmno4"],
    ranges: [range("prolonged", 2, 2, "mg/L", "about", memory, "recalled")],
    notes: [recalled("thiosulphate and organic matter use it up")],
    cautions: [recalled("never with formalin or hydrogen peroxide")],
  },
  {
    substance: "antibiotics",
    names: [
      "antibiotic",
      "antibiotics",
      "oxytetracycline",
      "enrofloxacin",
      "florfenicol",
      "kanamycin",
      "nitrofurazone",
      "erythromycin",
      "doxycycline",
      "neomycin",
      "gentamicin",
      "amoxicillin",
    ],
    ranges: [],
    notes: [recalled("only by a veterinarian, after culture and a test of what is sensitive")],
    cautions: [
      recalled(
        "the filter suffers, resistance spreads; in many places the law forbids it without a prescription",
      ),
    ],
  },
];

const byName = new Map(publishedDoses.flatMap((dose) => dose.names.map((name) => [name, dose] as const)));

/** What is published of a substance, by its name as keepers write it; undefined where nothing is known here. */
export function publishedFor(substance: string): PublishedDose | undefined {
  const name = substance.trim().toLowerCase().replace(/\s+/g, " ");
  return byName.get(name) ?? publishedDoses.find((dose) => dose.substance.toLowerCase() === name);
}

/** A range in words: `dip 30 g/L, 0.5..10 min, ended when fish roll`. */
export function rangeText({ use, low, high, unit, time }: PublishedRange): string {
  const figure =
    low === high ? `${low} ${unit}` : low === 0 ? `up to ${high} ${unit}` : `${low}..${high} ${unit}`;
  return [`${use} ${figure}`, time].filter((part) => part !== "").join(", ");
}

/** Where it is from, in words: `(veterinary manual; read)`, `(recalled)`. */
export const sourceText = ({ source, known }: Pick<PublishedNote, "source" | "known">): string =>
  known === "read" ? source : source === memory ? "recalled, no source at hand" : `${source}, recalled`;
