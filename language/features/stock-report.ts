import { isoOf, spokenDay } from "../book/dates.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import {
  type Column,
  figure,
  list,
  type Part,
  type Report,
  type Section,
  sectionsOfRooms,
  table,
  text,
} from "./document.ts";
import type { LotCard, MeasuredCard, MortalityCard, StockBy, StockCard, StockLine } from "./stock-cards.ts";

/** The stock of a room as a report: the book of the period, losses, what arrived dead, lots, stocking, what was measured. */

/** A room with what it is called. */
export interface RoomStock {
  readonly title: string;
  readonly card: StockCard;
}

/** @param rooms of several, each section says whose it is */
export function stockReport(rooms: readonly RoomStock[]): Report {
  const [first] = rooms;
  return {
    title: "Stock",
    about: first === undefined ? "" : aboutPeriod(rooms.length === 1 ? first.title : "", first.card),
    sections: sectionsOfRooms(rooms, (card) => [
      bookSection(card),
      lossSection(card),
      deadSection(card),
      lotSection(card),
      stockingSection(card),
      measuredSection(card),
    ]),
  };
}

/** `Cellar, 2026-03-02 to 2026-03-31`. */
export function aboutPeriod(
  title: string,
  { from, to }: { readonly from: number; readonly to: number },
): string {
  return [title, `${isoOf(from)} to ${isoOf(to)}`].filter((part) => part !== "").join(", ");
}

const names: Readonly<Record<StockBy, readonly (keyof StockLine & string)[]>> = {
  tank: ["tank", "species"],
  species: ["species"],
  lot: ["lot", "species", "supplier"],
  supplier: ["supplier"],
};

const nameCells = (line: StockLine, by: StockBy): string[] =>
  names[by].map((name) => String(line[name]) || (name === "supplier" ? "bred here or not said" : ""));

export function bookSection({ lines, total, by }: StockCard): Section {
  const title = "The book";
  if (lines.length === 0) {
    const words =
      by === "tank" || by === "species"
        ? "No animals in this time: dam  arrive praecox 10"
        : "No entry in this time names a lot: dam  arrive praecox 10 lot a17";
    return { title, parts: [text(words)] };
  }
  const row = (line: StockLine, named: readonly string[]) => [
    ...named,
    count(line.opening),
    flowText(cameBy, line, by),
    flowText(wentBy, line, by),
    `${line.isAbout ? "~" : ""}${count(line.closing)}`,
  ];
  const heads = names[by].map((name) => head(name));
  const isWhole = by === "tank" || by === "species";
  const parts: Part[] = [
    table(
      [...heads, figure("first"), "came", "went", figure("last")],
      lines.map((line) => row(line, nameCells(line, by))),
    ),
  ];
  if (isWhole && lines.length > 1) parts.push(text(totalText(total)));
  if (lines.some(({ found, unaccounted }) => found + unaccounted > 0))
    parts.push(
      text("Found and short: more and fewer than the book knew, by a count or by what left.", "faint"),
    );
  if (!isWhole)
    parts.push(
      text(
        "Of lots only what entries say that name them; what names none is about the species at large.",
        "faint",
      ),
    );
  return { title, note: count(lines.length), parts };
}

/** `In all 1090 at first; came: arrived 8; went: died 2; 1096 at last.` */
function totalText(total: StockLine): string {
  const [came, went] = [flowText(cameBy, total, "species"), flowText(wentBy, total, "species")];
  const parts = [
    `In all ${count(total.opening)} at first`,
    ...(came === "" ? [] : [`came: ${came}`]),
    ...(went === "" ? [] : [`went: ${went}`]),
    `${total.isAbout ? "about " : ""}${count(total.closing)} at last`,
  ];
  return `${parts.join("; ")}.`;
}

type Sums = Omit<StockLine, "mortality" | "why" | "tank" | "species" | "lot" | "supplier" | "isAbout">;
type Flow = readonly [words: string, of: (line: Sums) => number];

/** What came into one tank: `arrived 4, born 10`. */
export const cameText = (line: Sums): string => flowText(cameBy, line, "tank");
export const wentText = (line: Sums): string => flowText(wentBy, line, "tank");

