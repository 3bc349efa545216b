import {
  animalsToExamine,
  animalsToExamineInMany,
  chanceToFind,
  chanceToFindInMany,
  diseasedAtLeast,
} from "../../science/detection.ts";
import { type Figure, isOutside, outside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";

export const sampleSize = calculation({
  name: "sample-size",
  title: "How many animals to examine to find a disease",
  group: "statistics",
  answers:
    "How many animals of a group to examine so that a disease that at least such a share of them has is found with such a confidence; and how sure a number already examined makes it.",
  inputs: {
    animals: quantity("animals in the group, if it is no large one", "", [1, 1e6], {
      isWhole: true,
      isSingle: true,
      optional: true,
    }),
    prevalence: quantity("share diseased, at least", "%", [0, 100], { isAbove: true }),
    confidence: quantity("confidence of finding one", "%", [50, 99.99], { otherwise: "95 %" }),
    sensitivity: quantity("share of them that is found if examined", "%", [0, 100], {
      isAbove: true,
      otherwise: "100 %",
    }),
    examined: quantity("animals examined, if that is asked", "", [0, 1e6], {
      isWhole: true,
      optional: true,
    }),
  },
  formula: [
    "D = animals × prevalence, rounded up",
    "chance of missing all = sum over k of C(D, k) C(N - D, n - k) / C(N, n) × (1 - a)^k, a the sensitivity",
    "examine: the least n at which that is 1 - confidence or less",
    "of a large group: n = ln(1 - confidence) / ln(1 - a × prevalence)",
  ],
  range:
    "animals drawn at random, not those that are easiest to net; an examination that never finds what is not there; diseased animals spread through the group. In several tanks each tank is a group of its own",
  sources: [
    "Cannon & Roe 1982, Livestock Disease Surveys: A Field Manual for Veterinarians",
    "an examination that misses some: Cannon 2001, Prev. Vet. Med. 49:141-163, eq. 4.1 and 4.6",
    "for fish: de Blas and others 2020, Front. Vet. Sci. 7:253",
  ],
  caution:
    "That none is found does not prove that none is there: a smaller share may be. Which disease, which examination and what follows is for a veterinarian to say; some diseases have to be reported by law.",
  examples: [
    {
      given: "prevalence=5",
      gives: { examine: "59" },
      from: "ln 0.05 / ln 0.95 = 58.4; the aquatic code's 30, 60 and 150 fish for 10, 5 and 2 % are 29, 59 and 149 rounded up (de Blas and others 2020)",
    },
    {
      given: "animals=100 prevalence=10 examined=12",
      gives: { examine: "25", diseased: "10", chance: "73.9 %" },
      from: "of 100 with 10 diseased: 90/100 × 89/99 × ... over 25 animals is 0.048, over 24 0.053; over 12 0.261",
    },
  ],
  compute({ animals, prevalence, confidence, sensitivity, examined }) {
    const [share, sure, found] = [prevalence / 100, confidence / 100, sensitivity / 100];
    const percent = (figure: Figure): Figure => (isOutside(figure) ? figure : figure * 100);
    const chance = (of: (count: number) => Figure) =>
      examined === undefined
        ? []
        : [result("chance", "those examined would find one with", "%", percent(of(examined)))];
    if (animals === undefined)
      return [
        result("examine", "animals to examine", "", animalsToExamineInMany(share, sure, found)),
        ...chance((count) => chanceToFindInMany(share, count, found)),
      ];
    const diseased = diseasedAtLeast(animals, share);
    if (isOutside(diseased)) return diseased;
    return [
      result("examine", "animals to examine", "", animalsToExamine(animals, diseased, sure, found)),
      result("diseased", "diseased in the group, at least", "", diseased),
      ...chance((count) =>
        count > animals
          ? outside(`examined: ${count} are more than the ${animals} animals there are`)
          : chanceToFind(animals, diseased, count, found),
      ),
    ];
  },
});
