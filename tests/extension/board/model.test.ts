import { describe, expect, test } from "vitest";
import { memoryShape } from "../../../extension/views/board/messages.ts";
import { Model } from "../../../extension/views/board/model.ts";
import type { Card } from "../../../extension/views/board/shown.ts";
import { card, day, stop, task, way } from "./fixture.ts";

function modelOf(of: Card = day): Model {
  const model = new Model(memoryShape.parse({}));
  model.take(of, 0);
  return model;
}

const lines = (wish: ReturnType<Model["log"]>): readonly string[] =>
  wish.is === "send" ? wish.lines.map(({ line }) => line) : [wish.is];

describe("going through the rows", () => {
  test("begins at the first thing to do, and stops at both ends", () => {
    const model = modelOf();
    expect(model.memory.focus).toBe("stop pond/pond clean");
    model.move(-100);
    expect(model.memory.focus).toBe("stop pond");
    model.move(100);
    expect(model.memory.focus).toBe("feeds/tub feed");
  });

  test("by tank goes to what is first there, and back over the own beginning", () => {
    const model = modelOf();
    model.moveSection(1);
    expect(model.memory.focus).toBe("stop tub/tub clean");
    model.moveSection(1);
    expect(model.memory.focus).toBe("feeds/pond feed");
    model.move(1);
    model.moveSection(-1);
    expect(model.memory.focus).toBe("feeds/pond feed");
    model.moveSection(-1);
    expect(model.memory.focus).toBe("stop tub/tub clean");
  });

  test("a part that is folded is one row, and keeps the focus of what was in it", () => {
    const model = modelOf();
    model.fold("stop pond", true);
    expect(model.memory.focus).toBe("stop pond");
    model.moveSection(1);
    model.moveSection(-1);
    expect(model.memory.focus).toBe("stop pond");
    model.fold("stop pond", false);
    expect(model.rows.map(({ key }) => key)).toContain("stop pond/pond test");
  });
});

describe("logging", () => {
  test("what has the focus is logged as usual, and the next thing has it then", () => {
    const model = modelOf();
    expect(lines(model.log())).toEqual(["pond clean glass"]);
    model.moveOn();
    expect(model.memory.focus).toBe("stop pond/pond test");
    model.logged(model.ask, 1);
    expect(model.rows.map(({ key }) => key)).not.toContain("stop pond/pond clean");
  });

  test("another usual way is written when it was chosen", () => {
    const model = modelOf();
    model.turnWay(model.task!, 1);
    expect(lines(model.log())).toEqual(["pond clean glass, gravel"]);
  });

  test("what was logged does not come back with a card that was made before, and does with one that knows of it", () => {
    const model = modelOf();
    model.log();
    model.logged(model.ask, 1);
    model.take(day, 0);
    expect(model.rowOf("pond clean")).toBeUndefined();
    model.take(day, 1);
    expect(model.rowOf("pond clean")).toBeDefined();
  });

  test("what is being logged is not logged twice", () => {
    const model = modelOf();
    model.log();
    expect(model.log().is).toBe("nothing");
  });

  test("marked things are logged at once, from wherever the focus is", () => {
    const model = modelOf();
    model.moveTo("feeds");
    model.markAll();
    model.move(-100);
    expect(lines(model.log())).toEqual(["pond feed flake", "tub feed flake"]);
    expect(model.memory.marks).toEqual([]);
  });

  test("all of a part, then all of the board; all of one kind", () => {
    const model = modelOf();
    model.markAll();
    expect(model.memory.marks).toEqual(["pond clean", "pond test"]);
    model.markAll();
    expect(model.memory.marks).toHaveLength(6);
    model.clearMarks();
    expect(model.markKind()).toBe("clean");
    expect(model.memory.marks).toEqual(["pond clean", "tub clean"]);
  });

  test("rows are marked one by one with the focus, heads aside", () => {
    const model = modelOf();
    model.extend(1);
    model.extend(1);
    model.extend(1);
    expect(model.memory.focus).toBe("stop tub/tub clean");
    expect(model.memory.marks).toEqual(["pond clean", "pond test", "tub clean"]);
  });

  test("a head stands for all below it", () => {
    const model = modelOf();
    model.move(-1);
    model.toggle(model.focused!);
    expect(model.memory.marks).toEqual(["pond clean", "pond test"]);
    expect(model.isMarked(model.focused!)).toBe(true);
    model.toggle(model.focused!);
    expect(model.memory.marks).toEqual([]);
  });
});

