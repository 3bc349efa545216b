import { definitionKinds } from "../../book/definitions/registry.ts";
import { type Block, Source } from "../../book/source.ts";
import { CheckedLogbook } from "../../checks/check.ts";
import type { DefinitionWord } from "../../syntax/blocks.ts";
import { illName } from "../rename.ts";
import type { View } from "../view.ts";
import type { Added } from "./added-definitions.ts";
import { propertyOfColumn } from "./definition-rows.ts";
import { changeDefinition } from "./edit-definition.ts";
import type { EditSession } from "./edit-session.ts";
import { type NewRow, type Refusal, refused } from "./grid-model.ts";

/** A new definition: its head and the properties that are said, behind those of its sort. */

/** @param behind a definition behind which it goes, where that is of its sort */
export function insertDefinition(
  session: EditSession,
  word: DefinitionWord,
  behind: string | undefined,
  row: NewRow,
): Refusal | undefined {
  if (Object.values(row).every((text) => text.trim() === "")) return undefined;
  const { view } = session;
  const text = definitionText(view, word, row);
  if (typeof text !== "string") return text;
  const problem = errorOf(view, text, session.added);
  if (problem !== undefined) return problem;
  session.added.push({ text, ...placeFor(session, word, behind) });
  return undefined;
}

function definitionText({ checked: { book } }: View, word: DefinitionWord, row: NewRow): string | Refusal {
  const said = (id: string): string => row[id]?.trim() ?? "";
  const name = said("name");
  if (word === "room") {
    if (book.room !== undefined) return refused("a logbook has one room, and this one has it");
  } else {
    if (name === "") return refused(`a new ${word} needs a name`);
    const ill = illName(word, name);
    if (ill !== undefined) return refused(ill);
    const other = book.names.get(name);
    if (other !== undefined) return refused(`“${name}” is the name of a ${other.definition.word} already`);
  }
  const members = said("members");
  if (word === "group" && members === "") return refused("a new group names its tanks: r1 .. r12, q1");
  const head = `${word}${name === "" ? "" : ` ${name}`}`;
  let text: string | Refusal = `${head}${word === "group" ? ` = ${members}` : ""}\n`;
  const listed = definitionKinds[word].properties.map((each) => each.word);
  const placeOf = (id: string): number => listed.indexOf(propertyOfColumn(id) ?? "");
  const columns = Object.keys(row).filter((id) => id !== "name" && id !== "members" && said(id) !== "");
  // The title and the comment stand in the head, the properties in their order.
  for (const id of columns.sort((a, b) => placeOf(a) - placeOf(b))) {
    text = changeDefinition(text, word, id, row[id]!);
    if (typeof text !== "string") return refused(`${propertyOfColumn(id) ?? id}: ${text.message}`);
  }
  return aligned(text);
}

/** The values of the properties in one column. */
function aligned(text: string): string {
  const properties = [...text.matchAll(/^ {2}(\S+) /gm)].map(([, word]) => word!.length);
  const width = Math.max(0, ...properties);
  return text.replace(/^ {2}(\S+) /gm, (_, word: string) => `  ${word.padEnd(width)}  `);
}

/** What the log would call an error of it: tried beside the other definitions alone. */
function errorOf(
  view: View,
  text: string,
  others: readonly { readonly text: string }[],
): Refusal | undefined {
  const trial = new CheckedLogbook();
  const blocks = [...view.checked.logbook.sources.values()].flatMap((each) => each.blocks);
  const definitions = blocks.filter(({ kind }) => kind === "definition").map((block) => block.text);
  trial.put(new Source("definitions.tank", [...definitions, ...others.map((each) => each.text)].join("\n")));
  const source = new Source("new.tank", text);
  trial.put(source);
  const error = trial.findingsIn(source, view.worldDay).find(({ severity }) => severity === "error");
  return error === undefined ? undefined : refused(error.message);
}

/** Behind the definition at the cursor, else the last of its sort, else the last of the file; else where the room is. */
function placeFor(
  session: EditSession,
  word: DefinitionWord,
  behind: string | undefined,
): Omit<Added, "text"> {
  const { source, checked } = session.view;
  const chosen = behind?.startsWith("definition ") ? session.blockOf(behind.split(" ")[1]) : undefined;
  if (chosen?.definition?.word === word) return { path: chosen.file.path, after: chosen };
  const own = (blocks: readonly Block[]): Block | undefined =>
    blocks.findLast((block) => block.definition?.word === word);
  const defined = (blocks: readonly Block[]): Block | undefined =>
    blocks.findLast((block) => block.kind === "definition");
  const roomFile = checked.book.roomPlace?.block.file;
  const after =
    own(source.blocks) ??
    own(checked.logbook.blocks()) ??
    defined(source.blocks) ??
    (roomFile === undefined ? undefined : defined(roomFile.blocks));
  return { path: after?.file.path ?? source.path, after };
}
