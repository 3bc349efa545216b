import { strict as assert } from "node:assert";
import { test } from "./suite.ts";

test("a logbook opens as text, and nothing of ours complains on the console", async ({ open }) => {
  const window = await open({ file: "room.tank" });
  await window.find('.view-line:has-text("Test room")');
  await window.settled();
  assert.deepEqual(window.ownErrors(), []);
});
