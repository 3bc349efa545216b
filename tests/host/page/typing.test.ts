import { strict as assert } from "node:assert";
import type { EditorWindow } from "../window.ts";
import { test } from "./suite.ts";

/** The lines of the editor as they are to be seen, without hints. */
async function lines({ page }: EditorWindow): Promise<string[]> {
  return page.$$eval(".editor-instance .view-line", (all) =>
    all
      .map((line) => ({ top: line.getBoundingClientRect().top, text: line.textContent ?? "" }))
      .sort((a, b) => a.top - b.top)
      .map(({ text }) => text.replace(/\u00a0/g, " ")),
  );
}

test("what is due is written by keyboard alone", async ({ open }) => {
  const window = await open({ file: "2026-03.tank" });
  const { keyboard } = window.page;
  await window.find("1 due");
  await keyboard.press("Control+End");
  await keyboard.type("  ");
  await keyboard.press("Control+Space");
  await window.find('.suggest-widget.visible .monaco-list-row:has-text("dam change 35 %")');
  await keyboard.press("Enter");
  await window.find('.view-line:has-text("change 35 %") >> nth=1');
  const written = (await lines(window)).filter((line) => /dam\s+change 35 %/.test(line));
  assert.equal(written.length, 2, written.join("\n"));
  await window.find("0 due");
  assert.deepEqual(window.ownErrors(), []);
  await window.close();
});

test("a slip of the finger is marked, and mended from the light bulb by keyboard", async ({ open }) => {
  const window = await open({ file: "2026-03.tank", line: 7, column: 10 });
  const { keyboard } = window.page;
  await keyboard.press("End");
  await keyboard.press("ArrowLeft");
  await keyboard.press("Backspace");
  await window.find(".squiggly-error");
  // The editor closes its list of fixes when hints come in below it: a keeper sees them first.
  await window.settled();
  await keyboard.press("Control+.");
  await window.find('.action-widget :text("7.2")');
  await keyboard.press("Enter");
  await window.find('.view-line:has-text("pH 7.2")');
  assert.deepEqual(window.ownErrors(), []);
  await window.close();
});
