import * as vscode from "vscode";
import { type ReviewAnswer, reviewRequest } from "../../../language/server/review-protocol.ts";
import { logEditor, rangeOf } from "../places.ts";
import type { Services } from "../services.ts";
import { choosePair, type Pair } from "./choose.ts";
import { type GitApi, type GitRepository, gitApi } from "./git-api.ts";
import { revisionScheme } from "./git-command.ts";
import { itemOf, type LinePlaces, placesOf } from "./review-items.ts";
import { nodesOf, parentsOf, type ReviewNode, stopFrom, stopsOf } from "./review-nodes.ts";
import { documentOf, head, isUnborn, nameOf, shortNameOf, textsOf, type Version } from "./versions.ts";

/** What stands in the view of a review: asked for anew when the log, the repository or what is compared is another. */

export const reviewView = "standpipe.review";

export const pageScheme = "standpipe-review";
const pageUri = vscode.Uri.parse(`${pageScheme}:/review.md`);

/** What the view says where it is empty: a context of its welcome. */
type State = "reading" | "untrusted" | "noGit" | "noRepository" | "noLog" | "failed" | "same" | "shown";

/** Changes come in showers. */
const quietMs = 400;
/** So long something stands in the status bar. */
const saidMs = 4000;

export class ReviewTree
  implements vscode.TreeDataProvider<ReviewNode>, vscode.TextDocumentContentProvider, vscode.Disposable
{
  view: vscode.TreeView<ReviewNode> | undefined;
  private readonly services: Services;
  private readonly changed = new vscode.EventEmitter<undefined>();
  private readonly pageChanged = new vscode.EventEmitter<vscode.Uri>();
  readonly onDidChange = this.pageChanged.event;
  readonly onDidChangeTreeData = this.changed.event;
  private pair: Pair = { before: head, after: { is: "files" } };
  private answer: ReviewAnswer | undefined;
  private nodes: readonly ReviewNode[] = [];
  private parents: ReadonlyMap<ReviewNode, ReviewNode> = new Map();
  /** The line that was gone to last, by its key: a review that is made anew has other nodes. */
  private reached = "";
  private log: vscode.Uri | undefined;
  private git: GitApi | undefined;
  private repository: GitRepository | undefined;
  private watching: vscode.Disposable | undefined;
  private readonly gitWatching: vscode.Disposable[] = [];
  private timer: ReturnType<typeof setTimeout> | undefined;
  private asked: vscode.CancellationTokenSource | undefined;

  constructor(services: Services) {
    this.services = services;
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.asked?.cancel();
    this.watching?.dispose();
    for (const each of this.gitWatching) each.dispose();
    this.changed.dispose();
    this.pageChanged.dispose();
  }

  getTreeItem(node: ReviewNode): vscode.TreeItem {
    return itemOf(node);
  }

  getChildren(node?: ReviewNode): ReviewNode[] {
    return node === undefined ? [...this.nodes] : "nodes" in node ? [...node.nodes] : [];
  }

  getParent(node: ReviewNode): ReviewNode | undefined {
    return this.parents.get(node);
  }

  /** Another logbook may be in the editor now. */
  look(): void {
    const log = logHere();
    const folder = (uri: vscode.Uri | undefined): string => (uri?.toString() ?? "").replace(/\/[^/]*$/, "");
    if (log !== undefined && folder(log) !== folder(this.log)) this.soon();
  }

  /** What nobody sees is not asked for; it is when the view comes back. */
  soon(inMs = quietMs): void {
    clearTimeout(this.timer);
    if (this.view?.visible !== true) return;
    this.timer = setTimeout(() => {
      void vscode.window.withProgress({ location: { viewId: reviewView } }, () => this.refresh());
    }, inMs);
  }

  async choose(): Promise<void> {
    const found = await this.find();
    if (found === undefined) {
      await vscode.commands.executeCommand(`${reviewView}.focus`);
      return;
    }
    const pair = await choosePair(found.repository, this.pair);
    if (pair === undefined) return;
    this.pair = pair;
    await vscode.commands.executeCommand(`${reviewView}.focus`);
    await this.refresh();
  }

  /** The review as a page: what is long is read there. It is written anew with the view, as long as it is open. */
  async page(): Promise<void> {
    await vscode.commands.executeCommand(`${reviewView}.focus`);
    await this.refresh();
    if (this.answer !== undefined) await vscode.commands.executeCommand("markdown.showPreview", pageUri);
  }

  /** The same as Markdown in the clipboard, for a pull request. */
  async copy(): Promise<void> {
    if (this.answer === undefined) {
      await vscode.commands.executeCommand(`${reviewView}.focus`);
      await this.refresh();
    }
    if (this.answer === undefined) return;
    await vscode.env.clipboard.writeText(this.answer.page);
    vscode.window.setStatusBarMessage(vscode.l10n.t("The review is in the clipboard, as Markdown"), saidMs);
  }

  /** Goes to the next line that follows or changed, or to the one before; behind the last the first is next. */
  async step(by: 1 | -1): Promise<void> {
    if (this.nodes.length === 0) {
      await vscode.commands.executeCommand(`${reviewView}.focus`);
      await this.refresh();
    }
    const stop = stopFrom(stopsOf(this.nodes), this.view?.selection[0]?.key ?? this.reached, by);
    if (stop === undefined) return;
    this.reached = stop.key;
    await this.view?.reveal(stop, { select: true, focus: false });
    await this.go(placesOf(stop));
  }

  provideTextDocumentContent(): string {
    return this.answer?.page ?? vscode.l10n.t("Nothing changed between the two revisions.");
  }

  /** Goes to a line: beside what it was, where it was and is. */
  async go(places: unknown): Promise<void> {
    const { before, after } = itemPlaces(places);
    const { protocol2CodeConverter } = this.services.client;
    const uriOf = (uri: string): vscode.Uri => protocol2CodeConverter.asUri(uri);
    const { git, pair } = this;
    if (git === undefined) return;
    if (after !== null && before !== null) {
      const [left, right] = [uriOf(before.uri), uriOf(after.uri)];
      const title = vscode.l10n.t(
        "{0} ({1} to {2})",
        right.path.split("/").at(-1) ?? "",
        nameOf(pair.before),
        nameOf(pair.after),
      );
      await vscode.commands.executeCommand(
        "vscode.diff",
        documentOf(git, pair.before, left),
        documentOf(git, pair.after, right),
        title,
        { selection: rangeOf(after.range), preview: true },
      );
      return;
    }
    const place = after ?? before;
    if (place === null) return;
    const version = after === null ? pair.before : pair.after;
    await vscode.window.showTextDocument(documentOf(git, version, uriOf(place.uri)), {
      selection: rangeOf(place.range),
      preview: true,
    });
  }

  private async refresh(): Promise<void> {
    this.asked?.cancel();
    const asked = new vscode.CancellationTokenSource();
    this.asked = asked;
    const found = await this.find();
    if (found === undefined || asked.token.isCancellationRequested) return;
    const { repository, log } = found;
    const { client, ask } = this.services;
    const asUri = (uri: vscode.Uri): string => client.code2ProtocolConverter.asUri(uri);
    try {
      const [before, after] = await Promise.all([
        textsOf(repository, this.pair.before, asUri),
        textsOf(repository, this.pair.after, asUri),
      ]);
      if (asked.token.isCancellationRequested) return;
      const [from, to] = [this.told(this.pair.before, nameOf), this.told(this.pair.after, nameOf)];
      const answer = await ask(
        reviewRequest,
        { uri: asUri(log), before, after, from, to, all: false },
        asked.token,
      );
      if (asked.token.isCancellationRequested) return;
      // What failed is in the log; what is shown is still true of what it was made of.
      if (answer === undefined) {
        if (this.answer === undefined) this.show("failed", undefined);
        return;
      }
      if (answer === null) this.log = undefined;
      const isSame = answer?.counts === "" && answer.files.length === 0;
      this.show(
        answer === null ? "noLog" : isSame ? "same" : "shown",
        isSame ? undefined : (answer ?? undefined),
      );
    } catch (error) {
      if (asked.token.isCancellationRequested) return;
      this.services.log.warn(`review: ${error}`);
      this.show("failed", undefined);
    }
  }

  /** What a version is called; before the first commit there is no HEAD. */
  private told(version: Version, name: (version: Version) => string): string {
    const isHead = version.is === "commit" && version.ref === "HEAD";
    const isNothing = isHead && this.repository !== undefined && isUnborn(this.repository);
    return isNothing ? vscode.l10n.t("nothing committed yet") : name(version);
  }

  private show(state: State, answer: ReviewAnswer | undefined): void {
    this.answer = answer;
    this.nodes = answer === undefined ? [] : nodesOf(answer);
    this.parents = parentsOf(this.nodes);
    void vscode.commands.executeCommand("setContext", "standpipe.review.state", state);
    if (this.view !== undefined)
      this.view.description =
        state === "shown" || state === "same"
          ? `${this.told(this.pair.before, shortNameOf)} → ${this.told(this.pair.after, shortNameOf)}`
          : "";
    this.changed.fire(undefined);
    this.pageChanged.fire(pageUri);
  }

  /** The repository of the log that is open, or of any of the workspace; says so where there is none. */
  private async find(): Promise<{ repository: GitRepository; log: vscode.Uri } | undefined> {
    const log = logHere() ?? this.log ?? (await vscode.workspace.findFiles("**/*.tank", undefined, 1))[0];
    this.log = log;
    if (log === undefined) {
      this.show("noLog", undefined);
      return undefined;
    }
    // What a repository sets may be run by git: not before its folder is trusted, whoever runs it.
    if (!vscode.workspace.isTrusted) {
      this.show("untrusted", undefined);
      return undefined;
    }
    this.git ??= await this.connect();
    if (this.git === undefined) {
      this.show("noGit", undefined);
      return undefined;
    }
    const repository = await this.git.getRepository(log);
    if (repository === null && this.git.state === "uninitialized") {
      // It looks for repositories still, and tells when it has.
      if (this.answer === undefined) this.show("reading", undefined);
      return undefined;
    }
    if (repository === null) {
      this.show("noRepository", undefined);
      return undefined;
    }
    if (repository !== this.repository) {
      this.watching?.dispose();
      this.watching = repository.state.onDidChange(() => this.soon());
      this.repository = repository;
    }
    return { repository, log };
  }

  private async connect(): Promise<GitApi | undefined> {
    const git = await gitApi(this.services);
    if (git !== undefined)
      this.gitWatching.push(
        git.onDidChangeState(() => this.soon()),
        git.onDidOpenRepository(() => this.soon()),
        git.onDidCloseRepository(() => this.soon()),
      );
    return git;
  }
}

/** The log in the editor; none where that is one of another version, or not stored anywhere. */
function logHere(): vscode.Uri | undefined {
  const uri = logEditor()?.document.uri;
  return uri === undefined || ["git", "untitled", revisionScheme].includes(uri.scheme) ? undefined : uri;
}

/** What a line of the view gives its command; nothing else is taken. */
function itemPlaces(places: unknown): LinePlaces {
  const { before = null, after = null } = (
    typeof places === "object" && places !== null ? places : {}
  ) as Partial<LinePlaces>;
  return { before, after };
}
