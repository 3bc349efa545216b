import * as vscode from "vscode";
import { mayHoldMarks } from "../../language/syntax/conflict-mark.ts";

/** What the editor itself does not do with long files, so that nobody meets it by surprise. */

/** From so many on the text has no colours (`editor.largeFileOptimizations`, documented by the editor). */
const mostColouredLines = 300_000;
const mostColouredBytes = 20 * 1024 * 1024;
/** A longer file never reaches an extension. */
const mostBytes = 50 * 1024 * 1024;

/** Can nothing be written where the file is: an older revision, a read-only file system? */
export function isReadOnly({ scheme }: vscode.Uri): boolean {
  return scheme !== "untitled" && vscode.workspace.fs.isWritableFileSystem(scheme) !== true;
}

/** What is to be known of a document before it is worked in; empty where nothing is. */
export function noticeOf(document: vscode.TextDocument, readOnly: boolean): string {
  if (readOnly)
    return vscode.l10n.t(
      "This is a copy that cannot be written, an older revision perhaps: it is only shown.",
    );
  const end = document.lineAt(document.lineCount - 1).range.end;
  if (document.lineCount > mostColouredLines || document.offsetAt(end) > mostColouredBytes)
    return vscode.l10n.t(
      "This file has more than 300,000 lines or 20 MB: as text the editor shows it without colours. Above 50 MB it does not open for extensions at all. A file a month stays far below both.",
    );
  if (mayHoldMarks(document.getText()))
    return vscode.l10n.t(
      "A merge left two versions in this file. The upper one counts and is shown; nothing is written here before you choose, as text.",
    );
  return "";
}

/** Says so before the editor fails without a word about the reason. @returns whether the file can be opened */
export async function isWithinLimits(uri: vscode.Uri): Promise<boolean> {
  try {
    const { size } = await vscode.workspace.fs.stat(uri);
    if (size <= mostBytes) return true;
    void vscode.window.showWarningMessage(
      vscode.l10n.t(
        "This file is larger than 50 MB: the editor keeps such files from extensions, so there is no grid of it. Part the logbook into a file a month.",
      ),
    );
    return false;
  } catch {
    // Not saved yet.
    return true;
  }
}
