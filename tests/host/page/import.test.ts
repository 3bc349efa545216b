/** Import Table as its user meets it: in a real window, by keys, in each theme. */

import { strict as assert } from "node:assert";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame, Locator } from "playwright-core";
import type { EditorWindow } from "../window.ts";
import { type Fixture, test } from "./suite.ts";
import { axeFindings, breaches, frameWith, themes, watchBreaches, withRoom } from "./webviews.ts";

const slowMs = 240_000;
const room = `room "Shed"
  units  temperature C, volume L
  as-of  last-entry
tank pond "Pond"
  volume  300 L
tank tub
  volume  50 L
species praecox "Melanotaenia praecox"
  kind  fish
food cyclops
  kind  frozen
`;
const march = "2026-03-08\n  pond  test pH 7.2\n";
const table = `Date,Tank,Temp,Nitrate (ppm),pH,Water change gal,praecox deaths
03/04/2026,pond,24.5,18,7.2,20,
04/04/2026,left,25,<5,7.0,,1
05/04/2026,pond,24.9,many,7.1,,
`;
const importLab = { id: "standpipe.table.import", argument: "lab.csv" };

const stored = (folder: string): string => readFileSync(join(folder, "2026-04.tank"), "utf8");

async function open(
  fixture: Fixture,
  folder: string,
  selector = "section.open",
): Promise<{ window: EditorWindow; frame: Frame }> {
  const window = await fixture.open({ folder, file: "room.tank", prepare: watchBreaches }, [importLab]);
  await window.settled();
  await window.command(importLab.id);
  return { window, frame: await frameWith(window.page, selector) };
}

/** Answers by the name of a control, as one who hears the page does. */
const choose = (frame: Frame, name: string, value: string): Promise<unknown> =>
  frame.getByRole("combobox", { name, exact: true }).selectOption(value);

async function answerAll(frame: Frame): Promise<void> {
  await choose(frame, "Order of dates", "dmy");
  await choose(frame, "Tank of left: “left”", "tub");
  await choose(frame, "Unit: #3 Temp", "C");
  await choose(frame, "Unit: #4 Nitrate (ppm)", "mg/L");
  await choose(frame, "Counted as: #4 Nitrate (ppm)", "NO3");
  await choose(frame, "Unit: #6 Water change gal", "US gal");
}

const contentOf = async (at: Locator): Promise<string> => (await at.textContent()) ?? "";

async function said(frame: Frame, words: string): Promise<void> {
  const voice = frame.locator(".voice");
  try {
    await voice.filter({ hasText: words }).waitFor();
  } catch {
    assert.fail(
      `“${await contentOf(voice)}” is said, not “${words}”; ${await contentOf(frame.locator("main"))}`,
    );
  }
}

for (const [theme, id] of Object.entries(themes))
  test(
    `Import Table in the ${theme} theme, asked, answered and done: nothing for axe, no breach of its policy`,
    async (fixture) => {
      const settings = { "workbench.colorTheme": id };
      await withRoom(
        { "room.tank": room, "2026-03.tank": march, "lab.csv": table },
        settings,
        async (folder) => {
          const { window, frame } = await open(fixture, folder);
          assert.deepEqual(await axeFindings(frame), []);
          await answerAll(frame);
          await said(frame, "3 rows read = 2 imported");
          assert.deepEqual(await axeFindings(frame), []);
          await frame.getByRole("button", { name: "Import" }).click();
          await frame.locator(".outcome h1").waitFor();
          assert.deepEqual(await axeFindings(frame), []);
          assert.deepEqual(await breaches(frame), []);
          assert.deepEqual(window.ownErrors(), []);
          await window.close();
        },
      );
    },
    slowMs,
  );

