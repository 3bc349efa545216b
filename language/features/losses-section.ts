import { isoOf } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import { figure, list, type Part, type Section, table, text } from "./document.ts";
import type { RoomLossCard } from "./losses-card.ts";
import { noPanel, panels } from "./pictures/panels.ts";

/** What the room loses, as a section of a report: what is usual, the chart with its threshold, the outbreaks that it told. */

/** From here on the deaths of the reference are said to come in bunches. */
const bunched = 2;

export function roomLossSection(card: RoomLossCard): Section {
  const { unknown, baseline, scheme, outbreaks, leftOut, day } = card;
  const parts: Part[] = [
    ...(unknown === "" ? usualParts(card) : [text(unknown)]),
    ...pictureParts(card),
    ...outbreakParts(card),
    ...(leftOut > 0
      ? [
          text(
            `${formatNumber(leftOut)} that died are in no figure here: by the book there were none. Count them first: dam  count praecox 12`,
            "faint",
          ),
        ]
      : []),
    ...(scheme === null
      ? []
      : [
          text(
            `Deaths without culls and what is missing. Usual: of ${isoOf(baseline.from)} to ${isoOf(baseline.to)} without outbreaks, exact 95 % interval (Garwood 1936). ${scheme.text} (run lengths: Brook & Evans 1972, at ${formatNumber(baseline.animals ?? Number.NaN)} animals, the mean).`,
            "faint",
          ),
        ]),
  ];
  const open = outbreaks.filter(({ isOpen }) => isOpen).length;
  return { title: "Losses of the room", note: open > 0 ? `outbreak, ${isoOf(day)}` : isoOf(day), parts };
}

function usualParts({ baseline, sum, scheme }: RoomLossCard): Part[] {
  const { deaths, days, aDay, spread } = baseline;
  const isBunched = spread !== null && spread >= bunched;
  return [
    text(
      `Usually ${baseline.text}: ${formatNumber(deaths)} deaths on ${days} days, ${formatNumber(aDay ?? Number.NaN, 2)} a day. The sum stands at ${formatNumber(sum ?? 0)}; an alarm is at ${formatNumber(scheme?.h ?? Number.NaN)}.`,
    ),
    ...(isBunched
      ? [
          text(
            `They come in bunches, spread ${formatNumber(spread, 2)} times as wide as by chance: false alarms come oftener than stated.`,
          ),
        ]
      : []),
  ];
}

function pictureParts({ chart, day }: RoomLossCard): Part[] {
  const first = chart[0]?.day;
  if (first === undefined || chart.every(({ died }) => died === 0)) return [];
  const span = { ...noPanel, from: first, to: day + 1 };
  const alarms = chart.filter(({ isAlarm }) => isAlarm);
  const drawn = chart.filter(({ h }) => h !== null);
  const deaths = {
    ...span,
    title: "deaths a day",
    columns: chart.map(({ day: on, died }) => ({ day: on, value: died })),
  };
  // The threshold follows the baseline: as a share of it the sum has one line to pass, whatever the day.
  const sums = {
    ...span,
    title: "cumulative sum, 1 = alarm (S / h)",
    course: drawn.map(({ day: on, sum, h }) => ({ time: on + 0.5, value: sum! / h! })),
    limits: [1],
    marks: alarms.map(({ day: on }) => ({ time: on + 0.5, text: "alarm" })),
  };
  const died = chart.reduce((all, each) => all + each.died, 0);
  const said =
    alarms.length === 0 ? "no alarm" : `alarms on ${alarms.map((each) => isoOf(each.day)).join(", ")}`;
  return [
    {
      is: "picture",
      svg: panels(drawn.length === 0 ? [deaths] : [deaths, sums]),
      alt: `${formatNumber(died)} ${died === 1 ? "death" : "deaths"} from ${isoOf(first)} to ${isoOf(day)}; ${drawn.length === 0 ? "no chart yet" : said}`,
    },
  ];
}

/** So many are told at most; the chart has the others. */
const shownOutbreaks = 12;

function outbreakParts({ outbreaks, scheme }: RoomLossCard): Part[] {
  if (outbreaks.length === 0) return scheme === null ? [] : [text("No outbreak was told.")];
  const rows = outbreaks
    .slice(0, shownOutbreaks)
    .map(({ from, told, last, alarms, died, expected, isOpen }) => [
      isoOf(told),
      isoOf(from),
      isoOf(last),
      String(alarms),
      formatNumber(died),
      formatNumber(expected, 2),
      isOpen ? { text: "goes on", tone: "warning" as const } : "over",
    ]);
  return [
    table(["told", "since", "last alarm", figure("alarms"), figure("died"), figure("expected"), ""], rows),
    ...(outbreaks.length > shownOutbreaks
      ? [list([`${outbreaks.length - shownOutbreaks} earlier ones`])]
      : []),
  ];
}
