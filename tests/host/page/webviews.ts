/** What the tests of webviews share: themes, frames, what axe finds, what a page's policy refused. */

import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Frame, Page } from "playwright-core";
import { sampleRoom } from "../../../extension/build/places.ts";

const FRAME_LIMIT_MS = 60_000;

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const themes = {
  dark: "Default Dark Modern",
  light: "Default Light Modern",
  "high contrast": "Default High Contrast",
  "high contrast light": "Default High Contrast Light",
};

/** Hangs on a window before it loads, so that `breaches` knows what its pages' security policies refused. */
export async function watchBreaches(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const seen: string[] = [];
    Object.assign(globalThis, { breachesSeen: seen });
    const listen = (): void =>
      document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) => {
        seen.push(`${violatedDirective} ${blockedURI}`);
      });
    listen();
    // A webview's page is written into its frame, and that takes all listeners away.
    const { open } = Document.prototype;
    Document.prototype.open = function (this: Document, ...args: Parameters<typeof open>) {
      const opened = open.apply(this, args);
      listen();
      return opened;
    } as typeof open;
  });
}

export const breaches = (frame: Frame): Promise<string[]> =>
  frame.evaluate(() => (globalThis as unknown as { breachesSeen: string[] }).breachesSeen);

/** The frame of a webview with something in it, once it is there. */
export async function frameWith(page: Page, selector: string): Promise<Frame> {
  const deadline = Date.now() + FRAME_LIMIT_MS;
  while (Date.now() < deadline) {
    for (const frame of page.frames()) {
      // A frame that goes away while we look is not the one.
      const found = await frame
        .locator(selector)
        .count()
        .catch(() => 0);
      if (found > 0) return frame;
    }
    await page.waitForTimeout(50);
  }
  throw new Error(`no webview has ${selector}`);
}

/** What axe finds, as rule and place: all of it, or the same without the size of targets. */
export async function axeFindings(frame: Frame, which: "all" | "but sizes" = "all"): Promise<string[]> {
  await frame.evaluate(axe);
  return frame.evaluate(async (wanted) => {
    const { axe } = globalThis as unknown as { axe: typeof import("axe-core") };
    // Off unless it is asked for: a target is at least 24 pixels wide and high.
    const rules = wanted === "all" ? { "target-size": { enabled: true } } : {};
    const { violations } = await axe.run(document, { rules });
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 200)} ${failureSummary}`),
    );
  }, which);
}

/** A room of its own with settings; files that are undefined are the sample's. */
export async function withRoom(
  files: Readonly<Record<string, string | undefined>>,
  settings: Readonly<Record<string, unknown>>,
  use: (folder: string) => Promise<void>,
): Promise<void> {
  const folder = join(mkdtempSync(join(tmpdir(), "standpipe-page-")), "room");
  try {
    if (Object.values(files).includes(undefined)) cpSync(sampleRoom, folder, { recursive: true });
    mkdirSync(join(folder, ".vscode"), { recursive: true });
    writeFileSync(join(folder, ".vscode", "settings.json"), JSON.stringify(settings));
    for (const [name, text] of Object.entries(files))
      if (text !== undefined) writeFileSync(join(folder, name), text);
    await use(folder);
  } finally {
    rmSync(join(folder, ".."), { recursive: true, force: true, maxRetries: 3 });
  }
}
