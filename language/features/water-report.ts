import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import { parameterOf } from "../book/parameters.ts";
import { chlorine } from "../calculations/salts/chlorine.ts";
import { recipe } from "../calculations/salts/recipe.ts";
import { readingText } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import { capacityOn } from "../room/capacity.ts";
import type { Litres } from "../room/changes-due.ts";
import { AMMONIA_N_PER_COMBINED } from "../science/chlorine.ts";
import {
  caution,
  figure,
  type Line,
  list,
  type Report,
  type Section,
  sectionsOfRooms,
  table,
  text,
} from "./document.ts";
import type { WaterChange, WaterDay, WaterNeed } from "./water-day.ts";
import { notStated } from "./water-unstated.ts";

/** Water to prepare, as a report: today in full, the days after it in a line each. */

export const waterCaution = [recipe.caution, chlorine.caution].filter(Boolean).join(" ");

export interface RoomWater {
  readonly title: string;
  readonly book: Book;
  readonly days: readonly WaterDay[];
}

export function waterReport(rooms: readonly RoomWater[]): Report {
  const [only] = rooms;
  const today = only?.days[0]?.day;
  const about =
    rooms.length !== 1 || today === undefined
      ? ""
      : [only!.title, spokenDay(today)].filter(Boolean).join(", ");
  return {
    title: "Water to prepare",
    about,
    sections: sectionsOfRooms(
      rooms.map((room) => ({ title: room.title, card: room })),
      sectionsOf,
    ),
  };
}

function sectionsOf({ book, days }: RoomWater): (Section | undefined)[] {
  const [today, ...later] = days;
  if (today === undefined) return [];
  const all = days.flatMap(({ changes }) => changes);
  if (all.length === 0)
    return [
      {
        title: "Changes",
        parts: [
          text(
            "No change is due in these days. A change is made a duty below its tank: every 7 d change 30 %.",
          ),
        ],
      },
    ];
  return [
    changesSection(book, today),
    prepareSection(book, today),
    warmthSection(book, today),
    laterSection(book, later, today.day),
    unstatedSection(book, days),
    careSection(days),
  ];
}

function changesSection(book: Book, { day, changes, litres, minutes }: WaterDay): Section {
  const title = `Changes of ${spokenDay(day)}`;
  if (changes.length === 0) return { title, parts: [text("No change is due on this day.")] };
  const capacity = capacityOn(book, day).litres;
  const over =
    litres === undefined || !(litres.high > capacity)
      ? ""
      : litres.low > capacity
        ? "More"
        : "At the most more";
  const used = litres === undefined ? "" : litresText(litres);
  const of = Number.isNaN(capacity) ? "" : ` of ${formatNumber(capacity)} L a day`;
  return {
    title,
    ...(used === "" ? {} : { note: `${used}${of}` }),
    parts: [
      table(
        ["Tank", "Change", "Water", figure("Prepare"), figure("Time")],
        changes.map((change) => [
          change.at,
          `${change.act}${change.late > 0 ? `, ${change.late} d late` : ""}`,
          wayText(change),
          change.litres === undefined ? "?" : litresText(change.litres),
          change.minutes === undefined ? "?" : minutesText(change.minutes),
        ]),
      ),
      ...(minutes === undefined
        ? []
        : [text(`Draining and filling one after the other: ${minutesText(minutes)} in all.`)]),
      ...(changes.some(({ method, act }) => method === "flow" && !/\bflow\b/.test(act))
        ? [
            text(
              "Of a flow more runs through than its share: 1 - exp(-litres through / net volume) of the old water is gone.",
              "faint",
            ),
          ]
        : []),
      ...(over !== ""
        ? [text(`${over} than the ${formatNumber(capacity)} L that the room states for a day.`, "warning")]
        : []),
      ...problemParts(changes),
    ],
  };
}

function wayText({ method, source, isFromTank, isUsual }: WaterChange): string {
  const water = source === "" ? "no water is defined" : isFromTank ? `water of ${source}` : source;
  return [water, method === "flow" ? "flow" : "", isUsual ? "" : "not told by earlier changes"]
    .filter(Boolean)
    .join(", ");
}

const problemParts = (changes: readonly WaterChange[]) => {
  const problems = changes.filter(({ problem }) => problem !== "");
  return problems.length === 0
    ? []
    : [list(problems.map(({ at, problem }): Line => ({ text: `${at}: ${problem}`, tone: "warning" })))];
};

function prepareSection(book: Book, { waters }: WaterDay): Section | undefined {
  if (waters.length === 0) return undefined;
  return { title: "Prepare", parts: [list(waters.flatMap((need) => needLines(book, need)))] };
}

function needLines(book: Book, need: WaterNeed): Line[] {
  const { name, title, litres, made, problem, conditioner } = need;
  const lines: Line[] = [
    {
      text: `${name}: ${litresText(litres)}${forText(need)}`,
      ...(title === "" ? {} : { note: title }),
      tone: "strong",
    },
  ];
  if (problem !== "")
    lines.push({ text: `${name} cannot be made as it is stated: ${problem}`, tone: "warning" });
  if (made !== undefined) {
    const shares = made.parts.map(({ water, share }) => `${water.name} ${litresText(times(litres, share))}`);
    lines.push({
      text: `${made.isStated ? "made" : "by what it holds it could be made"} of ${shares.join(", ")}`,
    });
    for (const { formula, mgL } of made.salts)
      lines.push({ text: `${formula}: ${gramsText(times(litres, mgL))}, dissolved in ${name}` });
    const comes = made.reached.map(
      ({ parameter, reached }) => `${parameter.name} ${readingText(book, parameter, reached)}`,
    );
    lines.push({ text: `comes out at ${comes.join(", ")}`, tone: "faint" });
    for (const { parameter, wanted } of made.reached.filter(({ isMet }) => !isMet))
      lines.push({
        text: `${parameter.name} ${readingText(book, parameter, wanted)} is stated and not reached`,
        tone: "warning",
      });
    for (const remark of made.remarks) lines.push({ text: remark });
  }
  if (conditioner !== undefined) {
    const { totalMgL, combinedMgL, crystalsMg } = conditioner;
    lines.push({
      text: `${gramsText(crystalsMg)} of sodium thiosulfate crystals (pentahydrate) for its ${formatNumber(totalMgL)} mg/L of chlorine, by the way that needs most`,
      note: "7 mg for 1 mg of chlorine",
    });
    if (combinedMgL > 0)
      lines.push({
        text: `its chloramine leaves ${formatNumber(combinedMgL * AMMONIA_N_PER_COMBINED)} mg/L of ammonia as N in the new water`,
        tone: "warning",
      });
  }
  return lines;
}

