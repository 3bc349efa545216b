import type { Definition } from "./definition.ts";

/**
 * Lots that entries do not say everything of: the founders of two lines, the pairs, and what a brood is. The praecox of b1 go
 * back to one pair; two of their grandchildren, brother and sister of a brother and a sister, have the first brood of the log.
 */

function lot(name: string, title: string | undefined, ...properties: [string, string][]): Definition {
  return { word: "lot", name, ...(title === undefined ? {} : { title }), properties };
}

function animal(
  name: string,
  title: string,
  species: string,
  sex: string,
  born: string,
  ...more: [string, string][]
): Definition {
  return lot(name, title, ["species", species], ["sex", sex], ["born", born], ...more);
}

const blue = (generation: string): [string, string][] => [
  ["line", '"blue band"'],
  ["generation", `"${generation}"`],
];
const steel = (generation: string): [string, string][] => [
  ["line", '"steel"'],
  ["generation", `"${generation}"`],
];
const pair = (father: string, mother: string): [string, string][] => [
  ["father", father],
  ["mother", mother],
];

export const lotDefinitions: readonly Definition[] = [
  animal("old-blue", "The first male of the dam", "praecox", "male", "2022-06-01", ...blue("P")),
  animal("gold-2", "His female, yellow fins", "praecox", "female", "2022-06-01", ...blue("P")),
  animal(
    "broad",
    "Son of the first pair",
    "praecox",
    "male",
    "2023-05-14",
    ...blue("F1"),
    ...pair("old-blue", "gold-2"),
  ),
  animal(
    "lemon",
    "His sister",
    "praecox",
    "female",
    "2023-05-14",
    ...blue("F1"),
    ...pair("old-blue", "gold-2"),
  ),
  animal(
    "torn-fin",
    "Male of b1 with the torn fin",
    "praecox",
    "male",
    "2024-03-02",
    ...blue("F2"),
    ...pair("broad", "lemon"),
  ),
  animal(
    "short-gold",
    "Short female of b1",
    "praecox",
    "female",
    "2024-03-02",
    ...blue("F2"),
    ...pair("broad", "lemon"),
  ),
  animal("nursery-girl", "Bought in June, the deep one", "praecox", "female", "2024-10-01", [
    "from",
    '"river nursery"',
  ]),
  animal(
    "blue-son",
    "Largest of the spring brood",
    "praecox",
    "male",
    "2025-04-20",
    ...blue("F3"),
    ...pair("torn-fin", "short-gold"),
  ),
  lot("pb-1", "Spring brood", ["species", "praecox"], ...blue("F3")),
  lot("pb-2", "Autumn brood, half new blood", ["species", "praecox"]),
  lot("pb-3", "March brood", ["species", "praecox"]),
  animal("old-steel", "The steel male", "gardneri", "male", "2024-05-20", ...steel("P")),
  animal("freckle", "Female with the freckles", "gardneri", "female", "2024-05-20", [
    "from",
    '"killifish club"',
  ]),
  animal(
    "steel-3",
    "His bluest son",
    "gardneri",
    "male",
    "2025-06-05",
    ...steel("F1"),
    ...pair("old-steel", "freckle"),
  ),
  lot("steel-b1", "First brood of the line", ["species", "gardneri"], ...steel("F1")),
  lot("steel-b2", "Son to mother", ["species", "gardneri"], ...steel("F2")),
  animal("copper", "The copper male", "woworae", "male", "2024-08-01"),
  animal("red-hem", "Female with a red hem", "woworae", "female", "2024-08-01"),
  lot("wb-1", "Summer brood", ["species", "woworae"]),
  animal("dots", "Male with the many dots", "gertrudae", "male", "2024-11-01"),
  animal("grey-belly", "The grey female", "gertrudae", "female", "2024-11-01"),
  lot("gb-1", "Winter brood", ["species", "gertrudae"]),
];
