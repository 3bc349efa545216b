import { describe, expect, test } from "vitest";
import { Cursor } from "../../../extension/views/grid/cursor.ts";

describe("the cursor of the grid", () => {
  test("takes its anchor along unless it extends the selection", () => {
    const cursor = new Cursor();
    cursor.moveTo({ row: 2, col: 1 });
    expect(cursor.isOne).toBe(true);
    cursor.moveTo({ row: 4, col: 0 }, true);
    expect(cursor.box).toEqual({ top: 2, bottom: 4, left: 0, right: 1 });
    expect(cursor.has(3, 1)).toBe(true);
    expect(cursor.has(3, 2)).toBe(false);
    cursor.moveTo({ row: 0, col: 0 });
    expect(cursor.isOne).toBe(true);
  });

  test("moves with its row, and stays within what is there", () => {
    const cursor = new Cursor();
    cursor.select({ row: 8, col: 3 }, { row: 9, col: 5 });
    cursor.shift(2);
    expect([cursor.anchorRow, cursor.row]).toEqual([10, 11]);
    cursor.keepWithin(5, 2);
    expect(cursor.box).toEqual({ top: 4, bottom: 4, left: 1, right: 1 });
    cursor.keepWithin(0, 0);
    expect(cursor.box).toEqual({ top: 0, bottom: 0, left: 0, right: 0 });
  });

  test("in the heads is moved by no edit", () => {
    const cursor = new Cursor();
    cursor.moveTo({ row: -1, col: 1 });
    cursor.shift(3);
    cursor.keepWithin(5, 2);
    expect(cursor.row).toBe(-1);
  });
});
