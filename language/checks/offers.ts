import type { Book } from "../book/book.ts";
import type { Definition } from "../book/definition.ts";
import type { Block } from "../book/source.ts";
import type { Place } from "../book/stations.ts";
import type { Fix } from "./finding.ts";

/** Fixes that are offered for names and units: another word, a new definition, a declaration of the room. */

/** Puts each of the words in the place of what stands there. */
export function replacing(
  block: Block,
  place: { start: number; end: number },
  words: readonly string[],
): Fix[] {
  return words.map((text, index) => ({
    title: `Write “${text}”`,
    edits: [{ block, start: place.start, end: place.end, text }],
    isSure: index === 0 && words.length === 1,
  }));
}

/** What a new definition should say, as a comment: the keeper knows it, and no figure is made up. */
const toState = {
  species: "kind, and what harms it: traits",
  remedy: "what the label says: target, ceiling, repeat, harms, source",
  water: "content, as the tests of it say",
  tank: "volume, the net volume in litres",
};

/** Puts a new definition behind the last of its kind, or before the block. */
export function defining(book: Book, block: Block, sort: keyof typeof toState, word: string): Fix {
  const last = [...book.names.values()].filter(({ definition }) => definition.word === sort).at(-1);
  const at = last?.place.block ?? block;
  // The block's own, not the file's: what is kept of a block depends on nothing else.
  const eol = at.text.includes("\r\n") ? "\r\n" : "\n";
  const head = `${sort} ${word}${eol}  # ${toState[sort]}`;
  const start = last === undefined ? leadOf(at) : endOfDefinition(last);
  const text = last === undefined ? `${head}${eol}${eol}` : `${eol}${eol}${head}`;
  return {
    title: `Define ${sort} “${word}”`,
    edits: [{ block: at, start, end: start, text }],
    isSure: false,
  };
}

/** The end of the last line that says something in a definition: comments below it may belong to the next. */
function endOfDefinition({ definition, place }: { definition: Definition; place: Place }): number {
  const { text } = place.block;
  const last = Math.max(place.end, ...definition.properties.map(({ end }) => end));
  const behind = /[\r\n]/.exec(text.slice(last));
  return behind === null ? text.length : last + behind.index;
}

const leadOf = ({ text }: Block): number => (text.charCodeAt(0) === 0xfeff ? 1 : 0);

/** Writes an entry below the last line of a day. */
export function atEndOfDay(block: Block, entry: string): Fix {
  const { text } = block;
  const end = text.trimEnd().length;
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  return {
    title: `Write “${entry}” at the end of the day`,
    edits: [{ block, start: end, end, text: `${eol}  ${entry}` }],
    isSure: false,
  };
}

/** Declares what a spelling means in the room, where that can be declared. */
export function declaring(book: Book, spelling: string): Fix[] {
  const { room, roomPlace } = book;
  const choices =
    spelling === "ppm"
      ? ["ppm mg/L", "ppm uL/L"]
      : /^(?:deg|°)/.test(spelling)
        ? ["temperature C", "temperature F"]
        : /^(?:tsp|tea|tbsp|table)/.test(spelling)
          ? ["spoon US", "spoon metric"]
          : /^(?:gal|q|p|fl|g)/.test(spelling) && spelling !== "gr"
            ? ["gallon US", "gallon imperial"]
            : [];
  if (room === undefined || roomPlace === undefined) return [];
  const { block } = roomPlace;
  const eol = block.text.includes("\r\n") ? "\r\n" : "\n";
  const head = /[\r\n]|$/.exec(block.text)!.index;
  const units = room.properties.find((property) => property.word === "units");
  return choices.map((words) => ({
    title: `Declare “${words}” for the room`,
    edits: [
      units === undefined
        ? { block, start: head, end: head, text: `${eol}  units ${words}` }
        : { block, start: units.end, end: units.end, text: `, ${words}` },
    ],
    isSure: false,
  }));
}
