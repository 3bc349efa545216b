import { existsSync, realpathSync, statSync } from "node:fs";
import { dirname, relative, resolve, sep } from "node:path";
import { dayOf } from "../../book/dates.ts";
import { didYouMean, nearest } from "../../quantity/nearest.ts";
import { slashed } from "../files.ts";
import { Trouble, type World } from "../world.ts";
import { git, gitOut } from "./git.ts";
import { parts } from "./parse.ts";

/** A repository and the part of it that was asked for. */
export interface Repository {
  readonly world: World;
  /** Where its work tree begins: absolute, without links. */
  readonly root: string;
  /** The folder that was asked for, from the root, with `/`; empty for all. */
  readonly below: string;
}

/** A state of the log. */
export type Revision =
  | { readonly is: "commit"; readonly id: string; readonly name: string }
  /** A repository in which nothing was committed yet, before its first commit. */
  | { readonly is: "nothing"; readonly name: string }
  | { readonly is: "index"; readonly name: string }
  | { readonly is: "files"; readonly name: string };

export const workingFiles: Revision = { is: "files", name: "the files as they are" };
export const staged: Revision = { is: "index", name: "what is staged" };

/** The repository that a folder or file lies in. Throws `Trouble` where it lies in none. @param path absolute */
export function repositoryOf(world: World, path: string, shown: string): Repository {
  const folder = statSync(path).isDirectory() ? path : dirname(path);
  const { status, out, complaint } = git(world, folder, ["rev-parse", "--show-toplevel"]);
  const root = out.toString("utf8").replace(/\n$/, "");
  if (status !== 0 || root === "") {
    if (/dubious ownership/.test(complaint))
      throw new Trouble(
        `${shown}: this repository belongs to somebody else, and git reads it only if told so: git config --global --add safe.directory ${folder}`,
      );
    if (/must be run in a work tree/.test(complaint) || (status === 0 && root === ""))
      throw new Trouble(`${shown}: this repository has no work tree, only commits`);
    throw new Trouble(`${shown}: this is in no git repository; git init begins one`);
  }
  const from = realpathSync(root);
  const below = slashed(relative(from, realpathSync(path)));
  return { world, root: from, below: below === "." ? "" : below };
}

/** Whether nothing was committed yet. */
export function isUnborn({ world, root }: Repository): boolean {
  return git(world, root, ["rev-parse", "--verify", "--quiet", "HEAD^{commit}"]).status !== 0;
}

/** The commit at the tip; before the first commit nothing. */
export function headOf(repository: Repository): Revision {
  return named(repository, "HEAD") ?? { is: "nothing", name: "HEAD, with no commit yet" };
}

/** The commit that a word names: a branch, tag or commit, or else a day; undefined if it names none. */
export function named({ world, root }: Repository, word: string): Revision | undefined {
  // No branch begins with a dash: such a word is never given to git as an option.
  if (word === "" || word.startsWith("-") || word.includes("\0")) return undefined;
  const { status, out } = git(world, root, ["rev-parse", "--verify", "--quiet", `${word}^{commit}`]);
  const id = out.toString("latin1").trim();
  return status === 0 && /^[0-9a-f]{40,64}$/.test(id) ? { is: "commit", id, name: word } : undefined;
}

export const isDay = (word: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(word) && !Number.isNaN(dayOf(word));

/**
 * The last commit at the end of a day, or before it begins, on the reader's own calendar. Throws `Trouble` where there is none.
 * @param side `end`, or `begin` for the state before the day
 */
export function atDay(repository: Repository, day: string, side: "end" | "begin"): Revision {
  const { world, root } = repository;
  const clock = side === "end" ? `${day}T23:59:59` : secondBefore(day);
  if (isUnborn(repository)) throw new Trouble("nothing is committed here yet");
  const id = textOf(gitOut(world, root, ["rev-list", "-1", `--before=${clock}`, "HEAD", "--"]));
  if (id !== "") return { is: "commit", id, name: side === "end" ? day : `the beginning of ${day}` };
  const first = textOf(
    gitOut(world, root, ["log", "--max-parents=0", "-1", "--date=short", "--format=%cd", "HEAD", "--"]),
  );
  const cut = isShallow(repository) ? "; this clone holds only the last commits: git fetch --unshallow" : "";
  throw new Trouble(
    `there is no commit ${side === "end" ? "by the end of" : "before"} ${day}${first === "" ? "" : `; the first is of ${first}`}${cut}`,
  );
}

/** The last second before a day. */
function secondBefore(day: string): string {
  const before = new Date(Date.parse(`${day}T00:00:00Z`) - 1000).toISOString();
  return before.slice(0, 19);
}

/** The revision that a word names: a branch, tag, commit or day. Throws `Trouble` with the nearest names. */
export function revisionOf(repository: Repository, word: string): Revision {
  const found = named(repository, word);
  if (found !== undefined) return found;
  if (isDay(word)) return atDay(repository, word, "end");
  if (word === "HEAD") throw new Trouble("nothing is committed here yet, so that there is no HEAD");
  const near = nearest(word, branchesAndTags(repository));
  const cut = (near === undefined || /^[0-9a-f]{4,64}$|[~^]/.test(word)) && isShallow(repository);
  throw new Trouble(
    `there is no commit, branch, tag or day “${word}”${cut ? "; this clone holds only the last commits: git fetch --unshallow" : didYouMean(near)}`,
  );
}

/** The commit at which two parted. Throws `Trouble` where they have none in common. */
export function partingOf({ world, root }: Repository, a: Revision, b: Revision): Revision {
  if (a.is !== "commit" || b.is !== "commit") return a;
  const { status, out } = git(world, root, ["merge-base", a.id, b.id]);
  if (status !== 0) throw new Trouble(`${a.name} and ${b.name} have no commit in common`);
  return { is: "commit", id: textOf(out), name: `where ${b.name} left ${a.name}` };
}

export function isShallow({ world, root }: Repository): boolean {
  const { out } = git(world, root, ["rev-parse", "--is-shallow-repository"]);
  return textOf(out) === "true";
}

export function branchesAndTags({ world, root }: Repository): string[] {
  const { out } = git(world, root, ["for-each-ref", "--format=%(refname:short)%00"]);
  return parts(out.toString("utf8").replaceAll("\n", ""));
}

const textOf = (bytes: Buffer): string => bytes.toString("utf8").trim();

/** Whether a path that a work tree names stays in it. @param root without links */
export function isInside(root: string, path: string): boolean {
  try {
    const real = realpathSync(path);
    return real === root || real.startsWith(root.endsWith(sep) ? root : root + sep);
  } catch {
    return false;
  }
}

/** The absolute path of a file of the repository. */
export const absolute = ({ root }: Repository, path: string): string => resolve(root, path);

export const isThere = (path: string): boolean => existsSync(path);
