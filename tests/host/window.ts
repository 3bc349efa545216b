/** One window of a served editor in a headless browser, driven from outside: by its address, keys and what it shows. */

import { mkdir, writeFile } from "node:fs/promises";
import { isAbsolute, join } from "node:path";
import type { Browser, BrowserContext, Frame, Locator, Page } from "playwright-core";
import type { ServedEditor } from "../../extension/build/served-editor.ts";

export interface WindowOptions {
  readonly folder: string;
  /** Opened at once; a relative path is below the folder. */
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  /** The folder of the extension under development. */
  readonly extension?: string;
  /** Further options of the window's address. */
  readonly payload?: readonly (readonly [option: string, value: string])[];
  readonly size?: { readonly width: number; readonly height: number };
  /** Pixels of a picture for one of the window. */
  readonly scale?: number;
  /** Hangs on the page before it loads. */
  readonly prepare?: (page: Page) => Promise<void>;
}

const OURS =
  /standpipe\.standpipe|\/(client|server)-(node|browser)\.c?js|\/webview\/\w+\.(js|css)|\.tank\b|Content Security/;
const OPEN_LIMIT_MS = 60_000;
/** Pixels from which on the middle of a thing need not hold anything. */
const WIDE = 400;
const FIND_LIMIT_MS = 30_000;

/** A file or folder of this machine as the served editor calls it. */
export function remote(editor: ServedEditor, path: string): string {
  return `vscode-remote://${editor.authority}${path}`;
}

export class EditorWindow {
  readonly page: Page;
  /** What the page and its webviews wrote to the console as errors, and errors nobody caught. */
  readonly errors: string[] = [];
  readonly #context: BrowserContext;
  readonly #commandKeys: ReadonlyMap<string, string>;

  private constructor(context: BrowserContext, page: Page, commandKeys: ReadonlyMap<string, string>) {
    this.#context = context;
    this.#commandKeys = commandKeys;
    this.page = page;
    page.on("console", (message) => {
      if (message.type() === "error") this.errors.push(`${message.text()} (${message.location().url})`);
    });
    page.on("pageerror", (error) => this.errors.push(error.stack ?? error.message));
  }

  /** Opens a window; `commands` are those that `command` may be asked for, each with its argument if it takes one. */
  static async open(
    browser: Browser,
    editor: ServedEditor,
    options: WindowOptions,
    commands: readonly Command[] = [],
  ): Promise<EditorWindow> {
    const commandKeys = await bindKeys(editor.profile, commands);
    const context = await browser.newContext({
      viewport: options.size ?? { width: 1280, height: 800 },
      deviceScaleFactor: options.scale ?? 1,
      locale: "en-GB",
      permissions: ["clipboard-read", "clipboard-write"],
    });
    const window = new EditorWindow(context, await context.newPage(), commandKeys);
    await options.prepare?.(window.page);
    await window.page.goto(editor.url(options.folder, payload(editor, options)));
    await window.page.locator(".monaco-workbench .part.editor").waitFor({ timeout: OPEN_LIMIT_MS });
    if (options.file)
      await window.page.locator(".monaco-editor .view-line").first().waitFor({ timeout: OPEN_LIMIT_MS });
    return window;
  }

  /** Runs a command by its id, as if by a key bound to it; resolves when the key is pressed. */
  async command(id: string): Promise<void> {
    const key = this.#commandKeys.get(id);
    if (!key) throw new Error(`${id} is not among the commands this window was opened with`);
    await this.page.keyboard.press(key);
  }

  /** The first visible thing, in the window or in any webview, that a CSS selector or else a text finds; waits for it. */
  async find(what: string, limitMs = FIND_LIMIT_MS): Promise<Locator> {
    const deadline = Date.now() + limitMs;
    for (;;) {
      for (const frame of this.page.frames()) {
        const found = await visible(frame, what);
        if (found) return found;
      }
      if (Date.now() > deadline) throw new Error(`Not to be seen within ${limitMs / 1000} s: ${what}`);
      await this.page.waitForTimeout(50);
    }
  }

