import * as vscode from "vscode";

/** Where a file can be written beside another and take its place: a handle that a browser gives is of one file alone. */
const hasBeside: ReadonlySet<string> = new Set(["file", "vscode-remote"]);

/**
 * Writes a file wholly or not at all: what was there stays until the new one is complete. Throws what the file system says.
 * @param isGivenUp asked once more before the file takes its place
 * @returns false where it was given up
 */
export async function writeWhole(
  target: vscode.Uri,
  bytes: Uint8Array,
  isGivenUp: () => boolean,
): Promise<boolean> {
  const { fs } = vscode.workspace;
  const there = await statOf(target);
  // Some file systems would take a folder out of the way with all that is in it.
  if (there !== undefined && (there.type & vscode.FileType.Directory) !== 0)
    throw vscode.FileSystemError.FileIsADirectory(target);
  if (!hasBeside.has(target.scheme)) {
    await fs.writeFile(target, bytes);
    return true;
  }
  const fresh = target.with({ path: `${target.path}.${Math.random().toString(36).slice(2)}.new` });
  try {
    await fs.writeFile(fresh, bytes);
    if (isGivenUp()) {
      await fs.delete(fresh);
      return false;
    }
    await fs.rename(fresh, target, { overwrite: true });
    return true;
  } catch (error) {
    // It may not even be there.
    await fs.delete(fresh).then(undefined, () => undefined);
    throw error;
  }
}

async function statOf(uri: vscode.Uri): Promise<vscode.FileStat | undefined> {
  try {
    return await vscode.workspace.fs.stat(uri);
  } catch (error) {
    if (error instanceof vscode.FileSystemError && error.code === "FileNotFound") return undefined;
    throw error;
  }
}

/** Why a file could not be written, in plain words. */
export function whyNotWritten(error: unknown): string {
  const code = error instanceof vscode.FileSystemError ? error.code : "";
  switch (code) {
    case "NoPermissions":
      return vscode.l10n.t("this place may not be written to");
    case "FileNotFound":
      return vscode.l10n.t("there is no such folder");
    case "FileNotADirectory":
      return vscode.l10n.t("a part of this path is a file, not a folder");
    case "FileIsADirectory":
      return vscode.l10n.t("this is a folder, not a file");
    default:
      return error instanceof Error ? error.message : String(error);
  }
}
