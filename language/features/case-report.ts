import { isoOf, spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import type { CasebookCard, CaseCard, CaseItemCard, CaseSignCard } from "./case-cards.ts";
import { coursesSections } from "./courses-report.ts";
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
import { exposureReport } from "./exposure-report.ts";
import type { RoomLossCard } from "./losses-card.ts";
import { roomLossSection } from "./losses-section.ts";
import { caseCurve } from "./pictures/case-curve.ts";
import { quarantineSection } from "./quarantine-card.ts";
import type { QuarantineCard } from "./quarantine-cards.ts";

/** The casebook, and one case as a whole: as reports. */

export interface RoomCases {
  readonly title: string;
  readonly book: CasebookCard;
  readonly losses: RoomLossCard;
  readonly quarantines: readonly QuarantineCard[];
}

export const caseCaution =
  "Signs name no disease. A disease that must be notified is for the authority of your place: ask it before anything leaves the room. What to give, and whether, is for a veterinarian.";

/** @param isAll the closed cases too */
export function casebookReport(rooms: readonly RoomCases[], isAll: boolean): Report {
  const [only] = rooms;
  const about = rooms.length === 1 ? [only!.title, spokenDay(only!.book.day)].filter(Boolean).join(", ") : "";
  const of = (title: string, room: string): string =>
    rooms.length === 1 ? title : [room, title].filter(Boolean).join(": ");
  const sections = rooms.flatMap(({ title, book, losses, quarantines }) =>
    [
      openSection(book),
      ...(isAll ? [closedSection(book)] : []),
      quarantineSection(quarantines, book.day),
      roomLossSection(losses),
    ]
      .filter((section) => section !== undefined)
      .map((section) => ({ ...section, title: of(section.title, title) })),
  );
  const hasCases = rooms.some(({ book }) => book.open.length > 0);
  return {
    title: "Casebook",
    about,
    sections: [...sections, ...(hasCases ? [{ title: "Mind", parts: [caution(caseCaution)] }] : [])],
  };
}

const count = (animals: number): string => formatNumber(animals, 6);

function openSection({ open, closed, day }: CasebookCard): Section {
  const note = closed.length === 0 ? "" : `${closed.length} closed`;
  const base = { title: "Open cases", ...(note === "" ? {} : { note }) };
  if (open.length > 0) return { ...base, parts: [openTable(open, day)] };
  return {
    ...base,
    parts: [
      text(
        'No case is open on this day. A case is opened by sick animals: q1 sick praecox 2 of 9 signs "flashing" case flukes-1.',
      ),
    ],
  };
}

function closedSection({ closed }: CasebookCard): Section {
  if (closed.length === 0)
    return { title: "Closed cases", parts: [text("No case was closed on this day or before.")] };
  const rows = closed.map((each): Cell[] => [
    nameCell(each),
    tanksOf(each),
    affectedText(each),
    count(each.dead),
    isoOf(each.since),
    isoOf(each.closed!),
    each.outcome,
  ]);
  return {
    title: "Closed cases",
    parts: [table(["Case", "Tanks", "Affected", figure("Dead"), "Since", "Closed", "Outcome"], rows)],
  };
}

const nameCell = ({ name, episode }: CaseItemCard): Cell => ({
  text: episode > 1 ? `${name} (${episode})` : name,
  tone: "strong",
});

const tanksOf = ({ tanks }: CaseItemCard): string => tanks.map(({ name }) => name).join(", ");

function openTable(cases: readonly CaseItemCard[], day: number): Part {
  return table(
    ["Case", "Tanks", "Since", "Affected", figure("Dead"), "State"],
    cases.map((each): Cell[] => [
      nameCell(each),
      tanksOf(each),
      spokenDay(each.since, day),
      affectedText(each),
      count(each.dead),
      { text: each.state, tone: "warning" },
    ]),
  );
}

/** `≥ 7 of 17 woworae`. */
function affectedText({ isLeast, ever, atRisk, species }: CaseItemCard): string {
  const of = atRisk === null ? "" : ` of ${count(atRisk)}`;
  return species.length === 0
    ? "none written"
    : `${isLeast ? "≥ " : ""}${count(ever)}${of} ${species.join(", ")}`;
}

/** One case: rates, curve, signs, courses, samples, results, exposure, and its entries. */
export function caseReport(card: CaseCard, title: string): Report {
  const { name, day, exposure } = card;
  return {
    title: `Case ${name}`,
    about: [title, spokenDay(day), card.state].filter(Boolean).join(", "),
    sections: [
      ratesSection(card),
      curveSection(card),
      signsSection(card),
      ...coursesSections(card.courses),
      samplesSection(card),
      resultsSection(card),
      ...(exposure === null
        ? []
        : exposureReport([{ title: "", day, cards: [exposure] }]).sections.map((section, at) =>
            at === 0 ? { ...section, title: "Exposure" } : section,
          )),
      entriesSection(card),
    ],
  };
}

function ratesSection(card: CaseCard): Section {
  const { text: told, since, day, tanks, rates, unknown, places, episodes, isLeast } = card;
  const before = episodes.filter((each) => each.episode < card.episode);
  return {
    title: "How many",
    note: `since ${spokenDay(since, day)}`,
    parts: [
      text(`${told}.`),
      list([
        ...rates.map((rate) => ({
          text: rate.text,
          note: rate.title.charAt(0).toLowerCase() + rate.title.slice(1),
        })),
        ...(unknown === "" ? [] : [{ text: `no attack rate: ${unknown}`, tone: "warning" as const }]),
        ...tanks.map((tank) => ({ text: tank.name, note: tank.text })),
        ...before.map((each) => ({
          text: `open before: ${spokenDay(each.since, day)} to ${each.closed === null ? "?" : spokenDay(each.closed, day)}`,
        })),
      ]),
      ...(places.length < 2
        ? []
        : [
            table(
              [
                "In",
                "Animals",
                figure("Signs now"),
                figure("There"),
                figure("Affected"),
                figure("At risk"),
                figure("Dead"),
              ],
              places.map((each): Cell[] => [
                each.of,
                each.lot === "" ? each.species : `${each.species}, lot ${each.lot}`,
                count(each.affected),
                each.present === null ? "?" : count(each.present),
                count(each.ever),
                each.atRisk === null ? "?" : count(each.atRisk),
                count(each.dead),
              ]),
            ),
          ]),
      text(
        `Shares with Wilson's interval (95 %).${isLeast ? " At least: entries after the first do not all say how many are new." : ""} Dead: what names the case, and what died of its species in its tanks while it was open.`,
        "faint",
      ),
      caution(caseCaution),
    ],
  };
}

function curveSection({ curve, day }: CaseCard): Section {
  const told = curve.filter(({ fresh, dead, affected }) => fresh > 0 || dead > 0 || affected !== null);
  const svg = caseCurve(curve);
  return {
    title: "Day by day",
    parts: [
      ...(svg === ""
        ? []
        : [
            {
              is: "picture" as const,
              svg,
              alt: "New cases a day and deaths a day; the table below says the same.",
            },
          ]),
      told.length === 0
        ? text("No count of the sick and no death is written.")
        : table(
            ["Day", figure("New"), figure("Dead"), figure("Signs"), figure("There")],
            told.map((each): Cell[] => [
              spokenDay(each.day, day),
              each.fresh > 0 ? count(each.fresh) : "",
              each.dead > 0 ? count(each.dead) : "",
              each.affected === null ? "" : count(each.affected),
              each.present === null ? "" : count(each.present),
            ]),
          ),
    ],
  };
}

function signsSection({ signs, day }: CaseCard): Section {
  if (signs.length === 0)
    return {
      title: "Signs",
      parts: [text('None are written. They stand behind the number: signs "flashing, clamped fins".')],
    };
  return {
    title: "Signs",
    parts: [
      table(
        ["Site", "Sign", "Seen"],
        signs.map((sign): Cell[] => [
          sign.site === "" ? "other" : sign.site,
          signText(sign),
          sign.first === sign.last
            ? spokenDay(sign.first, day)
            : `${spokenDay(sign.first, sign.last)} to ${spokenDay(sign.last, day)}`,
        ]),
      ),
    ],
  };
}

export const signText = ({ word, grade }: CaseSignCard): string =>
  grade === "" ? word : `${word} (${grade})`;

function samplesSection({ name, target, samples, questions, day }: CaseCard): Section {
  const cautions = [...new Set(samples.map((sample) => sample.caution))].filter((words) => words !== "");
  return {
    title: "Samples",
    parts: [
      samples.length === 0
        ? text(
            `None are written. They stand under the day they are taken on: ${target} sample gill 2 kept ethanol at 96 % case ${name}.`,
          )
        : list(
            samples.map((sample) => ({
              text: `${sample.text}: ${sample.state}`,
              note: [
                `taken ${spokenDay(sample.day, day)}`,
                sample.container,
                sample.laboratory === "" ? "" : `to ${sample.laboratory}`,
              ]
                .filter((part) => part !== "")
                .join(", "),
            })),
          ),
      ...(questions.length === 0
        ? []
        : [list(questions.map(({ text: asked }) => ({ text: asked, note: "asked" })))]),
      ...cautions.map(caution),
    ],
  };
}

function resultsSection({ results, day }: CaseCard): Section {
  return {
    title: "Results",
    parts: [
      results.length === 0
        ? text("None yet.")
        : list(
            results.map(({ outcome, note, day: on }) => ({
              text: [outcome, note].filter(Boolean).join(": ") || "a result",
              note: spokenDay(on, day),
            })),
          ),
    ],
  };
}

function entriesSection({ entries, day }: CaseCard): Section {
  return {
    title: "Entries",
    note: String(entries.length),
    parts: [
      list(
        entries.map((each) => ({
          text: `${[spokenDay(each.day, day), each.clock].filter(Boolean).join(" ")}: ${each.text}`,
          note: each.by === "named" ? "" : each.by === "after" ? "after it was closed" : "by tank and day",
        })),
      ),
    ],
  };
}
