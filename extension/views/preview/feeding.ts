import { spokenDay } from "../../../language/book/dates.ts";
import { type Attributes, h } from "../shared/dom.ts";
import { type Face, leadsTo, leadsToTank, section } from "./face.ts";
import type { FeedMatrixCard, Place } from "./shown.ts";

/** Feedings of the last days as a table: a row a kind of food, or a tank; a column a day. A filled cell leads to its entry. */

type Row = FeedMatrixCard["rows"][number];
type Cell = Row["cells"][number];

/** Absent where nothing was fed and nothing is needed. */
export function feedingPart(face: Face, card: FeedMatrixCard | null): HTMLElement | undefined {
  if (card === null) return undefined;
  const { day, days, rows, rowsAre, lastText, lastAt, rationText } = card;
  const shown = Array.from({ length: days }, (_, at) => day - days + 1 + at);
  const facts = [
    lastText !== "" && (["last fed", leadsTo(face, lastAt, "fed-last", "last", lastText)] as const),
    rationText !== "" && (["ration", rationText] as const),
  ].filter((fact) => fact !== false);
  return section(
    "feeding",
    "Fed",
    h(
      "table",
      { class: "fed" },
      h("caption", { class: "aside" }, `${days} days to ${spokenDay(day)}, feedings a day`),
      h("thead", {}, headRow(shown, rowsAre)),
      h("tbody", {}, ...rows.map((row, at) => bodyRow(face, row, at, shown))),
    ),
    facts.length > 0 &&
      h(
        "dl",
        { class: "fed-facts" },
        ...facts.map(([word, said]) => h("div", {}, h("dt", {}, word), h("dd", {}, said))),
      ),
  );
}

function headRow(shown: readonly number[], rowsAre: FeedMatrixCard["rowsAre"]): HTMLElement {
  return h(
    "tr",
    {},
    h("th", { scope: "col" }, h("span", { class: "unseen" }, rowsAre === "kind" ? "Food" : "Tank")),
    ...shown.map((day) =>
      // The number of the day is enough to see by; the month is said to those who listen.
      h("th", { scope: "col", class: "fed-day" }, dateOf(day), h("span", { class: "unseen" }, monthOf(day))),
    ),
  );
}

const dateOf = (day: number): string => spokenDay(day).split(" ")[0]!;
const monthOf = (day: number): string => ` ${spokenDay(day).split(" ")[1]}`;

function bodyRow(face: Face, row: Row, at: number, shown: readonly number[]): HTMLElement {
  const { name, isTank, cells, need, isShort, isOver } = row;
  const byDay = new Map(cells.map((cell) => [cell.day, cell]));
  const look = isShort ? "fed-row short" : isOver ? "fed-row over" : "fed-row";
  return h(
    "tr",
    { class: look },
    h(
      "th",
      { scope: "row" },
      isTank ? leadsToTank(face, name, `fed-tank-${at}`) : name,
      need !== "" && h("span", { class: "aside fed-need" }, ` ${need}`),
    ),
    ...shown.map((day) => fedCell(face, byDay.get(day), `fed-${at}-${day}`)),
  );
}

function fedCell(face: Face, cell: Cell | undefined, key: string): HTMLElement {
  if (cell === undefined) return h("td", { class: "fed-none" }, h("span", { class: "unseen" }, "none"));
  const { times, text, isFast, at } = cell;
  const says: Attributes = { class: isFast ? "fed-fast" : "fed-times", title: text };
  const words = [isFast ? "×" : String(times), h("span", { class: "unseen" }, ` ${text}`)];
  return h("td", says, leadsTo(face, at as Place | null, key, "fed-cell", ...words));
}
