import { dayOf } from "../../../language/book/dates.ts";

/** An invented room of 24 tanks, and four weeks of its log: what the day after them asks for is a normal day. */

export const day = "2026-03-29";

const series = (name: string, count: number): string[] =>
  Array.from({ length: count }, (_, at) => `${name}${at + 1}`);
const rainbow = series("rain", 6);
const rice = series("rice", 4);
const killi = series("killi", 4);
const live = series("live", 4);
const shrimp = series("shrimp", 4);
const snail = series("snail", 2);
export const tanks = [...rainbow, ...rice, ...killi, ...live, ...shrimp, ...snail];
export const cleaned = rainbow;
export const counted: Readonly<Record<string, string>> = { rain2: "12", rain5: "9" };
const species: readonly (readonly [name: string, kind: string, tanks: readonly string[], animals: number])[] =
  [
    ["rainbowfish", "fish", rainbow, 12],
    ["ricefish", "fish", rice, 20],
    ["killifish", "fish", killi, 6],
    ["livebearer", "fish", live, 15],
    ["shrimp-red", "shrimp", shrimp, 40],
    ["snail-brown", "snail", snail, 30],
  ];

export function room(): string {
  const duties = (tank: string): string[] => [
    "  every  7 d test temperature, pH, nitrate",
    ...(cleaned.includes(tank) ? ["  every  7 d clean front-glass"] : []),
    ...(counted[tank] === undefined ? [] : ["  every  28 d count"]),
  ];
  const tank = (name: string): string => [`tank ${name}`, "  volume  60 L", ...duties(name)].join("\n");
  const groups = { rain: rainbow, rice, killi, live, shrimp, snail };
  return [
    'room "The row"\n  units  temperature C, volume L',
    ...tanks.map(tank),
    ...Object.entries(groups).map(([name, members]) => `group all-${name} = ${members.join(", ")}`),
    ...species.map(([name, kind]) => `species ${name}\n  kind  ${kind}`),
    "food flake\n  kind  dry",
    "food cyclops\n  kind  frozen",
    "food nettle\n  kind  fresh",
    "",
  ].join("\n");
}

/** Four weeks, the last round of tests and cleans seven days ago. */
export function history(): string {
  const from = dayOf("2026-03-01");
  const iso = (at: number): string => new Date(at * 86_400_000).toISOString().slice(0, 10);
  const blocks: string[] = [];
  for (let at = from; at < dayOf(day); at++) {
    const lines: string[] = [];
    if (at === from) {
      for (const [name, , members, animals] of species)
        for (const tank of members)
          lines.push(`${tank} arrive ${name} ${tank === "rain5" ? 9 : animals} from stock`);
      for (const tank of Object.keys(counted)) lines.push(`${tank} count rainbowfish ${counted[tank]}`);
    }
    const food = (at - from) % 2 === 0 ? "flake 1 pinch" : "cyclops 1 cube";
    for (const group of ["rain", "rice", "killi", "live"]) lines.push(`@all-${group} feed ${food}`);
    for (const group of ["shrimp", "snail"]) lines.push(`@all-${group} feed nettle 1 leaf`);
    if ((at - from) % 7 === 0) {
      for (const tank of cleaned) lines.push(`${tank} clean front-glass`);
      lines.push("sheet temperature pH nitrate");
      for (const tank of tanks) lines.push(`  ${tank} ${readings(tank).join(" ")}`);
    }
    blocks.push([iso(at), ...lines.map((line) => `  ${line}`)].join("\n"));
  }
  return `${blocks.join("\n")}\n`;
}

/** Temperature, pH and nitrate of a tank: the same each week, so that nothing is heading anywhere. */
export function readings(tank: string): string[] {
  const at = tanks.indexOf(tank);
  return [(23.5 + (at % 5) / 10).toFixed(1), (6.8 + (at % 4) / 10).toFixed(1), String(5 + 5 * (at % 4))];
}
