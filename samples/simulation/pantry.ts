import type { Definition } from "./definition.ts";

/** Waters, foods, remedies and equipment: the definitions beside tanks and animals. */

export interface Water {
  readonly nitrateMgL: number;
  readonly alkalinityDkh: number;
  readonly hardnessDgh: number;
}

/** What goes in at a change. `soft` is one part of tap water in three parts. */
export const waters = {
  tap: { nitrateMgL: 6, alkalinityDkh: 5, hardnessDgh: 9 },
  soft: { nitrateMgL: 2, alkalinityDkh: 1.7, hardnessDgh: 3 },
  ro: { nitrateMgL: 0, alkalinityDkh: 0, hardnessDgh: 0 },
} as const satisfies Record<string, Water>;

export type WaterName = keyof typeof waters;

function content({ nitrateMgL, alkalinityDkh, hardnessDgh }: Water, pH?: string): string {
  const parts = [`nitrate ${nitrateMgL} mg/L`, `KH ${alkalinityDkh} dKH`, `GH ${hardnessDgh} dGH`];
  return [...parts, ...(pH === undefined ? [] : [`pH ${pH}`])].join(", ");
}

export const waterDefinitions: readonly Definition[] = [
  {
    word: "water",
    name: "tap",
    title: "Mains, aged a day",
    properties: [["content", `${content(waters.tap, "7.6")}, chlorine 0 mg/L`]],
  },
  {
    word: "water",
    name: "soft",
    title: "One part mains, two parts osmosis",
    properties: [
      ["content", content(waters.soft, "7")],
      ["from", "tap, ro"],
    ],
  },
  {
    word: "water",
    name: "mains",
    title: "The same, straight from the tap",
    properties: [
      ["content", `${content(waters.tap, "7.6")}, chlorine 0.2 mg/L`],
      ["note", '"by the report of the works; it is gone after a day in the barrel"'],
    ],
  },
  { word: "water", name: "ro", title: "Reverse osmosis", properties: [["content", content(waters.ro)]] },
];

/** What a portion weighs, wet. Round figures, no source. */
export const portionsG: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  ...Object.fromEntries(
    ["cyclops", "daphnia", "larvae", "artemia"].map((name) => [name, { cube: 3.5, squirt: 0.7 }]),
  ),
  microworm: { scoop: 0.5 },
  flake: { pinch: 0.1 },
  granules: { pinch: 0.15 },
  "shrimp-stick": { pellet: 0.1 },
  nettle: { leaf: 0.2 },
  courgette: { slice: 3 },
  spinach: { leaf: 1.5 },
};

/** Packs as they are bought; the rest is hatched, bred or grown. */
export const packs: Readonly<Record<string, { readonly gram: number; readonly price: number }>> = {
  cyclops: { gram: 500, price: 13 },
  daphnia: { gram: 500, price: 9 },
  larvae: { gram: 500, price: 12 },
  artemia: { gram: 500, price: 10 },
  flake: { gram: 100, price: 8 },
  granules: { gram: 120, price: 11 },
  "shrimp-stick": { gram: 60, price: 7 },
};

function food(name: string, title: string, ...properties: [string, string][]): Definition {
  const [kind, ...others] = properties;
  const portions = Object.entries(portionsG[name] ?? {}).map(([portion, gram]): [string, string] => [
    "portion",
    `1 ${portion} = ${gram} g`,
  ]);
  return { word: "food", name, title, properties: [kind!, ...portions, ...others] };
}

const frozen = (protein: number, expires: string): [string, string][] => [
  ["kind", "frozen"],
  ["protein", `${protein} %`],
  ["expires", expires],
];

const dry = (protein: number, expires: string, opened: string, keeps: string): [string, string][] => [
  ["kind", "dry"],
  ["protein", `${protein} %`],
  ["expires", expires],
  ["opened", opened],
  ["keeps", keeps],
];

