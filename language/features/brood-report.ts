import { isoOf, spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import type { BroodCard, BroodShareCard, BroodStageCard, BroodsCard, LotCard } from "./brood-cards.ts";
import {
  caution,
  figure,
  type Line,
  list,
  type Part,
  type Report,
  type Section,
  sectionsOfRooms,
  table,
  text,
} from "./document.ts";

/** Broods as a report: what is to come, where the open ones are, survival by stage, what pairs give. */

export const broodCaution =
  "Young are counted by eye: figures with ~ are estimates, and parents eat eggs, so a loss is not infertility. Before a medicine goes where " +
  "eggs or young are, ask a veterinarian: they bear less than the grown. What may be kept, bred and passed on is a matter of your law.";

/** @param rooms each logbook with what it is called; of several, each section says whose it is */
export function broodsReport(
  rooms: readonly { readonly title: string; readonly card: BroodsCard }[],
): Report {
  const [first] = rooms;
  return {
    title: "Broods",
    about:
      rooms.length === 1 && first !== undefined
        ? [first.title, spokenDay(first.card.day)].filter(Boolean).join(", ")
        : "",
    sections: sectionsOfRooms(rooms, roomSections),
  };
}

function roomSections(card: BroodsCard): readonly (Section | undefined)[] {
  if (card.broods.length === 0)
    return [
      {
        title: "Broods",
        parts: [text("No brood is written. Under a day: r2 spawn praecox 120 eggs lot p7")],
      },
    ];
  return [
    comingSection(card),
    openSection(card),
    survivalSection(card),
    pairsSection(card),
    { title: "Mind", parts: [caution(broodCaution)] },
  ];
}

function comingSection({ broods, day }: BroodsCard): Section {
  const items = broods.flatMap(({ name, species, lot, expected, stateText }): Line[] => {
    if (expected === null) return [];
    const what = lot === "" ? name : `${name} (${species})`;
    const word = expected.stage === "hatch" ? "hatch" : "swim";
    const late = expected.is === "late" ? "late: " : expected.is === "due" ? "due: " : "";
    return [
      {
        text: `${what}: ${late}${word} ${expected.text}`,
        note: stateText,
        ...(expected.is === "late" ? { tone: "warning" as const } : {}),
      },
    ];
  });
  const none =
    "Nothing is to be expected: no eggs wait of a species that states how long they take (hatches 7..10 d at 25 C).";
  return { title: "To come", note: spokenDay(day), parts: [items.length === 0 ? text(none) : list(items)] };
}

const stageCell = ({ stages }: BroodCard, stage: BroodStageCard["stage"]): string =>
  stages.find((each) => each.stage === stage)?.text ?? "";

function openSection({ broods, day }: BroodsCard): Section | undefined {
  const open = broods.filter(({ isOpen }) => isOpen);
  if (open.length === 0) return undefined;
  const rows = open.map((brood) => [
    brood.lot === "" ? brood.species : `${brood.name} (${brood.species})`,
    brood.stateText,
    brood.stages[0] === undefined ? "" : spokenDay(brood.stages[0].day, day),
    stageCell(brood, "laid"),
    stageCell(brood, "alive"),
    stageCell(brood, "hatched"),
    stageCell(brood, "swimming"),
  ]);
  const heads = ["Brood", "Where", "Since", ...["Laid", "Alive", "Hatched", "Swim"].map(figure)];
  return { title: "Open broods", note: String(open.length), parts: [table(heads, rows)] };
}

function survivalSection({ broods }: BroodsCard): Section | undefined {
  const told = broods.filter(({ lot, shares }) => lot !== "" && shares.length > 0);
  if (told.length === 0) return undefined;
  const whats = ["alive of laid", "hatched of laid", "swimming of hatched", "alive after 30 days"];
  const rows = told.map((brood) => [
    brood.name,
    ...whats.map((what) => shortShare(brood.shares.find((each) => each.what === what))),
  ]);
  return {
    title: "Survival by stage",
    parts: [
      table(["Brood", ...["Alive %", "Hatched %", "Swimming %", "Day 30 %"].map(figure)], rows),
      text(
        "Alive and hatched of the eggs laid; swimming and alive on day 30 of the hatched, who was sold before left out. In brackets the 95 % interval (Wilson 1927); of estimates it tells of chance alone.",
        "faint",
      ),
    ],
  };
}

/** `~82 (69..90)`. */
function shortShare(share: Omit<BroodShareCard, "why"> | undefined): string {
  if (share === undefined) return "";
  const { low, high, isAbout } = share;
  if (share.share === null || low === null || high === null) return "?";
  const percent = (fraction: number): string => formatNumber(fraction * 100, fraction < 0.995 ? 2 : 3);
  return `${isAbout ? "~" : ""}${percent(share.share)} (${percent(low)}..${percent(high)})`;
}

function pairsSection({ pairs, compared }: BroodsCard): Section | undefined {
  if (pairs.length === 0) return undefined;
  const rows = pairs.map((pair) => [
    pair.name,
    String(pair.spawnings),
    pair.interval === null ? "" : rangeText(pair.interval.median, pair.interval.least, pair.interval.most),
    pair.eggsText,
    pair.youngText,
  ]);
  const monthly = pairs.filter(
    (pair) => pair.eggsAMonth !== null || pair.youngAMonth !== null || pair.inbreeding !== null,
  );
  const number = (value: number | null): string => (value === null ? "" : formatNumber(value, 2));
  const parts: Part[] = [
    table(["Pair or tank", ...["Times", "Days between", "Eggs", "Young"].map(figure)], rows),
    text("Medians of single spawnings, or births; in brackets the least and the most.", "faint"),
  ];
  if (monthly.length > 0)
    parts.push(
      table(
        ["Pair or tank", ...["Eggs in 30 d", "Young in 30 d", "Inbreeding of young"].map(figure)],
        monthly.map((pair) => [
          pair.name,
          number(pair.eggsAMonth),
          number(pair.youngAMonth),
          pair.inbreeding ?? "",
        ]),
      ),
    );
  if (compared.length > 0) {
    parts.push(list(compared.map((each) => ({ text: each.text, note: each.species }))));
    parts.push(
      text(
        "Held against the one that gave most, spawning by spawning: rank-sum test (Wilcoxon 1945; Mann & Whitney 1947), p times the number of pairs.",
        "faint",
      ),
    );
  }
  return { title: "What they give", parts };
}

const rangeText = (median: number, least: number, most: number): string =>
  least === most
    ? formatNumber(median)
    : `${formatNumber(median)} (${formatNumber(least)}..${formatNumber(most)})`;

/** One lot: its course, its ancestors, its young. */
export function lotReport(card: LotCard, day: number): Report {
  const { name, title, species, sex, line, generation, born } = card;
  const about = [
    species,
    sex,
    line === "" ? "" : `line “${line}”`,
    generation,
    born === null ? "" : `born ${spokenDay(born)}`,
    `as of ${spokenDay(day)}`,
  ];
  return {
    title: [name, title].filter(Boolean).join(", "),
    about: about.filter(Boolean).join(", "),
    sections: [
      ...(card.brood === null ? [] : broodSections(card.brood, day)),
      ...(card.entries.length === 0
        ? []
        : [
            {
              title: "Entries",
              parts: [list(card.entries.map((each) => `${isoOf(each.day)} ${each.text}`))],
            },
          ]),
      ancestorSection(card),
      ...(card.young.length === 0
        ? []
        : [
            {
              title: "Young",
              parts: [
                table(
                  ["Brood", "Now"],
                  card.young.map((each) => [each.name, each.text]),
                ),
              ],
            },
          ]),
      { title: "Mind", parts: [caution(broodCaution)] },
    ],
  };
}

function broodSections(brood: BroodCard, day: number): Section[] {
  const { stages, shares, expected, took, stateText } = brood;
  const facts: Line[] = [
    { text: stateText },
    ...(expected === null
      ? []
      : [
          {
            text: `${expected.stage === "hatch" ? "hatch" : "swim"} ${expected.text}`,
            note: expectedNote(expected),
            ...(expected.is === "late" ? { tone: "warning" as const } : {}),
          },
        ]),
    ...took.map(
      (each): Line => ({
        text: `${each.stage === "hatch" ? "hatched" : "swam"} after ${each.text}`,
      }),
    ),
  ];
  return [
    {
      title: "Course",
      parts: [
        list(facts),
        table(
          ["Stage", "Day", figure("Number")],
          stages.map((each) => [stageWords[each.stage], spokenDay(each.day, day), each.text]),
        ),
      ],
    },
    ...(shares.length === 0
      ? []
      : [
          {
            title: "Survival by stage",
            parts: [
              table(
                ["Of", "Share (95 % interval)"],
                shares.map((each) => [each.what, each.text]),
              ),
              text("Wilson 1927; of estimates the interval tells of chance alone.", "faint"),
            ],
          },
        ]),
  ];
}

const stageWords: Readonly<Record<BroodStageCard["stage"], string>> = {
  laid: "laid",
  alive: "eggs alive",
  hatched: "hatched",
  swimming: "swimming",
  living: "living",
};

function expectedNote({ by, degreeDays }: NonNullable<BroodCard["expected"]>): string {
  const from =
    by === "own broods"
      ? "by the room's own broods"
      : by === "stated"
        ? "as stated"
        : "by days alone: no temperature is known";
  if (degreeDays === null) return from;
  const soFar = degreeDays.soFar === null ? "" : `${formatNumber(degreeDays.soFar, 3)} of `;
  return `${soFar}${formatNumber(degreeDays.low, 3)} to ${formatNumber(degreeDays.high, 3)} degree-days, ${from}`;
}

function ancestorSection({ ancestors, inbreeding }: LotCard): Section {
  if (ancestors.length === 0)
    return {
      title: "Ancestors",
      parts: [text("No parent is named: spawn praecox 60 eggs lot p8 father blue-1 mother gold-2")],
    };
  const items = ancestors.map(
    (each): Line => ({
      text: `${each.as}: ${[each.name, each.title].filter(Boolean).join(", ")}`,
      note: [
        each.line,
        each.generation,
        each.isGroup ? "one of several" : "",
        each.inbreedingText === "" ? "" : `inbreeding ${each.inbreedingText}`,
      ]
        .filter(Boolean)
        .join(", "),
    }),
  );
  const told =
    inbreeding === null
      ? text("Inbreeding cannot be told: a parent is not known, or the pedigree goes round.")
      : text(`Inbreeding ${inbreeding.text}.`, "strong");
  const how = (inbreeding?.why.from ?? []).map((each) => ({ text: each.what, note: each.value }));
  return {
    title: "Ancestors",
    parts: [
      told,
      ...(how.length === 0 ? [] : [list(how)]),
      list(items),
      ...(inbreeding === null ? [] : [text(`${inbreeding.why.formula}. ${inbreeding.why.source}.`, "faint")]),
    ],
  };
}
