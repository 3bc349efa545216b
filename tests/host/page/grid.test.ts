/** The grid as its user meets it: cells over a text that others change too, in a real window, by keys and clipboard. */

import { strict as assert } from "node:assert";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import {
  axeFindings,
  cellOf,
  commands,
  goTo,
  gridFrame,
  openGrid,
  scrollFor,
  untilCell,
  untilStored,
  withGridRoom,
} from "./grid-room.ts";
import { test } from "./suite.ts";

/** Of tests with several windows or passes, on a machine that has other things to do. */
const patientMs = 180_000;
const dark = "Default Dark Modern";
const themes = {
  dark,
  light: "Default Light Modern",
  "high contrast": "Default High Contrast",
  "high contrast light": "Default High Contrast Light",
};

const room = `room "Shed"
  as-of  last-entry
tank pond "The pond"
  volume  300 L
  limits  nitrate <= 50 mg/L
tank tub "The tub"
  volume  80 L

2026-03-01  # first
  pond  test nitrate 60      # high
  tub   test nitrate 10
  08:40 tub  note "eggs on the mop"
  # a comment alone
2026-03-08
  pond  test nitrate <10
  tub   change 30 %
`;
const at = (line: string, text = room): number =>
  text.split("\n").findIndex((each) => each.includes(line)) + 1;

test(
  "grid: what is typed in a cell is one small edit of the text, and undo takes it back",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const file = join(folder, "room.tank");
      const { window, page, frame } = await openGrid(fixture, folder, "room.tank");
      await goTo(frame, 3, "Values");
      await page.keyboard.type("nitrate 12");
      await page.keyboard.press("Enter");
      await untilCell(frame, 3, "Values", "nitrate 12");
      // The cursor went down.
      await frame.locator(`${await cellOf(frame, 4, "Values")}.cursor`).waitFor();
      await goTo(frame, 2, "Values");
      await page.keyboard.press("F2");
      await page.keyboard.press("End");
      await page.keyboard.type(" mg/L");
      // The undo of an open input is its own.
      await page.keyboard.type("x");
      await page.keyboard.press("Control+z");
      await page.keyboard.press("Escape");
      await untilCell(frame, 3, "Values", "nitrate 12");
      await page.keyboard.press("F2");
      await page.keyboard.press("End");
      await page.keyboard.type(" mg/L");
      await page.keyboard.press("Tab");
      await untilCell(frame, 2, "Values", "nitrate 60 mg/L");
      assert.equal(readFileSync(file, "utf8"), room);
      await window.command(commands.save.id);
      const stored = (await untilStored(file, (text) => text.includes("60 mg/L"))).split("\n");
      const changed = room.split("\n").flatMap((line, index) => (stored[index] === line ? [] : [index + 1]));
      assert.deepEqual(changed, [at("pond  test nitrate 60"), at("tub   test nitrate 10")]);
      await page.keyboard.press("Control+z");
      await untilCell(frame, 2, "Values", "nitrate 60");
      await frame
        .locator(`${await cellOf(frame, 2, "Values")} .value`, { hasText: /^nitrate 60$/ })
        .waitFor();
      await page.keyboard.press("Control+z");
      await untilCell(frame, 3, "Values", "nitrate 10");
      await page.keyboard.press("Control+Shift+z");
      await untilCell(frame, 3, "Values", "nitrate 12");
      await page.keyboard.press("Control+z");
      await untilCell(frame, 3, "Values", "nitrate 10");
      await window.command(commands.save.id);
      await untilStored(file, (text) => text === room);
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  patientMs,
);

test(
  "grid: a refusal is shown at its cell, and what was typed is kept",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const { window, page, frame } = await openGrid(fixture, folder, "room.tank");
      await goTo(frame, 3, "What");
      await page.keyboard.type("two words");
      await page.keyboard.press("Enter");
      const cell = await cellOf(frame, 3, "What");
      await frame.locator(`${cell}.refused.cursor`).waitFor();
      assert.equal(await frame.locator(`${cell} .value`).textContent(), "two words");
      assert.match((await frame.locator("#about").textContent()) ?? "", /^Not written: /);
      assert.equal(await frame.locator(cell).getAttribute("aria-describedby"), "about");
      await page.keyboard.press("F2");
      assert.equal(await frame.locator(`${cell} input`).inputValue(), "two words");
      await page.keyboard.press("Escape");
      await frame.locator(`${cell}:not(.refused) .value`, { hasText: /^test$/ }).waitFor();
      await window.close();
    });
  },
  patientMs,
);

