import { gitOut } from "./git.ts";
import { type Commit, commitsOf, type FileChange, logFormat, mergesOf } from "./parse.ts";
import { isLog } from "./read.ts";
import type { Repository } from "./repository.ts";

/**
 * The commits that lead to one, each before its parents, with what they did to files of the log below a folder. A file that was renamed
 * comes as one that went and one that came.
 */
export function logOf({ world, root, below }: Repository, id: string): Commit[] {
  const shape = ["-z", "--raw", "--no-abbrev", "--no-renames"];
  const words = ["log", ...shape, "--full-history", "--topo-order", "--date=raw"];
  const out = gitOut(world, root, [...words, `--format=${logFormat}`, id, "--"]);
  const where = below === "" ? "" : `${below}/`;
  const isMeant = ({ path }: FileChange): boolean =>
    isLog(path) && (path === below || path.startsWith(where));
  const commits = commitsOf(out.toString("utf8"));
  const asked = commits
    .filter(({ parents }) => parents.length > 1)
    .flatMap((commit) => commit.parents.map((parent) => ({ commit, line: `${commit.id} ${parent}` })));
  const merged = new Map<Commit, FileChange[][]>();
  if (asked.length > 0) {
    const input = `${asked.map(({ line }) => line).join("\n")}\n`;
    const told = gitOut(world, root, ["diff-tree", "--stdin", "-m", "-r", ...shape, "--always"], input);
    const files = mergesOf(told.toString("utf8"));
    asked.forEach(({ commit }, at) => {
      merged.set(commit, [...(merged.get(commit) ?? []), files[at] ?? []]);
    });
  }
  return commits.map((commit) => ({
    ...commit,
    files: (merged.get(commit) ?? commit.files).map((files) => files.filter(isMeant)),
  }));
}
