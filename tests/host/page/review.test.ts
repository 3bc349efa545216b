/** The review where the editor's own git is switched off, by the git command; and in a folder that nobody trusts. By keys alone. */

import { strict as assert } from "node:assert";
import { gitRepository } from "../../support/git-repository.ts";
import { test } from "./suite.ts";
import { withRoom } from "./webviews.ts";

const slowMs = 240_000;
const openReview = { id: "standpipe.review.open" };
const lineHistory = { id: "standpipe.history.line" };
const gitOff = { "git.enabled": false };

const room = 'room "Shed"\n  as-of last-entry\n\ntank dam\n  volume 100 L\n  limits nitrate <= 25 mg/L\n';
const log = (nitrate: number): string => `2026-03-01\n  dam clean\n  dam test nitrate ${nitrate}\n`;

/** A room with one reading put right since the last commit, and one before. */
async function withChange(use: (folder: string) => Promise<void>): Promise<void> {
  await withRoom({ "room.tank": room, "2026-03.tank": log(10) }, gitOff, async (folder) => {
    const repository = gitRepository(folder);
    repository.commit("Read");
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