describe("boxes", () => {
  test("a thing that has to be measured opens them, and is logged with what was typed", () => {
    const model = modelOf();
    model.move(1);
    expect(model.log().is).toBe("boxes");
    expect(model.logBoxes().is).toBe("nothing");
    model.setTyped(model.task!, 1, "7.2");
    expect(lines(model.logBoxes())).toEqual(["pond test pH 7.2"]);
  });

  test("those of all marked things are gone through in one pass; what is left empty is not logged", () => {
    const model = modelOf();
    model.markAll();
    model.markAll();
    expect(model.log().is).toBe("boxes");
    const [pond] = model.batch().filter((each) => model.isOpen(each));
    model.setTyped(pond!, 0, "18");
    expect(lines(model.logBoxes())).toEqual([
      "pond clean glass",
      "pond test nitrate 18",
      "tub clean glass",
      "pond feed flake",
      "tub feed flake",
    ]);
  });

  test("a refusal leaves marks, boxes and what was typed as they were", () => {
    const model = modelOf();
    model.markAll();
    model.log();
    const test = model.batch().find((each) => model.isOpen(each))!;
    model.setTyped(test, 0, "1o");
    model.logBoxes();
    model.moveOn();
    model.refuse(model.ask, [{ key: test.key, message: "1o is no number" }]);
    expect(model.memory.focus).toBe("stop pond/pond test");
    expect(model.refused.get("pond test")).toBe("1o is no number");
    expect(model.isOpen(test)).toBe(true);
    expect(model.typedOf(test)[0]).toBe("1o");
    expect(model.memory.marks).toEqual(["pond clean", "pond test"]);
    model.setTyped(test, 0, "10");
    expect(lines(model.logBoxes())).toEqual(["pond clean glass", "pond test nitrate 10"]);
  });

  test("closed boxes keep what was typed; another day does not", () => {
    const model = modelOf();
    model.move(1);
    model.log();
    model.setTyped(model.task!, 0, "18");
    model.closeBoxes();
    expect(model.isOpen(model.task!)).toBe(false);
    model.log();
    expect(model.typedOf(model.task!)[0]).toBe("18");
    model.take({ ...day, day: day.day + 1 }, 0);
    expect(model.typedOf(model.task!)).toEqual([]);
  });
});

describe("another card", () => {
  test("keeps focus, marks, boxes and what was typed with their tasks", () => {
    const model = modelOf();
    model.markAll();
    model.move(1);
    model.log();
    model.setTyped(model.task!, 0, "18");
    const more = card({ ...day, stops: [stop("brook", task("brook", [way("clean glass")])), ...day.stops] });
    model.take(more, 0);
    expect(model.memory.focus).toBe("stop pond/pond test");
    expect(model.memory.marks).toEqual(["pond clean", "pond test"]);
    expect(model.isOpen(model.task!)).toBe(true);
    expect(model.typedOf(model.task!)[0]).toBe("18");
  });

  test("without the row of the focus gives it to what followed", () => {
    const model = modelOf();
    model.move(1);
    model.take({ ...day, stops: [stop("pond", day.stops[0]!.tasks[0]!), day.stops[1]!] }, 0);
    expect(model.memory.focus).toBe("stop tub");
    model.take(card(), 0);
    expect(model.memory.focus).toBe("");
    expect(model.log().is).toBe("nothing");
  });

  test("without a task takes it out of the marks", () => {
    const model = modelOf();
    model.markAll();
    model.take({ ...day, stops: [day.stops[1]!] }, 0);
    expect(model.memory.marks).toEqual([]);
  });
});
