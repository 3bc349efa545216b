import { spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import {
  type Cell,
  caution,
  figure,
  list,
  type Part,
  type Report,
  type Section,
  table,
  text,
} from "./document.ts";
import { dueSaid } from "./orders-card.ts";
import type { LabelCard, PackingCard, PackingPartCard } from "./packing-cards.ts";

/** The packing list of an order, and a label for each bag, to print. */
export function packingReport(card: PackingCard): Report {
  const { order, buyer, day, carrier, route, due } = card;
  return {
    title: `Packing ${order}`,
    about: [
      buyer === "" ? "" : `for ${buyer}`,
      spokenDay(day),
      dueSaid(due, day),
      carrier === "" ? "" : `by ${carrier}`,
      route,
    ]
      .filter(Boolean)
      .join(", "),
    sections: [listSection(card), bagSection(card), publishedSection(card), ...card.labels.map(labelSection)],
  };
}

const count = (animals: number): string => formatNumber(animals, 6);

/** The packing list. */
function listSection({ parts, held, lacking, labels, day }: PackingCard): Section {
  const lacks = lacking.map(({ species, animals }) =>
    text(`${count(animals)} ${species} are in no tank.`, "warning"),
  );
  const heldBack: Part[] =
    held.length === 0
      ? []
      : [
          text("Not to go yet:", "warning"),
          list(
            held.map(
              ({ species, tank, animals, reasons }) =>
                `${count(animals)} ${species} of ${tank}: ${reasons.map((each) => each.text).join("; ")}`,
            ),
          ),
        ];
  if (parts.length === 0)
    return {
      title: "Packing list",
      parts: [
        ...lacks,
        ...heldBack,
        ...(lacking.length + held.length > 0 ? [] : [text("Nothing is left to pack: all of it has gone.")]),
      ],
    };
  const unfasted = parts.flatMap(({ species, tank, reasons }) =>
    reasons.length === 0 ? [] : [`${species} of ${tank}: ${reasons.map((each) => each.text).join("; ")}`],
  );
  const against: Part[] =
    unfasted.length === 0 ? [] : [text(`Against it on ${spokenDay(day)}:`, "warning"), list(unfasted)];
  return {
    title: "Packing list",
    note: labels.length === 0 ? "bags not known" : `${labels.length} ${labels.length === 1 ? "bag" : "bags"}`,
    parts: [
      table(
        ["Species", "Tank", figure("Animals"), "Bags", "Last fed"],
        parts.map((part): Cell[] => [
          part.lot === "" ? part.species : `${part.species}, lot ${part.lot}`,
          part.isShipped ? `${part.tank} (shipped)` : part.tank,
          count(part.animals),
          bagsText(part),
          part.fedText,
        ]),
      ),
      ...(parts.some(({ bags }) => bags.length === 0)
        ? [
            text(
              "Bags with ? are not reckoned, the reason is below: --each says how many go into one.",
              "warning",
            ),
          ]
        : []),
      ...lacks,
      ...heldBack,
      ...against,
    ],
  };
}

/** `2 of 4, 1 of 3`. */
function bagsText({ bags }: PackingPartCard): string {
  if (bags.length === 0) return "?";
  const sizes = [...new Set(bags)];
  return sizes.map((size) => `${bags.filter((each) => each === size).length} of ${count(size)}`).join(", ");
}

/** What the bags come to. */
function bagSection({ bag, parts, caution: care }: PackingCard): Section {
  const bounds = [
    `oxygen at least ${said(bag.leastOxygenMgL)} mg/L`,
    ...(bag.mostTotalMgLN === null ? [] : [`total ammonia at most ${said(bag.mostTotalMgLN)} mg/L N`]),
    ...(bag.mostFreeMgLN === null ? [] : [`free ammonia at most ${said(bag.mostFreeMgLN)} mg/L N`]),
    ...(bag.mostCo2MgL === null ? [] : [`CO2 at most ${said(bag.mostCo2MgL)} mg/L`]),
    ...(bag.mostLoadGPerL === null ? [] : [`load at most ${said(bag.mostLoadGPerL)} g/L`]),
  ];
  const arrived = parts.filter(({ arrival }) => arrival !== null);
  return {
    title: "A bag on arrival",
    parts: [
      text(
        `${said(bag.waterL)} L of water under ${said(bag.gasL)} L of ${bag.gas}; ${said(bag.hours)} h at ${said(bag.temperatureC)} C, the fish using ${said(bag.activity)} times what they do at rest. Bounds: ${bounds.join(", ")}.`,
      ),
      ...(bag.taken.length === 0
        ? []
        : [text(`Taken, as nothing else was stated: ${bag.taken.join("; ")}.`, "faint")]),
      list(
        parts.map(({ species, tank, mostText, weightText }) => ({
          text: `${species} of ${tank}: ${mostText}`,
          note: `one weighs ${weightText}`,
        })),
      ),
      ...(arrived.length === 0
        ? []
        : [
            table(
              [
                "The fullest bag",
                figure("Load g/L"),
                figure("Oxygen mg/L"),
                figure("lasts h"),
                figure("Ammonia mg/L N"),
                figure("free"),
                figure("CO2 mg/L"),
                figure("pH"),
                figure("free once aired"),
              ],
              arrived.map(({ species, tank, bags, arrival }): Cell[] => [
                `${count(bags[0] ?? 0)} ${species} of ${tank}`,
                some(arrival!.loadGPerL),
                some(arrival!.oxygenMgL),
                some(arrival!.hours),
                some(arrival!.totalMgLN),
                some(arrival!.freeMgLN),
                some(arrival!.co2MgL),
                some(arrival!.pH),
                some(arrival!.airedFreeMgLN),
              ]),
            ),
          ]),
      ...[...new Set(arrived.flatMap(({ arrival }) => arrival!.unheld))].map((each) =>
        text(`Not known: ${each}.`, "faint"),
      ),
      caution(care),
    ],
  };
}

const said = (value: number): string => formatNumber(value, 3);
const some = (value: number | null): string => (value === null ? "not known" : said(value));

function publishedSection({ published }: PackingCard): Section {
  return {
    title: "What was published",
    note: "of other fish, to compare",
    parts: [
      table(
        ["Of", "Figure", "Source"],
        published.map(({ what, text: words, source }): Cell[] => [what, words, source]),
      ),
    ],
  };
}

/** A label: what stands on the bag. */
function labelSection(label: LabelCard): Section {
  const { species, title, animals, lot, bag, of, order, buyer, packed, fedText, waterText } = label;
  return {
    title: `Bag ${bag} of ${of}`,
    note: `order ${order}`,
    isLabel: true,
    parts: [
      text("LIVE ANIMALS · THIS SIDE UP ↑", "strong"),
      text(
        `${count(animals)} ${species}${title === "" ? "" : ` (${title})`}${lot === "" ? "" : `, lot ${lot}`}`,
        "strong",
      ),
      list([
        ...(buyer === "" ? [] : [`for ${buyer}`]),
        `packed on ${spokenDay(packed)}`,
        `last fed ${fedText}`,
        `water ${waterText}`,
        "keep dark, neither hot nor cold; do not open on the way, do not air",
      ]),
    ],
  };
}
