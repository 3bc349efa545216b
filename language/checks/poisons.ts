import { wordOf } from "../book/interner.ts";
import { type Parameter, parameterOf } from "../book/parameters.ts";
import type { Species } from "../book/stations.ts";
import { unitOf } from "../quantity/units.ts";
import type { Ledger } from "../room/ledger.ts";
import { residentsAt } from "../room/past.ts";
import type { Series } from "../room/series.ts";
import { type Why, whyEntry } from "../room/why.ts";
import { TOTAL_CHLORINE_CRITERIA_MG_L } from "../science/chlorine.ts";
import { copperAcuteDissolvedUgL } from "../science/copper.ts";
import { isOutside } from "../science/result.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { readingSpan, readingText } from "./words.ts";

/** Copper and chlorine: what kills in amounts that hardly show. */

export const poisonPages = [
  page({
    code: "water/copper-invertebrates",
    severity: "warning",
    since: "0.2",
    title: "Copper where shrimp or snails live",
    says: "Copper was read in water where invertebrates live. They die at a few times less than fish: half of the animals within four days at 0.020 (an amphipod) and 0.039 mg/L (a bladder snail), half of nerites within three weeks at 0.016; some snails with a lid stand far more.",
    whatToDo:
      "Find where it comes from: a remedy or fertiliser, a pipe, hot or standing tap water. Change water with water that has none, or move the animals. Test the source water too.",
    raises: `tank s1
  volume 30 L
species cherry
  kind shrimp
2026-03-01
  s1  count cherry 20
  s1  test copper 0.05 mg/L
#                 ^^^^^^^^^ water/copper-invertebrates`,
    fine: `tank s1
  volume 30 L
species guppy
2026-03-01
  s1  count guppy 20
  s1  test copper 0.005 mg/L`,
    source:
      "Arthur & Leonard 1970, J. Fish. Res. Board Can. 27:1277-1283 (Gammarus, Physa, Campeloma; soft water; abstract read); three weeks of Theodoxus fluviatilis: PubMed 32556375 (2020, abstract read).",
  }),
  page({
    code: "water/copper-criterion",
    severity: "warning",
    since: "0.2",
    title: "Copper above the acute criterion",
    says: "The reading is above the one-hour criterion for fresh water at the hardness last read there: the softer the water, the less copper it takes.",
    whatToDo:
      "If it is a treatment, hold it against its label and the veterinarian's word. If not, change water and find the source. A criterion protects the animals of a river; it is no target.",
    raises: `tank q1
  volume 30 L
2026-03-01
  q1  test GH 4, copper 0.1 mg/L
#                       ^^^^^^^^ water/copper-criterion`,
    fine: `tank q1
  volume 30 L
2026-03-01
  q1  test GH 4, copper 0.005 mg/L`,
    source:
      "US EPA 1985, Ambient Water Quality Criteria for Copper, EPA 440/5-84-031, with the update of 1995 for dissolved copper.",
  }),
  page({
    code: "water/chlorine",
    severity: "warning",
    since: "0.2",
    title: "Chlorine in a tank",
    says: "Chlorine was read in a tank. The criteria for fresh water, 0.019 mg/L for an hour and 0.011 mg/L for four days, lie below what a colour test shows: any that can be read is too much.",
    whatToDo:
      "Take it up at once (the calculation “chlorine” says how much thiosulfate by each path), aerate, test total chlorine again. Condition new water before the animals meet it; of chloramine the ammonia stays.",
    raises: `tank dam
  volume 100 L
2026-03-01
  dam test chlorine 0.1 mg/L
#                   ^^^^^^^^ water/chlorine`,
    fine: `tank dam
  volume 100 L
2026-03-01
  dam test chlorine <0.1 mg/L`,
    source:
      "US EPA 1985, Ambient Water Quality Criteria for Chlorine, EPA 440/5-84-030: 0.019 mg/L acute; 0.011 chronic recalled.",
  }),
] as const;

const copper = parameterOf("copper");
const hardness = parameterOf("GH");
const chlorines = [parameterOf("chlorine"), parameterOf("chloramine")];
const invertebrates: ReadonlySet<string> = new Set(["shrimp", "snail", "crayfish"]);

/** The findings of a ledger; copper and chlorine are rarely tested, so each reading is looked at. */
export function poisonFindings(ledger: Ledger): RowFinding[] {
  return [
    ...eachReading(ledger, copper).flatMap((reading) => copperFinding(ledger, reading)),
    ...chlorines
      .flatMap((parameter) => eachReading(ledger, parameter))
      .map((reading) => chlorineFinding(ledger, reading)),
  ];
}

