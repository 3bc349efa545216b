import { strict as assert } from "node:assert";
import type { EditorWindow } from "../window.ts";
import { test } from "./suite.ts";

/** Working something out, by keyboard alone, in a real window. */

const workOut = { id: "standpipe.work.out" };
const list = ".quick-input-widget:visible .quick-input-list";

async function chosen(window: EditorWindow, name: string, ...values: readonly string[]): Promise<void> {
  const { keyboard } = window.page;
  await window.command(workOut.id);
  await window.find(`${list} >> text=Free ammonia`);
  await keyboard.type(name);
  await keyboard.press("Enter");
  await window.find('.quick-input-titlebar:has-text("Free ammonia")');
  for (const value of values) {
    await keyboard.press("Enter");
    await window.find(".quick-input-widget:visible .quick-input-message");
    await keyboard.press("Control+A");
    await keyboard.type(value);
    await keyboard.press("Enter");
    await window.find(`${list} >> text=${value.split(" ")[0]}`);
  }
}

test("a calculation is filled by keyboard, worked out, and written into today as one step", async ({
  open,
}) => {
  const window = await open({ file: "2026-03.tank", line: 7, column: 5 }, [workOut]);
  const { page } = window;
  const { keyboard } = page;
  // The tank at the cursor gives its pH of 7.2; what is missing is asked for in turn.
  await chosen(window, "free-ammonia", "0.5 mg/L", "25 C");
  await window.find(`${list} >> text=0.0054 mg/L NH3`);
  await keyboard.type("Write as a Note");
  await window.find(`${list} .monaco-list-row:has-text("Write as a Note into Today")`);
  await keyboard.press("Enter");
  await window.find('.view-line:has-text("free ammonia 0.0054 mg/L NH3")');
  await keyboard.press("Control+Z");
  await window.settled();
  assert.equal(await page.locator('.view-line:has-text("free ammonia 0.0054 mg/L NH3")').count(), 0);
  assert.deepEqual(window.ownErrors(), []);
  await window.close();
});

test("a value that cannot be is told while it is typed, and is not taken", async ({ open }) => {
  const window = await open({ file: "2026-03.tank", line: 7, column: 5 }, [workOut]);
  const { keyboard } = window.page;
  await chosen(window, "free-ammonia");
  await keyboard.press("Enter");
  await window.find(".quick-input-widget:visible .quick-input-message");
  await keyboard.press("Control+A");
  await keyboard.type("5 dKH");
  await window.find("dKH is a hardness or alkalinity");
  await keyboard.press("Escape");
  await window.find(`${list} >> text=total ammonia`);
  await window.close();
});
