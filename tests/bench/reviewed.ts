import { join } from "node:path";
import { gitRepository } from "../support/git-repository.ts";
import { edited } from "./edited.ts";

/** A generated log in a repository of its own: committed as it was, with the edits in its files. */
export interface Reviewed {
  readonly folder: string;
  readonly edits: number;
  remove(): void;
}

/** @param share the part of the entries that are edited, 0 to 1 */
export function reviewed(entries: number, share: number): Reviewed {
  const { before, after, edits } = edited(entries, share);
  const repository = gitRepository();
  const named = (files: typeof before): Record<string, string> =>
    Object.fromEntries(files.map(({ path, text }) => [join("logs", path), text]));
  repository.commit("As it was", named(before));
  repository.write(named(after));
  return { folder: repository.folder, edits, remove: repository.remove };
}