test(
  "grid: cells go to the clipboard and come from it, over many at once, as one step",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const file = join(folder, "room.tank");
      const { window, page, frame } = await openGrid(fixture, folder, "room.tank");
      await goTo(frame, 2, "What");
      await page.keyboard.press("Shift+ArrowRight");
      await page.keyboard.press("Shift+ArrowDown");
      await page.keyboard.press("Control+c");
      await frame.getByText("2 × 2 cells copied").waitFor({ state: "attached" });
      assert.equal(await clipboard(page), "test\tnitrate 60\r\ntest\tnitrate 10");
      await setClipboard(page, "change\t25 %\ntest\tpH 7.2\n");
      await goTo(frame, 2, "What");
      await page.keyboard.press("Control+v");
      await untilCell(frame, 2, "Values", "25 %");
      await untilCell(frame, 3, "Values", "pH 7.2");
      await window.command(commands.save.id);
      const text = await untilStored(file, (stored) => stored !== room);
      assert.match(text, /pond {2}change 25 % .*# high\n {2}tub {3}test pH 7\.2\n/);
      await page.keyboard.press("Control+z");
      await untilCell(frame, 2, "Values", "nitrate 60");
      await untilCell(frame, 3, "Values", "nitrate 10");
      await window.close();
    });
  },
  patientMs,
);

test(
  "a grid and the text beside it stay in step while either is typed in",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const { window, page, frame } = await openGrid(
        fixture,
        folder,
        "room.tank",
        at("pond  test nitrate <10"),
      );
      // The position is carried over: the line is the row.
      await frame.locator('.row[data-row="6"] .cell.cursor').waitFor();
      await window.command(commands.split.id);
      const second = await gridFrame(page, [frame]);
      await goTo(second, 3, "Values");
      await window.command(commands.text.id);
      await window.find(`.line-numbers.active-line-number:has-text("${at("tub   test nitrate 10")}")`);
      // A line above, typed in the text: the rows move, the cursor of the grid with its row.
      await page.keyboard.press("End");
      await page.keyboard.press("Enter");
      await page.keyboard.type("pond feed flakes 2 pinches");
      await page.keyboard.press("Escape");
      await frame.locator('.row[data-row="3"] .value', { hasText: "flakes 2 pinches" }).waitFor();
      await frame.locator('.row[data-row="7"] .cell.cursor').waitFor();
      await goTo(frame, 2, "Values");
      await page.keyboard.type("nitrate 44");
      await page.keyboard.press("Enter");
      await page
        .locator(".view-line", { hasText: /nitrate.44/ })
        .first()
        .waitFor();
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  patientMs,
);

test(
  "two grids of one file stay in step",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const { window, page, frame } = await openGrid(fixture, folder, "room.tank");
      await window.command(commands.split.id);
      const second = await gridFrame(page, [frame]);
      await goTo(second, 3, "Values");
      await page.keyboard.type("nitrate 33");
      await page.keyboard.press("Enter");
      await untilCell(frame, 3, "Values", "nitrate 33");
      await untilCell(second, 3, "Values", "nitrate 33");
      await window.close();
    });
  },
  patientMs,
);

