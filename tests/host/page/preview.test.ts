/** The preview as its user meets it: in a real window, in each theme, by pointer and by keys. */

import { strict as assert } from "node:assert";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame, Page } from "playwright-core";
import { sampleRoom } from "../../../extension/build/places.ts";
import type { EditorWindow } from "../window.ts";
import { type Fixture, test } from "./suite.ts";
import {
  axeFindings as axeFindingsOf,
  breaches as breachesOf,
  frameWith,
  withRoom as inRoom,
  themes,
  watchBreaches,
} from "./webviews.ts";

const openPreview = { id: "standpipe.preview.open" };

for (const [name, theme] of Object.entries(themes)) {
  test(`the preview in the ${name} theme: nothing for axe, no breach of its policy`, async (fixture) => {
    const march = lineOf("2026-03.tank", /^\s+ford\s+test nitrate 35$/m);
    await withRoom({ "2026-03.tank": undefined }, theme, async (folder) => {
      const { window, frame, breaches } = await openBeside(fixture, folder, "2026-03.tank", march, "ford");
      for (const fold of await frame.locator("summary").all()) await fold.click();
      await window.settled();
      assert.deepEqual(await axeFindings(frame), []);
      await goToLine(window, lineOf("2026-03.tank", /^2026-03-31/m));
      await frame.getByRole("heading", { level: 1, name: "31 March 2026" }).waitFor();
      assert.deepEqual(await axeFindings(frame), []);
      assert.deepEqual(await breaches(), []);
      assert.deepEqual(window.ownErrors(), []);
      // Were there something, it would be seen.
      await frame.evaluate(() => {
        document.body.append(Object.assign(document.createElement("style"), { textContent: "p {}" }));
        document.body.append(document.createElement("img"));
      });
      assert.deepEqual(await breaches(), ["style-src-elem inline"]);
      assert.match((await axeFindings(frame)).join(), /image-alt: <img>/);
      await window.close();
    });
  });
}

test("the preview follows the cursor, and stays with a tank when it is pinned", async (fixture) => {
  await withRoom({ "room.tank": twoTanks }, themes.dark, async (folder) => {
    const { window, frame } = await openBeside(
      fixture,
      folder,
      "room.tank",
      lineIn(twoTanks, "pond test"),
      "pond",
    );
    await goToLine(window, lineIn(twoTanks, "tub test"));
    await frame.getByRole("heading", { level: 1, name: /^tub/ }).waitFor();
    await frame.getByRole("button", { name: "Stay with tub" }).click();
    await frame.locator('[data-key="pin"][aria-pressed="true"]').waitFor();
    await goToLine(window, lineIn(twoTanks, "pond test"));
    await window.settled();
    assert.equal(await frame.locator("h1").textContent(), "tubThe tub");
    await frame.getByRole("button", { name: "Stay with tub" }).click();
    await frame.getByRole("heading", { level: 1, name: /^pond/ }).waitFor();
    await window.close();
  });
});

test("an arrow key on a chart goes to a reading and says it; Enter goes to its line", async (fixture) => {
  await withRoom({ "room.tank": twoTanks }, themes.dark, async (folder) => {
    const { window, frame } = await openBeside(fixture, folder, "room.tank", 1, undefined);
    await goToLine(window, lineIn(twoTanks, "pond test"));
    const chart = frame.locator('[data-key="chart-nitrate"]');
    await chart.focus();
    await chart.press("ArrowLeft");
    const said = frame.locator('[role="status"]');
    await frame.getByText("8 March: <10 mg/L").first().waitFor();
    assert.equal(await said.textContent(), "8 March: <10 mg/L");
    await chart.press("ArrowLeft");
    assert.equal(await said.textContent(), "1 March: 60 mg/L, outside the limit");
    await chart.press("Enter");
    await window.find(
      `.line-numbers.active-line-number:has-text("${lineIn(twoTanks, "pond test nitrate 60")}")`,
    );
    await window.close();
  });
});

test("a click on an entry of a day goes to its line, and the day stays", async (fixture) => {
  await withRoom({ "room.tank": twoTanks }, themes.dark, async (folder) => {
    const day = lineIn(twoTanks, "2026-03-08");
    const { window, frame } = await openBeside(fixture, folder, "room.tank", day, "8 March");
    await frame.getByRole("button", { name: "change 30 %" }).click();
    const line = lineIn(twoTanks, "tub change 30 %");
    await window.find(`.line-numbers.active-line-number:has-text("${line}")`);
    await window.settled();
    await frame.getByRole("heading", { level: 1, name: /^8 March/ }).waitFor();
    await goToLine(window, lineIn(twoTanks, "pond test"));
    await frame.getByRole("heading", { level: 1, name: /^pond/ }).waitFor();
    await window.close();
  });
});

test("a tank is chosen by keys from a list, and stays", async (fixture) => {
  await withRoom({ "room.tank": twoTanks }, themes.dark, async (folder) => {
    const { window, frame } = await openBeside(
      fixture,
      folder,
      "room.tank",
      lineIn(twoTanks, "pond test"),
      "pond",
    );
    await frame.locator('[data-key="pick"]').focus();
    await window.page.keyboard.press("Enter");
    await window.find(".quick-input-widget");
    await window.page.keyboard.type("tub");
    await window.page.keyboard.press("Enter");
    await frame.getByRole("heading", { level: 1, name: /^tub/ }).waitFor();
    await frame.locator('[data-key="pin"][aria-pressed="true"]').waitFor();
    await window.close();
  });
});

