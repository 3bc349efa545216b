import { nameOf, wordOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { animalsBefore, courses, entriesBefore, isAboutBefore } from "./course.ts";
import type { Ledger } from "./ledger.ts";
import { latestOf, meanOf, measuredBefore } from "./measured.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";
import { whyAnimals } from "./why-stock.ts";

/** What one animal of a species weighs in a tank, and how that is known. */
export interface Weight {
  /** NaN where nothing tells it. */
  readonly grams: number;
  readonly by: "measured" | "length" | "adult" | "nothing";
  readonly why: Why;
}

/**
 * The weight of one animal just before a time: as it was weighed last in this tank (the mean of that day); else the adult's weight that is
 * stated, times the cube of the measured length over the adult's; else the adult's weight as it stands, which is too much for young.
 *
 * That weight goes with the cube of length where the shape stays: Froese 2006, J. Appl. Ichthyol. 22:241-253 (recalled), who finds the
 * exponent between 2.5 and 3.5 for nearly all fish.
 */
export function weightOfOne(ledger: Ledger, tank: Tank, species: string, time: number): Weight {
  const what = `weight of one ${species} in ${tank.name}`;
  const measured = measuredBefore(ledger, tank, nameOf(species), time);
  const weighed = latestOf(measured, "weightG");
  if (weighed.length > 0) {
    const grams = meanOf(weighed, "weightG");
    const formula = "mean of the animals weighed last";
    return {
      grams,
      by: "measured",
      why: { what, value: gramText(grams), formula, from: weighed.map(whyEntry) },
    };
  }
  const stated = ledger.book.species.get(species);
  if (stated === undefined || Number.isNaN(stated.weightG))
    return {
      grams: Number.NaN,
      by: "nothing",
      why: { what, value: "not known: neither weighed nor stated", from: [] },
    };
  const lengths = latestOf(measured, "lengthCm");
  const adult = whyStated(stated.place);
  if (lengths.length > 0 && stated.adultCm > 0) {
    const grams = stated.weightG * (meanOf(lengths, "lengthCm") / stated.adultCm) ** 3;
    return {
      grams,
      by: "length",
      why: {
        what,
        value: gramText(grams),
        formula: "weight of an adult x (mean measured length / length of an adult)^3",
        source: "Froese 2006, J. Appl. Ichthyol. 22:241-253, on the cube (recalled)",
        from: [...lengths.map(whyEntry), adult],
      },
    };
  }
  const formula = "weight of an adult, as stated; young weigh less";
  return {
    grams: stated.weightG,
    by: "adult",
    why: { what, value: gramText(stated.weightG), formula, from: [adult] },
  };
}

export interface Mass {
  readonly species: string;
  readonly animals: number;
  readonly isAbout: boolean;
  readonly each: Weight;
  /** NaN where the weight of one is not known. */
  readonly grams: number;
}

/** The animals of a tank by mass. */
export interface Biomass {
  /** Of those whose weight is known. */
  readonly grams: number;
  readonly masses: readonly Mass[];
  /** Species of which nobody knows what they weigh. */
  readonly unknown: readonly string[];
  readonly why: Why;
}

/** What the animals in a tank weigh just before a time. */
export function biomass(ledger: Ledger, tank: Tank, time: number): Biomass {
  const masses: Mass[] = [];
  const from: Why[] = [];
  for (const course of courses(ledger)) {
    const animals = animalsBefore(course, time);
    if (course.holding.tank !== tank.id || !(animals > 0)) continue;
    const species = wordOf(course.holding.species);
    const each = weightOfOne(ledger, tank, species, time);
    const end = (course.at[entriesBefore(course, time) - 1] ?? -1) + 1;
    masses.push({
      species,
      animals,
      isAbout: isAboutBefore(ledger, course, time),
      each,
      grams: animals * each.grams,
    });
    from.push(whyAnimals(ledger, tank, species, `${species} in ${tank.name}`, end), each.why);
  }
  const known = masses.filter(({ grams }) => !Number.isNaN(grams));
  const grams = known.reduce((sum, mass) => sum + mass.grams, 0);
  return {
    grams,
    masses,
    unknown: masses.filter((mass) => Number.isNaN(mass.grams)).map(({ species }) => species),
    why: {
      what: `weight of the animals in ${tank.name}`,
      value: gramText(grams),
      formula: "animals x weight of one, added up",
      from,
    },
  };
}

const gramText = (grams: number): string => `${formatNumber(grams)} g`;
