import * as vscode from "vscode";
import type { Services } from "../services.ts";
import { today } from "../today.ts";

/** Opens a logbook of two tanks and three days, of which the last is today, to be saved where the keeper likes. */
export function newLogbook({ context }: Services): vscode.Disposable {
  return vscode.commands.registerCommand("standpipe.logbook.new", async () => {
    const sample = vscode.Uri.joinPath(context.extensionUri, "media", "first-days.tank");
    const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(sample));
    const content = movedTo(today().day, text);
    const document = await vscode.workspace.openTextDocument({ language: "standpipe", content });
    await vscode.window.showTextDocument(document);
  });
}

/** The log with its days moved so that the last is `day`, and without the line that says it is finished. */
export function movedTo(day: string, text: string): string {
  const heads = /^\d{4}-\d{2}-\d{2}/gm;
  const last = [...text.matchAll(heads)]
    .map(([date]) => date)
    .sort()
    .at(-1);
  if (last === undefined) return text;
  const shiftMs = Date.parse(day) - Date.parse(last);
  return text
    .replace(/^ *as-of .*\r?\n/m, "")
    .replace(heads, (date) => new Date(Date.parse(date) + shiftMs).toISOString().slice(0, 10));
}
