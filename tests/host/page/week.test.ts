/**
 * A week by keyboard alone, counted: cleaning days, a round of tests, signs and a case with its course, a sample sent, an arrival and a
 * move, counts, a brood, an order packed, a day away and a day off. What counts as a key is as in normal-day.test.ts; of what is typed into the
 * log only numbers and what stands within quotes are values, and letters that need Shift are two keys.
 */

import { strict as assert } from "node:assert";
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame } from "playwright-core";
import { built } from "../../../extension/build/places.ts";
import { spokenDay } from "../../../language/book/dates.ts";
import { CheckedLogbook } from "../../../language/checks/check.ts";
import { boardCard } from "../../../language/features/board/board.ts";
import type { EditorWindow } from "../window.ts";
import { type Fixture, test } from "./suite.ts";
import { frameWith, withRoom } from "./webviews.ts";
import { cleanedOn, counted, history, isoDay, monday, readings, room, tanks } from "./week-room.ts";

const most = 120;
/** So long is waited for the list of what may be written: longer than a keeper would. */
const offeredMs = 4_000;
const weekdays = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

class Week {
  private files: Record<string, string> = { "room.tank": room(), "2026-03.tank": history() };
  private readonly counts: number[] = [];
  private at = monday;
  private folder = "";
  private shown: EditorWindow | undefined;

  async part(open: Fixture["open"], first: number, days: () => Promise<void>): Promise<void> {
    assert.equal(this.at, monday + first, "the days before were not done");
    await withRoom(this.files, { "standpipe.asOf": isoDay(this.at) }, async (folder) => {
      const names = Object.keys(this.files).sort();
      const window = await open({ folder, file: names.findLast((name) => name !== "room.tank")!, line: 1 });
      window.page.setDefaultTimeout(60_000);
      await window.find('.statusbar-item:has-text("due")', 120_000);
      this.folder = folder;
      this.shown = window;
      await days();
      this.files = Object.fromEntries(
        logFiles(folder).map((name) => [name, readFileSync(join(folder, name), "utf8")]),
      );
      assert.deepEqual(window.ownErrors(), []);
      await window.close();
    });
  }

  /** One day of the keeper's, and the evening after it. @param left tasks that stay due on purpose */
  async day(work: (day: Day) => Promise<void>, left: readonly string[] = [], isAway = false): Promise<void> {
    const { folder, shown: window, at } = this;
    assert.ok(window !== undefined);
    const before = lookAt(folder, at);
    assert.equal(before.card.away === null, at < monday + 5);
    if (at > monday) {
      writeFileSync(
        join(folder, ".vscode", "settings.json"),
        JSON.stringify({ "standpipe.asOf": isoDay(at) }),
      );
    }
    const keys = new Keys(window);
    await work(new Day(keys, window, at, before));
    this.counts.push(keys.count);
    const name = weekdays[at - monday];
    console.log(`        ${name}: ${keys.count} keys beyond values`);
    assert.ok(keys.count <= most, `${name} took ${keys.count} keys`);
    const after = lookAt(folder, at);
    assert.deepEqual(standpipe(folder, "check", at, "--severity", "error").findings, [], name);
    assert.deepEqual(after.due.sort(), [...left].sort(), `left on ${name}`);
    if (!isAway) assert.deepEqual(after.card.feeds, [], `fed on ${name}`);
    this.at++;
  }

  /** What the tool says of the week when it is over. */
  summary(): void {
    const { folder, counts } = this;
    const sunday = this.at - 1;
    console.log(`        ${counts.reduce((sum, each) => sum + each, 0)} keys beyond values in the week`);
    const report = standpipe(folder, "report", sunday, "--to", isoDay(sunday), "--period", "week");
    const done = Object.fromEntries(
      report.logbooks[0].work.acts.map((act: Act) => [act.name, [act.done, act.late, act.open]]),
    );
    const kept = tanks.length - 2;
    assert.deepEqual(done, {
      change: [kept, 1, 0],
      clean: [kept, 1, 0],
      count: [Object.keys(counted).length, 0, 0],
      service: [1, 0, 0],
      test: [3 * tanks.length, 0, 0],
    });
    const plan = standpipe(folder, "plan", sunday);
    assert.deepEqual(plan.logbooks[0].days[0].owed, []);
    assert.equal(plan.logbooks[0].fits, true);
    const { card } = lookAt(folder, sunday);
    const notices = Object.fromEntries(
      card.notices.map(({ is, lines }) => [is, lines.map(({ name }) => name)]),
    );
    assert.deepEqual(notices.orders, undefined);
    assert.deepEqual(notices.cases, ["flukes-1"]);
  }
}

