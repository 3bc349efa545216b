import * as vscode from "vscode";
import { cardChoicesRequest } from "../../../language/server/protocol.ts";
import { type NameStep, nameHistoryRequest } from "../../../language/server/review-protocol.ts";
import { pickTank } from "../pick-tank.ts";
import type { Services } from "../services.ts";
import type { GitCommit } from "./git-api.ts";
import { cutNote, type HistoryHere, historyHere, showChange } from "./history-here.ts";
import { type LinePlace, type Sides, sidesOf, versionBy } from "./line-walk.ts";
import { dayText, head, isUnborn, textsIn } from "./versions.ts";

/** The history of a tank or system: what each commit changed of its entries and its definition. The list fills while it is read. */

/** So many commits are looked through, so many of them at once. */
const mostCommits = 400;
const atOnce = 8;
/** So many changes of one commit are listed until more are asked for. */
const mostShown = 8;

interface ChangeLine extends vscode.QuickPickItem {
  readonly change?: { readonly now: LinePlace | undefined; readonly before: LinePlace | undefined };
  /** Asks for the rest of a commit. */
  readonly unfolds?: number;
}

/** What one commit changed. */
interface Told {
  readonly title: string;
  readonly name: string;
  readonly lines: readonly ChangeLine[];
}

export async function nameHistory(services: Services): Promise<void> {
  const here = await historyHere(services);
  if (here === undefined) return;
  const name = await nameAt(services, here.editor);
  if (name !== undefined) await new NameHistory(services, here, name).show();
}

/** The tank at the cursor, of its line, or else one that is chosen. */
async function nameAt(
  services: Services,
  { document, selection }: vscode.TextEditor,
): Promise<string | undefined> {
  const uri = services.client.code2ProtocolConverter.asUri(document.uri);
  const names = new Set(((await services.ask(cardChoicesRequest, { uri })) ?? []).map((each) => each.name));
  const word = /[\p{L}\p{N}_][\p{L}\p{N}_-]*/gu;
  const range = document.getWordRangeAtPosition(selection.active, new RegExp(word.source, "u"));
  const line = document.lineAt(selection.active.line).text.replace(/"[^"]*"?|#.*/g, "");
  const near = [range === undefined ? "" : document.getText(range), ...(line.match(word) ?? [])];
  return (
    near.find((each) => names.has(each)) ??
    (await pickTank(services, uri, {
      title: vscode.l10n.t("History of a Tank"),
      placeHolder: vscode.l10n.t("Which tank or system?"),
      shown: "",
      mark: "",
    }))
  );
}

class NameHistory {
  private readonly services: Services;
  private readonly here: HistoryHere;
  private readonly name: string;
  private readonly list = vscode.window.createQuickPick<ChangeLine>();
  private readonly told: Told[] = [];
  private readonly unfolded = new Set<number>();
  private readonly files = new Map<string, vscode.Uri>();
  private isGone = false;

  constructor(services: Services, here: HistoryHere, name: string) {
    this.services = services;
    this.here = here;
    this.name = name;
  }

  async show(): Promise<void> {
    const { list } = this;
    list.title = vscode.l10n.t("History of {0}", this.name);
    list.placeholder = vscode.l10n.t("Shows the change");
    list.matchOnDescription = true;
    list.busy = true;
    list.onDidHide(() => {
      this.isGone = true;
      list.dispose();
    });
    list.onDidAccept(() => this.accept());
    list.show();
    try {
      const isCut = await this.read();
      if (this.isGone) return;
      const note = await cutNote(this.here.repository, isCut);
      if (this.told.length === 0) this.fill(vscode.l10n.t("No commit changed {0}. {1}", this.name, note));
      else this.fill(note);
    } catch (error) {
      this.services.log.warn(`history: ${error}`);
      this.fill(vscode.l10n.t("The history could not be read on. The log of the extension says more."));
    }
    list.busy = false;
  }