interface Read {
  readonly parameter: Parameter;
  readonly series: Series;
  readonly index: number;
  /** The least it may be, canonical. */
  readonly low: number;
  readonly text: () => string;
  readonly where: string;
}

/** The readings that are more than nought for certain. */
function eachReading(ledger: Ledger, parameter: Parameter): Read[] {
  const series = ledger.readings[parameter.id];
  if (series === undefined) return [];
  const reads: Read[] = [];
  for (let index = 0; index < series.length; index++) {
    const low = series.first[index]!;
    if (!(low > 0)) continue;
    const where = ledger.book.stations[series.tag[index]!]?.name ?? ledger.body?.name ?? "";
    const text = (): string => readingSpan(ledger.book, parameter, low, series.second[index]!);
    reads.push({ parameter, series, index, low, text, where });
  }
  return reads;
}

function copperFinding(ledger: Ledger, read: Read): RowFinding[] {
  const { series, index, where, text } = read;
  const time = series.time[index]!;
  const soft = residentsAt(ledger, time).flatMap((species) => speciesOf(ledger, species));
  const criterion = criterionAt(ledger, time);
  if (soft.length > 0) {
    const names = soft.map(({ name, kind }) => `${name} (${kind})`).join(", ");
    return [
      finding(
        ledger,
        read,
        "water/copper-invertebrates",
        () =>
          `copper ${text()} in ${where}, where ${names} live: invertebrates die at a few times less than fish${
            criterion === undefined ? "" : `; the acute criterion at this hardness is ${criterion.text}`
          }`,
        () => (criterion === undefined ? [] : [criterion.why()]),
      ),
    ];
  }
  if (criterion === undefined || read.low <= criterion.mgL) return [];
  return [
    finding(
      ledger,
      read,
      "water/copper-criterion",
      () => `copper ${text()} in ${where} is above the acute criterion of ${criterion.text} at this hardness`,
      () => [criterion.why()],
    ),
  ];
}

function speciesOf({ book }: Ledger, number: number): Species[] {
  const species = book.species.get(wordOf(number));
  return species !== undefined && invertebrates.has(species.kind) ? [species] : [];
}

/** The acute criterion by the hardness last read until the end of a day; undefined where none was, or it does not reach there. */
function criterionAt(
  ledger: Ledger,
  time: number,
): { readonly mgL: number; readonly text: string; readonly why: () => Why } | undefined {
  const series = ledger.readings[hardness.id];
  const last = (series?.from(Math.floor(time) + 1) ?? 0) - 1;
  if (series === undefined || last < 0) return undefined;
  const caco3 = series.first[last]! / unitOf("mg/L CaCO3").factor;
  const ugL = copperAcuteDissolvedUgL(caco3);
  if (isOutside(ugL)) return undefined;
  const text = readingText(ledger.book, copper, ugL / 1000, 2);
  return {
    mgL: ugL / 1000,
    text,
    // Asked for when it is shown: its entry moves with edits above it.
    why: () => ({
      what: "acute criterion, dissolved copper",
      value: text,
      formula: "0.960 × exp(0.9422 × ln(hardness) - 1.700), ug/L, hardness in mg/L CaCO3",
      source: "US EPA 1985, EPA 440/5-84-031; update of 1995",
      from: [whyEntry({ block: series.block[last]!, row: series.row[last]! })],
    }),
  };
}

function chlorineFinding(ledger: Ledger, read: Read): RowFinding {
  const { acute, chronic } = TOTAL_CHLORINE_CRITERIA_MG_L;
  return finding(
    ledger,
    read,
    "water/chlorine",
    () =>
      `${read.parameter.name} ${read.text()} in ${read.where}; the criteria for fresh water are ${acute} mg/L for an hour and ${chronic} mg/L for four days`,
    () => [],
  );
}

function finding(
  ledger: Ledger,
  { parameter, series, index }: Read,
  code: RowFinding["code"],
  message: () => string,
  from: () => readonly Why[],
): RowFinding {
  const block = series.block[index]!;
  const row = series.row[index]!;
  const station = ledger.book.stations[series.tag[index]!];
  const isLatest = (): boolean => index === (ledger.readings[parameter.id]?.length ?? 0) - 1;
  return {
    code,
    block,
    row,
    slots: ["reading"],
    severity: () => (isLatest() ? "warning" : "hint"),
    message,
    why: () => ({ what: message(), value: "", from: [whyEntry({ block, row }), ...from()] }),
    ...(station === undefined ? {} : { about: station }),
  };
}
