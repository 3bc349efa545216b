import { spokenDay } from "../../book/dates.ts";
import { nameOf, wordOf } from "../../book/interner.ts";
import type { Tank } from "../../book/stations.ts";
import { days } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { animalsBefore, courses, isAboutBefore } from "../../room/course.ts";
import { isDeath } from "../../room/losses.ts";
import { bornOfLot, lotStory, lotsAt } from "../../room/lots.ts";
import { latestOf, meanOf, measuredBefore } from "../../room/measured.ts";
import { movements } from "../../room/movement.ts";
import { type Field, field } from "./field.ts";
import type { SheetScope } from "./scope.ts";

/** The animals of the tanks: how many, how old, how large; those without signs too, as they share the water. */
export interface SheetAnimals {
  readonly tank: string;
  readonly species: string;
  /** `Melanotaenia praecox, adults 6 cm`. */
  readonly title: string;
  /** By the book at the beginning of the day of the first sign, and at the end of the day of the sheet. */
  readonly before: string;
  readonly now: string;
  /** As the latest entry says; empty where no entry names the species in this tank. */
  readonly atRisk: string;
  readonly sick: string;
  /** Deaths since the day of the first sign. */
  readonly dead: number;
  readonly age: Field;
  readonly size: Field;
}

export const sheetAnimals = (scope: SheetScope): SheetAnimals[] =>
  scope.tanks.flatMap((tank) => animalsOf(scope, tank));

function animalsOf(scope: SheetScope, tank: Tank): SheetAnimals[] {
  const { logbook, book, story, day } = scope;
  const ledger = logbook.ledgerOf(tank);
  const own = courses(ledger).filter(({ holding }) => holding.tank === tank.id);
  const sick = story.sick.filter(({ stations, day: on }) => stations.includes(tank) && on <= day);
  const named = new Set(sick.map(({ species }) => species));
  const rows = own.flatMap((course): Counted[] => {
    const species = wordOf(course.holding.species);
    const [before, now] = [animalsBefore(course, story.since), animalsBefore(course, day + 1)];
    const dead = movements(ledger, course, story.since, day + 1)
      .filter(isDeath)
      .reduce((sum, { animals }) => sum + animals, 0);
    if (!(before > 0) && !(now > 0) && dead === 0 && !named.has(species)) return [];
    named.delete(species);
    const count = (animals: number, time: number): string =>
      Number.isNaN(animals)
        ? ""
        : `${isAboutBefore(ledger, course, time) ? "~" : ""}${formatNumber(animals, 6)}`;
    return [
      { ...base(scope, tank, species), before: count(before, story.since), now: count(now, day + 1), dead },
    ];
  });
  // Animals that are sick where the book knows of none.
  const unknown = [...named].map(
    (species): Counted => ({
      ...base(scope, tank, species),
      before: "",
      now: "",
      dead: 0,
    }),
  );
  return [...rows, ...unknown].map((row) => {
    const latest = sick.findLast(({ species }) => species === row.species);
    const said = (animals: number | undefined): string =>
      animals === undefined || Number.isNaN(animals) ? "" : formatNumber(animals, 6);
    const stated = book.species.get(row.species);
    const adult =
      stated === undefined || Number.isNaN(stated.adultCm) ? "" : `adults ${formatNumber(stated.adultCm)} cm`;
    return {
      ...row,
      title: [stated?.title ?? "", adult].filter(Boolean).join(", "),
      atRisk: said(latest?.atRisk),
      sick: said(latest?.affected),
    };
  });
}

type Counted = Omit<SheetAnimals, "title" | "atRisk" | "sick">;

const base = (scope: SheetScope, tank: Tank, species: string) => ({
  tank: tank.name,
  species,
  age: ageOf(scope, tank, species),
  size: sizeOf(scope, tank, species),
});

function ageOf({ logbook, day }: SheetScope, tank: Tank, species: string): Field {
  const ages = lotsAt(logbook, day)
    .filter((home) => home.tank === tank && home.species === species)
    .flatMap(({ lot, animals }) => {
      const story = lotStory(logbook, lot);
      const born = story === undefined ? Number.NaN : bornOfLot(story);
      return born <= day
        ? [`lot ${lot} (${formatNumber(animals, 6)}): born ${spokenDay(born)}, ${ageText(day - born)}`]
        : [];
    });
  return field("Age", ages.join("; "), `“born” of a lot, or a hatch, of ${species} in ${tank.name}`);
}

/** `20 days`, `14 weeks`, `9 months`: as fine as the age. */
function ageText(count: number): string {
  if (count < 56) return days(count);
  return count < 365 ? `${Math.floor(count / 7)} weeks` : `${Math.floor(count / 30.4375)} months`;
}

function sizeOf({ logbook, day }: SheetScope, tank: Tank, species: string): Field {
  const measured = measuredBefore(logbook.ledgerOf(tank), tank, nameOf(species), day + 1);
  const parts = (
    [
      ["lengthCm", "", " cm"],
      ["weightG", "", " g"],
      ["score", "condition ", " of 5"],
    ] as const
  ).flatMap(([what, before, unit]) => {
    const latest = latestOf(measured, what);
    const on = latest[0] === undefined ? "" : spokenDay(Math.floor(latest[0].time), day);
    return latest.length === 0
      ? []
      : [`${before}${formatNumber(meanOf(latest, what))}${unit} (${latest.length} on ${on})`];
  });
  return field("Size", parts.join(", "), `a “condition” entry with length or weight of ${species}`);
}