  /** Clicks on what `find` finds. */
  async click(what: string): Promise<void> {
    const { x, y } = await this.#middle(what);
    await this.page.mouse.click(x, y);
  }

  /** Rests the pointer on what `find` finds. */
  async hover(what: string): Promise<void> {
    const { x, y } = await this.#middle(what);
    await this.page.mouse.move(x, y);
  }

  /**
   * Where to point at something. Not by the driver's own click, which first scrolls the thing into view, and with it
   * the editor's panes, which are not meant to be scrolled.
   */
  async #middle(what: string): Promise<{ x: number; y: number }> {
    const box = await (await this.find(what)).boundingBox();
    if (!box) throw new Error(`Without extent: ${what}`);
    // A line of the editor is as wide as the longest: its own text is at its left.
    const x = box.x + (box.width > WIDE ? WIDE / 10 : box.width / 2);
    return { x, y: box.y + box.height / 2 };
  }

  /** Resolves when nothing in the window or its webviews has changed for a while. */
  async settled(quietMs = 700, limitMs = 20_000): Promise<void> {
    const frames = this.page.frames();
    // A frame that goes away while we look at it has settled as well.
    await Promise.all(
      frames.map((frame) => frame.evaluate(untilQuiet, { quietMs, limitMs }).catch(() => {})),
    );
  }

  /** The errors that are about the extension; the served editor has some of its own, about itself. */
  ownErrors(): string[] {
    return this.errors.filter((error) => OURS.test(error));
  }

  async close(): Promise<void> {
    await this.#context.close();
  }
}

/** A command's id, with its one argument if it takes one. */
export interface Command {
  readonly id: string;
  readonly argument?: unknown;
}

/** A key for each command, written to the profile's key bindings; none is a key the editor uses. */
async function bindKeys(profile: string, commands: readonly Command[]): Promise<ReadonlyMap<string, string>> {
  // A webview takes C, V, X and Z for the clipboard and undoing, whatever else is held, and passes them on to nobody.
  const letters = "ABDEFGHIJKLMNOPQRSTUWY";
  const bound = commands.map(({ id, argument }, index) => ({
    key: `ctrl+shift+alt+${letters.charAt(index).toLowerCase()}`,
    command: id,
    args: argument,
  }));
  if (bound.length > letters.length) throw new Error(`At most ${letters.length} commands in one window`);
  const folder = join(profile, "data", "User");
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, "keybindings.json"), JSON.stringify(bound));
  return new Map(commands.map(({ id }, index) => [id, `Control+Shift+Alt+${letters.charAt(index)}`]));
}

function payload(editor: ServedEditor, options: WindowOptions): readonly (readonly [string, string])[] {
  const { extension, file, folder, line, column = 1 } = options;
  const path = file && (isAbsolute(file) ? file : join(folder, file));
  return [
    ...(extension ? [["extensionDevelopmentPath", remote(editor, extension)] as const] : []),
    ...(path && line ? [["gotoLineMode", "true"] as const] : []),
    ...(path ? [["openFile", remote(editor, line ? `${path}:${line}:${column}` : path)] as const] : []),
    ...(options.payload ?? []),
  ];
}

async function visible(frame: Frame, what: string): Promise<Locator | undefined> {
  for (const look of [() => frame.locator(what), () => frame.getByText(what)]) {
    try {
      for (const one of await look().all()) if (await one.isVisible()) return one;
    } catch {
      // Not a selector, or the frame went away: the next look, or the next round, will tell.
    }
  }
  return undefined;
}

/** Runs in the page. */
function untilQuiet({ quietMs, limitMs }: { quietMs: number; limitMs: number }): Promise<void> {
  return new Promise<void>((resolve) => {
    const finish = () => {
      observer.disconnect();
      clearTimeout(calm);
      clearTimeout(end);
      resolve();
    };
    let calm = setTimeout(finish, quietMs);
    const end = setTimeout(finish, limitMs);
    const observer = new MutationObserver(() => {
      clearTimeout(calm);
      calm = setTimeout(finish, quietMs);
    });
    observer.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
  });
}