test(
  "grid: revert, a change on disk and a checkout underneath are shown, and nothing is written over them",
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
      git("branch", "other");
      const { window, page, frame } = await openGrid(fixture, folder, "room.tank");
      await goTo(frame, 3, "Values");
      await page.keyboard.type("nitrate 77");
      await page.keyboard.press("Enter");
      await untilCell(frame, 3, "Values", "nitrate 77");
      await window.command(commands.revert.id);
      await untilCell(frame, 3, "Values", "nitrate 10");
      writeFileSync(file, room.replace("change 30 %", "change 45 %"));
      await untilCell(frame, 8, "Values", "45 %");
      git("commit", "-qam", "two");
      git("checkout", "-q", "other");
      await untilCell(frame, 8, "Values", "30 %");
      await goTo(frame, 8, "Values");
      await page.keyboard.type("35 %");
      await page.keyboard.press("Enter");
      await untilCell(frame, 8, "Values", "35 %");
      await window.command(commands.save.id);
      await untilStored(file, (text) => text === room.replace("change 30 %", "change 35 %"));
      await window.close();
    });
  },
  patientMs,
);

test(
  "the grid is there again when the window is loaded anew: face, sort, filter, selection, what was not saved",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const { window, page, frame } = await openGrid(fixture, folder, "room.tank");
      await goTo(frame, 3, "Values");
      await page.keyboard.type("nitrate 21");
      await page.keyboard.press("Enter");
      await untilCell(frame, 3, "Values", "nitrate 21");
      await frame.getByLabel("Kind of entry").selectOption("test");
      await frame.locator(".bar .count", { hasText: "3 rows" }).waitFor();
      await goTo(frame, 1, "Tank");
      await page.keyboard.press("ArrowUp");
      await page.keyboard.press("Enter");
      await page.keyboard.press("Enter");
      await frame.locator('.title[aria-sort="descending"]').waitFor();
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("Shift+ArrowDown");
      await page.waitForTimeout(storedMs);
      await page.goto(withoutFile(page.url()));
      const again = await gridFrame(page);
      await again.locator('.title[aria-sort="descending"]').waitFor();
      assert.equal(await again.getByLabel("Kind of entry").inputValue(), "test");
      assert.deepEqual(await again.locator(".row .selected").count(), 2);
      await again.locator(".row .value", { hasText: "21" }).waitFor();
      await window.close();
    });
  },
  patientMs,
);

test(
  "grid: what stands in a log is text in its cells, whatever it is",
  async (fixture) => {
    const hostile = `room "Shed"
tank pond "<img src=x onerror=\\"document.title=1\\">"
  volume  300 L

2026-03-01
  pond note "<script>1</script> \u202etxet"
  pond note "=HYPERLINK(1)"  # <b>bold</b>
  <img src=x> {{7*7}}
`;
    await withGridRoom({ "room.tank": hostile }, dark, async (folder) => {
      const { window, frame, breaches } = await openGrid(fixture, folder, "room.tank");
      const note = frame.locator(await cellOf(frame, 2, "Note"));
      assert.equal(await note.locator(".value").textContent(), "<script>1</script> U+202Etxet");
      assert.equal(await note.locator(".code-point").count(), 1);
      assert.equal(
        await frame.locator(`${await cellOf(frame, 3, "Note")} .value`).textContent(),
        "=HYPERLINK(1)",
      );
      assert.equal(
        await frame.locator('.row[data-row="3"] .wide .value').textContent(),
        "<img src=x> {{7*7}}",
      );
      await frame.getByLabel("What is shown").selectOption("definitions");
      await frame.locator(".row .value", { hasText: "<img src=x onerror" }).waitFor();
      assert.equal(await frame.locator("img, script[src='x'], iframe, a, b").count(), 0);
      assert.deepEqual(await breaches(), []);
      await window.close();
    });
  },
  patientMs,
);

test(
  "grid: a file of 100,000 entries: how long the first rows take, and the frames while it is scrolled",
  async (fixture) => {
    await withGridRoom({ "room.tank": longLog(100_000) }, dark, async (folder) => {
      const { window, page, frame } = await openGrid(fixture, folder, "room.tank");
      assert.match((await frame.locator(".bar .count").textContent()) ?? "", /^10\d,\d\d\d rows/);
      assert((await frame.locator(".row").count()) < 120, "only what is seen is drawn");
      assert.match((await frame.locator(".grid").getAttribute("aria-rowcount")) ?? "", /^10\d{4}$/);
      // The server is up by now: what is asked for is the grid's own.
      const begun = Date.now();
      await frame.getByLabel("What is shown").selectOption("all");
      await frame.locator(".bar .count", { hasText: "rows" }).waitFor();
      await frame.locator(".row:not(.waiting)").first().waitFor();
      const first = Date.now() - begun;
      const frames = await frame.evaluate(scrollFor, 2000);
      console.log(
        `        first rows ${first} ms; frames: median ${frames.median} ms, 95 % ${frames.most} ms`,
      );
      await page.keyboard.press("Control+Home");
      await window.close();
    });
  },
  patientMs,
);

