import { definitionKinds } from "../../book/definitions/registry.ts";
import { kindNumber } from "../../book/entries/registry.ts";
import { quote } from "../../book/reading.ts";
import type { Block } from "../../book/source.ts";
import { cutBlocks, type DefinitionWord, nextLine } from "../../syntax/blocks.ts";
import { lineEndOf, linesOfText } from "../lines.ts";
import type { Edit, Span } from "../view.ts";
import { difference } from "./block-edits.ts";
import {
  cutDefinitionText,
  type DefinitionCut,
  definitionCell,
  type PropertyCut,
  propertyOfColumn,
} from "./definition-rows.ts";
import { type ColumnId, type Refusal, refused } from "./grid-model.ts";
import { lineEnd, startsIn } from "./lines.ts";
import { partsOf } from "./parts.ts";

/** A definition edited by its cells: a property that is emptied goes, one that is filled comes at its place among the others. */

/** The block's text with another text in one of its cells. */
export function changeDefinition(
  text: string,
  word: DefinitionWord,
  column: ColumnId,
  typed: string,
): string | Refusal {
  const cut = cutOf(text, word);
  const isProse = column === "title" || column === "comment" || isText(word, column);
  const plain = isProse ? typed.replace(/\r\n|[\r\n]/g, " ").trim() : typed.trim();
  const parts = statementsIn(word, cut, column, plain);
  const wanted = parts?.join("; ") ?? plain;
  const said = definitionCell(text, cut, column);
  if (said.text === wanted) return text;
  if (said.fixed !== "") return refused(said.fixed);
  if (!isProse && /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(wanted.replaceAll("\t", " ")))
    return refused(`no line ends or hidden signs can stand here: ${allowed(word, column)}`);
  const made =
    parts === undefined ? laid(text, word, cut, column, wanted) : withStatements(text, word, column, parts);
  return made !== undefined && isRight(text, cut, made, word, column, wanted)
    ? made
    : refused(allowed(word, column));
}

const cutOf = (text: string, word: DefinitionWord): DefinitionCut =>
  cutDefinitionText(text, word, startsIn(text));

/** Whether a property is one text, which is shown without its quotes. */
function isText(word: DefinitionWord, column: ColumnId): boolean {
  const kind = definitionKinds[word].properties.find((each) => each.word === propertyOfColumn(column));
  return kind?.slots.length === 1 && kind.slots[0]!.filling.is === "text";
}

function laid(
  text: string,
  word: DefinitionWord,
  cut: DefinitionCut,
  column: ColumnId,
  wanted: string,
): string | undefined {
  const put = (at: number, added: string): string => text.slice(0, at) + added + text.slice(at);
  const replaced = ({ start, end }: Span, by: string): string => text.slice(0, start) + by + text.slice(end);
  const isGone = wanted === "";
  switch (column) {
    case "name":
      return isGone || cut.name === undefined ? undefined : replaced(cut.name, wanted);
    case "members":
      return isGone || cut.members === undefined ? undefined : replaced(cut.members, wanted);
    case "title": {
      if (cut.title === undefined) return put(cut.name?.end ?? word.length, ` ${quote(wanted)}`);
      if (!isGone) return replaced(cut.title, quote(wanted));
      return replaced({ start: beforeSpaces(text, cut.title.start), end: cut.title.end }, "");
    }
    case "comment": {
      const { at } = definitionCell(text, cut, "comment");
      if (at === undefined) return put(cut.headEnd, `  # ${wanted}`);
      if (isGone) return replaced({ start: beforeSpaces(text, at.start), end: at.end }, "");
      return replaced(at, `# ${wanted}`);
    }
    default:
      return withProperty(text, word, cut, column, wanted);
  }
}

