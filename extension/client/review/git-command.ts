import * as vscode from "vscode";
import type { RunGit } from "../run-git.ts";
import type { GitApi, GitChange, GitCommit, GitRef, GitRepository } from "./git-api.ts";

/** The same interface by the `git` command, for an editor whose git extension is not there or switched off. */

/** Of documents with a file as it is in a version. */
export const revisionScheme = "standpipe-revision";

/** @param disposables takes what has to be taken down */
export function commandGit(run: RunGit, disposables: vscode.Disposable[]): GitApi {
  const never = new vscode.EventEmitter<unknown>();
  const known = new Map<string, CommandRepository>();
  const find = async (uri: vscode.Uri): Promise<CommandRepository | null> => {
    // What a repository sets may be run by git: not before its folder is trusted.
    if (uri.scheme !== "file" || !vscode.workspace.isTrusted) return null;
    const folder = vscode.Uri.joinPath(uri, "..").fsPath;
    const root = await run(folder, ["rev-parse", "--show-toplevel"]).then(
      (out) => out.replace(/\n$/, ""),
      () => "",
    );
    if (root === "") return null;
    const repository = known.get(root) ?? new CommandRepository(run, root, disposables);
    known.set(root, repository);
    await repository.look();
    return repository;
  };
  const texts: vscode.TextDocumentContentProvider = {
    async provideTextDocumentContent(uri) {
      const repository = await find(uri.with({ scheme: "file", query: "" }));
      const ref = uri.query === "~" ? "" : uri.query;
      return repository?.show(ref, uri.with({ scheme: "file", query: "" }).fsPath).catch(() => "");
    },
  };
  disposables.push(never, vscode.workspace.registerTextDocumentContentProvider(revisionScheme, texts));
  return {
    state: "initialized",
    onDidChangeState: never.event,
    onDidOpenRepository: never.event,
    onDidCloseRepository: never.event,
    getRepository: find,
    toGitUri: (uri, ref) => uri.with({ scheme: revisionScheme, query: ref }),
  };
}

class CommandRepository implements GitRepository {
  readonly rootUri: vscode.Uri;
  state: GitRepository["state"];
  private readonly run: (...words: readonly string[]) => Promise<string>;
  private readonly changed = new vscode.EventEmitter<void>();

  constructor(run: RunGit, root: string, disposables: vscode.Disposable[]) {
    this.run = (...words) => run(root, words);
    this.rootUri = vscode.Uri.file(root);
    this.state = {
      HEAD: undefined,
      workingTreeChanges: [],
      indexChanges: [],
      onDidChange: this.changed.event,
    };
    const pattern = new vscode.RelativePattern(
      vscode.Uri.joinPath(this.rootUri, ".git"),
      "{HEAD,index,refs/**}",
    );
    const watcher = vscode.workspace.createFileSystemWatcher(pattern);
    const tell = (): void => this.changed.fire();
    disposables.push(
      watcher,
      this.changed,
      watcher.onDidChange(tell),
      watcher.onDidCreate(tell),
      watcher.onDidDelete(tell),
    );
  }

  /** Looks anew which files are others than in the index, and which of the index than in the last commit. */
  async look(): Promise<void> {
    const commit = await this.run("rev-parse", "--verify", "--quiet", "HEAD^{commit}").then(
      (out) => out.trim(),
      () => undefined,
    );
    const files = await this.names(
      "ls-files",
      "-z",
      "--modified",
      "--deleted",
      "--others",
      "--exclude-standard",
    );
    const staged = await (commit === undefined
      ? this.names("ls-files", "-z")
      : this.names("diff", "--cached", "--no-renames", "--name-only", "-z", "HEAD", "--"));
    this.state = {
      ...this.state,
      HEAD: commit === undefined ? undefined : { commit },
      workingTreeChanges: this.changes(files),
      indexChanges: this.changes(staged),
    };
  }

  show(ref: string, path: string): Promise<string> {
    const root = this.rootUri.path.replace(/\/?$/, "/");
    const own = vscode.Uri.file(path).path;
    if (!own.startsWith(root)) return Promise.reject(new Error(`${path} is not in this repository`));
    return this.run("show", "--end-of-options", `${ref}:${own.slice(root.length)}`);
  }

  async diffWith(ref: string): Promise<GitChange[]> {
    return this.changes(
      await this.names("diff", "--no-renames", "--name-only", "-z", "--end-of-options", ref, "--"),
    );
  }

  async diffBetween(ref1: string, ref2: string): Promise<GitChange[]> {
    const shape = ["--no-renames", "--name-only", "-z", "--end-of-options"];
    return this.changes(await this.names("diff", ...shape, ref1, ref2, "--"));
  }

  async getCommit(ref: string): Promise<Pick<GitCommit, "hash">> {
    const words = ["rev-parse", "--verify", "--quiet", "--end-of-options", `${ref}^{commit}`];
    return { hash: (await this.run(...words)).trim() };
  }

  async getRefs(): Promise<GitRef[]> {
    const out = await this.run("for-each-ref", "--format=%(refname)");
    return out
      .split("\n")
      .map((name) => /^refs\/(heads|remotes|tags)\/(.+)$/.exec(name))
      .filter((found) => found !== null)
      .map(([, of, name]) => ({ type: ["heads", "remotes", "tags"].indexOf(of!), name: name! }));
  }

  async log({ maxEntries = 100, path }: { maxEntries?: number; path?: string }): Promise<GitCommit[]> {
    const words = ["log", "-z", `--max-count=${maxEntries}`, "--format=%H%x1f%P%x1f%aI%x1f%an%x1f%B", "--"];
    const out = await this.run(...words, ...(path === undefined ? [] : [path]));
    return out
      .split("\0")
      .filter((each) => each !== "")
      .map((each): GitCommit => {
        const [hash = "", parents = "", date = "", authorName = "", ...message] = each.split("\x1f");
        return {
          hash,
          parents: parents.split(" ").filter((parent) => parent !== ""),
          authorDate: new Date(date),
          authorName,
          message: message.join("\x1f"),
        };
      });
  }

  private async names(...words: readonly string[]): Promise<string[]> {
    const out = await this.run(...words);
    return [...new Set(out.split("\0"))].filter((name) => name !== "");
  }

  private changes(names: readonly string[]): GitChange[] {
    return names.map((name) => {
      const uri = vscode.Uri.joinPath(this.rootUri, name);
      return { uri, originalUri: uri, renameUri: undefined };
    });
  }
}