  private accept(): void {
    const [item] = this.list.activeItems;
    if (item?.unfolds !== undefined) {
      this.unfolded.add(item.unfolds);
      this.fill();
    } else if (item?.change !== undefined) {
      const { git } = this.here;
      this.list.hide();
      void showChange(git, item.change, this.told.find(({ lines }) => lines.includes(item))?.name ?? "");
    }
  }

  /** Whether there are more commits than were looked through. */
  private async read(): Promise<boolean> {
    const { repository } = this.here;
    const commits = isUnborn(repository) ? [] : await repository.log({ maxEntries: mostCommits });
    for (const uri of await vscode.workspace.findFiles("**/*.tank")) this.files.set(uri.toString(), uri);
    // What a merge brought is told of the commits that it brought.
    const steps = [undefined, ...commits.filter(({ parents }) => parents.length < 2)];
    for (let at = 0; at < steps.length && !this.isGone; at += atOnce)
      await this.take(steps.slice(at, at + atOnce));
    return commits.length === mostCommits;
  }

  private async take(commits: readonly (GitCommit | undefined)[]): Promise<void> {
    const { services, here, name } = this;
    const { code2ProtocolConverter } = services.client;
    const sides = await Promise.all(commits.map((commit) => this.sides(commit)));
    const uri = code2ProtocolConverter.asUri(here.editor.document.uri);
    const steps = sides.map(({ before, after }) => ({ before, after }));
    const found = await services.ask(nameHistoryRequest, { uri, name, steps });
    if (found === undefined || this.isGone) return;
    found?.forEach((changes, at) => {
      if (changes.length > 0) this.told.push(this.tell(commits[at], sides[at]!, changes));
    });
    this.fill();
  }

  /** Of a first commit all that it holds of the files that are known. */
  private async sides(commit: GitCommit | undefined): Promise<Sides> {
    const { repository } = this.here;
    const asUri = (uri: vscode.Uri): string => this.services.client.code2ProtocolConverter.asUri(uri);
    const found = await sidesOf(repository, commit, asUri);
    if (found !== undefined) {
      for (const { uri } of found.before) {
        const file = this.services.client.protocol2CodeConverter.asUri(uri);
        this.files.set(file.toString(), file);
      }
      return found;
    }
    const after = await textsIn(repository, versionBy(commit), [...this.files.values()], asUri);
    return commit === undefined
      ? { before: after.map(({ uri }) => ({ uri, text: null })), after: null, version: head }
      : { before: [], after, version: head };
  }

  private tell(commit: GitCommit | undefined, { version }: Sides, changes: readonly NameStep[]): Told {
    const asPlace = (place: NameStep["before"], of: typeof version): LinePlace | undefined =>
      place === null
        ? undefined
        : {
            uri: this.services.client.protocol2CodeConverter.asUri(place.uri),
            line: place.line,
            version: of,
          };
    const { hash = "", message = "", authorName = "", authorDate } = commit ?? {};
    const name = commit === undefined ? vscode.l10n.t("not committed yet") : hash.slice(0, 8);
    const title =
      commit === undefined
        ? name
        : [dayText(authorDate), name, message.split("\n", 1)[0], authorName].filter(Boolean).join(" ");
    return {
      title,
      name,
      lines: changes.map(({ text, of, before, after }) => ({
        label: text,
        description: of,
        change: { now: asPlace(after, versionBy(commit)), before: asPlace(before, version) },
      })),
    };
  }

  private fill(note = ""): void {
    const rows = this.told.flatMap(({ title, lines }, at): ChangeLine[] => {
      const shown = this.unfolded.has(at) ? lines : lines.slice(0, mostShown);
      const more: ChangeLine[] =
        shown.length === lines.length
          ? []
          : [{ label: vscode.l10n.t("and {0} more", lines.length - shown.length), unfolds: at }];
      return [{ label: title, kind: vscode.QuickPickItemKind.Separator }, ...shown, ...more];
    });
    const noted: ChangeLine[] =
      note === "" ? [] : [{ label: note, iconPath: new vscode.ThemeIcon("info"), alwaysShow: true }];
    this.list.keepScrollPosition = true;
    this.list.items = [...rows, ...noted];
  }
}
