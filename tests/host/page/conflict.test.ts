/** A merge that left two versions of a line, by real git, with the editor's own lenses over its marks: by keys, up to the commit. */

import { strict as assert } from "node:assert";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gitRepository } from "../../support/git-repository.ts";
import { test } from "./suite.ts";
import { withRoom } from "./webviews.ts";

const slowMs = 240_000;
const quickFix = { id: "editor.action.quickFix" };
const save = { id: "workbench.action.files.save" };
const openPreview = { id: "standpipe.preview.open" };
const openGrid = { id: "standpipe.grid.open" };

const room = 'room "Shed"\n  as-of last-entry\n\ntank dam\n  volume 100 L\n';
const log = (percent: number): string => `2026-03-01\n  dam  change ${percent} %\n  dam  feed flake\n`;
const name = "2026-03.tank";

for (const style of ["merge", "diff3", "zdiff3"])
  test(
    `a merge conflict (${style}): one version counts meanwhile, views say so, and a quick fix settles it`,
    async (fixture) => {
      await withRoom({ "room.tank": room, [name]: log(20) }, { "git.enabled": true }, async (folder) => {
        const repository = gitRepository(folder);
        repository.git("config", "merge.conflictStyle", style);
        repository.commit("Changed");
        repository.git("checkout", "-q", "-b", "holiday");
        repository.commit("More", { [name]: log(50) });
        repository.git("checkout", "-q", "main");
        repository.commit("Less", { [name]: log(30) });
        assert.throws(() => repository.git("merge", "holiday"), /CONFLICT/);
        const commands = [quickFix, save, openPreview, openGrid];
        const window = await fixture.open({ folder, file: name, line: 3, column: 4 }, commands);
        await window.find("Accept Current Change");
        await window.find(".squiggly-error");
        await window.command(openPreview.id);
        await window.find("counts until you choose");
        await window.click('.view-line:has-text("30 %")');
        await window.command(quickFix.id);
        await window.find("Keep the version of “HEAD”");
        await window.click("Keep the version of “holiday”");
        await window.page.getByText("Accept Current Change").waitFor({ state: "hidden" });
        await window.command(save.id);
        const stored = (): string => readFileSync(join(folder, name), "utf8");
        for (let left = 100; left > 0 && stored() !== log(50); left--) await window.page.waitForTimeout(100);
        assert.equal(stored(), log(50));
        repository.git("add", name);
        repository.git("commit", "-q", "--no-edit");
        assert.equal(repository.git("status", "--porcelain", "--", name), "");
        assert.deepEqual(window.ownErrors(), []);
      });
    },
    slowMs,
  );

test(
  "the grid of a file with marks says so before it is written in",
  async (fixture) => {
    const marked = log(30)
      .replace("  dam  feed", "<<<<<<< HEAD\n  dam  feed")
      .concat("=======\n>>>>>>> holiday\n");
    await withRoom({ "room.tank": room, [name]: marked }, {}, async (folder) => {
      const window = await fixture.open({ folder, file: name, line: 2, column: 4 }, [openGrid]);
      await window.find('.view-line:has-text("change")');
      await window.command(openGrid.id);
      await window.find("A merge left two versions in this file.");
      assert.deepEqual(window.ownErrors(), []);
    });
  },
  slowMs,
);
