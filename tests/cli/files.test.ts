import { mkdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { shownFrom, textOf, type Unread, walk } from "../../language/cli/files.ts";
import { troubleWith } from "../../language/cli/world.ts";
import { folderOf } from "./support.ts";

/** The files found in a folder, as they are shown from it. */
function found(folder: string): string[] {
  const unread: Unread[] = [];
  const shown = shownFrom(folder, false);
  return [...walk(folder, unread, shown).map(shown), ...unread.map(({ message }) => `! ${message}`)];
}

describe("the files of a folder", () => {
  test("are those that end in .tank, at and below it, by name", () => {
    const folder = folderOf({
      "b.tank": "",
      "a/z.tank": "",
      "a.txt": "",
      "c.tank.old": "",
      "é/1 2.tank": "",
    });
    expect(found(folder)).toEqual(["a/z.tank", "b.tank", "é/1 2.tank"]);
  });

  test("are not those of node_modules and of folders with a dot", () => {
    const folder = folderOf({
      "node_modules/a.tank": "",
      ".git/a.tank": "",
      "x/.old/a.tank": "",
      ".b.tank": "",
    });
    expect(found(folder)).toEqual([".b.tank"]);
  });

  test("may be in a folder whose name ends like a file's", () => {
    expect(found(folderOf({ "a.tank/b.tank": "" }))).toEqual(["a.tank/b.tank"]);
  });

  test("are found once, however many links lead to them", () => {
    const folder = folderOf({ "a/1.tank": "" });
    symlinkSync(join(folder, "a"), join(folder, "b"));
    symlinkSync(join(folder, "a", "1.tank"), join(folder, "2.tank"));
    symlinkSync(folder, join(folder, "a", "up"));
    expect(found(folder)).toEqual(["a/1.tank"]);
  });

  test("are found through a link to what is not walked by itself", () => {
    const folder = folderOf({ ".kept/1.tank": "", "note.txt": "" });
    symlinkSync(join(folder, ".kept"), join(folder, "kept"));
    symlinkSync(join(folder, "note.txt"), join(folder, "2.tank"));
    expect(found(folder)).toEqual(["2.tank", "kept/1.tank"]);
  });

  test("are not those that a link outside leads to, and a link that leads nowhere is no trouble", () => {
    const outside = folderOf({ "1.tank": "", "sub/2.tank": "" });
    const folder = folderOf({ "a.tank": "" });
    symlinkSync(join(outside, "sub"), join(folder, "sub"));
    symlinkSync(join(outside, "1.tank"), join(folder, "1.tank"));
    symlinkSync(join(folder, "gone.tank"), join(folder, "b.tank"));
    expect(found(folder)).toEqual(["a.tank"]);
  });

  test("are found in a folder that is itself a link", () => {
    const folder = folderOf({ "a.tank": "" });
    const link = join(folderOf({}), "cellar");
    symlinkSync(folder, link);
    expect(found(link)).toEqual(["a.tank"]);
  });

  test("stay with a folder whose name begins like another's", () => {
    const folder = folderOf({ "room/a.tank": "", "room-2/b.tank": "" });
    symlinkSync(join(folder, "room-2"), join(folder, "room", "b"));
    expect(found(join(folder, "room"))).toEqual(["a.tank"]);
  });
});

describe("the text of a file", () => {
  const read = (...bytes: number[]): string => {
    try {
      return JSON.stringify(textOf(new Uint8Array(bytes), "a.tank"));
    } catch (error) {
      return (error as Error).message;
    }
  };

  test("is UTF-8, its byte order mark kept", () => {
    expect(read(0xef, 0xbb, 0xbf, 0x61)).toBe('"\ufeffa"');
    expect(read()).toBe('""');
  });

  test("is refused with the line that is not UTF-8", () => {
    expect(read(0x61, 0x0a, 0x62, 0x0a, 0xe9, 0x0a)).toBe(
      "a.tank:3: this line is not UTF-8; save the file as UTF-8",
    );
    expect(read(0xc3)).toBe("a.tank:1: this line is not UTF-8; save the file as UTF-8");
  });

  test("is refused if it is UTF-16, or no text", () => {
    expect(read(0xff, 0xfe, 0x61, 0x00)).toBe("a.tank: this is UTF-16; save it as UTF-8");
    expect(read(0x7f, 0x45, 0x4c, 0x46, 0x00)).toBe("a.tank: this is no text");
  });
});

describe("paths are shown", () => {
  test("from where the reader stands; what lies elsewhere whole, if they named it so", () => {
    const folder = folderOf({});
    mkdirSync(join(folder, "a"));
    expect(shownFrom(join(folder, "a"), false)(join(folder, "b.tank"))).toBe("../b.tank");
    expect(shownFrom(folder, false)(folder)).toBe(".");
    expect(shownFrom(folder, true)(join(folder, "b.tank"))).toBe("b.tank");
    expect(shownFrom(join(folder, "a"), true)(join(folder, "b.tank"))).toBe(join(folder, "b.tank"));
  });
});

test("what the system says is told in plain words", () => {
  const denied = Object.assign(new Error("EACCES: permission denied, open"), { code: "EACCES" });
  expect(troubleWith("a.tank", denied)).toBe("a.tank: you may not read or write this");
  expect(troubleWith("a.tank", new Error("strange"))).toBe("a.tank: strange");
});
