import { strict as assert } from "node:assert";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { dayOf } from "../../../language/book/dates.ts";
import { CheckedLogbook } from "../../../language/checks/check.ts";
import { roundSheet } from "../../../language/features/round-sheet.ts";
import { roundSheetHtml } from "../../../language/features/round-sheet-html.ts";
import { launchBrowser } from "../browser.ts";
import { test } from "./suite.ts";

/** Days of the sample: its last, one on which half of the room is held, and one with much to do. */
const days = ["2026-03-31", "2025-10-05", "2026-03-06"];

test("the round sheet of 24 tanks prints on one side of A4", async () => {
  const folder = join(import.meta.dirname, "../../../samples/cellar");
  const logbook = new CheckedLogbook();
  for (const name of readdirSync(folder).filter((each) => each.endsWith(".tank")))
    logbook.set(name, readFileSync(join(folder, name), "utf8"));
  const browser = await launchBrowser();
  try {
    const page = await browser.newPage();
    for (const day of days) {
      logbook.logbook.asOf = dayOf(day);
      const sheet = roundSheet(logbook, dayOf(day));
      assert.ok(sheet.rows.filter(({ isTank }) => isTank).length >= 24, "tanks");
      await page.setContent(roundSheetHtml([sheet]));
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
      assert.equal(pdf.match(/\/Type\s*\/Page\b/g)?.length, 1, `sides on ${day}`);
      assert.match(pdf, /\/MediaBox\s*\[\s*0 0 59[45](\.\d+)? 84[12](\.\d+)?\s*\]/);
    }
  } finally {
    await browser.close();
  }
});
