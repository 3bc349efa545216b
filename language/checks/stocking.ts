import { wordOf } from "../book/interner.ts";
import type { Place, Species, Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { biomass } from "../room/biomass.ts";
import { animalsBefore, type Course, courses, entriesBefore, isAboutBefore } from "../room/course.ts";
import type { Ledger } from "../room/ledger.ts";
import { type Why, whyStated } from "../room/why.ts";
import { whyAnimals } from "../room/why-stock.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";

/** Who lives in a tank today, against what its keeper states of the tank and of the species. */

const tanks = `tank dam
  volume 300 L
`;

export const stockingPages = [
  page({
    code: "stock/school",
    severity: "warning",
    since: "0.2",
    title: "Fewer than a school",
    says: "In the tank are fewer of the species than its keeper states as its school, by the book, since the entry that is marked: fish that live in groups hide or fight where they are few. It is not said of tanks whose role is to breed, to keep apart, to hold or to treat.",
    whatToDo: "Bring more, give away the rest together, or state another school.",
    raises: `species praecox
  school >= 8
${tanks}2026-03-01
  dam arrive praecox 12
2026-03-08
  dam sell praecox 6
#                  ^ stock/school`,
    fine: `species praecox
  school >= 8
${tanks}2026-03-01
  dam arrive praecox 12
2026-03-08
  dam sell praecox 4`,
    source:
      "How many is the keeper's to state. That larger groups are calmer: Saxby, Adams, Snellgrove, Wilson & Sneddon 2010, Appl. Anim. Behav. Sci. 125:195-205 (four species; recalled).",
  }),
  page({
    code: "stock/size",
    severity: "warning",
    since: "0.2",
    title: "Too large for the tank when grown",
    says: "The adult length of the species is beyond what the tank suits, as its keeper states both. It is not said of tanks whose role is to keep apart, to hold or to treat.",
    whatToDo: "Plan where they go before they are grown, or state another cap.",
    raises: `species boesemani
  adult 11 cm
tank dam
  volume 60 L
  cap    8 cm
2026-03-01
  dam arrive boesemani 6
#            ^^^^^^^^^ stock/size`,
    fine: `species boesemani
  adult 8 cm
tank dam
  volume 60 L
  cap    8 cm
2026-03-01
  dam arrive boesemani 6`,
  }),
  page({
    code: "stock/apart",
    severity: "warning",
    since: "0.2",
    title: "Species that should be kept apart",
    says: "In the tank lives a species together with one that, as its keeper states, it should not be kept with.",
    whatToDo: "Move one of them, or state otherwise.",
    raises: `species praecox
  apart shrimp
species cherry
  kind shrimp
${tanks}2026-03-01
  dam arrive praecox 8
2026-03-08
  dam arrive cherry 20
#            ^^^^^^ stock/apart`,
    fine: `species praecox
  apart shrimp
species horn
  kind snail
${tanks}2026-03-01
  dam arrive praecox 8
2026-03-08
  dam arrive horn 20`,
  }),
  page({
    code: "stock/over-capacity",
    severity: "warning",
    since: "0.2",
    title: "More than the tank holds",
    says: "The animals in the tank are more, or weigh more, than its keeper states that it bears. What one weighs is as it was weighed last, else the weight of an adult scaled by the cube of its measured length, else the weight of an adult; what nobody knows the weight of is left out.",
    whatToDo: "Move some, or state another stocking. Change more water and test more often until then.",
    raises: `species praecox
  weight 2.5 g
tank dam
  volume 60 L
  holds  20 g
2026-03-01
  dam arrive praecox 9
#                    ^ stock/over-capacity`,
    fine: `species praecox
  weight 2.5 g
tank dam
  volume 60 L
  holds  20 g
2026-03-01
  dam arrive praecox 8`,
    source:
      "Weight with the cube of length: Froese 2006, J. Appl. Ichthyol. 22:241-253 (recalled). How much is the keeper's to state.",
  }),
] as const;

interface Here {
  readonly tank: Tank;
  readonly course: Course;
  readonly name: string;
  readonly species: Species | undefined;
  readonly animals: number;
  readonly isAbout: boolean;
  /** The index of its last entry. */
  readonly last: number;
}

/** What the animals of a water, as they are at the end of a day, tell. */
export function stockingFindings(ledger: Ledger, day: number): RowFinding[] {
  const byTank = new Map<number, Here[]>();
  for (const here of residents(ledger, day))
    byTank.set(here.tank.id, [...(byTank.get(here.tank.id) ?? []), here]);
  return [...byTank.values()].flatMap((all) => [
    ...all.flatMap((here) => [...schoolFinding(ledger, here), ...sizeFinding(here)]),
    ...all.flatMap((here) => all.flatMap((other) => apartFinding(ledger, here, other))),
    ...capacityFinding(ledger, all, day),
  ]);
}

function residents(ledger: Ledger, day: number): Here[] {
  const { book } = ledger;
  return courses(ledger).flatMap((course) => {
    const animals = animalsBefore(course, day + 1);
    if (!(animals > 0)) return [];
    const name = wordOf(course.holding.species);
    return [
      {
        tank: book.stations[course.holding.tank] as Tank,
        course,
        name,
        species: book.species.get(name),
        animals,
        isAbout: isAboutBefore(ledger, course, day + 1),
        last: course.at[entriesBefore(course, day + 1) - 1]!,
      },
    ];
  });
}

/** A few are there for a while, or two by two. */
const apartRoles: ReadonlySet<string> = new Set(["quarantine", "hospital", "holding", "storage"]);
const fewRoles: ReadonlySet<string> = new Set([...apartRoles, "breeding", "culture"]);

/** A fifth either way, as of counts that are estimates. */
const estimate = 1.2;

function schoolFinding(ledger: Ledger, here: Here): RowFinding[] {
  const { tank, species, animals, isAbout, name } = here;
  const school = species?.school ?? Number.NaN;
  if (!(animals * (isAbout ? estimate : 1) < school) || fewRoles.has(tank.role ?? "")) return [];
  return [
    at(here, "stock/school", ["animals"], {
      message: `${said(here)} ${animals === 1 ? "is" : "are"} in ${tank.name}: as stated, a school is ${school} at least`,
      why: {
        what: `${name} in ${tank.name}, against a school`,
        value: `${said(here)}, stated ${school}`,
        from: [whyOf(ledger, here), whyStated(species!.place)],
      },
      related: species!.place,
      entry: sinceWhen(here, school),
    }),
  ];
}

function sizeFinding(here: Here): RowFinding[] {
  const { tank, species, name } = here;
  if (!(species !== undefined && species.adultCm > tank.capCm) || apartRoles.has(tank.role ?? "")) return [];
  return [
    at(here, "stock/size", ["species"], {
      message: `${name} grow to ${formatNumber(species.adultCm)} cm; ${tank.name} suits ${formatNumber(tank.capCm)} cm at most`,
      why: {
        what: `adult length of ${name} against ${tank.name}`,
        value: `${formatNumber(species.adultCm)} cm, cap ${formatNumber(tank.capCm)} cm`,
        from: [whyStated(species.place), ...(tank.place === undefined ? [] : [whyStated(tank.place)])],
      },
      related: species.place,
      entry: sinceWhen(here),
    }),
  ];
}

/** One of two species that are in a tank states that it is to be kept from the other: said at the entry that brought them together. */
function apartFinding(ledger: Ledger, here: Here, other: Here): RowFinding[] {
  const { species, name, tank } = here;
  if (species === undefined || here === other) return [];
  const traits = other.species?.traits ?? new Set([other.name]);
  const word = species.apart.find((each) => traits.has(each));
  if (word === undefined) return [];
  // Where each states it of the other, one says it.
  const isMutual = other.species?.apart.some((each) => species.traits.has(each)) === true;
  if (isMutual && name > other.name) return [];
  const [first, second] = [sinceWhen(here), sinceWhen(other)];
  const later = isLater(here.course, first, second) ? here : other;
  const what = word === other.name ? word : `${word} (${other.name})`;
  return [
    at(later, "stock/apart", ["species"], {
      message: `${name} should not be kept with ${what}, as stated; both live in ${tank.name}`,
      why: {
        what: `${name} and ${other.name} in ${tank.name}`,
        value: `stated apart: ${word}`,
        from: [whyOf(ledger, here), whyOf(ledger, other), whyStated(species.place)],
      },
      related: species.place,
      entry: later === here ? first : second,
    }),
  ];
}

/** The entry, by its index, since which there are some, and fewer than so many. */
function sinceWhen({ course, last }: Here, fewerThan = Number.POSITIVE_INFINITY): number {
  const { series, at: entries } = course;
  let since = last;
  for (let index = entries.indexOf(last); index >= 0; index--) {
    const animals = series.second[entries[index]!]!;
    if (!(animals > 0 && animals < fewerThan)) break;
    since = entries[index]!;
  }
  return since;
}

const isLater = ({ series }: Course, one: number, other: number): boolean =>
  series.time[one]! > series.time[other]! || (series.time[one] === series.time[other] && one > other);

function capacityFinding(ledger: Ledger, all: readonly Here[], day: number): RowFinding[] {
  const { tank } = all[0]!;
  const { holds } = tank;
  if (holds === undefined) return [];
  const last = all.reduce((one, other) => (isLater(one.course, one.last, other.last) ? one : other));
  const figure = stockingFigure(ledger, all, day);
  if (figure === undefined || !(figure.is > figure.most)) return [];
  return [
    at(last, "stock/over-capacity", ["animals"], {
      message: `${figure.text} in ${tank.name}; it holds ${figure.stated} at most, as stated`,
      why: { ...figure.why, from: [figure.why, whyStated(holds.place)], what: `stocking of ${tank.name}` },
      related: holds.place,
    }),
  ];
}

interface StockingFigure {
  readonly is: number;
  readonly most: number;
  readonly text: string;
  readonly stated: string;
  readonly why: Why;
}

/** The stocking in the terms in which the tank states it; an estimate counts a fifth less, to be held against it. */
function stockingFigure(ledger: Ledger, all: readonly Here[], day: number): StockingFigure | undefined {
  const { tank } = all[0]!;
  const { is, most } = tank.holds!;
  if (is === "animals") {
    const animals = all.reduce((sum, here) => sum + here.animals / (here.isAbout ? estimate : 1), 0);
    const whole = all.reduce((sum, here) => sum + here.animals, 0);
    return {
      is: animals,
      most,
      text: `${all.some(({ isAbout }) => isAbout) ? "about " : ""}${whole} animals are`,
      stated: formatNumber(most),
      why: {
        what: `animals in ${tank.name}`,
        value: formatNumber(whole, 6),
        formula: "all species added up",
        from: all.map((here) => whyOf(ledger, here)),
      },
    };
  }
  const mass = biomass(ledger, tank, day + 1);
  const known = mass.masses.filter(({ grams }) => !Number.isNaN(grams));
  const sure = known.reduce((sum, { grams, isAbout }) => sum + grams / (isAbout ? estimate : 1), 0);
  const litres = is === "grams" ? 1 : tank.volumeL;
  const unit = is === "grams" ? "g" : "g/L";
  return {
    is: sure / litres,
    most,
    text: `animals that weigh ${formatNumber(mass.grams / litres)} ${unit} are`,
    stated: `${formatNumber(most)} ${unit}`,
    why: mass.why,
  };
}

function whyOf(ledger: Ledger, { tank, name, last }: Here): Why {
  return whyAnimals(ledger, tank, name, `${name} in ${tank.name}`, last + 1);
}

const said = ({ animals, isAbout, name }: Here): string =>
  `${isAbout ? "about " : ""}${formatNumber(animals, 6)} ${name}`;

function at(
  { course, tank, last }: Here,
  code: "stock/school" | "stock/size" | "stock/apart" | "stock/over-capacity",
  slots: readonly string[],
  { message, why, related, entry = last }: { message: string; why: Why; related: Place; entry?: number },
): RowFinding {
  return {
    code,
    block: course.series.block[entry]!,
    row: course.series.row[entry]!,
    slots,
    severity: () => "warning",
    message: () => message,
    related: () => [{ place: related, message: "as stated" }],
    why: () => why,
    about: tank,
  };
}
