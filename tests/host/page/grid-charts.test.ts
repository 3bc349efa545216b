/** The grid beyond its cells: charts of columns, new rounds and definitions, fixes, finding, long pastes, old revisions. */

import { strict as assert } from "node:assert";
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import { generate } from "../../bench/generate.ts";
import {
  axeFindings,
  cellOf,
  commands,
  goTo,
  gridFrame,
  openGrid,
  scrollFor,
  untilStored,
  withGridRoom,
} from "./grid-room.ts";
import { test } from "./suite.ts";
import { breaches, themes, watchBreaches } from "./webviews.ts";

const patientMs = 180_000;
const dark = themes.dark;

const hidden = "\u202etxet";
const room = `room "Shed"
  as-of  last-entry
tank pond "<b>The pond</b>"
  volume  300 L
  limits  nitrate <= 50 mg/L
tank tub "${hidden}"
  volume  80 L
  limits  nitrate <= 20 mg/L
species praecox

2026-03-01
  pond  test nitrate 60, pH 7.4 "<img src=x>"
  tub   test nitrate 10
  pond  count praecox 14
2026-03-08
  pond  test nitrate <10, pH 7.2
  tub   change 30
  tub   test nitrate >100
2026-03-15
  pond  test nitrate 30 "=HYPERLINK(1)"
`;

/** By theme what its pages are told apart by. */
const looks = {
  [themes.light]: "vscode-light",
  [themes["high contrast"]]: "vscode-high-contrast:not(.vscode-high-contrast-light)",
  [themes["high contrast light"]]: "vscode-high-contrast-light",
  [themes.dark]: "vscode-dark",
};

const status = (frame: Frame, words: RegExp): Promise<void> =>
  frame.locator(".unseen[role=status]", { hasText: words }).waitFor({ state: "attached" });

async function showRounds(frame: Frame, tank: string): Promise<void> {
  await frame.getByLabel("What is shown").selectOption("tank");
  await frame.getByLabel("Tank or system").selectOption(tank);
  await frame.locator(".head .title", { hasText: "nitrate" }).first().waitFor();
}

test(
  `grid charts: by key, over time and by tank, spoken, as a table, and closed with the focus back`,
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const { window, page, frame, breaches } = await openGrid(fixture, folder, "room.tank");
      await showRounds(frame, "pond");
      await goTo(frame, 1, "nitrate mg/L");
      await page.keyboard.press("Alt+c");
      const charts = frame.locator(".charts");
      await charts.locator(".paper:focus").waitFor();
      await status(frame, /^Chart of nitrate$/);
      assert.equal(await charts.locator(".chart .reading.may-be").count(), 1, "<10 is all it may be");
      assert.equal(await charts.locator(".chart .reading.outside").count(), 1);
      assert.equal(await charts.locator(".chart .limit").count(), 1);
      await page.keyboard.press("End");
      await status(frame, /^15 March: 30 mg\/L/);
      await page.keyboard.press("Home");
      await status(frame, /^1 March: 60 mg\/L, above its limit/);
      await charts.locator("summary").first().click();
      assert.deepEqual(await charts.locator("tbody .figure").allTextContents(), [
        "30 mg/L",
        "<10 mg/L",
        "60 mg/L",
      ]);
      assert.deepEqual(await axeFindings(frame), []);
      // What is changed in the text is drawn anew.
      await goTo(frame, 3, "nitrate mg/L");
      await page.keyboard.type("33");
      await page.keyboard.press("Enter");
      await charts.locator("tbody .figure", { hasText: "33 mg/L" }).waitFor();
      await charts.locator(".paper").first().focus();
      await page.keyboard.press("Home");
      await page.keyboard.press("Enter");
      await frame.locator(`${await cellOf(frame, 1, "nitrate mg/L")}.cursor:focus`).waitFor();
      await page.keyboard.press("Shift+ArrowLeft");
      await page.keyboard.press("Shift+ArrowDown");
      await page.keyboard.press("Shift+ArrowDown");
      await page.keyboard.press("Alt+c");
      await status(frame, /^2 charts of pH, nitrate$/);
      // The same in every theme; the last is the first again.
      for (const [theme, look] of Object.entries(looks)) {
        const settings = JSON.parse(readFileSync(join(folder, ".vscode", "settings.json"), "utf8"));
        settings["workbench.colorTheme"] = theme;
        writeFileSync(join(folder, ".vscode", "settings.json"), JSON.stringify(settings));
        await frame.locator(`body.${look}`).waitFor();
        assert.deepEqual(await axeFindings(frame), [], theme);
      }
      await page.keyboard.press("Escape");
      await charts.waitFor({ state: "hidden" });
      await frame.locator(".cell.cursor:focus").waitFor();
      // By tank, each with its own limit.
      await frame.getByLabel("What is shown").selectOption("day");
      await frame.getByLabel("Day, as 2026-03-31").fill("2026-03-08");
      await page.keyboard.press("Enter");
      await frame.locator(".row .value", { hasText: ">100" }).waitFor();
      await goTo(frame, 1, "nitrate mg/L");
      await page.keyboard.press("Alt+c");
      await charts.locator(".paper:focus").waitFor();
      await page.keyboard.press("End");
      await status(frame, /^tub: >100 mg\/L, above its limit, at most 20 mg\/L/);
      assert.equal(await charts.locator(".chart .limit.own").count(), 2);
      assert.deepEqual(await axeFindings(frame), []);
      await page.keyboard.press("Escape");
      // No figures: said, and nothing opened.
      await goTo(frame, 1, "Tank");
      await page.keyboard.press("Alt+c");
      await status(frame, /is not drawn: there are no numbers in it/);
      assert.deepEqual(await breaches(), []);
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  patientMs,
);

