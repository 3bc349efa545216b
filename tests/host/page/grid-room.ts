/** What the tests of the grid share: a room of their own, the page in its frame, what axe and the page's policy say. */

import { strict as assert } from "node:assert";
import { readFileSync } from "node:fs";
import type { Frame, Page } from "playwright-core";
import type { EditorWindow } from "../window.ts";
import type { Fixture } from "./suite.ts";
import { breaches, axeFindings as findings, watchBreaches, withRoom } from "./webviews.ts";

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
  const window = await open({ folder, file, line, prepare: watchBreaches }, Object.values(commands));
  await window.find(".view-line");
  await window.command(commands.grid.id);
  const frame = await gridFrame(window.page);
  return { window, page: window.page, frame, breaches: () => breaches(frame) };
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
    // Between two moments of being written it is empty.
    if (text !== "" && has(text)) return text;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`the file never said what it should; it says\n${text}`);
}

/** What axe finds, as rule and place. Cells stand as close as in any spreadsheet: how large they are is no finding. */
export const axeFindings = (frame: Frame): Promise<string[]> => findings(frame, "but sizes");

/** A folder of a room with a theme. */
export const withGridRoom = (
  files: Readonly<Record<string, string>>,
  theme: string,
  use: (folder: string) => Promise<void>,
): Promise<void> => withRoom(files, { "workbench.colorTheme": theme, "files.autoSave": "off" }, use);

/** Runs in the page: scrolls on at every frame. */
export async function scrollFor(ms: number): Promise<{ median: number; most: number }> {
  const scroller = document.querySelector(".scroller")!;
  const frames: number[] = [];
  let last = performance.now();
  const end = last + ms;
  await new Promise<void>((resolve) => {
    const step = (now: number): void => {
      frames.push(now - last);
      last = now;
      scroller.scrollTop += 60;
      if (now < end) requestAnimationFrame(step);
      else resolve();
    };
    requestAnimationFrame(step);
  });
  const of = (values: number[], share: number): number =>
    Math.round(10 * (values.sort((a, b) => a - b)[Math.floor(values.length * share)] ?? 0)) / 10;
  return { median: of(frames, 0.5), most: of(frames, 0.95) };
}
