/** The board as its user meets it: in a real window, in each theme and width, by keys and by pointer. */

import { strict as assert } from "node:assert";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import type { EditorWindow } from "../window.ts";
import { type Fixture, test } from "./suite.ts";
import { axeFindings, breaches, frameWith, themes, watchBreaches, withRoom } from "./webviews.ts";

/** A window with axe in it takes its time on a machine that has other work. */
const slowMs = 240_000;
const openBoard = { id: "standpipe.board.open" };
const hideSides = { id: "workbench.action.closeSidebar" };

for (const [theme, id] of Object.entries(themes))
  test(
    `the board in the ${theme} theme, in the side bar and as a page at 1280 and 800 pixels: nothing for axe, no breach of its policy`,
    async (fixture) => {
      await withRoom({ "2026-03.tank": undefined }, { "workbench.colorTheme": id }, async (folder) => {
        const { window, frame } = await open(fixture, folder, "2026-03.tank", "side");
        await lookAt(frame);
        await window.command(openBoard.id);
        const page = await boardFrame(window, "editor");
        await lookAt(page);
        await window.command(hideSides.id);
        await window.page.setViewportSize({ width: 800, height: 800 });
        await window.settled();
        await lookAt(page);
        assert.deepEqual(window.ownErrors(), []);
        await window.close();
      });
    },
    slowMs,
  );

/** As it is; then with all marked, with boxes, with a reason why not, with the page of keys. */
async function lookAt(frame: Frame): Promise<void> {
  assert.deepEqual(await axeFindings(frame), []);
  await frame.locator('[role="row"][tabindex="0"]').focus();
  await press(frame, "End", "Control+a", "Control+a", "Enter");
  const boxes = frame.locator("input[data-box]");
  await boxes.first().waitFor();
  assert.deepEqual(await axeFindings(frame), []);
  await boxes.first().fill("many");
  for (let left = await boxes.count(); left > 0; left--) await press(frame, "Enter");
  await frame.locator('[role="row"][aria-describedby]').first().waitFor();
  assert.deepEqual(await axeFindings(frame), []);
  await press(frame, "Escape", "?");
  await frame.locator("dialog[open]").waitFor();
  assert.deepEqual(await axeFindings(frame), []);
  await press(frame, "Escape");
  await frame.locator('[role="row"]:focus').waitFor();
  await press(frame, "Escape");
  assert.deepEqual(await breaches(frame), []);
}

test(
  "what is not right for axe or the policy would be seen",
  async (fixture) => {
    await withRoom({ "room.tank": shed }, today, async (folder) => {
      const { window, frame } = await open(fixture, folder, "room.tank", "side");
      await frame.evaluate(() => {
        document.body.append(Object.assign(document.createElement("style"), { textContent: "p {}" }));
        document.querySelector("main")!.append(document.createElement("img"));
      });
      assert.deepEqual(await breaches(frame), ["style-src-elem inline"]);
      assert.match((await axeFindings(frame)).join(), /^image-alt: <img>/);
      await window.close();
    });
  },
  slowMs,
);

