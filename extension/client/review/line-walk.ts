import type * as vscode from "vscode";
import {
  type LineStep,
  lineHistoryRequest,
  lineOriginRequest,
  type VersionText,
} from "../../../language/server/review-protocol.ts";
import type { Services } from "../services.ts";
import type { GitCommit, GitRepository } from "./git-api.ts";
import { head, isUnborn, logsOf, textAt, textsIn, textsOf, type Version } from "./versions.ts";

/** A line from commit to commit, through the files it stood in. */

/** What a commit made of it. */
export interface WalkStep extends Pick<LineStep, "is" | "text"> {
  /** Undefined for what is not committed yet. */
  readonly commit: GitCommit | undefined;
  readonly now: LinePlace;
  /** Undefined where it was not there. */
  readonly before: LinePlace | undefined;
}

export interface LinePlace {
  readonly uri: vscode.Uri;
  readonly version: Version;
  /** From 0. */
  readonly line: number;
}

/** So many commits of one file are looked through, and so many files. */
const mostCommits = 200;
const mostFiles = 12;
/** So many commits tell which are before another. */
const mostInOrder = 10_000;

/** A history, as far as it was looked through. */
export interface Walk {
  readonly steps: readonly WalkStep[];
  /** There may be more before the last: so far it was not looked. */
  readonly isCut: boolean;
}

/** Undefined where the server could not be asked; null for a line that says nothing of its own. */
export async function lineWalk(
  { ask, client }: Services,
  repository: GitRepository,
  document: vscode.TextDocument,
  from: number,
  value: string,
): Promise<Walk | null | undefined> {
  const asUri = (uri: vscode.Uri): string => client.code2ProtocolConverter.asUri(uri);
  const steps: WalkStep[] = [];
  let place = { uri: document.uri, line: from };
  let commits: (GitCommit | undefined)[] = [undefined, ...(await commitsOf(repository, document.uri))];
  for (let file = 0; file < mostFiles; file++) {
    const { uri, line } = place;
    const versionOf = (at: number): Version => versionBy(commits[at]);
    const texts = await Promise.all(
      commits.map((commit) =>
        commit === undefined ? document.getText() : textAt(repository, versionBy(commit), uri),
      ),
    );
    // Before the first commit of the file there was none, unless there are more than were looked through.
    const all = commits.length < mostCommits ? [...texts, null] : texts;
    const found = await ask(lineHistoryRequest, { uri: asUri(uri), line, texts: all, value });
    if (found === undefined || found === null) return file === 0 ? found : { steps, isCut: true };
    const { first } = found;
    for (const { at, is, text, line: now, lineBefore } of found.steps)
      steps.push({
        is,
        text,
        commit: commits[at],
        now: { uri, version: versionOf(at), line: now },
        before: lineBefore === null ? undefined : { uri, version: versionOf(at + 1), line: lineBefore },
      });
    if (first === null) return { steps, isCut: true };
    const commit = commits[first.at];
    const sides = await sidesOf(repository, commit, asUri);
    const origin =
      sides === undefined
        ? undefined
        : await ask(lineOriginRequest, {
            uri: asUri(uri),
            line: first.line,
            before: sides.before,
            after: sides.after,
            value,
          });
    if (sides === undefined || origin === undefined || origin === null) return { steps, isCut: false };
    // It is not new: it came from there.
    const last = steps.at(-1);
    if (last?.is === "added" && last.commit === commit) steps.pop();
    place = { uri: client.protocol2CodeConverter.asUri(origin.uri), line: origin.line };
    if (origin.change !== null)
      steps.push({
        ...origin.change,
        commit,
        now: { uri, version: versionOf(first.at), line: first.line },
        before: { ...place, version: sides.version },
      });
    commits = await earlierThan(repository, commit, place.uri);
  }
  return { steps, isCut: true };
}

export const versionBy = (commit: GitCommit | undefined): Version =>
  commit === undefined ? { is: "files" } : { is: "commit", ref: commit.hash, name: commit.hash.slice(0, 8) };

const commitsOf = (repository: GitRepository, uri: vscode.Uri): Promise<readonly GitCommit[]> =>
  repository.log({ maxEntries: mostCommits, path: uri.fsPath }).catch(() => []);

/** The commits of a file that come behind another in the order of the log. */
async function earlierThan(
  repository: GitRepository,
  commit: GitCommit | undefined,
  uri: vscode.Uri,
): Promise<GitCommit[]> {
  const all = await commitsOf(repository, uri);
  if (commit === undefined) return [...all];
  const order = await repository.log({ maxEntries: mostInOrder }).catch(() => []);
  const behind = order.slice(order.findIndex(({ hash }) => hash === commit.hash) + 1);
  const earlier = new Set(behind.map(({ hash }) => hash));
  return all.filter(({ hash }) => earlier.has(hash));
}

/** The files of the log that are others in a version, as they were and as they are then; null for as they are now. */
export interface Sides {
  readonly before: readonly VersionText[];
  readonly after: readonly VersionText[] | null;
  /** What was before. */
  readonly version: Version;
}

/** What a commit did to files of the log; undefined where nothing was before it. @param commit undefined for what is not committed yet */
export async function sidesOf(
  repository: GitRepository,
  commit: GitCommit | undefined,
  asUri: (uri: vscode.Uri) => string,
): Promise<Sides | undefined> {
  if (commit === undefined) {
    if (isUnborn(repository)) return undefined;
    return { before: await textsOf(repository, head, asUri), after: null, version: head };
  }
  const [parent] = commit.parents;
  if (parent === undefined) return undefined;
  const version: Version = { is: "commit", ref: parent, name: parent.slice(0, 8) };
  const files = logsOf(await repository.diffBetween(parent, commit.hash).catch(() => []));
  const [before, after] = await Promise.all([
    textsIn(repository, version, files, asUri),
    textsIn(repository, versionBy(commit), files, asUri),
  ]);
  return { before, after, version };
}