test(
  "Import Table: a table is asked for, previewed and edited; nothing is written before Import, and then all is",
  async (fixture) => {
    await withRoom({ "room.tank": room, "2026-03.tank": march, "lab.csv": table }, {}, async (folder) => {
      const before = readdirSync(folder).sort();
      const { window, frame } = await open(fixture, folder);
      assert.equal(await frame.locator(".open li").count(), 6);
      assert.match(await contentOf(frame.locator(".row").first()), /once the questions are answered/);
      // Nothing happens while a question is open: the first of them has the focus instead.
      await frame.locator("body").press("Control+Enter");
      assert.equal(
        await frame.evaluate(() => document.activeElement?.getAttribute("aria-label")),
        "Order of dates",
      );
      await answerAll(frame);
      await said(
        frame,
        "3 rows read = 2 imported + 0 skipped + 1 rejected. To be written: 2026-04.tank (4 lines, new).",
      );
      const rows = frame.locator(".preview .row");
      assert.match(
        await contentOf(rows.nth(0)),
        /2026-04-03pond test temperature 24\.5 C, nitrate 18 mg\/L NO3, pH 7\.2pond change 20 US gal/,
      );
      assert.match(await contentOf(rows.nth(1)), /tub lose praecox 1/);
      assert.match(await contentOf(rows.nth(2)), /rejected: “many” in “Nitrate \(ppm\)” is no number/);
      // What is decided can be decided otherwise, and the preview follows.
      await choose(frame, "Order of dates", "mdy");
      await rows.nth(0).filter({ hasText: "2026-03-04" }).waitFor();
      await choose(frame, "Is: #5 pH", "ignore");
      await rows.nth(0).filter({ hasNotText: "pH 7.2" }).filter({ hasText: "NO3" }).waitFor();
      await choose(frame, "Is: #5 pH", "pH");
      await choose(frame, "Order of dates", "dmy");
      await said(frame, "3 rows read = 2 imported");
      await rows.nth(0).filter({ hasText: "2026-04-03" }).filter({ hasText: "pH 7.2" }).waitFor();
      assert.equal(
        await frame.evaluate(() => document.activeElement?.getAttribute("aria-label")),
        "Order of dates",
      );
      assert.deepEqual(readdirSync(folder).sort(), before);
      await frame.locator("body").press("Control+Enter");
      await frame.locator(".outcome h1", { hasText: "lab.csv is imported" }).waitFor();
      assert.match(await contentOf(frame.locator(".outcome")), /2026-04\.tank: 4 lines, a new file, saved/);
      assert.match(stored(folder), /2026-04-03\n {2}pond +test temperature 24\.5 C/);
      assert.match(readFileSync(join(folder, "lab.rejects.csv"), "utf8"), /line 4: “many”/);
      await frame.getByRole("button", { name: "Keep Mapping as lab.map.json" }).click();
      await frame.locator(".outcome", { hasText: "The mapping is kept as lab.map.json" }).waitFor();
      await window.close();
      // The next month is read the same way, without a question; what is known is not written again.
      writeFileSync(join(folder, "lab.csv"), `${table}06/04/2026,left,24.8,6,7.1,,\n`);
      const next = await open(fixture, folder, "table.preview");
      await said(next.frame, "4 rows read = 1 imported + 2 skipped (2 in the log already) + 1 rejected");
      assert.equal(await next.frame.getByRole("combobox", { name: "Mapping" }).inputValue(), "lab.map.json");
      assert.equal(await next.frame.evaluate(() => document.activeElement?.textContent), "Import");
      await next.frame.locator("body").press("Control+Enter");
      await next.frame.locator(".outcome h1", { hasText: "lab.csv is imported" }).waitFor();
      assert.equal(stored(folder).match(/change 20 US gal/g)?.length, 1);
      assert.match(stored(folder), /2026-04-06\n {2}tub +test/);
      assert.equal(await next.frame.getByRole("button", { name: /Keep Mapping/ }).count(), 0);
      assert.deepEqual(next.window.ownErrors(), []);
      await next.window.close();
    });
  },
  slowMs,
);

