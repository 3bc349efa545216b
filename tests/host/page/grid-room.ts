/** What the tests of the grid share: a room of their own, the page in its frame, what axe and the page's policy say. */

import { strict as assert } from "node:assert";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Frame, Page } from "playwright-core";
import type { EditorWindow } from "../window.ts";
import type { Fixture } from "./suite.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const commands = {
  grid: { id: "standpipe.grid.open" },
  text: { id: "standpipe.grid.text" },
  save: { id: "workbench.action.files.save" },
  revert: { id: "workbench.action.files.revert" },
  split: { id: "workbench.action.splitEditorRight" },
} as const;

export interface Grid {
  readonly window: EditorWindow;
  readonly page: Page;
  readonly frame: Frame;
  readonly breaches: () => Promise<string[]>;
}

/** Opens a file as a grid, with the cursor of its text on a line. */
export async function openGrid({ open }: Fixture, folder: string, file: string, line = 1): Promise<Grid> {
  const window = await open({ folder, file, line, prepare: watchPolicy }, Object.values(commands));
  await window.find(".view-line");
  await window.command(commands.grid.id);
  const frame = await gridFrame(window.page);
  const breaches = (): Promise<string[]> =>
    frame.evaluate(() => (globalThis as unknown as { breachesSeen: string[] }).breachesSeen);
  return { window, page: window.page, frame, breaches };
}

async function watchPolicy(page: Page): Promise<void> {
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

/** The frame of the grid's page, once it shows cells. @param not frames of other grids */
export async function gridFrame(page: Page, not: readonly Frame[] = []): Promise<Frame> {
  const deadline = Date.now() + 120_000;
  while (Date.now() < deadline) {
    for (const frame of page.frames()) {
      if (not.includes(frame)) continue;
      // A frame that goes away while we look is not the one.
      const cells = await frame
        .locator(".grid .row:not(.waiting) .cell")
        .count()
        .catch(() => 0);
      if (cells > 0) return frame;
    }
    await page.waitForTimeout(50);
  }
  throw new Error("the grid did not open");
}

/** The cell of a row, from 1 as the page counts, and a column by its title. */
export async function cellOf(frame: Frame, row: number, title: string): Promise<string> {
  const titles = await frame.locator(".head .title .name").allTextContents();
  const col = titles.indexOf(title);
  assert(col >= 0, `no column “${title}” among ${titles.join(", ")}`);
  return `.row[data-row="${row - 1}"] [data-col="${col}"]`;
}

/** Clicks on a cell; it has the focus then. */
export async function goTo(frame: Frame, row: number, title: string): Promise<void> {
  const cell = await cellOf(frame, row, title);
  await frame.locator(cell).click();
  await frame.locator(`${cell}.cursor:focus`).waitFor();
}

export async function untilCell(frame: Frame, row: number, title: string, text: string): Promise<void> {
  const cell = await cellOf(frame, row, title);
  await frame.locator(`${cell}:not(.pending) .value`, { hasText: text }).waitFor();
}

/** Waits until a file on disk holds a text. */
export async function untilStored(file: string, has: (text: string) => boolean): Promise<string> {
  const deadline = Date.now() + 15_000;
  let text = "";
  while (Date.now() < deadline) {
    text = readFileSync(file, "utf8");
    if (has(text)) return text;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`the file never said what it should; it says\n${text}`);
}

/** What axe finds, as rule and place. */
export async function axeFindings(frame: Frame): Promise<string[]> {
  await frame.evaluate(axe);
  return frame.evaluate(async () => {
    const { axe } = globalThis as unknown as { axe: typeof import("axe-core") };
    const { violations } = await axe.run(document);
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 200)} ${failureSummary}`),
    );
  });
}

/** A folder of a room with a theme. */
export async function withGridRoom(
  files: Readonly<Record<string, string>>,
  theme: string,
  use: (folder: string) => Promise<void>,
): Promise<void> {
  const folder = join(mkdtempSync(join(tmpdir(), "standpipe-grid-")), "room");
  try {
    mkdirSync(join(folder, ".vscode"), { recursive: true });
    const settings = { "workbench.colorTheme": theme, "files.autoSave": "off" };
    writeFileSync(join(folder, ".vscode", "settings.json"), JSON.stringify(settings));
    for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
    await use(folder);
  } finally {
    rmSync(join(folder, ".."), { recursive: true, force: true, maxRetries: 3 });
  }
}
