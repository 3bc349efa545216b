import { rectangleL } from "../../language/science/volume.ts";
import type { Definition } from "./definition.ts";

/** The 24 tanks: three to look at, nine to breed, rear and keep apart, and a rack of twelve on one sump. */

export interface Tank {
  readonly name: string;
  readonly netL: number;
  /** The water it holds: its own name, or the system it shares. */
  readonly water: string;
  readonly definition: Definition;
}

export const RACK_WATER = "rack-water";
export const ALTITUDE_M = 210;
export const RACK_SUMP_L = 90;
const RACK_TANK_L = 22;

type Properties = Definition["properties"];

function showTank(
  name: string,
  title: string,
  [lengthCm, widthCm, heightCm]: [number, number, number],
  filledCm: number,
  displacedL: number,
  properties: Properties,
): Tank {
  const size: Properties = [
    ["inside", `${lengthCm} x ${widthCm} x ${heightCm} cm`],
    ["filled", `${filledCm} cm`],
    ["displaced", `${displacedL} L`],
    ["role", "show"],
  ];
  const netL = rectangleL(lengthCm, widthCm, filledCm) - displacedL;
  return {
    name,
    netL,
    water: name,
    definition: { word: "tank", name, title, properties: [...size, ...properties] },
  };
}

function tank(
  name: string,
  title: string,
  netL: number,
  role: string,
  properties: Properties,
  water = name,
): Tank {
  const size: Properties = [
    ["volume", `${netL} L`],
    ["role", role],
  ];
  return {
    name,
    netL,
    water,
    definition: { word: "tank", name, title, properties: [...size, ...properties] },
  };
}

const show: Tank[] = [
  showTank("dam", "Rainbowfish dam", [140, 50, 50], 46, 32, [
    ["place", '"long wall, eye height"'],
    ["from", "2022-10-15"],
    ["limits", "temperature 23..27 C, nitrate <= 40 mg/L, pH 6.8..7.8"],
    ["every", "7 d change 25..45 %"],
    ["at most", "2 per 7 d feed dry"],
    ["cap", "12 cm"],
    ["holds", "140 g"],
    ["grazed", "back-glass, wood"],
    ["note", '"heater is behind the wood on the left, unplug before the hands go in"'],
  ]),
  showTank("ford", "Ford, by the stairs", [120, 45, 45], 41, 22, [
    ["place", '"by the stairs"'],
    ["from", "2023-03-04"],
    ["limits", "temperature 23..27 C, nitrate <= 40 mg/L, pH 6.6..7.8"],
    ["every", "7 d change 20..30 %"],
    ["at most", "2 per 7 d feed dry"],
    ["cap", "12 cm"],
    ["holds", "65 g"],
    ["note", '"open top: evaporates more than the others"'],
  ]),
  showTank("sill", "Planted sill", [90, 40, 40], 36, 15, [
    ["place", '"under the cellar window"'],
    ["from", "2023-09-30"],
    ["limits", "temperature 21..27 C, nitrate <= 40 mg/L, pH 6.2..7.4"],
    ["every", "7 d change 25..45 %"],
    ["at most", "2 per 7 d feed dry"],
    ["cap", "4 cm"],
    ["holds", "0.5 g/L"],
    ["grazed", "back-glass, side-glass, wood"],
    ["note", '"shrimp graze here: front glass only"'],
  ]),
];

