/**
 * A normal day by keyboard alone, counted: six cleans, 24 tanks fed, one round of tests, two counts.
 *
 * The rule: every key that goes down counts, each modifier that is held too (Ctrl+K is two, Shift+Tab is two), from the log in the editor to
 * the day saved in its file. Only the characters of values themselves, what was read and what was counted, do not count; the keys from one
 * value to the next do.
 */

import { strict as assert } from "node:assert";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import { dayOf } from "../../../language/book/dates.ts";
import { linesOf } from "../../../language/book/entry.ts";
import { CheckedLogbook } from "../../../language/checks/check.ts";
import { boardCard } from "../../../language/features/board/board.ts";
import { blocksOn } from "../../../language/features/definition.ts";
import type { EditorWindow } from "../window.ts";
import { cleaned, counted, day, history, readings, room, tanks } from "./row-room.ts";
import { test } from "./suite.ts";
import { frameWith, withRoom } from "./webviews.ts";

const most = 120;

test("a normal day takes at most 120 keys beyond its values", async ({ open }) => {
  const settings = { "standpipe.asOf": day };
  await withRoom({ "room.tank": room(), "log.tank": history() }, settings, async (folder) => {
    const before = logbook(folder);
    const card = boardCard(before.view);
    const due = (kind: string) =>
      card.stops.flatMap(({ tasks }) => tasks.filter((task) => task.kind === kind));
    assert.equal(due("clean").length, 6);
    assert.equal(due("count").length, 2);
    assert.equal(due("test").length, 24);
    assert.equal(card.feeds.length, 24);

    const window = await open({ folder, file: "log.tank", line: 1 });
    window.page.setDefaultTimeout(60_000);
    await window.find('.statusbar-item:has-text("due")', 120_000);
    const keys = new Keys(window);

    // To the board; the first thing to do has the focus.
    await keys.press("Control+k");
    await keys.press("b");
    const board = await frameWith(window.page, '[role="row"]:focus');

    // The round, in the order of hands: each clean when it is done, the animals counted where they are due.
    const stops = card.stops.map(({ at }) => at);
    for (const at of stops.filter((each) => cleaned.includes(each))) {
      while (!(await focused(board)).startsWith(`stop ${at}/${at} clean`)) {
        assert.ok(keys.count < most, "the clean is not found");
        await keys.press("PageDown");
      }
      await keys.press("Enter");
      await said(board, `Logged ${at} clean`);
      if (counted[at] !== undefined) {
        while (!(await focused(board)).includes(" count ")) await keys.press("ArrowDown");
        await keys.press("Enter");
        await board.locator("input:focus").waitFor();
        await keys.type(counted[at]);
        await keys.press("Enter");
        await said(board, `Logged ${at} count`);
      }
    }

    // What is fed: one tank gets another of its usual foods, then all at once.
    await keys.press("f");
    await keys.press("ArrowRight");
    await keys.press("Control+a");
    await said(board, "24 marked");
    await keys.press("Enter");
    await said(board, "Logged");
    await board.locator('[data-row="feeds"]').waitFor({ state: "detached" });

    // The round of tests, as it was written on the sheet.
    await keys.press("r");
    await window.find(".view-line:has-text('sheet')");
    const sheet = boxesOf(readings);
    await window.page.locator(".monaco-editor.focused").first().waitFor();
    for (const [index, value] of sheet.entries()) {
      await keys.type(value);
      if (index < sheet.length - 1) await keys.press("Tab");
    }
    await keys.press("Control+s");
    await window.page.locator(".tab.active.dirty").waitFor({ state: "detached" });

    const after = logbook(folder);
    assert.deepEqual(after.entries("clean").sort(), [...cleaned].sort());
    assert.deepEqual(after.entries("feed").sort(), [...tanks].sort());
    assert.deepEqual(after.entries("count").sort(), Object.keys(counted).sort());
    assert.deepEqual(after.rows().length, 24);
    for (const [tank, values] of after.rows()) assert.deepEqual(values, readings(tank), tank);
    assert.deepEqual(after.findings(), []);
    const left = boardCard(after.view);
    assert.deepEqual(left.stops, []);
    assert.deepEqual(left.feeds, []);
    console.log(`        ${keys.count} keys beyond the values of a normal day`);
    assert.ok(keys.count <= most, `${keys.count} keys`);
    assert.deepEqual(window.ownErrors(), []);
    await window.close();
  });
}, 400_000);

/** Presses keys and counts them. */
class Keys {
  count = 0;
  private readonly window: EditorWindow;

  constructor(window: EditorWindow) {
    this.window = window;
  }

  async press(chord: string): Promise<void> {
    this.count += chord.split("+").length;
    await this.window.page.keyboard.press(chord);
  }

  /** The characters of a value. */
  async type(value: string): Promise<void> {
    await this.window.page.keyboard.type(value);
  }
}

const focused = async (board: Frame): Promise<string> =>
  (await board.locator('[role="row"]:focus').getAttribute("data-row")) ?? "";

const said = (board: Frame, words: string): Promise<void> =>
  board.getByRole("status").filter({ hasText: words }).waitFor();

/** The boxes of the round sheet, row by row in its order. */
const boxesOf = (values: (tank: string) => string[]): string[] => tanks.flatMap(values);

/** The log as it is stored, with what was written into the day. */
function logbook(folder: string) {
  const checked = new CheckedLogbook();
  for (const name of ["room.tank", "log.tank"]) checked.set(name, readFileSync(join(folder, name), "utf8"));
  const today = dayOf(day);
  checked.logbook.asOf = today;
  checked.refresh();
  const view = { checked, source: checked.logbook.sources.get("log.tank")!, worldDay: today };
  const blocks = () => blocksOn(view, today);
  const lines = () => blocks().flatMap((block) => linesOf(block));
  const groups = checked.book.groups;
  return {
    view,
    /** The tanks that entries of a kind are of. */
    entries: (kind: string): string[] =>
      lines().flatMap((line) => {
        if (line.is !== "entry" || !line.counts || line.kind?.word !== kind) return [];
        const target = line.target?.text ?? "";
        const group = groups.get(target);
        return group === undefined ? [target] : group.tanks.map(({ name }) => name);
      }),
    rows: (): [string, string[]][] =>
      lines().flatMap((line) =>
        line.is === "row" ? [[line.target?.text ?? "", line.cells.map(({ text }) => text)]] : [],
      ),
    findings: (): string[] =>
      blocks().flatMap((block) =>
        checked.findingsOn(block, today).map(({ code, message }) => `${code}: ${message}`),
      ),
  };
}
