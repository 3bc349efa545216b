import { expect, test } from "vitest";
import { boxCommandOf } from "../../../extension/views/board/box-keys.ts";
import { commandOf, keyHelp } from "../../../extension/views/board/keys.ts";
import { lineWith, pieces, shownWords } from "../../../extension/views/board/line.ts";
import { memoryShape, toBoardShape, toHostShape } from "../../../extension/views/board/messages.ts";
import { boardCard } from "../../../language/features/board/board.ts";
import { cellarView } from "../../support/cellar.ts";
import { placed } from "../preview/placed.ts";
import { task, way } from "./fixture.ts";

const measured = way("test", " nitrate ", ", pH ");

test("a line is its target, its words and what was typed; an empty box goes with what stands before it", () => {
  const of = task("dam", [measured]);
  expect(lineWith(of, measured, ["18", "7.2"])).toBe("dam test nitrate 18, pH 7.2");
  expect(lineWith(of, measured, ["", " 7.2 "])).toBe("dam test pH 7.2");
  expect(lineWith(of, measured, ["18"])).toBe("dam test nitrate 18");
  expect(lineWith(of, measured, ["", " "])).toBeUndefined();
  const dose = { words: "dose salt", blanks: [{ before: " ", label: "g", last: "" }], end: " g" };
  expect(lineWith(task("q1", [dose]), dose, ["40"])).toBe("q1 dose salt 40 g");
  expect(lineWith(task("@rack", [way("feed flake")]), way("feed flake"), [])).toBe("@rack feed flake");
});

test("before anything is typed it shows where", () => {
  const of = task("dam", [measured]);
  expect(shownWords(of, measured)).toBe("dam test nitrate …, pH …");
  expect(shownWords(of, measured, "dam")).toBe("test nitrate …, pH …");
  expect(shownWords(of, measured, "da")).toBe("dam test nitrate …, pH …");
  expect(pieces(of, measured)).toEqual(["dam test nitrate ", ", pH ", ""]);
});

const stroke = (key: string, held: Partial<Parameters<typeof commandOf>[0]> = {}) => ({
  key,
  shiftKey: false,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  ...held,
});

test("keys are the board's own only where nothing else is held; the page of keys knows each letter", () => {
  expect(commandOf(stroke("d"))).toBe("log");
  expect(commandOf(stroke("D", { shiftKey: true }))).toBeUndefined();
  expect(commandOf(stroke("d", { ctrlKey: true }))).toBeUndefined();
  expect(commandOf(stroke("a", { metaKey: true }))).toBe("markAll");
  expect(commandOf(stroke("?", { shiftKey: true }))).toBe("help");
  expect(commandOf(stroke("ArrowDown", { shiftKey: true }))).toBe("extendDown");
  const told = keyHelp.map(([keys]) => keys).join(" ");
  for (const letter of "abcdefghijklmnopqrstuvwxyz")
    if (commandOf(stroke(letter)) !== undefined)
      expect(told).toMatch(new RegExp(`\\b${letter.toUpperCase()}\\b`));
});

test("in a box letters are typed", () => {
  expect(boxCommandOf(stroke("d"))).toBe("type");
  expect(boxCommandOf(stroke("Enter"))).toBe("nextOrLog");
  expect(boxCommandOf({ ...stroke("Enter"), isComposing: true })).toBeUndefined();
  expect(boxCommandOf(stroke("v", { ctrlKey: true }))).toBeUndefined();
});

test("the board of the sample passes the check, whole", () => {
  const { checked, ...view } = cellarView("room.tank");
  const card = placed(checked, boardCard({ checked, ...view }));
  const say = { say: "card", card, uri: "file:///log.tank", edition: 0, back: 0 };
  expect(toBoardShape.parse(say)).toEqual(say);
  expect((card as { stops: unknown[] }).stops.length).toBeGreaterThan(0);
});

test("what is no message is refused, and what is remembered badly is forgotten", () => {
  expect(toHostShape.safeParse({ say: "log", ask: 1, lines: ["dam change"] }).success).toBe(false);
  expect(toHostShape.safeParse({ say: "show", about: {} }).success).toBe(false);
  expect(memoryShape.safeParse({ marks: "all" }).success).toBe(false);
  expect(memoryShape.parse({}).marks).toEqual([]);
});