test("what stands in a log is shown as text, whatever it is", async (fixture) => {
  await withRoom({ "room.tank": hostile }, themes.dark, async (folder) => {
    const { window, frame, breaches } = await openBeside(
      fixture,
      folder,
      "room.tank",
      lineIn(hostile, "pond note"),
      "pond",
    );
    assert.equal(await frame.locator("h1 small").textContent(), '<img src=x onerror="document.title=1">');
    assert.equal(await frame.locator("img, script[src='x'], iframe, a").count(), 0);
    await goToLine(window, lineIn(hostile, "2026-03-01"));
    const note = frame.getByRole("button", { name: /note/ });
    await note.waitFor();
    assert.equal(await note.textContent(), 'note "<script>1</script> U+202Etxet"');
    assert.equal(await note.locator(".code-point").count(), 1);
    assert.deepEqual(await breaches(), []);
    await window.close();
  });
});

test("a pinned preview is there again when the window is loaded anew", async (fixture) => {
  await withRoom({ "room.tank": twoTanks }, themes.dark, async (folder) => {
    const { window, frame } = await openBeside(
      fixture,
      folder,
      "room.tank",
      lineIn(twoTanks, "pond test"),
      "pond",
    );
    await frame.getByRole("button", { name: "Stay with pond" }).click();
    await frame.locator('[data-key="pin"][aria-pressed="true"]').waitFor();
    await window.page.waitForTimeout(storedMs);
    await window.page.goto(withoutFile(window.page.url()));
    const again = await previewFrame(window.page);
    await again.getByRole("heading", { level: 1, name: /^pond/ }).waitFor();
    await again.locator('[data-key="pin"][aria-pressed="true"]').waitFor();
    await window.close();
  });
});

const twoTanks = `room "Shed"
  as-of  last-entry
tank pond "The pond"
  volume  300 L
  limits  nitrate <= 50 mg/L
tank tub "The tub"
  volume  80 L

2026-03-01
  pond test nitrate 60
  tub test nitrate 10
2026-03-08
  pond test nitrate <10
  tub change 30 %
`;

const hostile = `room "Shed"
  as-of  last-entry
tank pond "<img src=x onerror=\\"document.title=1\\">"
  volume  300 L

2026-03-01
  pond note "<script>1</script> \u202etxet"
`;

interface Beside {
  readonly window: EditorWindow;
  readonly frame: Frame;
  /** What the pages' security policies refused since the window was opened. */
  readonly breaches: () => Promise<string[]>;
}

async function openBeside(
  { open }: Fixture,
  folder: string,
  file: string,
  line: number,
  tank: string | undefined,
): Promise<Beside> {
  const window = await open({ folder, file, line, prepare: watchBreaches }, [openPreview]);
  await window.find(".view-line");
  await window.command(openPreview.id);
  const frame = await previewFrame(window.page);
  if (tank !== undefined)
    await frame.getByRole("heading", { level: 1, name: new RegExp(`^${tank}`) }).waitFor();
  const breaches = (): Promise<string[]> => breachesOf(frame);
  return { window, frame, breaches };
}

const previewFrame = (page: Page): Promise<Frame> => frameWith(page, "#page header.top");

/** Words that lead somewhere stand in running text and lists, as low as their lines: their size is not asked for. */
const axeFindings = (frame: Frame): Promise<string[]> => axeFindingsOf(frame, "but sizes");

/** The editor writes down what is open some time after it changed, and tells nobody when. */
const storedMs = 6000;

/** The address of a window without the file it was to open: with it, what was open before is not restored. */
function withoutFile(address: string): string {
  const url = new URL(address);
  const options: [string, string][] = JSON.parse(url.searchParams.get("payload") ?? "[]");
  const kept = options.filter(([name]) => name !== "openFile" && name !== "gotoLineMode");
  url.searchParams.set("payload", JSON.stringify(kept));
  return url.href;
}

async function goToLine(window: EditorWindow, line: number): Promise<void> {
  const { page } = window;
  await page.locator(".monaco-editor").first().click();
  await page.keyboard.press("Control+g");
  // What is typed before the box is there would go into the log.
  await page.locator(".quick-input-widget input:focus").waitFor();
  await page.keyboard.type(String(line));
  await page.keyboard.press("Enter");
  await window.find(`.line-numbers.active-line-number:has-text("${line}")`);
}

/** A room of its own with a theme; files that are undefined are the sample's. */
const withRoom = (
  files: Readonly<Record<string, string | undefined>>,
  theme: string,
  use: (folder: string) => Promise<void>,
): Promise<void> => inRoom(files, { "workbench.colorTheme": theme }, use);

/** The number of a line of a sample file, from 1: the last that matches. */
function lineOf(file: string, pattern: RegExp): number {
  const lines = readFileSync(join(sampleRoom, file), "utf8").split("\n");
  const at = lines.findLastIndex((line) => pattern.test(line));
  assert(at >= 0, `${file} has no line like ${pattern}`);
  return at + 1;
}

const lineIn = (text: string, words: string): number =>
  text.split("\n").findIndex((line) => line.includes(words)) + 1;
