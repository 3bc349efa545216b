import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { figureKinds } from "../../language/features/figures/row.ts";
import { tokenModifiers, tokenTypes } from "../../language/features/semantic-tokens.ts";
import { findingsOf } from "../support/marked.ts";

const root = join(import.meta.dirname, "../../extension");
const json = (file: string) => JSON.parse(readFileSync(join(root, file), "utf8"));
const manifest = json("package.json");
const words: Record<string, string> = json("package.nls.json");
const { contributes } = manifest;
const commands: { command: string; title: string; category: string }[] = contributes.commands;
const settings: Record<string, Record<string, unknown>> = Object.assign(
  {},
  ...contributes.configuration.map(({ properties }: { properties: object }) => properties),
);

/** Every string in a value. */
function strings(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(strings) : [];
}

describe("the manifest", () => {
  test("says everything to a person through its words, and has no word that is not used", () => {
    const used = new Set(strings(manifest).flatMap((text) => /^%(.+)%$/.exec(text)?.[1] ?? []));
    expect([...used].filter((key) => words[key] === undefined)).toEqual([]);
    expect(Object.keys(words).filter((key) => !used.has(key))).toEqual([]);
  });

  test("wakes for logbooks and commands only, in every workspace and on both hosts", () => {
    expect(manifest.activationEvents.filter((event: string) => !event.startsWith("onWebviewPanel:"))).toEqual(
      [],
    );
    expect(manifest.main).toBeDefined();
    expect(manifest.browser).toBeDefined();
    expect(manifest.capabilities).toEqual({
      untrustedWorkspaces: { supported: true },
      virtualWorkspaces: true,
    });
    expect(manifest.extensionKind).toBeUndefined();
  });

  test("asks for no newer editor than the types it is checked against", () => {
    const types = JSON.parse(readFileSync(join(root, "../node_modules/@types/vscode/package.json"), "utf8"));
    expect(manifest.engines.vscode).toBe(`^${types.version}`);
  });

  test("names files that are there", () => {
    const named = strings(contributes).filter((text) => /^(\.\/|media\/|walkthrough\/)/.test(text));
    expect(named.length).toBeGreaterThan(5);
    expect([...named, manifest.icon].filter((file: string) => !existsSync(join(root, file)))).toEqual([]);
  });

  test("has an icon of 256 by 256 pixels", () => {
    const png = readFileSync(join(root, manifest.icon));
    expect(png.toString("latin1", 1, 4)).toBe("PNG");
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([256, 256]);
  });
});

describe("commands", () => {
  test("have ids of our own, one category, and titles without the product's name", () => {
    for (const { command, title, category } of commands) {
      expect(command).toMatch(/^standpipe\.[a-z]+\.[a-z]+$/i);
      expect(category).toBe("Standpipe");
      expect(words[title.slice(1, -1)]).toMatch(/^[A-Z]/);
      expect(words[title.slice(1, -1)]).not.toMatch(/standpipe/i);
    }
  });

  test("in menus and the walkthrough are commands there are", () => {
    const ids = new Set(commands.map(({ command }) => command));
    const inMenus = Object.values(contributes.menus as Record<string, { command?: string }[]>).flat();
    for (const { command } of inMenus) if (command !== undefined) expect(ids).toContain(command);
    const linked = Object.values(words).flatMap((text) =>
      [...text.matchAll(/\(command:(standpipe[\w.]+)\)/g)].map(([, id]) => id),
    );
    expect(linked.length).toBeGreaterThan(2);
    for (const id of linked) expect(ids).toContain(id);
  });

  test("show in the palette where they work, and in an editor's menus on a logbook only", () => {
    const { commandPalette, ...menus } = contributes.menus;
    const limited = new Set(commandPalette.map(({ command }: { command: string }) => command));
    // A new logbook can be made anywhere.
    expect(commands.map(({ command }) => command).filter((id) => !limited.has(id))).toEqual([
      "standpipe.logbook.new",
    ]);
    for (const place of ["editor/title", "editor/context"])
      for (const item of menus[place]) expect(item.when).toMatch(/editorLangId == standpipe|standpipe\.\w+/);
  });

  test("take few keys, and none that is the editor's", () => {
    for (const { when } of contributes.keybindings ?? []) expect(when).toMatch(/standpipe/);
    expect((contributes.keybindings ?? []).length).toBeLessThanOrEqual(2);
  });
});