const cameBy: readonly Flow[] = [
  ["arrived", (line) => line.arrived],
  ["born", (line) => line.born],
  ["moved in", (line) => line.movedIn],
  ["found", (line) => line.found],
];

const wentBy: readonly Flow[] = [
  ["died", ({ lost }) => lost.found + lost.jumped + lost.euthanised + lost.lost],
  ["culled", ({ lost }) => lost.culled],
  ["missing", ({ lost }) => lost.missing],
  ["moved out", (line) => line.movedOut],
  ["sold", (line) => line.sold],
  ["shipped", (line) => line.shipped],
  ["short", (line) => line.unaccounted],
];

/** `arrived 4, born 10`. Of lines that are of all tanks the moves between these go out into and come in from one another. */
function flowText(flows: readonly Flow[], line: Sums, by: StockBy): string {
  const isWithin = by !== "tank" && line.movedIn === line.movedOut;
  return flows
    .filter(([words, of]) => of(line) !== 0 && !(isWithin && words.startsWith("moved")))
    .map(([words, of]) => `${words} ${count(of(line))}`)
    .join(", ");
}

export function lossSection({ lines, total, by, from, to }: StockCard): Section | undefined {
  const dead = lines.filter(({ mortality }) => mortality.deaths > 0);
  if (dead.length === 0)
    return lines.length === 0 ? undefined : { title: "Deaths", parts: [text("None in this time.")] };
  const row = (line: StockLine, named: readonly string[]) => [...named, ...mortalityCells(line.mortality)];
  const heads = names[by].map((name) => head(name));
  return {
    title: "Deaths",
    note: `${days(to - from + 1)}, against as many before`,
    parts: [
      table(
        [
          ...heads,
          figure("died"),
          figure("of all"),
          figure("of mean"),
          figure("per 1000 animal-days"),
          figure("before"),
          figure("times"),
          figure("p"),
        ],
        [
          ...dead.map((line) => row(line, nameCells(line, by))),
          ...(dead.length > 1 && (by === "tank" || by === "species")
            ? [row(total, ["all", ...names[by].slice(1).map(() => "")])]
            : []),
        ],
      ),
      text(
        "Died: found dead, jumped, euthanised, or lost without a word how. Of all: of those there at first and all that came in; of mean: of the mean number there. Per 1000 animal-days with the exact 95 % interval of a Poisson count (Garwood 1936); " +
          "times: the rate over that before, none where nothing died then; p by the conditional test (Przyborowski & Wilenski 1940), each line by itself: of twenty lines one is below 0.05 by chance.",
        "faint",
      ),
    ],
  };
}

function mortalityCells({ deaths, ofAll, ofMean, perThousand, against }: MortalityCard): string[] {
  return [
    count(deaths),
    share(ofAll),
    share(ofMean),
    perThousand === null
      ? ""
      : `${number(perThousand.best)} (${number(perThousand.low)} to ${number(perThousand.high)})`,
    against === null || against.animalDays === 0 ? "" : number((1000 * against.deaths) / against.animalDays),
    against === null ? "" : number(against.ratio),
    against === null ? "" : against.p < 0.0001 ? "<0.0001" : formatNumber(against.p, 2),
  ];
}

function deadSection({ dead }: StockCard): Section | undefined {
  if (dead.length === 0) return undefined;
  const by = { route: "supplier", carrier: "carrier" } as Readonly<Record<string, string>>;
  return {
    title: "Dead on arrival",
    parts: [
      table(
        [
          "supplier, carrier",
          figure("came"),
          figure("dead"),
          figure("share, 95 %"),
          figure("lost in 7 days"),
        ],
        dead.map((each) => [
          `${by[each.by] ?? each.by} ${each.name}`,
          count(each.animals),
          count(each.dead),
          each.text,
          each.after === null ? "" : `${count(each.after.lost)} of ${count(each.after.alive)}`,
        ]),
      ),
      text("Shares with the interval of Wilson 1927.", "faint"),
    ],
  };
}