/** The granules are open for longer than they keep: since the middle of March. */
export const foodDefinitions: readonly Definition[] = [
  food("cyclops", "Frozen cyclops", ...frozen(6, "2026-12-31")),
  food("daphnia", "Frozen daphnia", ...frozen(4, "2026-10-31")),
  food("larvae", "Frozen black mosquito larvae", ...frozen(6, "2026-09-30")),
  food("artemia", "Frozen brine shrimp, grown", ...frozen(5, "2027-01-31")),
  food("nauplii", "Brine shrimp nauplii, own hatch", ["kind", "live"], ["ready", "20..28 h"]),
  food("microworm", "Microworms, own culture", ["kind", "live"]),
  food("flake", "Flake", ...dry(45, "2026-08-31", "2026-02-07", "120 d")),
  food("granules", "Soft granules", ...dry(48, "2026-11-30", "2025-12-13", "90 d")),
  food("shrimp-stick", "Shrimp sticks", ...dry(34, "2026-11-30", "2025-11-08", "180 d")),
  food("nettle", "Dried nettle, soaked", ["kind", "fresh"]),
  food("courgette", "Courgette, blanched", ["kind", "fresh"]),
  food("spinach", "Spinach, blanched", ["kind", "fresh"]),
];

/** What the labels say, as the keeper copied it. The amounts are the keeper's and no advice. */
export const remedyDefinitions: readonly Definition[] = [
  {
    word: "remedy",
    name: "praziquantel",
    title: "Flatworm remedy",
    properties: [
      ["target", "2 mg/L"],
      ["ceiling", "5 mg/L"],
      ["repeat", "3 times every 7 d"],
      ["change-before", "25..50 %"],
      ["half-life", "3 d"],
      ["without", "carbon"],
      ["harms", "snail, scaleless"],
      ["withdrawal", "7 d"],
      ["active", '"praziquantel"'],
      ["source", '"label of the product; asked the vet in March"'],
    ],
  },
  {
    word: "remedy",
    name: "blue-drops",
    title: "Egg dip, methylene blue",
    properties: [
      ["strength", "10 mg/mL"],
      ["drop", "0.05 mL"],
      ["target", "1..3 mg/L"],
      ["half-life", "2 d"],
      ["harms", "shrimp, plant"],
      ["source", '"label of the product"'],
    ],
  },
  {
    word: "remedy",
    name: "salt",
    title: "Sodium chloride, nothing added",
    properties: [
      ["target", "1..3 g/L"],
      ["ceiling", "5 g/L"],
      ["bath", "10..30 g/L for 1..10 min"],
      ["harms", "snail, plant"],
      ["active", '"sodium chloride"'],
      ["source", '"the vet, by telephone"'],
    ],
  },
];

function gear(name: string, title: string, kind: string, on: string, every: string): Definition {
  const properties: Definition["properties"] = [
    ["kind", kind],
    ["on", on],
    ["every", every],
  ];
  return { word: "gear", name, title, properties };
}

export const gearDefinitions: readonly Definition[] = [
  gear("canister", "Canister filter of the dam", "filter", "dam", "28 d service"),
  gear("ford-filter", "Internal filter of the ford", "filter", "ford", "42 d service"),
  gear("mat", "Mat filter of the sill", "filter", "sill", "90 d service"),
  gear("b7-sponge", "Double sponge of the grow-out", "filter", "b7", "28 d service"),
  gear("q1-sponge", "Sponge of the quarantine", "filter", "q1", "42 d service"),
  gear("sock", "Filter sock of the rack", "filter", "rack-water", "7 d service"),
  gear("return", "Return pump of the rack", "pump", "rack-water", "60 d service"),
  gear("ph-meter", "pH meter", "meter", "rack-water", "30 d service calibrated"),
  {
    word: "gear",
    name: "ford-lamp",
    title: "Lamp of the ford",
    properties: [
      ["kind", "lamp"],
      ["on", "ford"],
      ["from", "2025-04-06"],
      ["lasts", "365 d"],
    ],
  },
  {
    word: "gear",
    name: "drops",
    title: "Drop tests",
    properties: [
      ["kind", "kit"],
      ["expires", "2026-04-30"],
    ],
  },
  {
    word: "gear",
    name: "net",
    title: "The green net",
    properties: [
      ["kind", "net"],
      ["every", "31 d disinfect"],
    ],
  },
  {
    word: "gear",
    name: "siphon",
    title: "Siphon with a bell",
    properties: [
      ["kind", "hose"],
      ["every", "31 d disinfect"],
    ],
  },
  {
    word: "gear",
    name: "cones",
    title: "Two cones for brine shrimp",
    properties: [
      ["kind", "other"],
      ["at least", "1 per 7 d harvest nauplii"],
      ["note", '"25 g/L salt, on the warm shelf, light on"'],
    ],
  },
  {
    word: "gear",
    name: "worm-tub",
    title: "Microworms on oats",
    properties: [
      ["kind", "other"],
      ["every", "7 d start microworm"],
      ["note", '"split before the porridge goes thin"'],
    ],
  },
];