interface Act {
  readonly name: string;
  readonly done: number;
  readonly late: number;
  readonly open: number;
}

/** What a keeper does on a day, each with the keys it takes. */
class Day {
  private readonly keys: Keys;
  private readonly window: EditorWindow;
  private readonly day: number;
  private readonly before: Looked;
  private frame: Frame | undefined;

  constructor(keys: Keys, window: EditorWindow, day: number, before: Looked) {
    this.keys = keys;
    this.window = window;
    this.day = day;
    this.before = before;
  }

  /** To the board, once it is of today. */
  async board(): Promise<void> {
    await this.keys.press("Control+k");
    await this.keys.press("b");
    this.frame = await frameWith(this.window.page, '[role="row"]:focus, .nothing, .away');
    await this.frame
      .locator("header.top")
      .filter({ hasText: spokenDay(this.day) })
      .waitFor();
    await this.frame.locator('[role="row"]:focus').waitFor();
  }

  private get shown(): Frame {
    assert.ok(this.frame !== undefined, "the board is not open");
    return this.frame;
  }

  /** The round, in the order of hands: each thing when it is done, animals counted where that is due. */
  async round({ left = "" } = {}): Promise<void> {
    const { keys, shown } = this;
    // At the first thing to do; what is known and what is fed stand below.
    await keys.press("Home");
    await keys.press("PageDown");
    if (!(await focused(shown)).startsWith("stop ")) await keys.press("Home");
    if (!(await focused(shown)).includes("/")) await keys.press("ArrowDown");
    for (let row = await focused(shown); row.startsWith("stop "); row = await focused(shown)) {
      const [head = "", task = ""] = row.split("/");
      const at = head.slice("stop ".length);
      if (at === left) {
        await keys.press("PageDown");
        if ((await focused(shown)) === row) return;
        continue;
      }
      await keys.press("Enter");
      const value = task.startsWith(`${at} count`) ? counted[at] : undefined;
      if (value !== undefined) {
        await shown.locator("input:focus").waitFor();
        await keys.text(value);
        await keys.press("Enter");
      }
      await shown.locator(`[data-row="${row.replaceAll('"', '\\"')}"]`).waitFor({ state: "detached" });
    }
  }

  /** What is fed: all as it is their turn. */
  async feed(): Promise<void> {
    const { keys, shown } = this;
    await keys.press("f");
    await keys.press("Control+a");
    await said(shown, " marked");
    await keys.press("Enter");
    await said(shown, " feed ");
    await shown.locator('[data-row="feeds"]').waitFor({ state: "detached" });
  }

  /** What a notice asks for, with its value if it takes one. @param key how its row begins */
  async notice(key: string, value?: string): Promise<void> {
    const { keys, shown } = this;
    const isThere = async (): Promise<boolean> =>
      (await focused(shown)).split("/")[1]?.startsWith(key) === true;
    const section = `notice ${key.split(" ")[0]}s`;
    await keys.press("n");
    while (!(await focused(shown)).startsWith(section)) {
      assert.ok(keys.count < 2 * most, `no ${section} on the board`);
      await keys.press("PageDown");
    }
    for (let rows = 0; !(await isThere()); rows++) {
      assert.ok(rows < 10, `no ${key} on the board, but ${await focused(shown)}`);
      await keys.press("ArrowDown");
    }
    const status = shown.getByRole("status");
    const said = (await status.textContent()) ?? "";
    await keys.press("Enter");
    if (value !== undefined) {
      await shown.locator("input:focus").waitFor();
      await keys.text(value);
      await keys.press("Enter");
    }
    await status.filter({ hasText: "Logged", hasNotText: said }).waitFor();
    await this.window.settled(300);
  }

