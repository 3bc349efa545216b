import { describe, expect, test } from "vitest";
import { Progress } from "../../language/cli/progress.ts";
import { terminalOf } from "../../language/cli/terminal.ts";
import type { World } from "../../language/cli/world.ts";
import { atDesk, bad, cellar, folderOf, room, standpipe } from "./support.ts";

const csi = "\u001b[";

function world(isTTY: boolean, env: Record<string, string> = {}, columns?: number): World {
  const stream = { isTTY, columns, write: () => {} };
  return { cwd: "/", env, day: 0, out: stream, err: stream, input: async () => new Uint8Array() };
}

describe("colour", () => {
  const isOn = (isTTY: boolean, env: Record<string, string>, choice: "auto" | "always" | "never" = "auto") =>
    terminalOf(world(isTTY, env), choice, false).paint("error", "x") !== "x";

  test("is on a terminal only, and not where NO_COLOR or a dumb terminal forbids it", () => {
    expect(isOn(true, {})).toBe(true);
    expect(isOn(false, {})).toBe(false);
    expect(isOn(true, { NO_COLOR: "1" })).toBe(false);
    expect(isOn(true, { NO_COLOR: "" })).toBe(true);
    expect(isOn(true, { TERM: "dumb" })).toBe(false);
  });

  test("is what --color says before anything else", () => {
    expect(isOn(false, { NO_COLOR: "1" }, "always")).toBe(true);
    expect(isOn(true, {}, "never")).toBe(false);
  });

  test("is not in what goes through a pipe, unless it is asked for", async () => {
    expect((await standpipe(["today", cellar])).out).not.toContain(csi);
    expect((await standpipe(["check", cellar, "--color", "always"])).out).toContain(`${csi}`);
    expect((await standpipe(["check", cellar, "--json", "--color", "always"])).out).not.toContain(csi);
  });

  test("changes nothing but the colour", async () => {
    for (const words of [["today"], ["tank", "ford"], ["check"], ["why", "ford", "nitrate"]]) {
      const bare = await atDesk([...words, cellar, "--color", "never"], { columns: 70 });
      const painted = await atDesk([...words, cellar], { columns: 70 });
      expect(painted.out).toContain(csi);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
      expect(painted.out.replace(/\u001b\[\d+m/g, "")).toBe(bare.out);
    }
  });
});

describe("the width", () => {
  test("is that of the terminal, else what COLUMNS says, else not known", () => {
    expect(terminalOf(world(true, { COLUMNS: "50" }, 90), "auto", false).columns).toBe(90);
    expect(terminalOf(world(false, { COLUMNS: "50" }), "auto", false).columns).toBe(50);
    expect(terminalOf(world(false, { COLUMNS: "wide" }), "auto", false).columns).toBeUndefined();
    expect(terminalOf(world(true, {}, 3), "auto", false).columns).toBe(24);
  });
});

describe("signs beyond ASCII", () => {
  const has = (env: Record<string, string>, isAscii = false) =>
    terminalOf(world(true, env), "auto", isAscii).hasSigns;

  test("are shown unless the locale or the console cannot", () => {
    expect(has({})).toBe(true);
    expect(has({ LANG: "de_DE.UTF-8" })).toBe(true);
    expect(has({ LANG: "de_DE.UTF-8", LC_ALL: "C" })).toBe(false);
    expect(has({ LC_CTYPE: "en_US.ISO-8859-1" })).toBe(false);
    expect(has({ TERM: "linux" })).toBe(false);
    expect(has({}, true)).toBe(false);
  });
});

describe("what is hostile", () => {
  test("in a log cannot write over the terminal", async () => {
    const evil = '  dam  note "\u001b[2J\u001b]0;x\u0007 \u202egnp" feed\n';
    const cwd = folderOf({ "room.tank": `${room}2026-03-01\n${evil}  \u001b[31mdam  tset\n` });
    for (const words of [["check"], ["today"], ["tank", "dam"]]) {
      const { out, err } = await standpipe(words, { cwd });
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there
      expect(out + err).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
    }
  });

  test("in a name is shown as it would be typed", async () => {
    const cwd = folderOf({ 'a\n\u001b[31m"b".tank': room + bad });
    const { out } = await standpipe(["check"], { cwd });
    expect(out).toContain('a\\n\\u001b[31m"b".tank:10:8  error  entry/kind');
    const { err } = await standpipe(["check", "\u001b[2Jx"], { cwd });
    expect(err).toBe("standpipe: \\u001b[2Jx: there is no such file or folder\n");
  });
});

describe("a bar of progress", () => {
  const bar = (isTTY: boolean, stepMs: number): string[] => {
    const written: string[] = [];
    const clock = { now: 0 };
    const progress = new Progress(
      { isTTY, columns: 60, write: (text) => void written.push(text) },
      false,
      () => clock.now,
    );
    for (let done = 1; done <= 10; done++) {
      clock.now += stepMs;
      progress.step("files read", done, 10);
    }
    progress.end();
    return written;
  };

  test("is shown of long work, and taken away at its end", () => {
    const written = bar(true, 200);
    expect(written.length).toBeGreaterThan(3);
    expect(written.at(-2)).toContain("######################## files read 10 of 10");
    expect(written.at(-1)).toBe("\r\u001b[K");
  });

  test("is not shown of short work, nor where there is no terminal", () => {
    expect(bar(true, 20)).toEqual([]);
    expect(bar(false, 200)).toEqual([]);
  });
});
