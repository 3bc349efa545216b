import { dayOf, weekdayOf } from "../../../language/book/dates.ts";

/** An invented room of 24 tanks and four weeks of its log: the week after them is a keeper's week with something of everything. */

export const monday = dayOf("2026-03-30");
export const isoDay = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10);

const series = (name: string, count: number): string[] =>
  Array.from({ length: count }, (_, at) => `${name}${at + 1}`);
const rain = series("rain", 6);
const rice = series("rice", 4);
const killi = series("killi", 4);
const live = series("live", 4);
const shrimp = series("shrimp", 3);
const groups = { rain, rice, killi, live, shrimp };
/** Cleaned and changed once a week. */
const kept = [...Object.values(groups).flat(), "nest"];
export const tanks = [...kept, "q1", "q2"];

const species: readonly (readonly [name: string, kind: string, tanks: readonly string[], animals: number])[] =
  [
    ["rainbowfish", "fish", rain, 12],
    ["ricefish", "fish", rice, 20],
    ["killifish", "fish", killi, 6],
    ["livebearer", "fish", live, 15],
    ["shrimp-red", "shrimp", shrimp, 40],
  ];

/** The tanks of a day of the week, 0 for Monday: four or five from Monday to Friday. */
export const cleanedOn = (weekday: number): string[] => kept.filter((_, at) => at % 5 === weekday);
export const counted: Readonly<Record<string, string>> = { rain2: "12", rice3: "20" };

export function room(): string {
  const tank = (name: string): string => {
    const role = name.startsWith("q") ? "quarantine" : name === "nest" ? "breeding" : "rack";
    const duties = [
      "  every  7 d test temperature, pH, nitrate",
      ...(kept.includes(name) ? ["  every  7 d clean", "  every  7 d change 30 %"] : []),
      ...(counted[name] === undefined ? [] : ["  every  28 d count"]),
    ];
    return [`tank ${name}`, `  volume  60 L; role ${role}`, ...duties].join("\n");
  };
  const hatching: Record<string, string> = { rainbowfish: "\n  hatches  6..9 d at 25 C" };
  return [
    'room "The room"',
    "  units       temperature C, volume L",
    "  capacity    6 tanks, 150 L, 240 min",
    "  takes       clean 15 min, change 10 min, test 2 min, ship 20 min",
    "  quarantine  28 d; fasting 24 h",
    "  off         sunday",
    '  away        2026-04-04 "a wedding" covered feed',
    "water tap\n  content  nitrate 5 mg/L",
    ...tanks.map(tank),
    ...Object.entries(groups).map(([name, members]) => `group all-${name} = ${members.join(", ")}`),
    ...species.map(([name, kind]) => `species ${name}\n  kind  ${kind}${hatching[name] ?? ""}`),
    "food flake\n  kind  dry",
    "food cyclops\n  kind  frozen",
    "food nettle\n  kind  fresh",
    'remedy praziquantel "Flatworm remedy"',
    "  target  2 mg/L; repeat 3 times every 2 d; change-before 25 %; withdrawal 7 d",
    "gear canister\n  kind filter; on rain1\n  every 28 d service rinsed",
    'order o-1 "A breeder in the valley"\n  wants  livebearer 6, shrimp-red 5; placed 2026-03-20; due 2026-04-03',
    "",
  ].join("\n");
}

/** Four weeks from Sunday to Sunday, each day as a day of this week. */
export function history(): string {
  const from = dayOf("2026-03-01");
  const blocks: string[] = [];
  for (let at = from; at < monday; at++) {
    const lines: string[] = [];
    const weekday = weekdayOf(at) - 1;
    if (at === from)
      for (const [name, , members, animals] of species)
        for (const tank of members) lines.push(`${tank} arrive ${name} ${animals} from stock`);
    // Two tanks are counted by duty, the others now and then.
    for (const [name, , members, animals] of species)
      for (const tank of members)
        if (isoDay(at) === (counted[tank] === undefined ? "2026-03-15" : "2026-03-05"))
          lines.push(`${tank} count ${name} ${animals}`);
    if (isoDay(at) === "2026-03-06") lines.push("rain1 service canister rinsed");
    if (isoDay(at) === "2026-03-20") lines.push('q1 arrive killifish 9 from "river nursery"');
    if (isoDay(at) === "2026-03-26") lines.push("nest spawn rainbowfish 120 eggs on mop lot p7");
    const food = (at - from) % 2 === 0 ? "flake 1 pinch" : "cyclops 1 cube";
    for (const group of ["rain", "rice", "killi", "live"]) lines.push(`@all-${group} feed ${food}`);
    lines.push("@all-shrimp feed nettle 1 leaf");
    if (at >= dayOf("2026-03-20")) lines.push(`q1 feed ${food}`);
    for (const tank of cleanedOn(weekday)) lines.push(`${tank} clean`, `${tank} change 30 %`);
    if (weekday === 1) {
      lines.push("sheet temperature pH nitrate");
      for (const tank of tanks) lines.push(`  ${tank} ${readings(tank).join(" ")}`);
    }
    blocks.push([isoDay(at), ...lines.map((line) => `  ${line}`)].join("\n"));
  }
  return `${blocks.join("\n")}\n`;
}

/** Temperature, pH and nitrate of a tank: the same each week, so that nothing is heading anywhere. */
export function readings(tank: string): string[] {
  const at = tanks.indexOf(tank);
  return [(24.5 + (at % 5) / 10).toFixed(1), (6.8 + (at % 4) / 10).toFixed(1), String(5 + 5 * (at % 4))];
}
