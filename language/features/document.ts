/**
 * A report as its parts, apart from how it is shown: on a terminal, as Markdown for a repository, as a page to print. Texts may hold
 * anything that a log holds; each way of showing escapes it.
 */
export interface Report {
  readonly title: string;
  /** One line below the title: the room, the day, the period. */
  readonly about: string;
  readonly sections: readonly Section[];
}

export interface Section {
  readonly title: string;
  /** At the right of the title: a count, a day. */
  readonly note?: string;
  /** A label: on paper it stays together, in a frame to cut out. */
  readonly isLabel?: boolean;
  readonly parts: readonly Part[];
}

export type Part =
  | { readonly is: "text"; readonly text: string; readonly tone?: Tone }
  | { readonly is: "list"; readonly items: readonly Line[] }
  | Table
  /** Where the work can hurt animals or people. */
  | { readonly is: "caution"; readonly text: string }
  /** A picture for the page and for Markdown, with what it shows in words; a terminal says the words. */
  | { readonly is: "picture"; readonly svg: string; readonly alt: string };

export interface Line {
  readonly text: string;
  readonly note?: string;
  readonly tone?: Tone;
}

export interface Table {
  readonly is: "table";
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface Column {
  readonly title: string;
  /** Figures stand at the right. */
  readonly isFigure?: boolean;
}

export type Cell = string | { readonly text: string; readonly tone: Tone };

/** What a text is marked as: never by colour alone, the text says it too. */
export type Tone = "plain" | "strong" | "faint" | "good" | "warning" | "error";

/** What is told of each of some rooms; of several, each section says whose it is. What is undefined has nothing to tell. */
export function sectionsOfRooms<Card>(
  rooms: readonly { readonly title: string; readonly card: Card }[],
  sectionsOf: (card: Card) => readonly (Section | undefined)[],
): Section[] {
  return rooms.flatMap(({ title, card }) =>
    sectionsOf(card)
      .filter((section) => section !== undefined)
      .map((section) =>
        rooms.length === 1
          ? section
          : { ...section, title: [title, section.title].filter(Boolean).join(": ") },
      ),
  );
}

export const text = (words: string, tone?: Tone): Part => ({
  is: "text",
  text: words,
  ...(tone === undefined ? {} : { tone }),
});
export const caution = (words: string): Part => ({ is: "caution", text: words });
export const list = (items: readonly (string | Line)[]): Part => ({
  is: "list",
  items: items.map((item) => (typeof item === "string" ? { text: item } : item)),
});
export const table = (columns: readonly (string | Column)[], rows: readonly (readonly Cell[])[]): Part => ({
  is: "table",
  columns: columns.map((column) => (typeof column === "string" ? { title: column } : column)),
  rows,
});
export const figure = (title: string): Column => ({ title, isFigure: true });

export const cellText = (cell: Cell): string => (typeof cell === "string" ? cell : cell.text);
export const cellTone = (cell: Cell): Tone => (typeof cell === "string" ? "plain" : cell.tone);
