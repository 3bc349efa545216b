import { findUnit, UNITS } from "../../quantity/units.ts";
import type { Asking } from "./asking.ts";
import { readHead } from "./heads.ts";
import type { KnownNames } from "./known-log.ts";
import type { Named, Role } from "./mapping.ts";
import { aboutOf, amountColumn, type ColumnRole, foodColumn, nameIn, speciesColumn } from "./propose-role.ts";
import { foodsIn } from "./read-other.ts";
import type { Survey } from "./survey.ts";

/** Columns that are no readings: notes, changes, feeds, counts and losses. */

const mostNames = 60;

export type OtherRole = Exclude<Role, { as: "test" | "ignored" }>;

/** What such a column becomes; `open` while something is not answered, undefined where it is left out. */
export function otherRole(
  survey: Survey,
  at: number,
  is: Exclude<ColumnRole["is"], "test" | "ignore" | "open">,
  known: KnownNames,
  asking: Asking,
): OtherRole | "open" | undefined {
  const head = survey.layout.heads[at]!;
  const place = { at: at + 1, head };
  switch (is) {
    case "note":
      return { ...place, as: "note" };
    case "change": {
      const unit = unitOf(survey, at, ["fraction", "volume"], ["%", "L", "US gal", "imp gal"], asking);
      if (unit === "ignore") return undefined;
      return unit === undefined ? "open" : { ...place, as: "change", unit };
    }
    case "feed":
      return feedRole(survey, at, known, asking);
    default:
      return animalsRole(survey, at, is, known, asking);
  }
}

function feedRole(
  survey: Survey,
  at: number,
  known: KnownNames,
  asking: Asking,
): OtherRole | "open" | undefined {
  const head = survey.layout.heads[at]!;
  const place = { at: at + 1, head };
  const foodAt = foodColumn(survey, known);
  const { numbers, filled } = survey.columns[at]!;
  if (numbers < filled / 2) {
    const names = namesOf(survey, at, "food", known.foods, foodsIn, asking);
    return names === undefined ? "open" : { ...place, as: "fed", names };
  }
  const portions = UNITS.filter(({ dimension }) => dimension === "portion").map(({ symbol }) => symbol);
  const units = [...portions, "g", "mg", "mL"];
  const unit = unitOf(survey, at, ["portion", "mass", "volume"], units, asking);
  if (unit === "ignore") return undefined;
  if (foodAt >= 0 && amountColumn(survey) === at) {
    const names = namesOf(survey, foodAt, "food", known.foods, (cell) => [cell], asking);
    const foods: Named | undefined =
      names === undefined ? undefined : { at: foodAt + 1, head: survey.layout.heads[foodAt]!, names };
    return foods === undefined || unit === undefined ? "open" : { ...place, as: "feed", foods, unit };
  }
  const food = nameAsked(survey, at, "food", known.foods, asking);
  if (food === "ignore") return undefined;
  return food === undefined || unit === undefined ? "open" : { ...place, as: "feed", food, unit };
}

function animalsRole(
  survey: Survey,
  at: number,
  as: "count" | "lose",
  known: KnownNames,
  asking: Asking,
): OtherRole | "open" | undefined {
  const head = survey.layout.heads[at]!;
  const place = { at: at + 1, head };
  const speciesAt = speciesColumn(survey, known);
  if (speciesAt >= 0 && speciesAt !== at && nameIn(head, known.species) === undefined) {
    const names = namesOf(survey, speciesAt, "species", known.species, (cell) => [cell], asking);
    return names === undefined
      ? "open"
      : { ...place, as, of: { at: speciesAt + 1, head: survey.layout.heads[speciesAt]!, names } };
  }
  const species = nameAsked(survey, at, "species", known.species, asking);
  if (species === "ignore") return undefined;
  return species === undefined ? "open" : { ...place, as, species };
}

type Names = KnownNames["foods"];

/** The food or species of a column whose head may say it. */
function nameAsked(
  survey: Survey,
  at: number,
  what: "food" | "species",
  of: Names,
  asking: Asking,
): string | undefined {
  const head = survey.layout.heads[at]!;
  return asking.decide(
    {
      id: `${what}:${aboutOf(survey, at)}`,
      asks: `which ${what} is “${head}” of?`,
      choices: [...of.map(({ name }) => name), "ignore"],
      hint: "",
      column: at + 1,
    },
    nameIn(head, of),
    `${what}:#${at + 1}`,
  );
}

/** What each word of a column means; undefined while one is open. */
function namesOf(
  survey: Survey,
  at: number,
  what: "food" | "species",
  of: Names,
  parts: (cell: string) => readonly string[],
  asking: Asking,
): Record<string, string> | undefined {
  const words = new Set([...survey.columns[at]!.distinct.keys()].flatMap(parts));
  const names: Record<string, string> = {};
  let isOpen = words.size > mostNames;
  for (const word of [...words].slice(0, mostNames)) {
    const isNone = what === "food" && /^(?:none|nothing|fast(?:ed|ing)?|nichts|keins?)$/i.test(word);
    const answer = asking.decide(
      {
        id: `${what}:${word}`,
        asks: `which ${what} is “${word}”?`,
        choices: [...of.map(({ name }) => name), ...(what === "food" ? ["none"] : []), "ignore"],
        hint: "",
        column: at + 1,
        word,
      },
      isNone ? "none" : (nameIn(word, of, true) ?? nameIn(word, of)),
    );
    if (answer === undefined) isOpen = true;
    else names[word] = answer;
  }
  return isOpen ? undefined : names;
}

/** The unit of an amount, as its head says it; asked where it does not. */
function unitOf(
  survey: Survey,
  at: number,
  dimensions: readonly string[],
  usual: readonly string[],
  asking: Asking,
): string | undefined {
  const head = survey.layout.heads[at]!;
  const about = aboutOf(survey, at);
  const { unit: said } = readHead(head, survey.layout.units[at] ?? "");
  const [only, more] = [...survey.columns[at]!.marks.keys()];
  const inCells = more === undefined && only !== undefined ? findUnit(only) : undefined;
  const stated = said?.is === "unit" ? said.unit.unit : inCells;
  const own = stated !== undefined && dimensions.includes(stated.dimension) ? stated.symbol : undefined;
  const choices = said?.is === "open" ? said.choices : usual;
  return asking.decide(
    {
      id: `unit:${about}`,
      asks:
        said?.is === "open"
          ? `“${said.written}” of “${head}” may mean several units; which is it?`
          : own === undefined
            ? `no unit is said of “${head}”; which is it?`
            : `“${head}” says ${own}; or is it another unit?`,
      choices: [...(own === undefined || choices.includes(own) ? [] : [own]), ...choices, "ignore"],
      hint: "",
      column: at + 1,
      isTypedToo: false,
    },
    own,
    `unit:#${at + 1}`,
    (text) => dimensions.includes(findUnit(text)?.dimension ?? ""),
  );
}