/** What is typed into a property that is stated several times, or that may be: one text for each statement; undefined for all others. */
function statementsIn(
  word: DefinitionWord,
  cut: DefinitionCut,
  column: ColumnId,
  typed: string,
): string[] | undefined {
  const name = propertyOfColumn(column);
  const kind = definitionKinds[word].properties.find((each) => each.word === name);
  const stated = cut.properties.filter((each) => each.word === name);
  if (name === undefined || stated.length === 0 || typed === "") return undefined;
  // One text is shown without its quotes, and its signs part nothing.
  if (stated.length === 1 && isText(word, column)) return undefined;
  const parts = partsOf(typed, ";");
  return stated.length > 1 || (kind?.many === true && parts.length > 1) ? parts : undefined;
}

/** Each statement in its own place; of fewer those go that are not named any more, of more the further ones come behind the last. */
function withStatements(
  text: string,
  word: DefinitionWord,
  column: ColumnId,
  parts: readonly string[],
): string | undefined {
  const name = propertyOfColumn(column);
  const statedIn = (whole: string) => cutOf(whole, word).properties.filter((each) => each.word === name);
  const saidBy = ({ values }: PropertyCut): string =>
    values === undefined ? "" : text.slice(values.start, values.end);
  const stated = statedIn(text);
  if (parts.includes("")) return undefined;
  let made = text;
  if (parts.length < stated.length) {
    const left = [...parts];
    const gone = stated.map((each) => {
      const isKept = saidBy(each) === left[0];
      if (isKept) left.shift();
      return !isKept;
    });
    // Which of them is another now nobody can tell.
    if (left.length > 0) return undefined;
    for (let at = stated.length - 1; at >= 0; at--)
      if (gone[at] === true) made = without(made, statedIn(made)[at]!);
    return made;
  }
  const last = stated.at(-1)!;
  const eol = lineEndOf(text);
  const lead = text.slice(last.line.start, beforeFirst(text, last.line.start));
  const gap = last.values === undefined ? " " : text.slice(last.start + last.word.length, last.values.start);
  const further = parts.slice(stated.length).map((part) => `${eol}${lead}${last.word}${gap}${part}`);
  made = text.slice(0, last.line.end) + further.join("") + text.slice(last.line.end);
  for (let at = stated.length - 1; at >= 0; at--) {
    const { values, end } = stated[at]!;
    const place = values ?? { start: end, end };
    made =
      made.slice(0, place.start) + (values === undefined ? " " : "") + parts[at]! + made.slice(place.end);
  }
  return made;
}

function withProperty(
  text: string,
  word: DefinitionWord,
  cut: DefinitionCut,
  column: ColumnId,
  wanted: string,
): string | undefined {
  const name = propertyOfColumn(column);
  const kinds = definitionKinds[word].properties.map((each) => each.word);
  if (name === undefined || !kinds.includes(name)) return undefined;
  const written = isText(word, column) && wanted !== "" ? quote(wanted) : wanted;
  const known = cut.properties.find((each) => each.word === name);
  if (known !== undefined) {
    if (wanted !== "") {
      const at = known.values ?? { start: known.end, end: known.end };
      const gap = known.values === undefined ? " " : "";
      return text.slice(0, at.start) + gap + written + text.slice(at.end);
    }
    return without(text, known);
  }
  // At its place among the properties that are there, as they are listed in the format.
  const before = cut.properties.filter((each) => kinds.indexOf(each.word) <= kinds.indexOf(name));
  const line = before.at(-1)?.line ?? { start: 0, end: lineEnd(text, 0) };
  const eol = lineEndOf(text);
  const sibling = cut.properties[0];
  const indent =
    sibling === undefined ? "  " : text.slice(sibling.line.start, beforeFirst(text, sibling.line.start));
  return (
    text.slice(0, line.end) +
    eol +
    indent +
    name.padEnd(widthOfWords(cut)) +
    " " +
    written +
    text.slice(line.end)
  );
}