const warm = "temperature 22..27 C";
const breeding: Tank[] = [
  tank("b1", "Praecox pairs", 63, "breeding", [
    ["limits", `${warm}, nitrate <= 50 mg/L`],
    ["holds", "40 g"],
  ]),
  tank("b2", "Spotted blue-eyes", 36, "breeding", [["limits", "temperature 22..27 C, pH 5.8..7.2"]]),
  tank("b3", "Daisy ricefish", 45, "breeding", [["limits", "temperature 22..28 C, pH 6.8..8"]]),
  tank("b4", "Gardneri", 30, "breeding", [["limits", "temperature 20..26 C"]]),
  tank("b5", "Striatum, peat and leaves", 27, "breeding", [
    ["limits", "temperature 16..25 C, pH 5.5..7.4"],
    ["note", '"no heater, follows the cellar"'],
  ]),
  tank("b6", "Fry", 40, "grow-out", [["limits", "temperature 22..28 C"]]),
  tank("b7", "Grow-out", 92, "grow-out", [
    ["limits", "temperature 22..28 C, ammonia <= 0.3 mg/L N, nitrite <= 0.5 mg/L"],
    ["every", "4 d change 25..45 %"],
    ["holds", "90"],
  ]),
  tank("q1", "Quarantine", 63, "quarantine", [
    ["limits", "temperature 18..28 C"],
    ["every", "7 d change 25..50 %"],
    ["note", '"own net, own hose, last in the round"'],
  ]),
  tank("h1", "Hospital", 22, "hospital", [["note", '"bare, sponge from b7 kept running in it"']]),
];

const shelves = ["top shelf", "middle shelf", "bottom shelf"];
const rackTitles = [
  "Red cherries",
  "Red cherries, second line",
  "Blue shrimp",
  "Ramshorns",
  "Endlers",
  "Endlers, young",
  "Least livebearers",
  "Daisy ricefish for sale",
  "Praecox for sale",
  "Gardneri for sale",
  "Blue-eyes for sale",
  "Holding, orders",
];
const rack: Tank[] = rackTitles.map((title, index) => {
  const properties: Properties = [
    ["system", RACK_WATER],
    ["place", `"${shelves[Math.floor(index / 4)]}"`],
    ...(index < 3 ? ([["grazed", "back-glass, side-glass"]] as const) : []),
    ...(index === 11 ? ([["holds", "60"]] as const) : []),
  ];
  const role = index === 11 ? "holding" : "rack";
  return tank(`r${index + 1}`, title, RACK_TANK_L, role, properties, RACK_WATER);
});

export const tanks: readonly Tank[] = [...show, ...breeding, ...rack];

/** What is one water: twelve tanks of their own and the rack with its sump, and how much there is of it. */
export const netVolumesL: ReadonlyMap<string, number> = tanks.reduce(
  (volumes, each) => volumes.set(each.water, (volumes.get(each.water) ?? 0) + each.netL),
  new Map<string, number>([[RACK_WATER, RACK_SUMP_L]]),
);

export function tankOf(name: string): Tank {
  const found = tanks.find((each) => each.name === name);
  if (found === undefined) throw new RangeError(`no tank is called ${name}`);
  return found;
}

const system: Definition = {
  word: "system",
  name: RACK_WATER,
  title: "Twelve tanks on one sump",
  properties: [
    ["sump", `${RACK_SUMP_L} L`],
    ["limits", "temperature 22..26 C, nitrate <= 40 mg/L, pH 6.8..8, ammonia <= 0.3 mg/L N"],
    ["every", "3 d change 25..40 %"],
    ["every", "7 d test nitrate, pH"],
    ["every", "28 d test KH, GH"],
  ],
};

const routineTests: Properties = [
  ["every", "14 d test nitrate, pH"],
  ["every", "28 d test KH, GH"],
];
const groups: Definition[] = [
  group("show", "dam, ford, sill", [
    ["every", "7 d clean"],
    ["every", "7 d test nitrate, pH"],
    ["every", "28 d test KH, GH"],
  ]),
  group("breeders", "b1 .. b5", [["every", "7 d change 20..45 %"], ...routineTests]),
  group("young", "b6, b7", [["every", "7 d change 20..45 %"], ...routineTests]),
  group("rack", "r1 .. r12", [["every", "3 d clean"]]),
  group("top", "r1 .. r4", []),
  group("middle", "r5 .. r8", []),
  group("bottom", "r9 .. r12", []),
  group("fish-row", "r5 .. r11", []),
];

function group(name: string, members: string, properties: Properties): Definition {
  return { word: "group", name, members, properties };
}

export const tankDefinitions: readonly Definition[] = [
  ...[...show, ...breeding].map((each) => each.definition),
  system,
  ...rack.map((each) => each.definition),
  ...groups,
];