  /** The round of tests, as it was written on the sheet. */
  async sheet(): Promise<void> {
    const { keys, window } = this;
    await keys.press("r");
    await window.find(".view-line:has-text('sheet')");
    await window.page.locator(".monaco-editor.focused").first().waitFor();
    const boxes = tanksByTest(this.before).flatMap(readings);
    for (const [index, value] of boxes.entries()) {
      await keys.value(value);
      if (index < boxes.length - 1) await keys.press("Tab");
    }
    await this.save();
  }

  /** Lines of which the board knows nothing, in the editor, with what it offers. */
  async write(lines: (keys: Keys) => Promise<void>): Promise<void> {
    const { keys, window } = this;
    await keys.press("w");
    await window.page.locator(".monaco-editor.focused").first().waitFor();
    await window.page.locator(".suggest-widget.visible").waitFor();
    await lines(keys);
    await this.save();
  }

  private async save(): Promise<void> {
    await this.keys.press("Control+s");
    await this.window.page.locator(".tab.active.dirty").waitFor({ state: "detached" });
  }
}

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
  async value(value: string): Promise<void> {
    await this.window.page.keyboard.type(value);
  }

  /** Words and numbers: of these the numbers are values. */
  async text(...pieces: readonly string[]): Promise<void> {
    for (const piece of pieces) {
      if (!/^[\d.]+$/.test(piece)) this.count += keysOf(piece);
      await this.window.page.keyboard.type(piece, { delay: 20 });
    }
  }

  /** A text in quotes. */
  async quoted(text: string): Promise<void> {
    this.count += 2 * keysOf('"');
    await this.window.page.keyboard.type(`"${text}"`, { delay: 20 });
  }

  /**
   * A part of a word until it is offered, down to it, and Tab. Where a list arrives when the next word has begun, as it may on a slow machine,
   * the editor asks again with the next letter only: then that is typed as well, as a keeper would, and counted.
   * @param inserted what Tab puts there
   */
  async pick(typed: string, inserted: string): Promise<void> {
    const { page } = this.window;
    await this.text(typed);
    const label = inserted.trim();
    const labels = page.locator(".suggest-widget.visible .monaco-list-row .label-name");
    const more = [...inserted.slice(inserted.indexOf(typed) + typed.length)];
    let deadline = Date.now() + offeredMs;
    while (!(await labels.allTextContents()).includes(label)) {
      if (Date.now() > deadline) {
        console.log(`        (“${label}” took ${more.length > 1 ? "a letter more" : "all its letters"})`);
        await this.text(more.shift()!);
        if (more.length === 0) return;
        deadline = Date.now() + offeredMs;
      }
      await page.waitForTimeout(30);
    }
    const first = page.locator(".suggest-widget.visible .monaco-list-row.focused .label-name");
    for (let rows = 0; (await first.textContent()) !== label; rows++) {
      assert.ok(rows < 6, `“${label}” is far down`);
      await this.press("ArrowDown");
      await page.waitForTimeout(50);
    }
    await this.press("Tab");
  }
}