describe("settings", () => {
  test("have a type, a default, a scope and a description, under titles that are not “Settings”", () => {
    for (const [key, setting] of Object.entries(settings)) {
      expect(key).toMatch(/^standpipe\.[a-zA-Z]+(\.[a-zA-Z]+)?$/);
      expect(setting, key).toMatchObject({
        type: expect.anything(),
        scope: expect.anything(),
        markdownDescription: expect.anything(),
      });
      expect(setting.default, key).toBeDefined();
    }
    for (const { title } of contributes.configuration)
      expect(words[title.slice(1, -1)]).not.toMatch(/settings/i);
  });

  test("are changed for logbooks only", () => {
    expect(Object.keys(contributes.configurationDefaults)).toEqual(["[standpipe]"]);
  });
});

describe("colours", () => {
  test("of the server have a standard type each and scopes for themes that know none of them", () => {
    const declared = contributes.semanticTokenTypes.map(
      ({ id, superType }: { id: string; superType: string }) => [id, superType],
    );
    expect(declared).toEqual(
      Object.entries(tokenTypes).map(([type, standard]) => [`standpipe-${type}`, standard]),
    );
    const [{ language, scopes }] = contributes.semanticTokenScopes;
    expect(language).toBe("standpipe");
    for (const [id] of declared) expect(scopes[id], id).toHaveLength(1);
    const own = tokenModifiers.filter((modifier) => modifier !== "definition");
    expect(contributes.semanticTokenModifiers.map(({ id }: { id: string }) => id)).toEqual(own);
  });
});

describe("hints", () => {
  test("can be turned off one by one, each kind there is", () => {
    const kinds = Object.keys(settings).flatMap(
      (key) => /^standpipe\.hints\.(?!enabled)(.+)$/.exec(key)?.[1] ?? [],
    );
    expect(kinds).toEqual([...figureKinds]);
  });
});

describe("the walkthrough", () => {
  test("has at most six steps, each with a picture in the theme's colours and a button", () => {
    const [{ steps }] = contributes.walkthroughs;
    expect(steps.length).toBeLessThanOrEqual(6);
    for (const { media, description } of steps) {
      const picture = readFileSync(join(root, media.svg), "utf8");
      expect(picture).toContain("var(--vscode-");
      expect(picture).not.toMatch(/<script|href=|url\(/);
      expect(words[description.slice(1, -1)]).toMatch(/\]\(command:/);
    }
  });
});

describe("snippets and the sample", () => {
  test("each snippet, with what it offers left as it is, is a log without a finding about its text", () => {
    for (const [name, { body }] of Object.entries<{ body: string[] }>(json("snippets/standpipe.json"))) {
      const text = body
        .join("\n")
        .replace("$CURRENT_YEAR-$CURRENT_MONTH-$CURRENT_DATE", "2026-03-01")
        .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, "$1")
        .replace(/\$\{\d+:([^}]*)\}/g, "$1")
        .replace(/\$0/g, "");
      const isInDay = text.startsWith("sheet");
      const log = isInDay ? `tank tank\n  volume 9 L\n2026-03-01\n${text.replace(/^/gm, "  ")}` : text;
      expect(findingsOf(log, "2026-03-01").map(({ code, message }) => `${name}: ${code} ${message}`)).toEqual(
        [],
      );
    }
  });

  test("the sample that is packed is the sample of the repository", () => {
    const text = (file: string) => readFileSync(join(root, file), "utf8");
    expect(text("media/first-days.tank")).toBe(text("../samples/first-day/logbook.tank"));
  });
});