function lotSection({ lots, to }: StockCard): Section | undefined {
  if (lots.length === 0) return undefined;
  const rows = lots.map((lot) => [
    lot.lot,
    lot.species,
    lot.homes.map(({ tank, animals }) => `${tank} ${count(animals)}`).join(", "),
    lot.ageDays === null ? "" : `${count(lot.ageDays)} d`,
    survivalText(lot),
  ]);
  return {
    title: "Lots",
    note: spokenDay(to),
    parts: [
      table(["lot", "species", "where", figure("age"), "alive since they came"], rows),
      text(
        "Alive: Kaplan & Meier 1958 with a 95 % interval; sold, sent, culled and missing animals are followed until they left. By the entries that name the lot.",
        "faint",
      ),
    ],
  };
}

/** `80 % at 30 days (41 to 95), of 10`. */
export function survivalText({ life, unknown }: Pick<LotCard, "life" | "unknown">): string {
  if (life === null) return unknown;
  const last = life.table.at(-1);
  if (last === undefined) return `${count(life.still)} of ${count(life.animals)} in the first days`;
  const limits =
    last.low === null || last.high === null
      ? ""
      : ` (${formatNumber(last.low * 100, 2)} to ${formatNumber(last.high * 100, 2)})`;
  return `${formatNumber(last.survival * 100)} %${limits} at ${days(last.days)}, of ${count(life.animals)}`;
}

function stockingSection({ tanks }: StockCard): Section | undefined {
  if (tanks.length === 0) return undefined;
  const isLeftOut = tanks.some(({ unweighed }) => unweighed.length > 0);
  return {
    title: "What the tanks bear",
    parts: [
      table(
        [
          "tank",
          figure("weight"),
          figure("g/L"),
          figure("holds"),
          figure("oxygen used"),
          figure("in the water"),
          ...(isLeftOut ? ["no weight known of"] : []),
        ],
        tanks.map(({ tank, grams, gramsPerLitre, holdsText, oxygen, unweighed }) => [
          tank,
          grams === null ? "" : `${number(grams)} g`,
          number(gramsPerLitre),
          holdsText,
          oxygen === null ? "" : `${number(oxygen.mgPerH)} mg/h`,
          oxygen === null ? "" : `${number(oxygen.heldMg)} mg`,
          ...(isLeftOut ? [unweighed.join(", ")] : []),
        ]),
      ),
      text(
        "Weight as weighed last, else that of an adult scaled by the cube of the measured length, else that of an adult. Oxygen of fish at rest (Clarke & Johnston 1999); one that swims or digests uses more; none is told where the temperature, the volume or the weight is not known.",
        "faint",
      ),
    ],
  };
}

function measuredSection({ measured }: StockCard): Section | undefined {
  const items = measured.flatMap((each) =>
    measuredLines(each).map((words) => ({ text: `${each.tank} ${each.species}: ${words}` })),
  );
  if (items.length === 0) return undefined;
  return {
    title: "Sexes and sizes",
    parts: [list(items), text("A month is 30 days; slopes by Theil-Sen with a 95 % interval.", "faint")],
  };
}

export function measuredLines({ sexes, trends }: MeasuredCard): string[] {
  const lines: string[] = [];
  if (sexes !== null) {
    const { males, females, unsexed, share: of, day } = sexes;
    const limits =
      of === null
        ? ""
        : `, ${formatNumber(of.best * 100, 2)} % males (${formatNumber(of.low * 100, 2)} to ${formatNumber(of.high * 100, 2)})`;
    lines.push(`${males} males, ${females} females, ${unsexed} unsexed on ${spokenDay(day)}${limits}`);
  }
  for (const { what, unit, latest, day, measurements, perMonth } of trends) {
    const limits =
      perMonth === null || perMonth.low === null || perMonth.high === null
        ? ""
        : ` (${signed(perMonth.low)} to ${signed(perMonth.high)})`;
    const slope = perMonth === null ? "" : `, ${signed(perMonth.best)} a month${limits} over ${measurements}`;
    lines.push(`${what} ${number(latest)}${unit === "" ? "" : ` ${unit}`} on ${spokenDay(day)}${slope}`);
  }
  return lines;
}

const head = (name: string): Column => ({ title: name });
const count = (value: number): string => formatNumber(value, 6);
const number = (value: number | null): string => (value === null ? "" : formatNumber(value));
const share = (value: number | null): string => (value === null ? "" : `${formatNumber(value * 100)} %`);
const signed = (value: number): string => `${value > 0 ? "+" : ""}${formatNumber(value, 2)}`;
