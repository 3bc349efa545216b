import { namesBetween } from "../book/bind-groups.ts";
import type { Book } from "../book/book.ts";
import { kindNumber } from "../book/entries/registry.ts";
import { Col, type Facts, intsPerRow, kindOfRow } from "../book/facts.ts";
import { findParameter } from "../book/parameters.ts";
import { quote } from "../book/reading.ts";
import { type Block, Source } from "../book/source.ts";
import { definitionWords } from "../syntax/blocks.ts";
import { lexer, Word } from "../syntax/tokens.ts";
import { lineOfText } from "./lines.ts";
import { type Named, type NameUse, nameAt, usesOf } from "./names.ts";
import { type Edit, type Location, locationOf, type Span, type View } from "./view.ts";

/**
 * Renaming a name in all files, so that the log says the same of the thing under its new name.
 *
 * What it would come to is read before it is given away: every block that is touched must hold the same facts and problems as before. So a name that
 * would be taken for a unit, a word of the format or another name somewhere is refused with that place as the reason.
 */

/** Why something cannot be renamed, in the keeper's words. */
export interface Refused {
  readonly refused: string;
}

export interface Renamed {
  /** In order of files and offsets. */
  readonly edits: readonly Edit[];
  /** Lines that cannot be read and hold the old name: they stay as they are. */
  readonly unread: readonly Location[];
}

/** The name at an offset that can be renamed, with its exact place; undefined where no name stands. */
export function prepareRename(view: View, offset: number): (Span & { readonly name: string }) | undefined {
  const use = nameAt(view, offset);
  if (use === undefined) return undefined;
  return { start: use.block.start + use.start, end: use.block.start + use.end, name: use.name };
}

/** Renames what is named at an offset. */
export function rename(view: View, offset: number, newName: string): Renamed | Refused {
  const named = nameAt(view, offset);
  if (named === undefined) return { refused: "there is no name here" };
  if (newName === named.name) return { edits: [], unread: [] };
  const reason = refusal(view, named, newName);
  if (reason !== undefined) return { refused: reason };
  const uses = usesOf(view.checked, named);
  const edits = new Map<Block, BlockEdit[]>();
  for (const use of oncePerPlace(uses)) {
    const known = edits.get(use.block);
    const edit = editOf(use, newName);
    if (known === undefined) edits.set(use.block, [edit]);
    else known.push(edit);
  }
  for (const [block, changes] of edits) {
    const clash = clashIn(block, changes, named, newName);
    if (clash !== undefined) return { refused: clash };
  }
  const made = [...edits].flatMap(([block, changes]) =>
    changes.map(({ start, end, text }) => ({ ...locationOf({ block, start, end }), text })),
  );
  return { edits: made, unread: unreadLines(view, named.name) };
}

interface BlockEdit extends Span {
  readonly text: string;
}

/** A lot or an order may be a text; all others are single words. */
const mayBeText = ({ sort }: Named): boolean => sort === "lot" || sort === "order";

/** Why a name cannot be the new one, before its places are looked at. */
function refusal({ checked }: View, named: Named, newName: string): string | undefined {
  const { book } = checked;
  const { sort } = named;
  if (mayBeText(named)) {
    if (newName.trim() === "" || /[\r\n]/.test(newName)) return `a ${sort} is a word, or a text on one line`;
  } else {
    const ill = illName(sort, newName);
    if (ill !== undefined) return ill;
  }
  const other = book.names.get(newName);
  const isGiven = book.names.get(named.name)?.definition.word === sort;
  if (other !== undefined && !byEntries.has(sort) && (isGiven || other.definition.word !== sort)) {
    const { word } = other.definition;
    return `“${newName}” is the name of a ${word} already`;
  }
  if (other !== undefined && !byEntries.has(sort)) return undefined;
  const joined = sort === "tank" ? joinedGroup(checked.book, newName) : undefined;
  if (joined !== undefined) return joined;
  const [taken] = usesOf(checked, { name: newName, sort });
  if (taken === undefined) return undefined;
  const what = byEntries.has(sort)
    ? `a ${sort} is called “${newName}” already`
    : `“${newName}” stands in the log already`;
  return `${what} (${placeText(taken)}): the two would become one`;
}

