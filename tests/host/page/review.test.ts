/** The review where the editor's own git is switched off, by the git command; and in a folder that nobody trusts. By keys alone. */

import { strict as assert } from "node:assert";
import { gitRepository } from "../../support/git-repository.ts";
import type { Command, EditorWindow } from "../window.ts";
import { test } from "./suite.ts";
import { withRoom } from "./webviews.ts";

const slowMs = 240_000;
const openReview = { id: "standpipe.review.open" };
const lineHistory = { id: "standpipe.history.line" };
const nameHistory = { id: "standpipe.history.name" };
const [choose, next, copy] = ["choose", "next", "copy"].map((verb) => ({
  id: `standpipe.review.${verb}`,
})) as [Command, Command, Command];
const gitOff = { "git.enabled": false };

const room = 'room "Shed"\n  as-of last-entry\n\ntank dam\n  volume 100 L\n  limits nitrate <= 25 mg/L\n';
const log = (nitrate: number): string => `2026-03-01\n  dam clean\n  dam test nitrate ${nitrate}\n`;

/** A room with one reading put right since the last commit, and one before. */
async function withChange(
  use: (folder: string) => Promise<void>,
  settings: Readonly<Record<string, unknown>> = gitOff,
): Promise<void> {
  await withRoom({ "room.tank": room, "2026-03.tank": log(10) }, settings, async (folder) => {
    const repository = gitRepository(folder);
    repository.commit("Read");
    repository.git("tag", "first");
    repository.commit("Read anew", { "2026-03.tank": log(20) });
    repository.write({ "2026-03.tank": log(40) });
    await use(folder);
  });
}

test(
  "a review without the editor's git: what follows and what changed, Enter goes to the line, and the line has a history",
  async (fixture) => {
    await withChange(async (folder) => {
      const options = { folder, file: "2026-03.tank", line: 3, column: 12 };
      const window = await fixture.open(options, [openReview, lineHistory]);
      await window.command(lineHistory.id);
      await window.find("nitrate 10 -> 20");
      await window.page.keyboard.press("Escape");
      await window.command(openReview.id);
      await window.find("nitrate 40 mg/L in dam");
      // Groups of changes are closed: the last is opened, and left for what stands in it.
      for (const key of ["End", "ArrowRight"]) await window.page.keyboard.press(key);
      await window.find('[aria-label^="corrected, dam, test: nitrate 20 -> 40"]');
      await window.page.keyboard.press("ArrowDown");
      await window.page.keyboard.press("Enter");
      await window.find("2026-03.tank (HEAD to the files as they are)");
      assert.deepEqual(window.ownErrors(), []);
    });
  },
  slowMs,
);

/** Opens the view. A key that is pressed before a slow window has read its keys does nothing. */
async function openView(window: EditorWindow): Promise<void> {
  const isOpen = () =>
    window.find('.pane-header.expanded:has-text("Log Review")', 3000).catch(() => undefined);
  for (let tried = 0; tried < 10; tried++) {
    await window.command(openReview.id);
    if ((await isOpen()) !== undefined) return;
  }
  assert.fail("the view does not open");
}

test(
  "a review by the editor's git: from line to line, other revisions typed, a wrong one said, Escape leaves all as it was",
  async (fixture) => {
    await withChange(async (folder) => {
      const options = { folder, file: "2026-03.tank", line: 3, column: 12 };
      const window = await fixture.open(options, [openReview, choose, next, copy, nameHistory]);
      const { keyboard } = window.page;
      await openView(window);
      const consequence = '[aria-label*="nitrate 40 mg/L in dam"]';
      await window.find(consequence);

      // The consequence, its line in the log; then the change, beside what was.
      await window.command(next.id);
      await window.find(
        '[role="treeitem"].selected [aria-label*="nitrate 40 mg/L"], .selected[aria-label*="nitrate 40 mg/L"]',
      );
      await window.command(next.id);
      await window.find("2026-03.tank (HEAD to the files as they are)");
      await window.command(copy.id);
      await window.find("The review is in the clipboard, as Markdown");
      const copied = await window.page.evaluate(() => navigator.clipboard.readText());
      assert.match(
        copied,
        /^# What changed in the log\n\nFrom HEAD to the files as they are\..*nitrate 20 -> 40/s,
      );

      const typed = async (word: string): Promise<void> => {
        await keyboard.type(word, { delay: 20 });
        await window.find(`“${word}”`);
        await keyboard.press("Enter");
      };
      await window.command(choose.id);
      await window.find('input[placeholder^="What was before?"]:focus');
      await typed("nosuch");
      await window.find("There is no commit, branch, tag or day “nosuch”");
      await keyboard.press("Escape");
      await window.page.locator(".quick-input-widget").waitFor({ state: "hidden" });
      await window.find(consequence);

      await window.command(choose.id);
      await window.find('input[placeholder^="What was before?"]:focus');
      await typed("first~0");
      await window.find('input[placeholder^="What came after first~0?"]:focus');
      await keyboard.press("Enter");
      await window.find('[aria-label^="corrected, dam, test: nitrate 10 -> 40"]');
      assert.deepEqual(window.ownErrors(), []);
    }, {});
  },
  slowMs,
);

test(
  "the history of a tank: commit by commit, each change leading to its line as it was",
  async (fixture) => {
    await withChange(async (folder) => {
      const options = { folder, file: "2026-03.tank", line: 3, column: 4 };
      const window = await fixture.open(options, [openReview, nameHistory]);
      const { keyboard } = window.page;
      await window.find('.view-line:has-text("nitrate 40")');
      await window.settled();
      await openView(window);
      await window.find("nitrate 40 mg/L in dam");
      await window.click('.view-line:has-text("nitrate 40")');
      await window.command(nameHistory.id);
      await window.find("History of dam");
      await window.find("not committed yet");
      await window.find("+ limits nitrate <= 25 mg/L");
      await keyboard.type("10 -> 20", { delay: 20 });
      await window.find("~ test: nitrate 10 -> 20");
      await window.settled();
      await keyboard.press("Enter");
      await window.find(".diff-editor, .monaco-diff-editor");
      await window.find('.view-line:has-text("nitrate 20")');
      assert.deepEqual(window.ownErrors(), []);
    });
  },
  slowMs,
);

test(
  "a folder without a repository, and one in which nothing is committed: what can be done is said",
  async (fixture) => {
    for (const isBegun of [false, true])
      await withRoom({ "room.tank": room, "2026-03.tank": log(10) }, {}, async (folder) => {
        if (isBegun) gitRepository(folder);
        const window = await fixture.open({ folder, file: "2026-03.tank", line: 3 }, [openReview]);
        await window.find('.view-line:has-text("nitrate 10")');
        await window.settled();
        await openView(window);
        if (isBegun) {
          await window.find("nothing committed yet");
          await window.find("room.tank is new");
        } else {
          await window.find("This logbook is in no git repository");
          await window.find('.pane:has([aria-label^="Log Review"]) >> text=Initialize Repository');
        }
        assert.deepEqual(window.ownErrors(), []);
      });
  },
  slowMs,
);

test(
  "a folder that is not trusted: git is not run, and the view says so",
  async (fixture) => {
    await withChange(async (folder) => {
      const window = await fixture.openUntrusted({ folder, file: "2026-03.tank", line: 3 }, [
        openReview,
        lineHistory,
      ]);
      await window.find('.view-line:has-text("nitrate 40")');
      await window.settled();
      await window.command(openReview.id);

      await window.find("git, which is not run in a folder that is not trusted");
      await window.find("Manage Workspace Trust");
      assert.deepEqual(window.ownErrors(), []);
    });
  },
  slowMs,
);
