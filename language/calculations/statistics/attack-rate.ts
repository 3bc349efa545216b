import { wilson } from "../../science/proportion.ts";
import { type Figure, isOutside, outside } from "../../science/result.ts";
import { calculation, quantity, type Result, result } from "../calculation.ts";
import { confidence, counted } from "./asked.ts";

export const attackRate = calculation({
  name: "attack-rate",
  title: "Attack rate and case fatality",
  group: "statistics",
  answers:
    "Of an outbreak: which share of those at risk fell ill, which share of the ill died, and which share of all; each with what chance alone leaves open.",
  inputs: {
    "at-risk": quantity("animals at risk when it began", "", [0, 1e6], { isWhole: true, isAbove: true }),
    cases: counted("of them fell ill, those that died of it counted"),
    deaths: quantity("of the ill died", "", [0, 1e6], { isWhole: true, optional: true }),
    confidence,
  },
  formula: [
    "attack rate = cases / at risk",
    "case fatality = deaths / cases; mortality = deaths / at risk",
    "ends = (p + z² / 2n ± z √(p (1 - p) / n + z² / 4n²)) / (1 + z² / n), n what it is a share of",
  ],
  range:
    "whole counts of a closed group: animals that came or went meanwhile are another reckoning. While it goes on the case fatality is too low, as some that are ill will die. The ends are for animals that fare by themselves; in one water they do not, and the truth is wider",
  sources: [
    "attack rate, case fatality: Dicker, Coronado, Koo & Parrish 2006, Principles of Epidemiology in Public Health Practice, 3rd ed., CDC, lesson 3 (recalled)",
    "ends: Wilson 1927, J. Am. Stat. Assoc. 22:209-212",
  ],
  caution:
    "Shares say how fast it goes, not what it is: where many fall ill or die ask a veterinarian; of some diseases the authority must be told on suspicion.",
  examples: [
    {
      given: "at-risk=263 cases=81",
      gives: { attack: "30.8 %", "attack-low": "25.5 %", "attack-high": "36.6 %" },
      from: "Newcombe 1998, Stat. Med. 17:857-872, table I, method 3: 81 of 263 are 0.2553 to 0.3662 (recalled)",
    },
    {
      given: "at-risk=400 cases=148 deaths=15",
      gives: {
        attack: "37 %",
        fatality: "10.1 %",
        "fatality-low": "6.24 %",
        "fatality-high": "16 %",
        mortality: "3.75 %",
      },
      from: "Newcombe 1998, table I, method 3: 15 of 148 are 0.0624 to 0.1605 (recalled); 148 / 400 and 15 / 400 by hand",
    },
  ],
  compute({ "at-risk": atRisk, cases, deaths, confidence: percent }) {
    if (cases > atRisk) return outside(`${cases} of ${atRisk} are more than all`);
    if (deaths !== undefined && deaths > cases)
      return outside(`${deaths} of ${cases} are more than all that fell ill`);
    const shares = (name: string, title: string, count: number, of: number): Result[] => {
      const limits = wilson(count, of, percent / 100);
      const end = (side: "low" | "high"): Figure => (isOutside(limits) ? limits : 100 * limits[side]);
      return [
        result(name, title, "%", of > 0 ? (100 * count) / of : outside("none fell ill")),
        result(`${name}-low`, "at least", "%", of > 0 ? end("low") : outside("none fell ill")),
        result(`${name}-high`, "at most", "%", of > 0 ? end("high") : outside("none fell ill")),
      ];
    };
    return [
      ...shares("attack", "attack rate", cases, atRisk),
      ...(deaths === undefined
        ? []
        : [
            ...shares("fatality", "case fatality", deaths, cases),
            ...shares("mortality", "mortality", deaths, atRisk),
          ]),
    ];
  },
});
