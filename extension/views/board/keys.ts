/** The board's own keys. They are few, one hand finds them, and `?` shows them. */

export type Command =
  | "up"
  | "down"
  | "first"
  | "last"
  | "sectionUp"
  | "sectionDown"
  | "feeds"
  | "notices"
  | "mark"
  | "extendUp"
  | "extendDown"
  | "markAll"
  | "markKind"
  | "log"
  | "left"
  | "right"
  | "edit"
  | "write"
  | "place"
  | "about"
  | "round"
  | "sheet"
  | "takeBack"
  | "help"
  | "leave";

export interface KeyStroke {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

const plainKeys: Readonly<Record<string, Command>> = {
  ArrowUp: "up",
  ArrowDown: "down",
  ArrowLeft: "left",
  ArrowRight: "right",
  Home: "first",
  End: "last",
  PageUp: "sectionUp",
  PageDown: "sectionDown",
  " ": "mark",
  Enter: "log",
  Escape: "leave",
  a: "markKind",
  d: "log",
  e: "edit",
  f: "feeds",
  n: "notices",
  o: "place",
  p: "about",
  r: "round",
  s: "sheet",
  u: "takeBack",
  w: "write",
};

/** What a key asks for; undefined for one that is not the board's. */
export function commandOf({ key, shiftKey, ctrlKey, metaKey, altKey }: KeyStroke): Command | undefined {
  if (altKey) return undefined;
  if (ctrlKey || metaKey) {
    if (shiftKey) return undefined;
    const commands: Record<string, Command> = { a: "markAll", z: "takeBack" };
    return commands[key.toLowerCase()];
  }
  if (key === "?") return "help";
  if (shiftKey) return key === "ArrowUp" ? "extendUp" : key === "ArrowDown" ? "extendDown" : undefined;
  return plainKeys[key.length === 1 ? key.toLowerCase() : key];
}

/** For the page of keys, in the order of a day. */
export const keyHelp: readonly (readonly [keys: string, does: string])[] = [
  ["Up, Down", "row by row; Home and End to the first and the last"],
  ["Page Up, Page Down", "tank by tank, part by part"],
  ["F, N", "to the feeding, to what there is to know"],
  [
    "Enter or D",
    "log what is marked, else the row, as done in the usual way; where values are needed, their boxes open",
  ],
  ["Left, Right", "another usual way; on a head, fold and unfold"],
  ["Space", "mark or unmark; on a head, all below it"],
  ["Shift+Up, Shift+Down", "mark row by row"],
  ["A", "mark all of the same kind"],
  ["Ctrl+A or Cmd+A", "mark all of the part; once more, of the board"],
  ["U or Ctrl+Z", "take the last logging back"],
  ["E", "finish the line in the editor instead"],
  ["W", "write another line of today in the editor"],
  ["R, S", "type in the round sheet; a sheet of the tests due"],
  ["O", "where it is stated"],
  ["P", "the tank or case in the preview"],
  ["Escape", "close the boxes, unmark all, go back to the text"],
  [
    "In a box",
    "Tab, Space or Enter to the next; Enter in the last logs; Escape closes and keeps what was typed",
  ],
];