test(
  "grid: new rounds and definitions by key, fixes, finding, the menus, and a size of 200 %",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const file = join(folder, "room.tank");
      const { window, page, frame, breaches } = await openGrid(fixture, folder, "room.tank");
      // What stands in a log is text: in cells, lists, charts and what is read out.
      await frame.locator(".row .value", { hasText: "<img src=x>" }).waitFor();
      await frame.locator(".row .value", { hasText: "=HYPERLINK(1)" }).waitFor();
      // A fix by its key: 30 of what?
      const change = frame.locator(".row .cell.marked", { hasText: /^30$/ });
      await change.click();
      await page.keyboard.press("Control+.");
      await frame.locator(".offers li[aria-selected=true]").waitFor();
      await page.keyboard.press("Enter");
      await frame.locator(".row .value", { hasText: /^30 (%|L)$/ }).waitFor();
      await showRounds(frame, "tub");
      await goTo(frame, 1, "nitrate mg/L");
      await page.keyboard.press("Control+Enter");
      const fresh = frame.locator("form.fresh");
      assert.equal(await fresh.locator("[name=date]").inputValue(), "2026-03-15");
      await fresh.locator("[name='test nitrate']").fill("12");
      await fresh.locator("[name=values]").fill("KH 4");
      await page.keyboard.press("Enter");
      await frame.locator('.row[data-row="2"] .value', { hasText: /^12$/ }).waitFor();
      await fresh.locator("[name='test nitrate']").fill("13");
      await page.keyboard.press("Enter");
      await fresh.locator(".problem", { hasText: "needs a date" }).waitFor();
      await page.keyboard.press("Escape");
      await frame.locator(".cell.cursor:focus").waitFor();
      await frame.getByLabel("What is shown").selectOption("definitions");
      await frame.locator(".head .title", { hasText: "Name" }).waitFor();
      await goTo(frame, 1, "Name");
      await page.keyboard.press("Control+Enter");
      await fresh.locator("[name=name]").fill("well");
      await fresh.locator("[name='property volume']").fill("40 L");
      await page.keyboard.press("Enter");
      await frame.locator(".row .value", { hasText: /^well$/ }).waitFor();
      await page.keyboard.press("Escape");
      // A tank that the log names is not deleted; one that it does not is.
      await goTo(frame, 1, "Name");
      await page.keyboard.press("Control+Delete");
      await frame.locator(".tip", { hasText: "is named in" }).waitFor();
      await frame.locator(".row .value", { hasText: /^well$/ }).click();
      await page.keyboard.press("Control+Delete");
      await frame.locator(".row .value", { hasText: /^well$/ }).waitFor({ state: "hidden" });
      await page.keyboard.press("Control+z");
      await frame.locator(".row .value", { hasText: /^well$/ }).waitFor();
      // Twice as large: all is there, and nothing is cut off that cannot be scrolled to.
      await frame.getByRole("button", { name: "Columns" }).click();
      await frame.getByLabel("Size in %").fill("200");
      await page.keyboard.press("Enter");
      await frame.getByRole("button", { name: "Close" }).first().click();
      await page.setViewportSize({ width: 640, height: 480 });
      await goTo(frame, 1, "Name");
      await page.keyboard.press("End");
      const seen = await frame.locator(".cell.cursor").evaluate((cell) => {
        const [own, around] = [
          cell.getBoundingClientRect(),
          cell.closest(".scroller")!.getBoundingClientRect(),
        ];
        // A column may be wider than all that is seen: it begins in view.
        return own.left >= around.left - 1 && own.left < around.right && own.bottom <= around.bottom + 1;
      });
      assert(seen, "the cursor is in view at 200 %");
      await page.setViewportSize({ width: 1280, height: 800 });
      // The menu of a cell, and the palette's command.
      await frame.locator(".cell.cursor").click({ button: "right" });
      await page.getByRole("menuitem", { name: "Chart Columns of Grid" }).waitFor();
      await page.keyboard.press("Escape");
      await window.command(commands.save.id);
      const stored = await untilStored(file, (text) => text.includes("tank well"));
      assert.match(stored, /\n2026-03-15\n.*\n {2}tub {3}test nitrate 12, KH 4\n/);
      assert.match(stored, /tank well\n {2}volume {2}40 L\n/);
      assert.equal(await frame.locator("img, iframe, a, b").count(), 0);
      assert.deepEqual(await breaches(), []);
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  patientMs,
);