/** A capital and what stands above another sign takes Shift. */
const keysOf = (text: string): number =>
  [...text].reduce((sum, letter) => sum + (/[A-Z"<>:?~]/.test(letter) ? 2 : 1), 0);

const said = (board: Frame, words: string): Promise<void> =>
  board.getByRole("status").filter({ hasText: words }).waitFor();

const focused = async (board: Frame): Promise<string> =>
  (await board.locator('[role="row"]:focus').getAttribute("data-row")) ?? "";

type Looked = ReturnType<typeof lookAt>;

/** The tanks of the sheet, in its order. */
const tanksByTest = ({ card }: Looked): string[] =>
  card.stops.filter(({ tasks }) => tasks.some(({ kind }) => kind === "test")).map(({ at }) => at);

/** The log as it is stored, at the end of a day. */
function lookAt(folder: string, day: number) {
  const checked = new CheckedLogbook();
  for (const name of logFiles(folder)) checked.set(name, readFileSync(join(folder, name), "utf8"));
  checked.logbook.asOf = day;
  checked.refresh();
  const source = checked.logbook.sources.get("room.tank")!;
  const card = boardCard({ checked, source, worldDay: day });
  const due = card.stops.flatMap(({ tasks }) => tasks.map(({ target, kind }) => `${target} ${kind}`));
  return { card, due };
}

const logFiles = (folder: string): string[] => readdirSync(folder).filter((name) => name.endsWith(".tank"));

/** What the terminal says, as data: the command that ships. */
function standpipe(folder: string, command: string, day: number, ...more: readonly string[]) {
  const args = [built().command, command, "--json", "--as-of", isoDay(day), ...more, folder];
  return JSON.parse(execFileSync(process.execPath, args, { encoding: "utf8", maxBuffer: 1 << 28 }));
}

const week = new Week();

/** A part of the week: a window on the room as the part before left it. */
const part = (name: string, days: () => Promise<void>, first: number): void =>
  test(`a week by keyboard, ${name}`, ({ open }) => week.part(open, first, days), 400_000);

/** Cleaned a day later than it was due. */
const leftOnThursday = cleanedOn(3).at(-1)!;

part(
  "Monday and Tuesday: cleaning, signs seen, the round of tests",
  async () => {
    await week.day(async (day) => {
      await day.board();
      await day.round();
      await day.feed();
      // What was seen while they ate.
      await day.write(async (keys) => {
        await keys.text("q1 ");
        await keys.pick("si", "sick ");
        await keys.pick("", "killifish");
        await keys.text(" ", "2", " of ", "9", " ");
        await keys.pick("s", "signs ");
        await keys.quoted("flashing, clamped fins");
        await keys.text(" ");
        await keys.pick("c", "case ");
        await keys.text("flukes-1");
        await keys.press("Enter");
        await keys.text("q1 ");
        await keys.pick("do", "dose ");
        await keys.pick("", "praziquantel ");
        await keys.pick("", "120 mg");
        await keys.text(" ");
        await keys.pick("c", "case ");
        await keys.pick("", "flukes-1");
      });
    });

    await week.day(async (day) => {
      await day.board();
      await day.sheet();
      await day.board();
      await day.round();
      await day.feed();
    });
  },
  0,
);

part(
  "Wednesday and Thursday: a course, an arrival and a move, counts, a brood, samples",
  async () => {
    await week.day(async (day) => {
      await day.board();
      // With the second dose, behind the change that it owes.
      await day.round();
      await day.feed();
      await day.notice("case flukes-1", "3");
      await day.write(async (keys) => {
        await keys.text("q2 ");
        await keys.pick("ar", "arrive ");
        await keys.pick("k", "killifish");
        await keys.text(" ", "6", " ");
        await keys.pick("f", "from ");
        await keys.pick("", '"river nursery"');
        await keys.press("Enter");
        await keys.text("q2 ");
        await keys.pick("f", "feed ");
        await keys.pick("c", "cyclops");
        await keys.text(" ", "1", " cube");
        await keys.press("Enter");
        await keys.text("rice1 ");
        await keys.pick("m", "move ");
        await keys.pick("", "ricefish");
        await keys.text(" ", "4", " ");
        await keys.pick("ric", "-> rice2");
      });
    });

    await week.day(
      async (day) => {
        await day.board();
        // Two counts; one tank is left for tomorrow.
        await day.round({ left: leftOnThursday });
        await day.feed();
        await day.notice("brood p7", "80");
        await day.write(async (keys) => {
          await keys.text("q1 ");
          await keys.pick("sam", "sample ");
          await keys.pick("gi", "gill");
          await keys.text(" ", "2", " ");
          await keys.pick("k", "kept ");
          await keys.pick("fo", "formalin");
          await keys.text(" ");
          await keys.pick("c", "case ");
          await keys.pick("", "flukes-1");
          await keys.press("Enter");
          await keys.text("q1 ");
          await keys.pick("sen", "send ");
          await keys.pick("", "flukes-1");
          await keys.text(" to ");
          await keys.quoted("state laboratory");
          await keys.text(" by ");
          await keys.quoted("courier");
        });
      },
      [`${leftOnThursday} change`, `${leftOnThursday} clean`],
    );
  },
  2,
);

part(
  "Friday to Sunday: an order, the last dose, a day away and a day off; nothing stays due but what was left on purpose",
  async () => {
    await week.day(async (day) => {
      await day.board();
      await day.notice("order o-1");
      await day.notice("order o-1");
      await day.round();
      await day.feed();
      await day.notice("case flukes-1", "0");
    });

    // Away: nothing is written, and who feeds writes nothing.
    await week.day(async () => {}, [], true);

    await week.day(async (day) => {
      await day.board();
      await day.feed();
    });

    week.summary();
  },
  4,
);