test(
  "by keys alone: a thing is logged, the next has the focus, and U takes it back",
  async (fixture) => {
    await withRoom({ "room.tank": shed }, today, async (folder) => {
      const { window, frame } = await open(fixture, folder, "room.tank", "side");
      assert.equal(await focusedRow(frame), "pond clean");
      assert.equal(await frame.locator('[role="row"][tabindex="0"]').count(), 1);
      await press(frame, "Enter");
      await window.find('.view-line:has-text("clean glass, gravel") >> nth=1');
      await said(frame, "Logged pond clean glass, gravel");
      assert.equal(await focusedRow(frame), "pond test");
      assert.match(stored(folder), /2026-03-10\n {2}pond +clean glass, gravel\n/);
      await press(frame, "u");
      await said(frame, "Taken back: pond clean glass, gravel");
      await frame.locator('[role="row"][data-row*="pond clean"]').waitFor();
      assert.equal(await focusedRow(frame), "pond clean");
      assert.doesNotMatch(stored(folder), /2026-03-10\n {2}pond +clean/);
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  },
  slowMs,
);

test(
  "several are marked by keys and logged at once; a group is one line",
  async (fixture) => {
    await withRoom({ "room.tank": shed }, today, async (folder) => {
      const { window, frame } = await open(fixture, folder, "room.tank", "side");
      await press(frame, "f", "Control+a");
      await said(frame, "2 marked");
      assert.equal(await frame.locator('[role="row"][aria-selected="true"]').count(), 3, "with their head");
      await press(frame, "Enter");
      await said(frame, "Logged @all feed flake");
      assert.match(stored(folder), /\n {2}@all +feed flake\n/);
      await window.close();
    });
  },
  slowMs,
);

test(
  "what has to be measured is typed in place; a refusal stands at its row and nothing is lost",
  async (fixture) => {
    await withRoom({ "room.tank": shed }, today, async (folder) => {
      const { window, frame } = await open(fixture, folder, "room.tank", "side");
      await press(frame, "ArrowDown", "Enter");
      const nitrate = frame.getByRole("textbox", { name: "pond nitrate, mg/L" });
      await nitrate.waitFor();
      assert.equal(await nitrate.evaluate((box) => box === document.activeElement), true);
      const { keyboard } = window.page;
      await keyboard.type("1o");
      await keyboard.press("Tab");
      await keyboard.type("7.2");
      await keyboard.press("Enter");
      const row = frame.locator('[role="row"][aria-describedby]');
      await row.waitFor();
      const why = await row.getAttribute("aria-describedby");
      assert.notEqual(await frame.locator(`#${why}`).textContent(), "");
      assert.equal(await nitrate.inputValue(), "1o");
      assert.equal(await nitrate.getAttribute("aria-invalid"), "true");
      assert.equal(await nitrate.evaluate((box) => box === document.activeElement), true);
      await keyboard.press("Escape");
      assert.equal(await frame.locator("input[data-box]").count(), 0);
      assert.equal(await focusedRow(frame), "pond test");
      await keyboard.press("Enter");
      assert.equal(await nitrate.inputValue(), "1o");
      await keyboard.type("10");
      await keyboard.press("Enter");
      await keyboard.press("Enter");
      await said(frame, "Logged pond test nitrate 10, pH 7.2");
      assert.match(stored(folder), /\n {2}pond +test +nitrate 10, pH 7.2\n/);
      await window.close();
    });
  },
  slowMs,
);

test(
  "focus, marks and what was typed outlast a change of the log",
  async (fixture) => {
    await withRoom({ "room.tank": shed }, today, async (folder) => {
      const { window, frame } = await open(fixture, folder, "room.tank", "editor");
      await press(frame, "ArrowDown", "Space", "Enter");
      const { keyboard } = window.page;
      await keyboard.type("12");
      // Another line, as by another key of the keeper's.
      await window.command("standpipe.board.lines");
      await frame.getByText("tub clean glass").waitFor();
      const box = frame.locator("input[data-box]").first();
      assert.equal(await box.inputValue(), "12");
      assert.equal(await box.evaluate((each) => each === document.activeElement), true);
      assert.equal(await frame.locator('[aria-selected="true"][data-row*="pond test"]').count(), 1);
      await window.close();
    });
  },
  slowMs,
);

test(
  "another usual way, the line in the editor, where it is stated, the preview",
  async (fixture) => {
    await withRoom({ "room.tank": shed }, today, async (folder) => {
      const { window, frame } = await open(fixture, folder, "room.tank", "side");
      await press(frame, "ArrowRight");
      await said(frame, "pond clean glass: 2 of 2");
      await press(frame, "o");
      await window.find(`.line-numbers.active-line-number:has-text("${lineIn("every  7 d clean glass")}")`);
      await frame.locator('[data-row*="pond clean"]').focus();
      await press(frame, "p");
      const preview = await frameWith(window.page, "h1:has-text('The pond')");
      assert.ok(preview !== frame);
      await frame.locator('[data-row*="pond clean"]').focus();
      await press(frame, "e");
      await window.find('.view-line:has-text("clean glass") >> nth=3');
      await window.close();
    });
  },
  slowMs,
);

test(
  "the same by pointer: the button logs, the check box marks, the bar logs what is marked",
  async (fixture) => {
    await withRoom({ "room.tank": shed }, today, async (folder) => {
      const { window, frame } = await open(fixture, folder, "room.tank", "editor");
      await frame.locator('[data-row*="pond clean"] [data-do="log"]').click();
      await said(frame, "Logged pond clean glass, gravel");
      await frame.locator('[data-row*="pond feeding"] > .mark').click();
      await frame.getByRole("button", { name: "Log 1 marked" }).click();
      await said(frame, "Logged pond feed flake");
      await frame.getByRole("button", { name: "Take back" }).click();
      await said(frame, "Taken back: pond feed flake");
      assert.match(stored(folder), /2026-03-10\n {2}pond +clean glass, gravel\s*$/);
      await window.close();
    });
  },
  slowMs,
);

test(
  "a day on which nothing is due, a day away and a room without tanks say so",
  async (fixture) => {
    const settings = (day: string) => ({ "standpipe.asOf": day });
    const words = async (log: string, day: string): Promise<string> => {
      let text = "";
      await withRoom({ "room.tank": log }, settings(day), async (folder) => {
        const { window, frame } = await open(fixture, folder, "room.tank", "editor");
        await frame.locator(".nothing, .away").first().waitFor();
        assert.deepEqual(await axeFindings(frame), []);
        text = (await frame.locator("body").textContent()) ?? "";
        await window.close();
      });
      return text;
    };
    assert.match(await words(shed, "2026-03-04"), /Nothing is due today/);
    assert.match(await words('room "Shed"\n', "2026-03-04"), /No tank is in service/);
    const held = shed.replace('"Shed"', '"Shed"\n  away  2026-03-10 "on holiday"');
    assert.match(await words(held, "2026-03-10"), /Nobody works today: on holiday/);
  },
  slowMs,
);

/** The day after which the shed of below is looked at. */
const today = { "standpipe.asOf": "2026-03-10" };

const shed = `room "Shed"
tank pond "The pond"
  volume  300 L
  every  7 d clean glass
  every  7 d test nitrate, pH
tank tub "The tub"
  volume  80 L
group all = pond, tub
food flake
  kind  dry

2026-03-02
  pond clean glass
  pond test nitrate 10, pH 7.2
  @all feed flake
2026-03-03
  pond clean glass, gravel
  pond test nitrate 12, pH 7.2
  @all feed flake
`;

const lineIn = (words: string): number => shed.split("\n").findIndex((line) => line.includes(words)) + 1;

const stored = (folder: string): string => readFileSync(join(folder, "room.tank"), "utf8");

type Place = "side" | "editor";

/** The board of a room with the log open beside it. */
async function open(
  { open: openWindow }: Fixture,
  folder: string,
  file: string,
  place: Place,
): Promise<{ readonly window: EditorWindow; readonly frame: Frame }> {
  const lines = { id: "standpipe.board.lines", argument: { lines: ["tub clean glass"] } };
  const window = await openWindow({ folder, file, prepare: watchBreaches }, [openBoard, hideSides, lines]);
  window.page.setDefaultTimeout(slowMs / 4);
  await window.find('.statusbar-item:has-text("due")', slowMs / 2);
  if (place === "editor") await window.command(openBoard.id);
  else {
    await window.page.keyboard.press("Control+k");
    await window.page.keyboard.press("b");
  }
  return { window, frame: await boardFrame(window, place) };
}

async function boardFrame(window: EditorWindow, place: Place): Promise<Frame> {
  const frame = await frameWith(window.page, `body.${place} #page .foot`);
  await frame.locator('[role="row"]:focus, .nothing, .away').first().waitFor();
  return frame;
}

/** Keys into the page, wherever its focus is. */
async function press(frame: Frame, ...keys: readonly string[]): Promise<void> {
  for (const key of keys) await frame.locator(":focus").press(key);
}

async function said(frame: Frame, words: string): Promise<void> {
  await frame.getByRole("status").filter({ hasText: words }).waitFor();
}

/** The task of the row with the focus. */
async function focusedRow(frame: Frame): Promise<string> {
  const key = await frame.locator('[role="row"]:focus').getAttribute("data-row");
  return (key ?? "")
    .replace(/^[^/]*\//, "")
    .split(" ")
    .slice(0, 2)
    .join(" ");
}