for (const [name, theme] of Object.entries(themes)) {
  test(
    `the grid in the ${name} theme: nothing for axe, no breach of its policy`,
    async (fixture) => {
      await withGridRoom({ "room.tank": room }, theme, async (folder) => {
        const { window, page, frame, breaches } = await openGrid(
          fixture,
          folder,
          "room.tank",
          at("tub   test"),
        );
        await frame.locator('.row[data-row="2"] .cell.cursor').waitFor();
        // All that can be open at once: filters, columns, finding, a new entry with its list.
        for (const name of ["Filter", "Columns", "Find", "New entry"])
          await frame.getByRole("button", { name, exact: true }).click();
        await page.keyboard.type("t");
        await frame.locator(".offers li").first().waitFor();
        assert.deepEqual(await axeFindings(frame), []);
        await frame.getByLabel("What is shown").selectOption("tank");
        await frame.getByLabel("Tank or system").selectOption("pond");
        await frame.locator(".row .above").waitFor();
        assert.deepEqual(await axeFindings(frame), []);
        assert.deepEqual(await breaches(), []);
        assert.deepEqual(window.ownErrors(), []);
        await window.close();
      });
    },
    patientMs,
  );
}

test(
  "every face of the grid: nothing for axe, and were there something it would be seen",
  async (fixture) => {
    await withGridRoom({ "room.tank": room }, dark, async (folder) => {
      const { window, frame, breaches } = await openGrid(fixture, folder, "room.tank");
      for (const [face, shown] of [
        ["day", "tub"],
        ["definitions", "300 L"],
      ] as const) {
        await frame.getByLabel("What is shown").selectOption(face);
        await frame.locator(".row .value", { hasText: shown }).first().waitFor();
        assert.deepEqual(await axeFindings(frame), [], face);
      }
      await frame.evaluate(() => {
        document.body.append(Object.assign(document.createElement("style"), { textContent: "p {}" }));
        document.body.append(document.createElement("img"));
      });
      assert.deepEqual(await breaches(), ["style-src-elem inline"]);
      assert.match((await axeFindings(frame)).join(), /image-alt: <img>/);
      await window.close();
    });
  },
  patientMs,
);

function longLog(entries: number): string {
  const tanks = Array.from({ length: 20 }, (_, at) => `tank r${at + 1}\n  volume 60 L\n`).join("");
  const days: string[] = [];
  for (let done = 0, day = Date.UTC(2010, 0, 1); done < entries; day += 86_400_000) {
    days.push(new Date(day).toISOString().slice(0, 10));
    for (let at = 0; at < 20; at++, done++)
      days.push(
        `  r${at + 1}  ${done % 3 === 0 ? `test nitrate ${done % 40}` : done % 3 === 1 ? "change 30 %" : "feed flakes 2 pinches"}`,
      );
  }
  return `room "Shed"\n  as-of last-entry\n${tanks}${days.join("\n")}\n`;
}

const clipboard = (page: Page): Promise<string> => page.evaluate(() => navigator.clipboard.readText());
const setClipboard = (page: Page, text: string): Promise<void> =>
  page.evaluate((words) => navigator.clipboard.writeText(words), text);

/** The editor writes down what is open some time after it changed, and tells nobody when. */
const storedMs = 6000;

/** The address of a window without the file it was to open: with it, what was open before is not restored. */
function withoutFile(address: string): string {
  const url = new URL(address);
  const options: [string, string][] = JSON.parse(url.searchParams.get("payload") ?? "[]");
  const kept = options.filter(([name]) => name !== "openFile" && name !== "gotoLineMode");
  url.searchParams.set("payload", JSON.stringify(kept));
  return url.href;
}
