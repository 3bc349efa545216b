import { expect, test } from "vitest";
import { calculationOf } from "../../language/calculations/registry.ts";
import { calculationItems, workOut } from "../../language/features/work-out.ts";
import { atCursor } from "../support/cursor.ts";

/** A calculation in the editor, filled from the tank at the cursor. */

const room = `room "Shed"
  units temperature F, ammonia mg/L NH4
tank dam "Show tank"
  volume 200 L
gear canister
  on dam
water tap
  content ammonia 0.1 mg/L NH4
2026-03-01
  dam test ammonia 0.5, pH 8, temperature 77
  q test pH 6
`;

const free = calculationOf("free-ammonia")!;

function out(marked: string, given: Record<string, string> = {}, tank?: string) {
  const { view, offset } = atCursor(`${room}${marked}`);
  return workOut(free, given, { view, offset, tank });
}

test("every calculation can be chosen from a list in its group", () => {
  const items = calculationItems();
  expect(items.length).toBeGreaterThan(0);
  for (const { name } of items) expect(calculationOf(name)).toBeDefined();
});

test("the tank at the cursor fills what it can, with what it counts and where it is from", () => {
  const { tank, inputs, figures, problems } = out("2026-03-02\n  dam cl¦ean glass\n");
  expect(tank).toBe("dam");
  expect(problems).toEqual([]);
  // 0.5 mg/L NH4 is 0.5 x 14.007 / 18.039 = 0.3882 mg/L N.
  expect(inputs.map(({ name, text, from }) => [name, text, from])).toEqual([
    ["total", "0.3882 mg/L N", "test of 1 March"],
    ["pH", "8", "test of 1 March"],
    ["temperature", "77 F", "test of 1 March"],
    ["salinity", "0", "where nothing is given"],
  ]);
  // 0.3882 x 0.05366 x 17.031 / 14.007.
  expect(figures[0]).toEqual({ name: "free", title: "free ammonia", text: "0.025 mg/L NH3" });
});

test("gear leads to the tank it serves, and a tank that is chosen goes before the cursor", () => {
  expect(out("2026-03-02\n  canister ser¦vice\n").tank).toBe("dam");
  expect(out('2026-03-02\n  room no¦te "x"\n').tank).toBe("");
  expect(out('2026-03-02\n  room no¦te "x"\n', {}, "dam").tank).toBe("dam");
});

test("what is typed goes before what is filled, and an empty text takes it back", () => {
  const typed = out("2026-03-02\n  dam cl¦ean\n", { pH: "7", total: " " });
  expect(typed.inputs.map(({ text, from }) => [text, from]).slice(0, 2)).toEqual([
    ["0.3882 mg/L N", "test of 1 March"],
    ["7", ""],
  ]);
});

test("a wrong value has its problem and no figures, and nothing to write", () => {
  const { problems, figures, lines } = out("2026-03-02\n  dam cl¦ean\n", { pH: "20" });
  expect(problems).toEqual([{ input: "pH", message: "pH: 20 is not within 0 to 14" }]);
  expect({ figures, lines }).toEqual({ figures: [], lines: [] });
});

test("the result may be written as a note of the tank, whatever is in it", () => {
  const [note] = out("2026-03-02\n  dam cl¦ean\n").lines;
  expect(note?.shown).toMatch(
    /^dam note "Free ammonia: free ammonia 0\.025 mg\/L NH3, .*; from total ammonia 0\.388\d* mg\/L N, pH 8, /,
  );
  expect(note?.snippet).not.toContain("${");
});

test("without a log a calculation asks for everything", () => {
  const { tank, inputs, problems, lines } = workOut(free, {}, undefined);
  expect({ tank, lines }).toEqual({ tank: "", lines: [] });
  expect(problems.map(({ input }) => input)).toEqual(["total", "pH", "temperature"]);
  expect(inputs.map(({ isNeeded }) => isNeeded)).toEqual([true, true, true, false]);
});