/** Why a word can name nothing of a sort; undefined where it can. */
export function illName(sort: string, name: string): string | undefined {
  if (!isName(name))
    return `“${name}” is no name: a name begins with a letter and goes on with letters, digits, - and _`;
  if (reserved.has(name)) return `“${name}” is a word of the format and no name`;
  if (isEntryWord(name) && sort !== "case") return `“${name}” is a word that entries begin with, and no name`;
  return sort === "species" && findParameter(name) !== undefined
    ? `“${name}” is a parameter of a test: the head of a sheet could not tell them apart`
    : undefined;
}

/** Why a tank cannot have a name that lies within a range of names of a group. */
function joinedGroup(book: Book, newName: string): string | undefined {
  for (const [group, { place }] of book.groups) {
    for (const { text, lastText } of place.block.definition?.members ?? []) {
      if (lastText !== "" && namesBetween(text, lastText).includes(newName))
        return `“${newName}” lies within “${text} .. ${lastText}” of the group ${group}: the tank would join it`;
    }
  }
  return undefined;
}

const byEntries: ReadonlySet<string> = new Set(["case", "lot", "order"]);
const reserved: ReadonlySet<string> = new Set(["room", "sheet", "none", "own", ...definitionWords]);
const isEntryWord = (word: string): boolean => kindNumber(word) !== undefined;

/** Whether a text is one word of the grammar and has the form of a name. */
function isName(text: string): boolean {
  const { tokens } = lexer.tokenize(text);
  return (
    tokens.length === 1 &&
    tokens[0]!.tokenType === Word &&
    tokens[0]!.image === text &&
    /^\p{L}[\p{L}\p{M}\p{N}_-]*$/u.test(text)
  );
}

/** A range of names may be met by its both ends, or by a name within: it is changed once. */
function oncePerPlace(uses: readonly NameUse[]): NameUse[] {
  const seen = new Map<Block, Set<number>>();
  return uses.filter(({ block, start, range }) => {
    const places = seen.get(block) ?? new Set();
    seen.set(block, places);
    const at = range?.start ?? start;
    return !places.has(at) && places.add(at);
  });
}

function editOf({ block, start, end, name, range, sort }: NameUse, newName: string): BlockEdit {
  if (range !== undefined) {
    const names = namesBetween(range.first, range.last).map((each) => (each === name ? newName : each));
    return { start: range.start, end: range.end, text: spelledOut(names) };
  }
  if (!mayBeText({ name, sort })) return { start, end, text: newName };
  const isQuoted = block.text[start - 1] === '"';
  const quoted = quote(newName);
  if (isQuoted) return { start, end, text: quoted.slice(1, -1) };
  return { start, end, text: isName(newName) ? newName : quoted };
}

/** Names in their order, three and more that count on as a range: `r1 .. r4, corner, r6`. */
function spelledOut(names: readonly string[]): string {
  const parts: string[] = [];
  for (let at = 0; at < names.length; ) {
    let last = at;
    while (
      last + 1 < names.length &&
      namesBetween(names[at]!, names[last + 1]!).join() === names.slice(at, last + 2).join()
    )
      last++;
    if (last - at >= 2) parts.push(`${names[at]} .. ${names[last]}`);
    else parts.push(...names.slice(at, last + 1));
    at = last + 1;
  }
  return parts.join(", ");
}

/** Why a block would not say the same after its edits; undefined if it does. */
function clashIn(
  block: Block,
  edits: readonly BlockEdit[],
  named: Named,
  newName: string,
): string | undefined {
  const ordered = [...edits].sort((a, b) => a.start - b.start);
  const [before, after] = affected(block, ordered);
  const [was] = new Source("", before).blocks;
  const [made, ...more] = new Source("", after).blocks;
  const isSame =
    was !== undefined &&
    made !== undefined &&
    more.length === 0 &&
    made.kind === was.kind &&
    sameFacts(was.facts, made.facts, mayBeText(named)) &&
    codesOf(made) === codesOf(was) &&
    made.definition?.properties.length === was.definition?.properties.length &&
    dutiesOf(made, newName, named.name) === dutiesOf(was);
  if (isSame) return undefined;
  return `“${newName}” would be read as something else (${placeText({ block, start: ordered[0]!.start })})`;
}

