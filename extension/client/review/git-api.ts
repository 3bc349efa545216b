import * as vscode from "vscode";
import type { Services } from "../services.ts";
import { commandGit } from "./git-command.ts";

/** What is used of the editor's own git extension, version 1 of its interface; all else of it is left out here. */

export interface GitRef {
  readonly type: number;
  readonly name?: string;
  readonly commit?: string;
}

export interface GitCommit {
  readonly hash: string;
  readonly message: string;
  readonly parents: readonly string[];
  readonly authorDate?: Date;
  readonly authorName?: string;
}

export interface GitChange {
  readonly uri: vscode.Uri;
  readonly originalUri: vscode.Uri;
  readonly renameUri: vscode.Uri | undefined;
}

export interface GitRepository {
  readonly rootUri: vscode.Uri;
  readonly state: {
    readonly HEAD: { readonly name?: string; readonly commit?: string } | undefined;
    readonly workingTreeChanges: readonly GitChange[];
    readonly untrackedChanges?: readonly GitChange[];
    readonly indexChanges: readonly GitChange[];
    /** Of a merge that is not settled. */
    readonly mergeChanges?: readonly GitChange[];
    readonly onDidChange: vscode.Event<void>;
  };
  show(ref: string, path: string): Promise<string>;
  diffWith(ref: string): Promise<GitChange[]>;
  diffBetween(ref1: string, ref2: string): Promise<GitChange[]>;
  /** Rejects where a word names no commit. */
  getCommit(ref: string): Promise<Pick<GitCommit, "hash">>;
  getRefs(query: { readonly count?: number }): Promise<GitRef[]>;
  log(options: { readonly maxEntries?: number; readonly path?: string }): Promise<GitCommit[]>;
}

export interface GitApi {
  readonly state: "uninitialized" | "initialized";
  readonly onDidChangeState: vscode.Event<unknown>;
  readonly onDidOpenRepository: vscode.Event<unknown>;
  readonly onDidCloseRepository: vscode.Event<unknown>;
  getRepository(uri: vscode.Uri): GitRepository | null | Promise<GitRepository | null>;
  toGitUri(uri: vscode.Uri, ref: string): vscode.Uri;
}

interface GitExtension {
  readonly enabled: boolean;
  getAPI(version: 1): GitApi;
}

/** What reads a repository: the editor's git extension, else the `git` command; undefined where neither can be. */
export async function gitApi(services: Services): Promise<GitApi | undefined> {
  const own = await ownGit();
  if (own !== undefined || services.runGit === undefined) return own;
  const { runGit, context } = services;
  if (byCommand !== undefined) return byCommand;
  try {
    await runGit(context.extensionPath, ["--version"]);
  } catch {
    return undefined;
  }
  byCommand = commandGit(runGit, context.subscriptions);
  return byCommand;
}

let byCommand: GitApi | undefined;

async function ownGit(): Promise<GitApi | undefined> {
  const extension = vscode.extensions.getExtension<GitExtension>("vscode.git");
  if (extension === undefined) return undefined;
  try {
    const git = extension.isActive ? extension.exports : await extension.activate();
    return git.enabled ? git.getAPI(1) : undefined;
  } catch {
    return undefined;
  }
}