test(
  "grid: 5,000 rows are pasted as one step that says how far it is, undone by one key, and given up by Escape",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const { window, page, frame } = await openGrid(fixture, folder, "room.tank");
      const told = frame.locator(".bar .count");
      const before = (await told.textContent()) ?? "";
      await goTo(frame, 10, "Tank");
      const rows = (count: number): string =>
        Array.from({ length: count }, (_, at) => `pond\ttest\tnitrate ${at % 50}`).join("\n");
      await page.evaluate((words) => navigator.clipboard.writeText(words), rows(5000));
      await frame.evaluate(watchProgress);
      const begun = Date.now();
      await page.keyboard.press("Control+v");
      await status(frame, /5,000 × 3 cells written/);
      const written = Date.now() - begun;
      await told.filter({ hasText: /^5,0\d\d rows/ }).waitFor();
      console.log(`        5,000 rows: written after ${written} ms, shown after ${Date.now() - begun} ms`);
      await page.keyboard.press("Control+z");
      await told.filter({ hasText: before }).waitFor();
      // So many that there is time to give up.
      await page.evaluate((words) => navigator.clipboard.writeText(words), rows(60_000));
      await goTo(frame, 10, "Tank");
      await page.keyboard.press("Control+v");
      await frame.locator(".waiting-for", { hasText: /^Pasting 60,000 × 3 cells: \d+ %/ }).waitFor();
      assert.deepEqual(await axeFindings(frame), []);
      await page.keyboard.press("Escape");
      await status(frame, /given up: nothing was written/i);
      assert.equal(await told.textContent(), before);
      assert((await frame.evaluate(() => (globalThis as unknown as Seen).seen)).length > 0);
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  patientMs,
);

interface Seen {
  seen: string[];
}

/** Runs in the page: what it says while it works. */
function watchProgress(): void {
  const words = document.querySelector(".waiting-for span")!;
  const seen: string[] = [];
  Object.assign(globalThis, { seen });
  new MutationObserver(() => seen.push(words.textContent ?? "")).observe(words, {
    childList: true,
    characterData: true,
    subtree: true,
  });
}

