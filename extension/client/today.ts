import * as vscode from "vscode";
import { type Today, todayNotification } from "../../language/server/protocol.ts";
import type { Services } from "./services.ts";

/** The day outside: that of this window's clock, unless a setting asks for another. */
export function today(): Today {
  const asked = vscode.workspace.getConfiguration("standpipe").get<string>("asOf", "").trim();
  if (/^\d{4}-\d{2}-\d{2}$/.test(asked)) return { day: asked, isPinned: true };
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, "0");
  return { day: `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`, isPinned: false };
}

/** A timer does not run while a machine sleeps: beside midnight it looks every so often. */
const lookAgainMs = 30 * 60_000;

/** Tells the server of another day: at midnight, when the window is come back to, and when the setting changes. */
export function followTheDay({ tell }: Services): vscode.Disposable {
  let told = JSON.stringify(today());
  let timer: ReturnType<typeof setTimeout> | undefined;
  const look = () => {
    const now = today();
    if (JSON.stringify(now) !== told) {
      told = JSON.stringify(now);
      tell(todayNotification, now);
    }
    clearTimeout(timer);
    timer = setTimeout(look, Math.min(msToMidnight() + 500, lookAgainMs));
  };
  look();
  return vscode.Disposable.from(
    new vscode.Disposable(() => clearTimeout(timer)),
    vscode.window.onDidChangeWindowState(({ focused }) => focused && look()),
    vscode.workspace.onDidChangeConfiguration(
      (event) => event.affectsConfiguration("standpipe.asOf") && look(),
    ),
  );
}

function msToMidnight(): number {
  const now = new Date();
  return new Date(now.getFullYear(), now.getMonth(), now.getDate() + 1).getTime() - now.getTime();
}