/** The column of the values less one, where the properties share one. */
function widthOfWords({ properties }: DefinitionCut): number {
  const columns = new Set(
    properties.flatMap((each) => (each.values === undefined ? [] : [each.values.start - each.start])),
  );
  const [only] = columns;
  return columns.size === 1 ? only! - 1 : 0;
}

function without(text: string, property: DefinitionCut["properties"][number]): string {
  const { start, end, line, isAlone } = property;
  if (isAlone) {
    const rest = text.slice(end, line.end).trim();
    // A comment behind it stays.
    if (rest !== "") return text.slice(0, start) + text.slice(end).replace(/^\s+/, "");
    const next = nextLine(text, line.start);
    // The last line of a file has no end of its own.
    return next > line.end
      ? text.slice(0, line.start) + text.slice(next)
      : text.slice(0, line.start).replace(/(?:\r\n|\n|\r)$/, "") + text.slice(line.end);
  }
  const isLast = !/^\s*;/.test(text.slice(end, line.end));
  if (isLast) return text.slice(0, start).replace(/\s*;\s*$/, "") + text.slice(end);
  return text.slice(0, start) + text.slice(end).replace(/^\s*;\s*/, "");
}

function isRight(
  before: string,
  was: DefinitionCut,
  after: string,
  word: DefinitionWord,
  column: ColumnId,
  wanted: string,
): boolean {
  const blocks = cutBlocks(after, (each) => kindNumber(each) !== undefined);
  if (blocks.length !== 1 || blocks[0]!.kind !== "definition") return false;
  const now = cutOf(after, word);
  if (now.isHeadBroken || definitionCell(after, now, column).text !== wanted) return false;
  const isSaid = (id: ColumnId): boolean =>
    id === column || definitionCell(before, was, id).text === definitionCell(after, now, id).text;
  const properties = definitionKinds[word].properties.map((each) => `property ${each.word}`);
  return (
    ["name", "members", "title", "comment", ...properties].every(isSaid) &&
    others(before, was) === others(after, now)
  );
}

/** The lines that are no cells, and the comments. */
function others(text: string, cut: DefinitionCut): string {
  const starts = startsIn(text);
  const comments = cut.properties.map(
    ({ line }) => /(?<!\S)#.*$/.exec(text.slice(line.start, line.end))?.[0] ?? "",
  );
  const lines = cut.others.map((at) => text.slice(starts[at]!, lineEnd(text, starts[at]!)).trim());
  return [...new Set([...lines, ...comments])].filter(Boolean).sort().join("\n");
}

function allowed(word: DefinitionWord, column: ColumnId): string {
  if (column === "name") return "a name begins with a letter and goes on with letters, digits, - and _";
  if (column === "members") return "a group names its tanks: r1 .. r12, q1";
  if (column === "title" || column === "comment") return "one line of text";
  const kind = definitionKinds[word].properties.find((each) => each.word === propertyOfColumn(column));
  return kind === undefined
    ? `a ${word} has no such property`
    : `${kind.many === true ? "several are parted by ; and what is left out goes; each" : "this"} is written like: ${kind.examples[0]?.slice(kind.word.length).trim() ?? kind.doc}`;
}

function beforeSpaces(text: string, at: number): number {
  while (at > 0 && /[^\S\r\n]/.test(text[at - 1]!)) at--;
  return at;
}

function beforeFirst(text: string, at: number): number {
  while (at < text.length && /[^\S\r\n]/.test(text[at]!)) at++;
  return at;
}

/** From what a definition said to what it says: of lines that are as many each its own edit. */
export function definitionEdits({ file, start: from, text }: Block, made: string): Edit[] {
  const [old, fresh] = [linesOfText(text), linesOfText(made)];
  const edits =
    old.length === fresh.length
      ? old.flatMap((line, at) => difference(line.text, fresh[at]!.text, line.start))
      : difference(text, made, 0);
  return edits.map((edit) => ({
    path: file.path,
    start: from + edit.start,
    end: from + edit.end,
    text: edit.text,
  }));
}
