import { describe, expect, it } from "vitest";
import { hover } from "../../language/features/hover.ts";
import { atCursor } from "../support/cursor.ts";

describe("the hover of a lot", () => {
  it("shows its brood, its parents and its inbreeding", () => {
    const { view, offset } = atCursor(`tank b1
  volume 40 L
species praecox
  hatches 7..10 d at 25 C; base 10 C
lot blue-1
  sex male; father blue-0; mother gold-0
lot blue-2
  sex female; father blue-0; mother gold-0
2026-03-01
  b1 test temperature 25
  b1 spawn praecox 120 eggs lot p7 father blue-1 mother blue-2
2026-03-03
  b1 eggs praecox 96 lot p¦7`);
    const told = hover(view, offset)!.markdown.replaceAll("\\", "");
    expect(told).toContain("father blue-1, mother blue-2, inbreeding 25 %");
    expect(told).toContain("eggs in b1; hatch about 10 March (8 to 11 March)");
    expect(told).toContain("120 laid, 96 eggs alive");
    expect(told).toContain("alive of laid: 80 % of 120 (72 to 86 %)");
  });

  it("shows the young of a parent", () => {
    const { view, offset } = atCursor(`tank b1
  volume 40 L
lot blue¦-1
  sex male
2026-03-01
  b1 spawn praecox 120 eggs lot p7 father blue-1 mother gold-2`);
    const told = hover(view, offset)!.markdown.replaceAll("\\", "");
    expect(told).toContain("p7 eggs in b1 with gold-2");
  });
});
