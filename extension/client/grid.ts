import * as vscode from "vscode";
import { type Layout, layoutShape, type Press } from "../views/grid/messages.ts";
import { GridEditor, type Layouts } from "./grid-editor.ts";
import { isWithinLimits } from "./grid-limits.ts";
import { GridProgress } from "./grid-progress.ts";
import type { Part, Services } from "./services.ts";

/** The grid: an editor of its own over the text of a `.tank` file. The text stays the default, so that findings, searches and git lead into it. */

export const gridEditor = "standpipe.grid";
const layoutsKey = "standpipe.grid.layouts";

/** What the menus and keys press, and what the page does then. */
const pressed: Readonly<Record<string, Press>> = {
  "standpipe.grid.insertRow": "insert",
  "standpipe.grid.deleteRows": "delete",
  "standpipe.grid.fillDown": "down",
  "standpipe.grid.fillSeries": "series",
  "standpipe.grid.fix": "fix",
  "standpipe.grid.chart": "chart",
  "standpipe.grid.find": "find",
  "standpipe.grid.sortUp": "sortUp",
  "standpipe.grid.sortDown": "sortDown",
  "standpipe.grid.hideColumn": "hide",
  "standpipe.grid.freeze": "freeze",
};

export const grid: Part = (services) => {
  const editors = new Set<GridEditor>();
  /** Lines that grids of these files are to begin at, by URI. */
  const lines = new Map<string, number>();
  const layouts = layoutsOf(services);
  const progress = new GridProgress(services);
  const active = (): GridEditor | undefined => [...editors].find(({ panel }) => panel.active);
  const provider: vscode.CustomTextEditorProvider = {
    resolveCustomTextEditor(document, panel) {
      const key = document.uri.toString();
      const made = new GridEditor(services, layouts, progress, document, panel, lines.get(key));
      lines.delete(key);
      editors.add(made);
      panel.onDidDispose(() => {
        editors.delete(made);
        made.dispose();
      });
    },
  };
  return vscode.Disposable.from(
    progress,
    vscode.window.registerCustomEditorProvider(gridEditor, provider, {
      supportsMultipleEditorsPerDocument: true,
    }),
    vscode.commands.registerCommand("standpipe.grid.open", async (chosen?: vscode.Uri) => {
      const text = vscode.window.activeTextEditor;
      const uri = chosen ?? text?.document.uri;
      if (uri === undefined || !(await isWithinLimits(uri))) return;
      const line = text?.document.uri.toString() === uri.toString() ? text.selection.active.line : undefined;
      if (line !== undefined) lines.set(uri.toString(), line);
      await vscode.commands.executeCommand("vscode.openWith", uri, gridEditor, text?.viewColumn);
      // One that was there already is led to the line.
      const there = [...editors].find(
        ({ document, panel }) => document.uri.toString() === uri.toString() && panel.active,
      );
      if (line !== undefined && there !== undefined && lines.delete(uri.toString())) there.goTo(line);
    }),
    vscode.commands.registerCommand("standpipe.grid.text", () => active()?.openAsText()),
    ...Object.entries(pressed).map(([command, press]) =>
      vscode.commands.registerCommand(command, (context?: { readonly column?: unknown }) =>
        active()?.press(press, typeof context?.column === "string" ? context.column : undefined),
      ),
    ),
  );
};

/** Kept with the workspace, not with the window: another file of it is shown alike. */
function layoutsOf({ context: { workspaceState } }: Services): Layouts {
  const all = (): Record<string, Layout> => {
    const found: Record<string, Layout> = {};
    for (const [key, value] of Object.entries(workspaceState.get<Record<string, unknown>>(layoutsKey, {}))) {
      const layout = layoutShape.safeParse(value);
      if (layout.success) found[key] = layout.data;
    }
    return found;
  };
  return {
    all,
    keep(key, layout) {
      void workspaceState.update(layoutsKey, { ...all(), [key]: layout });
    },
  };
}
