import { existsSync, statSync } from "node:fs";
import { resolve } from "node:path";
import { Book } from "../../book/book.ts";
import { Source } from "../../book/source.ts";
import type { Spot } from "../../history/review/trace.ts";
import { didYouMean, nearest } from "../../quantity/nearest.ts";
import { lineText, offsetAt } from "../place.ts";
import { Trouble } from "../world.ts";

/** What a history is asked of: a line of a file, or a name. */
export type Asked =
  | { readonly is: "line"; readonly file: string; readonly line: number }
  | { readonly is: "name"; readonly name: string };

/** `2026-03.tank:12` is a line; all else a name. */
export function askedOf(word: string): Asked {
  const match = /^(.+):(\d+)$/s.exec(word);
  if (match === null) return { is: "name", name: word };
  return { is: "line", file: match[1]!, line: Number(match[2]) };
}

/** The folder in which to look for the repository. A file that is gone may still have a history: then where the call was made. */
export function folderOf(asked: Asked, cwd: string, folder: string | undefined): string {
  if (asked.is === "line" && existsSync(resolve(cwd, asked.file))) return resolve(cwd, asked.file);
  const path = resolve(cwd, folder ?? ".");
  if (!existsSync(path) || !statSync(path).isDirectory())
    throw new Trouble(`${folder}: there is no such folder`);
  return path;
}

/** Where a line begins, in front of what it says. Throws `Trouble` for a line that is not there or says nothing. */
export function spotOf(path: string, text: string, line: number, shown: string): Spot {
  const source = new Source(path, text);
  const start = offsetAt(source, line, 1);
  if (start === undefined || line < 1) throw new Trouble(`${shown} has no line ${line}`);
  const written = lineText(source, line);
  if (/^\s*(?:#|$)/.test(written))
    throw new Trouble(
      `${shown}:${line} says nothing of its own: a comment or a blank line has no history here`,
    );
  return { path, start: start + written.length - written.trimStart().length };
}

/** The definitions of a log, for its groups and names. */
export function bookOf(texts: ReadonlyMap<string, string>): Book {
  const blocks = [...texts].flatMap(([path, text]) => new Source(path, text).blocks);
  return new Book(blocks.filter(({ kind }) => kind === "definition"));
}

/** Throws `Trouble` for a name that was never in the log, with the nearest. */
export function unknownName(name: string, book: Book): Trouble {
  return new Trouble(
    `nothing in this log was ever called “${name}”${didYouMean(nearest(name, [...book.names.keys()]))}`,
  );
}
