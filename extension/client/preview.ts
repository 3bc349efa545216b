import * as vscode from "vscode";
import { memoryShape, type Subject } from "../views/preview/messages.ts";
import { PreviewPanel, panelType } from "./preview-panel.ts";
import type { Part, Services } from "./services.ts";
import { pageOptions } from "./webview-page.ts";

/** Shows a case: the file of its logbook as a URI, its name, and which time of one that came back. */
export const caseCommand = "standpipe.preview.case";
/** Shows a tank or system: a file of its logbook as a URI, and its name. */
export const tankCommand = "standpipe.preview.tank";

/** The preview beside the text: the tank or the day at the cursor. One panel follows the cursor; pinned ones stay beside it. */
export const preview: Part = (services) => {
  const panels = new Set<PreviewPanel>();
  const take = (panel: vscode.WebviewPanel, state?: unknown): PreviewPanel => {
    const memory = memoryShape.safeParse(state ?? {});
    const made = new PreviewPanel(services, panel, memory.success ? memory.data : memoryShape.parse({}));
    panels.add(made);
    panel.onDidDispose(() => panels.delete(made));
    return made;
  };
  /** The panel that showed the tank asked for last: the next one takes its place. */
  let lent: PreviewPanel | undefined;
  const stay = (subject: Subject, known?: PreviewPanel): PreviewPanel => {
    const panel = known ?? [...panels].find((each) => !each.isPinned) ?? take(makePanel(services));
    panel.stayWith(subject);
    panel.panel.reveal(undefined, true);
    return panel;
  };
  const active = (): PreviewPanel | undefined => [...panels].find((each) => each.panel.active);
  return vscode.Disposable.from(
    vscode.commands.registerCommand("standpipe.preview.open", () => {
      const following = [...panels].find((each) => !each.isPinned);
      if (following === undefined) take(makePanel(services));
      else following.panel.reveal(undefined, true);
    }),
    // Not in the palette: “Show Case” asks which.
    vscode.commands.registerCommand(caseCommand, (uri: string, name: string, episode: number) => {
      const known = [...panels].find((each) => each.isAbout(uri, name));
      stay({ uri, case: name, episode }, known);
    }),
    vscode.commands.registerCommand(tankCommand, (uri: string, tank: string) => {
      lent = stay({ uri, tank }, lent !== undefined && panels.has(lent) ? lent : undefined);
    }),
    vscode.commands.registerCommand("standpipe.preview.pick", () => active()?.pick()),
    vscode.commands.registerCommand("standpipe.preview.pin", () => active()?.pin()),
    vscode.window.registerWebviewPanelSerializer(panelType, {
      async deserializeWebviewPanel(panel, state) {
        take(panel, state);
      },
    }),
    new vscode.Disposable(() => {
      for (const each of panels) each.panel.dispose();
    }),
  );
};

function makePanel({ context }: Services): vscode.WebviewPanel {
  return vscode.window.createWebviewPanel(
    panelType,
    vscode.l10n.t("Preview"),
    { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
    { ...pageOptions(context.extensionUri), enableFindWidget: true },
  );
}
