import * as vscode from "vscode";
import type { Services } from "./services.ts";

/** The preview beside the text: the tank or the day at the cursor. */
export function preview(_services: Services): vscode.Disposable {
  return vscode.Disposable.from();
}