test(
  "grid: an older revision is only shown, and a comparison stays one of texts",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const file = join(folder, "room.tank");
      const git = (...args: string[]): void => {
        execFileSync("git", ["-c", "user.name=t", "-c", "user.email=t@example.org", ...args], {
          cwd: folder,
        });
      };
      git("init", "-q");
      git("add", "room.tank");
      git("commit", "-qm", "one");
      writeFileSync(file, room.replace("nitrate 10", "nitrate 11"));
      const more = {
        change: { id: "git.openChange" },
        head: { id: "git.openHEADFile" },
        scm: { id: "workbench.view.scm" },
      };
      const window = await fixture.open({ folder, file: "room.tank", line: 13, prepare: watchBreaches }, [
        ...Object.values(commands),
        ...Object.values(more),
      ]);
      const { page } = window;
      await window.find(".view-line");
      // The repository is found some time after the window is there.
      await window.command(more.scm.id);
      await page.locator(".scm-view .monaco-list-row", { hasText: "room.tank" }).waitFor();
      await window.command(more.change.id);
      await page.locator(".diff-editor, .monaco-diff-editor").first().waitFor();
      await page.locator(".line-insert, .char-insert").first().waitFor();
      await window.command(more.head.id);
      await page.locator(".monaco-diff-editor").first().waitFor({ state: "hidden" });
      await window.find(".view-line");
      await window.command(commands.grid.id);
      const frame = await gridFrame(page);
      await frame.locator(".notice", { hasText: "cannot be written" }).waitFor();
      assert.equal(await frame.locator(".grid").getAttribute("aria-readonly"), "true");
      await goTo(frame, 3, "Values");
      assert.equal(
        await frame.locator(`${await cellOf(frame, 3, "Values")} .value`).textContent(),
        "nitrate 10",
      );
      await page.keyboard.type("5");
      await status(frame, /cannot be written/);
      assert.equal(await frame.locator(".row input").count(), 0);
      assert.equal(await frame.getByRole("button", { name: "New entry" }).count(), 0);
      assert.deepEqual(await breaches(frame), []);
      await window.close();
    });
  },
  patientMs,
);

test(
  "grid: one tank's rounds across 438,000 entries in files of a month: the first rows, the frames, a filter over all",
  async (fixture) => {
    await withGridRoom({}, dark, async (folder) => {
      mkdirSync(folder, { recursive: true });
      for (const { path, text } of generate(438_000).files) writeFileSync(join(folder, path), text);
      const { window, page, frame } = await openGrid(fixture, folder, "2016-01.tank");
      const select = frame.getByLabel("What is shown");
      const timed = async (act: () => Promise<unknown>, until: RegExp): Promise<number> => {
        const begun = Date.now();
        await act();
        await frame.locator(".bar .count", { hasText: until }).waitFor();
        await frame.locator(".row:not(.waiting)").first().waitFor();
        return Date.now() - begun;
      };
      // The system is never tested itself.
      await select.selectOption("tank");
      await frame.locator(".empty p").waitFor();
      const tank = frame.getByLabel("Tank or system");
      const rounds = await timed(() => tank.selectOption("row-7"), /^[1-9][\d,]* rows/);
      const again = await timed(() => tank.selectOption("row-8"), /^[1-9][\d,]* rows/);
      const frames = await frame.evaluate(scrollFor, 2000);
      const all = await timed(() => select.selectOption("all"), /^4\d\d,\d\d\d rows/);
      const scrolled = await frame.evaluate(scrollFor, 2000);
      await page.keyboard.press("Escape");
      await frame.getByRole("button", { name: "Filter" }).click();
      const filter = await timed(() => frame.getByLabel("Filter Tank").fill("= row-7"), /a filter/);
      console.log(
        `        rounds ${rounds} ms, of another tank ${again} ms, frames ${frames.median} and 95 % ${frames.most} ms; all entries ${all} ms, frames ${scrolled.median} and 95 % ${scrolled.most} ms; a filter over all ${filter} ms`,
      );
      await window.close();
    });
  },
  patientMs,
);
