import { lstatSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Shown } from "../files.ts";
import { writeWhole } from "../whole-file.ts";
import { Trouble, troubleWith } from "../world.ts";
import { begin, end, marked, type Part } from "./part.ts";

/**
 * `.gitattributes` at the root of the repository: which driver logs have. Nothing is said of line ends: they stay as the repository has
 * decided, and the drivers keep what they find.
 */

const rule = "*.tank diff=standpipe merge=standpipe";

/** @param wasMade whether an earlier run made the file */
export function attributesPart(
  root: string,
  shown: Shown,
  wasMade: boolean,
  remember: (isMade: boolean) => void,
): Part {
  const path = join(root, ".gitattributes");
  const lines = [begin, rule, end];
  const base = { name: "attributes" as const, where: shown(path), lines };
  const stat = lstatSync(path, { throwIfNoEntry: false });
  const refused =
    stat?.isSymbolicLink() === true
      ? "it is a link, and git follows no link for its attributes; put a file there"
      : stat !== undefined && !stat.isFile()
        ? "it is no file"
        : undefined;
  if (refused !== undefined)
    return { ...base, state: "foreign", refused, put: nothing, take: () => undefined };
  const text = stat === undefined ? "" : readFileSync(path, "utf8");
  const ours = marked(text);
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const own = lines.join(eol);
  const hasRule = ours === undefined && text.split(/\r?\n/).some((line) => line.trim() === rule);
  return {
    ...base,
    state: ours === own || hasRule ? "set" : ours === undefined ? "missing" : "old",
    put() {
      if (ours !== undefined) {
        write(
          path,
          text.replace(ours, () => own),
          shown,
        );
        return;
      }
      remember(stat === undefined);
      // A last line without an end keeps none: the line break before our part is its own.
      const isOpen = text !== "" && !/[\r\n]$/.test(text);
      write(path, `${text}${isOpen ? eol : ""}${own}${isOpen ? "" : eol}`, shown);
    },
    take() {
      if (ours === undefined) return hasRule ? "the line stood there before, and is left alone" : undefined;
      const at = text.indexOf(ours);
      const behind = text.slice(at + ours.length);
      // At the end of a text without a last line end the break before it was ours, else the one behind.
      const left =
        behind === ""
          ? text.slice(0, at).replace(/\r?\n$/, "")
          : text.slice(0, at) + behind.replace(/^\r?\n/, "");
      if (left === "" && wasMade) rmSync(path);
      else write(path, left, shown);
      return undefined;
    },
  };
}

const nothing = (): void => {};

/** A file keeps its mode; a new one has that of new files. */
function write(path: string, text: string, shown: Shown): void {
  try {
    if (lstatSync(path, { throwIfNoEntry: false }) === undefined)
      writeWhole(path, shown(path), (put) => put(text));
    else writeFileSync(path, text);
  } catch (error) {
    throw error instanceof Trouble ? error : new Trouble(troubleWith(shown(path), error));
  }
}