/** `, for soft`; `, of it 6.7 L for soft`. */
function forText({ litres, direct, into }: WaterNeed): string {
  if (into.length === 0) return "";
  const rest =
    direct === undefined
      ? ""
      : `of it ${litresText({ low: litres.low - direct.low, high: litres.high - direct.high })} `;
  return `, ${rest}for ${into.join(", ")}`;
}

const temperature = parameterOf("temperature");

function warmthSection(book: Book, { changes, day: today }: WaterDay): Section | undefined {
  const celsius = (value: number): string => readingText(book, temperature, value);
  const lines = changes.flatMap(({ at, source, warmth, litres }): Line[] => {
    if (warmth === undefined || litres === undefined || Number.isNaN(warmth.tankC)) return [];
    const { tankC, day, sourceC, change, mix } = warmth;
    const to = `${at}: ${celsius(tankC)}, read on ${spokenDay(day, today)}`;
    if (change === undefined) return [{ text: to }];
    const most = Math.abs(change.high);
    if (most < least) return [{ text: `${to}; ${source} is ${celsius(sourceC)}: near enough` }];
    const by = spanText(times({ low: Math.abs(change.low), high: most }, stepOf(book)), stepSymbol(book));
    const unmatched = `${source} is ${celsius(sourceC)}: unmatched it ${change.high < 0 ? "cools" : "warms"} the tank by ${by}`;
    const matched =
      mix === undefined
        ? ""
        : `; with ${litresText(mix.litres)} of it ${mix.water} instead it is as warm as the tank`;
    return [{ text: `${to}; ${unmatched}${matched}`, tone: most >= much ? "warning" : "plain" }];
  });
  return lines.length === 0 ? undefined : { title: "Temperature to match", parts: [list(lines)] };
}

/** Less than this of a change in a tank is not worth a word, more than that is marked. *Common practice, no source.* */
const least = 0.5;
const much = 2;

/** A difference of temperature in the room's degrees: the zero of the scale falls out. */
const stepOf = ({ units }: Book): number =>
  units.fromReading(temperature, 1) - units.fromReading(temperature, 0);
const stepSymbol = ({ units }: Book): string => units.shown(temperature).symbol;

function laterSection(book: Book, days: readonly WaterDay[], today: number): Section | undefined {
  if (days.length === 0) return undefined;
  const rows = days.map(({ day, changes, waters, litres }) => [
    spokenDay(day, today),
    changes.map(({ at }) => at).join(", ") || (capacityOn(book, day).away === undefined ? "none" : "away"),
    waters
      .flatMap(({ name, direct }) => (direct === undefined ? [] : [`${name} ${litresText(direct)}`]))
      .join(", "),
    litres === undefined ? "" : litresText(litres),
  ]);
  return {
    title: "The days after",
    parts: [
      table(["Day", "Changes", "Water", figure("In all")], rows),
      text("If each change is done on the day on which it falls due, as usual.", "faint"),
    ],
  };
}

function unstatedSection(book: Book, days: readonly WaterDay[]): Section | undefined {
  const lines = notStated(book, days);
  return lines.length === 0 ? undefined : { title: "Not stated", parts: [list(lines)] };
}

function careSection(days: readonly WaterDay[]): Section | undefined {
  const waters = days.flatMap((each) => each.waters);
  const cautions = [
    ...(waters.some(({ conditioner }) => conditioner !== undefined) ? [chlorine.caution] : []),
    ...(waters.some(({ made }) => made !== undefined) ? [recipe.caution] : []),
  ].filter((each): each is string => each !== undefined);
  return cautions.length === 0
    ? undefined
    : { title: "Before it goes in", parts: cautions.map((each) => caution(each)) };
}

const times = ({ low, high }: Litres, factor: number): Litres => ({ low: low * factor, high: high * factor });

/** `12 to 30 L`, `12 L`. */
function spanText({ low, high }: Litres, unit: string, digits = 2): string {
  const [from, to] = [formatNumber(low, digits), formatNumber(high, digits)];
  return `${from === to ? "" : `${from} to `}${to} ${unit}`;
}

const litresText = (litres: Litres): string => {
  const digits = (value: number): string => formatNumber(value, value < 100 ? 2 : 3);
  const [from, to] = [digits(litres.low), digits(litres.high)];
  return `${from === to ? "" : `${from} to `}${to} L`;
};
const minutesText = (minutes: Litres): string => {
  const [from, to] = [Math.ceil(minutes.low - 1e-9), Math.ceil(minutes.high - 1e-9)];
  return `${from === to ? "" : `${from} to `}${to} min`;
};
const gramsText = (mg: Litres): string =>
  mg.high < 1000 ? spanText(mg, "mg", 3) : spanText(times(mg, 1 / 1000), "g", 3);