test(
  "Import Table: what is no table is refused with its reason; closed at any step, nothing is written",
  async (fixture) => {
    const zip = "PK\u0003\u0004 truncated";
    await withRoom({ "room.tank": room, "2026-03.tank": march, "lab.csv": zip }, {}, async (folder) => {
      const { window, frame } = await open(fixture, folder, ".outcome");
      assert.match(
        await contentOf(frame.locator(".outcome")),
        /this is a zip archive[\s\S]*Nothing was written\./,
      );
      writeFileSync(join(folder, "lab.csv"), "");
      await frame.getByRole("button", { name: "Read Again" }).click();
      await frame.locator(".outcome", { hasText: "the file is empty" }).waitFor();
      writeFileSync(join(folder, "lab.csv"), table);
      await frame.getByRole("button", { name: "Read Again" }).click();
      await frame.locator(".open").waitFor();
      await answerAll(frame);
      await said(frame, "2 imported");
      await frame.getByRole("button", { name: "Cancel" }).click();
      await window.settled();
      assert.equal(existsSync(join(folder, "2026-04.tank")), false);
      assert.deepEqual(readdirSync(folder).sort(), [".vscode", "2026-03.tank", "lab.csv", "room.tank"]);
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  slowMs,
);

test(
  "Import Table in a web worker: asked, written, refused to be taken back while edited, and taken back",
  async (fixture) => {
    await withRoom({ "room.tank": room, "2026-03.tank": march, "lab.csv": table }, {}, async (folder) => {
      const window = await fixture.openInWeb({ folder, file: "room.tank", prepare: watchBreaches }, [
        importLab,
      ]);
      await window.settled();
      await window.command(importLab.id);
      const frame = await frameWith(window.page, "section.open");
      await answerAll(frame);
      await said(frame, "3 rows read = 2 imported");
      await frame.getByRole("button", { name: "Import" }).click();
      await frame.locator(".outcome h1", { hasText: "lab.csv is imported" }).waitFor();
      const written = stored(folder);
      assert.match(written, /2026-04-03\n {2}pond +test temperature 24\.5 C/);
      assert.match(readFileSync(join(folder, "lab.rejects.csv"), "utf8"), /line 4: “many”/);
      await takenBackOnlyUnedited(window, frame, folder, written);
      assert.deepEqual(await breaches(frame), []);
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  slowMs,
);

/** What was edited since is left, and all that was written; else nothing of it is left. */
async function takenBackOnlyUnedited(
  { page }: EditorWindow,
  frame: Frame,
  folder: string,
  written: string,
): Promise<void> {
  const file = join(folder, "2026-04.tank");
  const back = frame.getByRole("button", { name: "Take Back" });
  writeFileSync(file, `${written}  tub   test pH 7.1\n`);
  const refused = frame.locator("[role='alert']", {
    hasText: "2026-04.tank was edited since; nothing is taken back",
  });
  // The editor hears of it when it hears of it.
  const deadline = Date.now() + 30_000;
  for (;;) {
    await page.waitForTimeout(1500);
    await back.click();
    if ((await refused.count()) > 0 || (await frame.locator("h1", { hasText: "is taken back" }).count()) > 0)
      break;
    assert.ok(Date.now() < deadline, "nothing is said");
  }
  assert.equal(await refused.count(), 1);
  assert.equal(existsSync(file), true);
  writeFileSync(file, written);
  const done = frame.locator("h1", { hasText: "The import of lab.csv is taken back" });
  for (;;) {
    await page.waitForTimeout(1500);
    if ((await back.count()) > 0) await back.click();
    if ((await done.count()) > 0) break;
    assert.ok(Date.now() < deadline + 30_000, "it is not taken back");
  }
  assert.deepEqual(readdirSync(folder).sort(), [".vscode", "2026-03.tank", "lab.csv", "room.tank"]);
}

test(
  "Import Table is offered for a table in the explorer and in its editor, into the log beside it; taken back, an old file is as it was",
  async (fixture) => {
    const old = "2026-04-01\n  pond  feed cyclops\n";
    const files = {
      "room.tank": room,
      "2026-04.tank": old,
      "lab.csv": "Date,pH,Temp C\n2026-04-03,7.2,24.5\n",
    };
    await withRoom(files, {}, async (folder) => {
      const window = await fixture.open({ folder, file: "room.tank", prepare: watchBreaches });
      await window.settled();
      const { page } = window;
      const entry = page.locator(".explorer-folders-view .monaco-list-row", { hasText: "lab.csv" });
      const item = page.locator(".context-view .action-item, .monaco-menu .action-item", {
        hasText: "Import Table",
      });
      // A menu stays as it was opened: before the log is known it has no such entry.
      const deadline = Date.now() + 60_000;
      while ((await item.count()) === 0) {
        assert.ok(Date.now() < deadline, "the menu of a table has no Import Table");
        await page.keyboard.press("Escape");
        await entry.click({ button: "right" });
        await page.locator(".monaco-menu .action-item", { hasText: "Rename" }).first().waitFor();
      }
      assert.equal(await item.count(), 1);
      await item.first().click();
      const frame = await frameWith(page, "section.open");
      await choose(frame, "Tank", "tub");
      await said(frame, "1 row read = 1 imported");
      await frame.locator("body").press("Control+Enter");
      await frame.locator(".outcome h1", { hasText: "lab.csv is imported" }).waitFor();
      assert.match(stored(folder), /2026-04-03\n {2}tub +test pH 7\.2, temperature 24\.5 C/);
      await frame.getByRole("button", { name: "Take Back" }).click();
      await frame.locator("h1", { hasText: "The import of lab.csv is taken back" }).waitFor();
      assert.equal(stored(folder), old);
      await frame.getByRole("button", { name: "Close" }).click();
      // A log is no table, and is offered none.
      await page
        .locator(".explorer-folders-view .monaco-list-row", { hasText: "room.tank" })
        .click({ button: "right" });
      await page.locator(".monaco-menu .action-item", { hasText: "Rename" }).first().waitFor();
      assert.equal(await page.locator(".monaco-menu .action-item", { hasText: "Import Table" }).count(), 0);
      await page.keyboard.press("Escape");
      await entry.dblclick();
      await page.locator(".tab.active", { hasText: "lab.csv" }).waitFor();
      await page.locator(".editor-actions .codicon-toolbar-more").first().click();
      await page.locator(".monaco-menu .action-item", { hasText: "Import Table" }).first().click();
      await (await frameWith(page, "section.open"))
        .getByRole("combobox", { name: "Tank", exact: true })
        .waitFor();
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  slowMs,
);

test(
  "Import Table: dates as heads, their year asked, in the preview and in the log",
  async (fixture) => {
    const across = "Tank,Test,3/13,3/14\npond,pH,7.2,7.1\n,Temp C,24.5,\ntub,pH,6.9,6.8\n,Temp C,25,25\n";
    await withRoom({ "room.tank": room, "2026-03.tank": march, "lab.csv": across }, {}, async (folder) => {
      const { window, frame } = await open(fixture, folder);
      assert.match(
        await contentOf(frame.locator(".open")),
        /the dates of “Date” have no year; which is it\?/,
      );
      await frame.getByRole("textbox", { name: "Year" }).fill("2026");
      await frame.getByRole("textbox", { name: "Year" }).press("Tab");
      await said(frame, "4 rows read = 4 imported");
      assert.match(
        await contentOf(frame.locator(".preview .row").first()),
        /2026-03-13pond test pH 7\.22026-03-14 pond test pH 7\.1/,
      );
      assert.deepEqual(await axeFindings(frame), []);
      // What is below one tank is of it, unless it is said otherwise.
      await choose(frame, "Empty cells of Tank", "none");
      await said(frame, "4 rows read = 2 imported + 0 skipped + 2 rejected");
      await choose(frame, "Empty cells of Tank", "down");
      await said(frame, "4 rows read = 4 imported");
      await frame.locator("body").press("Control+Enter");
      await frame.locator(".outcome h1", { hasText: "lab.csv is imported" }).waitFor();
      assert.match(
        readFileSync(join(folder, "2026-03.tank"), "utf8"),
        /2026-03-14\n {2}pond +test pH 7\.1\n/,
      );
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  slowMs,
);
