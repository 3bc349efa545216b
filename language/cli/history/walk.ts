import type { LogText } from "../../history/match-lines.ts";
import { type Change, changesOf } from "../../history/review/changes.ts";
import { type Spot, stepBack } from "../../history/review/trace.ts";
import { logOf } from "../repository/log.ts";
import type { Commit, FileChange } from "../repository/parse.ts";
import { Objects } from "../repository/read.ts";
import type { Repository } from "../repository/repository.ts";
import { Trouble } from "../world.ts";

/** What was changed at one time. */
export interface Found {
  /** Undefined for what is not committed yet. */
  readonly commit: Commit | undefined;
  readonly changes: readonly Change[];
}

/** So many commits are read at once; what they held is forgotten then. */
const atOnce = 64;

/** The contents of commits, read some at a time. */
class Contents {
  private readonly repository: Repository;
  private objects: Objects;
  private reached = -1;
  private readonly order: ReadonlyMap<string, number>;
  private readonly commits: readonly Commit[];

  constructor(repository: Repository, commits: readonly Commit[]) {
    this.repository = repository;
    this.objects = new Objects(repository);
    this.commits = commits;
    this.order = new Map(commits.map(({ id }, at) => [id, at]));
  }

  /** Both sides of what a commit did to files. A file that is no text counts as none. */
  sides({ id }: Commit, files: readonly FileChange[]): { before: LogText[]; after: LogText[] } {
    const at = this.order.get(id) ?? 0;
    if (at >= this.reached) {
      this.objects = new Objects(this.repository);
      this.reached = at + atOnce;
      const ids = this.commits
        .slice(at, this.reached)
        .flatMap((commit) => commit.files.flat().flatMap(({ before, after }) => [before, after]));
      this.objects.fetch(ids);
    }
    const texts = (side: "before" | "after"): LogText[] =>
      files.flatMap(({ path, [side]: blob }) => {
        const text = blob === "" ? undefined : this.text(blob, path);
        return text === undefined ? [] : [{ path, text }];
      });
    return { before: texts("before"), after: texts("after") };
  }

  private text(id: string, path: string): string | undefined {
    try {
      this.objects.fetch([id]);
      return this.objects.text(id, path);
    } catch (error) {
      if (!(error instanceof Trouble)) throw error;
      return undefined;
    }
  }
}

/**
 * The changes of a line, the latest first. Through a merge the history goes on where the line came from; only what the merge itself made
 * of it is told of the merge.
 */
export function lineHistory(repository: Repository, id: string, spot: Spot): Found[] {
  const commits = logOf(repository, id);
  const byId = new Map(commits.map((commit) => [commit.id, commit]));
  const contents = new Contents(repository, commits);
  const found: Found[] = [];
  let [commit, at]: [Commit | undefined, Spot] = [byId.get(id), spot];
  while (commit !== undefined) {
    const steps = commit.files.map((files) => {
      if (!files.some(({ path }) => path === at.path)) return { change: undefined, earlier: at };
      const { before, after } = contents.sides(commit!, files);
      return stepBack(before, after, at);
    });
    const came = steps.findIndex(({ change, earlier }) => change === undefined && earlier !== undefined);
    const way =
      came >= 0
        ? came
        : Math.max(
            0,
            steps.findIndex(({ earlier }) => earlier !== undefined),
          );
    const step = steps[way];
    if (step?.change !== undefined) found.push({ commit, changes: [step.change] });
    if (step?.earlier === undefined) break;
    at = step.earlier;
    commit = byId.get(commit.parents[way] ?? "");
  }
  return found;
}

/** The changes that are meant, commit by commit, the latest first. What a merge brought is told of the commits that it brought. */
export function changesHistory(
  repository: Repository,
  id: string,
  isMeant: (change: Change) => boolean,
): Found[] {
  const commits = logOf(repository, id).filter(({ parents }) => parents.length < 2);
  const contents = new Contents(repository, commits);
  return commits.flatMap((commit): Found[] => {
    const files = commit.files[0] ?? [];
    if (files.length === 0) return [];
    const { before, after } = contents.sides(commit, files);
    const changes = changesOf(before, after).list.filter(isMeant);
    return changes.length === 0 ? [] : [{ commit, changes }];
  });
}