/** What of a block has to be read to know, before and after its edits: of a day without a sheet the lines that are edited. */
function affected({ text, kind }: Block, edits: readonly BlockEdit[]): [before: string, after: string] {
  const edited = (from: number, to: number): string => {
    let made = "";
    let at = from;
    for (const edit of edits) {
      if (edit.start < from || edit.end > to) continue;
      made += text.slice(at, edit.start) + edit.text;
      at = edit.end;
    }
    return made + text.slice(at, to);
  };
  if (kind !== "day" || text.includes("sheet")) return [text, edited(0, text.length)];
  const lines = new Map(
    edits.map((edit) => [lineOfText(text, edit.start).start, lineOfText(text, edit.start)]),
  );
  const head = "2000-01-01";
  return [
    [head, ...[...lines.values()].map((line) => `  ${line.text.trimStart()}`)].join("\n"),
    [head, ...[...lines.values()].map((line) => `  ${edited(line.start, line.end).trimStart()}`)].join("\n"),
  ];
}

/** The same rows with the same figures; names are left out, and whether there is a lot that may be a text. */
function sameFacts(before: Facts, after: Facts, isText: boolean): boolean {
  if (before.count !== after.count) return false;
  for (let row = 0; row < before.count; row++) {
    const at = row * intsPerRow;
    if (kindOfRow(before, row) !== kindOfRow(after, row)) return false;
    for (const column of [Col.what, Col.units, Col.marks])
      if (before.ints[at + column] !== after.ints[at + column]) return false;
    // What was a name is one, and what was none is none.
    for (const column of isText ? [Col.target, Col.subject] : [Col.target, Col.subject, Col.object])
      if ((before.ints[at + column]! === -1) !== (after.ints[at + column]! === -1)) return false;
  }
  return before.floats.every((value, at) => Object.is(value, after.floats[at]));
}

function codesOf({ problems, definition, facts }: Block): string {
  return [...problems, ...(definition?.problems ?? []), ...facts.problems].map((each) => each.code).join();
}

/** The acts of the duties in a block, with one name put back. */
function dutiesOf({ definition }: Block, name?: string, was?: string): string {
  const acts = definition?.properties.flatMap(({ duty }) =>
    duty === undefined
      ? []
      : [
          JSON.stringify([
            duty.kind,
            duty.items.map((item) =>
              Object.entries(item).map(([slot, value]) => [
                slot,
                value?.text === name && was !== undefined ? was : value?.text,
              ]),
            ),
          ]),
        ],
  );
  return (acts ?? []).join();
}

/** Lines that no grammar reads and that hold a name: they stay, and whoever renames is told. */
function unreadLines({ checked }: View, name: string): Location[] {
  return checked.logbook.blocks().flatMap((block) =>
    [...block.facts.problems, ...(block.definition?.problems ?? [])]
      .filter((problem) => problem.code === "syntax/line")
      .flatMap((problem) => {
        const from =
          Math.max(block.text.lastIndexOf("\n", problem.start), block.text.lastIndexOf("\r", problem.start)) +
          1;
        const line = /^[^\r\n]*/.exec(block.text.slice(from))![0];
        const at = line.split(/[^\p{L}\p{M}\p{N}_-]+/u).includes(name) ? line.indexOf(name) : -1;
        return at < 0 ? [] : [locationOf({ block, start: from + at, end: from + at + name.length })];
      }),
  );
}

/** `days.tank, line 12`. */
function placeText({ block, start }: Pick<NameUse, "block" | "start">): string {
  const { path, text } = block.file;
  const line = text.slice(0, block.start + start).split(/\r\n|\r|\n/).length;
  return `${path.slice(path.lastIndexOf("/") + 1)}, line ${line}`;
}
