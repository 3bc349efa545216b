import * as vscode from "vscode";
import { type GridAbout, gridPlaceRequest } from "../../language/server/grid-protocol.ts";
import type { CellRef } from "../views/grid/messages.ts";
import { rangeOf } from "./places.ts";
import type { Services } from "./services.ts";

/** What mends the findings of a cell: the same fixes that the light bulb has in the text. */
export class GridFixes {
  private readonly services: Services;
  private known: readonly vscode.CodeAction[] = [];

  constructor(services: Services) {
    this.services = services;
  }

  /** Their names, those that are sure first. */
  async of(about: GridAbout, cell: CellRef): Promise<string[]> {
    this.known = [];
    const place = await this.services.ask(gridPlaceRequest, { ...about, cell });
    if (place == null) return [];
    const found = await vscode.commands.executeCommand<readonly vscode.CodeAction[]>(
      "vscode.executeCodeActionProvider",
      this.services.client.protocol2CodeConverter.asUri(place.uri),
      rangeOf(place.range),
      vscode.CodeActionKind.QuickFix.value,
      mostFixes,
    );
    this.known = [...(found ?? [])]
      .filter(({ edit }) => edit !== undefined)
      .sort((a, b) => Number(b.isPreferred === true) - Number(a.isPreferred === true));
    return this.known.map(({ title }) => title);
  }

  async make(number: number): Promise<boolean> {
    const edit = this.known[number]?.edit;
    this.known = [];
    return edit !== undefined && vscode.workspace.applyEdit(edit);
  }
}

/** So many are worked out with their edits. */
const mostFixes = 12;
