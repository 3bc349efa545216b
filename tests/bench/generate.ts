/**
 * Logbooks of a given size for measuring: 40 tanks (twelve of them on one sump), three entries a tank and day, one file a month.
 * Deterministic; nothing in it is meant to read well or to make sense to a fish.
 */

export interface Generated {
  /** Path within the logbook and text. */
  readonly files: readonly { readonly path: string; readonly text: string }[];
  readonly entries: number;
  /** The same facts, as another tool would keep them. */
  readonly facts: readonly Fact[];
}

export interface Fact {
  readonly date: string;
  readonly tank: string;
  readonly kind: string;
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  readonly note: string;
}

const tanks = 40;
const perDay = 3;
const firstDay = Date.UTC(2016, 0, 1) / 86_400_000;

/** @param wanted so many entries, rounded up to whole days */
export function generate(wanted: number): Generated {
  const random = mulberry32(7);
  const days = Math.ceil(wanted / (tanks * perDay));
  const months = new Map<string, string[]>();
  const facts: Fact[] = [];
  const nitrate = Array.from({ length: tanks }, () => 10 + 20 * random());
  let entries = 0;
  for (let day = 0; day < days; day++) {
    const date = new Date((firstDay + day) * 86_400_000).toISOString().slice(0, 10);
    const lines = [date];
    for (let tank = 0; tank < tanks; tank++) {
      nitrate[tank]! += 0.8 + 0.3 * random();
      for (let slot = 0; slot < perDay; slot++) {
        const fact = factFor(date, tank, day, slot, nitrate, random);
        facts.push(fact);
        lines.push(lineFor(fact));
        entries++;
      }
    }
    const month = date.slice(0, 7);
    const known = months.get(month);
    if (known === undefined) months.set(month, lines);
    else known.push("", ...lines);
  }
  const files = [...months].map(([month, lines]) => ({
    path: `${month}.tank`,
    text: `${lines.join("\n")}\n`,
  }));
  return { files: [{ path: "room.tank", text: definitions() }, ...files], entries, facts };
}

function factFor(
  date: string,
  tank: number,
  day: number,
  slot: number,
  nitrate: number[],
  random: () => number,
): Fact {
  const name = `row-${tank + 1}`;
  const base = { date, tank: name };
  const remark = random() < 0.75 ? remarks[Math.floor(remarks.length * random())]! : "";
  const turn = (day + tank) % 7;
  const rounded = Math.round(nitrate[tank]!);
  if (slot === 0)
    return {
      ...base,
      kind: "feed",
      what: foods[(day + tank) % foods.length]!,
      value: 1 + Math.floor(3 * random()),
      unit: "cubes",
      note: "",
    };
  if (slot === 1) {
    if (turn === 0) {
      nitrate[tank] = nitrate[tank]! * 0.65 + 0.35 * 6;
      return { ...base, kind: "change", what: "", value: 35, unit: "%", note: remark };
    }
    if (turn === 1)
      return { ...base, kind: "test", what: "nitrate", value: rounded, unit: "mg/L", note: remark };
    if (turn === 2)
      return {
        ...base,
        kind: "test",
        what: "pH",
        value: Math.round(70 + 6 * random()) / 10,
        unit: "",
        note: "",
      };
    if (turn === 3) return { ...base, kind: "clean", what: "glass", value: 0, unit: "", note: remark };
    if (turn === 4)
      return { ...base, kind: "top-up", what: "", value: 2 + Math.floor(4 * random()), unit: "L", note: "" };
    if (turn === 5)
      return {
        ...base,
        kind: "test",
        what: "temperature",
        value: Math.round(240 + 10 * random()) / 10,
        unit: "C",
        note: "",
      };
    return {
      ...base,
      kind: "count",
      what: species[tank % species.length]!,
      value: 14,
      unit: "",
      note: remark,
    };
  }
  if (day % 90 === tank) return { ...base, kind: "dose", what: "remedy-a", value: 100, unit: "mg", note: "" };
  if (random() < 0.5)
    return { ...base, kind: "feed", what: "flake", value: 1, unit: "pinches", note: remark };
  return {
    ...base,
    kind: "note",
    what: "",
    value: 0,
    unit: "",
    note: `all seen, ate well, number ${Math.floor(1e6 * random())}`,
  };
}

function lineFor(fact: Fact): string {
  const head = `  ${fact.tank.padEnd(7)} ${fact.kind}`;
  if (fact.kind === "note") return `${head} "${fact.note}"`;
  if (fact.kind === "clean") return `${head} ${fact.what}${fact.note === "" ? "" : ` "${fact.note}"`}`;
  const unit = fact.unit === "" ? "" : ` ${fact.unit}`;
  const remark = fact.note === "" ? "" : ` "${fact.note}"`;
  return `${head}${fact.what === "" ? "" : ` ${fact.what}`} ${fact.value}${unit}${remark}`;
}

const remarks = [
  "ate slowly today",
  "all at the front glass",
  "a little cloudy",
  "before the lights",
  "two hid in the moss",
  "mulm under the wood",
];
const foods = ["cyclops", "daphnia", "larvae"];
const species = ["rainbow", "ricefish", "killi", "cherry"];

function definitions(): string {
  const lines = [
    'room "Measured room"',
    "  units       temperature C, volume L",
    "  quarantine  28 d",
    "  as-of       last-entry",
    "  limits      nitrate <= 60 mg/L, temperature 22..28 C, pH 6.5..8",
    "",
    "water tap",
    "  content     nitrate 6 mg/L",
    "",
    "system rack-water",
    "  sump        90 L",
  ];
  for (let tank = 1; tank <= tanks; tank++) {
    lines.push(
      "",
      `tank row-${tank}`,
      `  volume      ${20 + 5 * (tank % 20)} L`,
      "  every       7 d change 25..40 %",
      "  every       14 d test nitrate",
    );
    if (tank > tanks - 12) lines.push("  system      rack-water");
  }
  for (const name of species) lines.push("", `species ${name}`, "  kind        fish");
  for (const name of foods) lines.push("", `food ${name}`, "  kind        frozen");
  lines.push(
    "",
    "food flake",
    "  kind        dry",
    "",
    "remedy remedy-a",
    "  target      1..4 mg/L",
    "  ceiling     8 mg/L",
    "  half-life   3 d",
  );
  return `${lines.join("\n")}\n`;
}

/** A small generator of good enough numbers (Tommy Ettinger's mulberry32, public domain), the same on every machine. */
export function mulberry32(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
