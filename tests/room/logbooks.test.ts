import { describe, expect, test } from "vitest";
import { logbookFolders } from "../../language/room/logbooks.ts";

/** `cellar/room.tank!` holds a room block. */
function folders(...files: string[]): Record<string, string> {
  const seen = files.map((file) => ({ path: file.replace("!", ""), hasRoom: file.endsWith("!") }));
  return Object.fromEntries(logbookFolders(seen));
}

describe("files of a logbook", () => {
  test("are those at and below the folder of the room", () => {
    expect(folders("cellar/room.tank!", "cellar/2026-03.tank", "cellar/old/2025-01.tank")).toEqual({
      "cellar/room.tank": "cellar",
      "cellar/2026-03.tank": "cellar",
      "cellar/old/2025-01.tank": "cellar",
    });
  });

  test("belong to the nearest room where one stands below another", () => {
    expect(folders("a/room.tank!", "a/shed/room.tank!", "a/shed/x/1.tank", "a/y/1.tank")).toEqual({
      "a/room.tank": "a",
      "a/shed/room.tank": "a/shed",
      "a/shed/x/1.tank": "a/shed",
      "a/y/1.tank": "a",
    });
  });

  test("without a room are one of their own folder", () => {
    expect(folders("1.tank", "a/1.tank", "a/2.tank", "a/b/1.tank", "c/room.tank!")).toEqual({
      "1.tank": "",
      "a/1.tank": "a",
      "a/2.tank": "a",
      "a/b/1.tank": "a/b",
      "c/room.tank": "c",
    });
  });

  test("may have a room in the folder that has no name", () => {
    expect(folders("room.tank!", "a/1.tank")).toEqual({ "room.tank": "", "a/1.tank": "" });
  });

  test("are not drawn in by a folder whose name only begins alike", () => {
    expect(folders("file:///r/cellar/room.tank!", "file:///r/cellar-2/1.tank")).toEqual({
      "file:///r/cellar/room.tank": "file:///r/cellar",
      "file:///r/cellar-2/1.tank": "file:///r/cellar-2",
    });
  });

  test("may stand in a folder of the caller's making", () => {
    const files = [
      { path: "untitled:1", hasRoom: true },
      { path: "untitled:2", hasRoom: false },
    ];
    expect([...logbookFolders(files, (path) => path).values()]).toEqual(["untitled:1", "untitled:2"]);
  });
});
