import * as vscode from "vscode";
import { memoryShape } from "../views/preview/messages.ts";
import { PreviewPanel, panelType } from "./preview-panel.ts";
import type { Part, Services } from "./services.ts";

/** Shows a case: the file of its logbook as a URI, its name, and which time of one that came back. */
export const caseCommand = "standpipe.preview.case";

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
  const active = (): PreviewPanel | undefined => [...panels].find((each) => each.panel.active);
  return vscode.Disposable.from(
    vscode.commands.registerCommand("standpipe.preview.open", () => {
      const following = [...panels].find((each) => !each.isPinned);
      if (following === undefined) take(makePanel(services));
      else following.panel.reveal(undefined, true);
    }),
    // Not in the palette: “Show Case” asks which.
    vscode.commands.registerCommand(caseCommand, (uri: string, name: string, episode: number) => {
      const known =
        [...panels].find((each) => each.isAbout(uri, name)) ?? [...panels].find((each) => !each.isPinned);
      const panel = known ?? take(makePanel(services));
      panel.stayWith({ uri, case: name, episode });
      panel.panel.reveal(undefined, true);
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
    { ...PreviewPanel.options(context.extensionUri), enableFindWidget: true },
  );
}
