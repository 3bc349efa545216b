import { describe, expect, test } from "vitest";
import {
  publishedDoses,
  publishedFor,
  rangeText,
  sourceText,
} from "../../language/science/published-doses.ts";

describe("published doses", () => {
  test("each substance has a caution, and each figure says where it is from", () => {
    for (const { substance, ranges, notes, cautions } of publishedDoses) {
      expect(cautions, substance).not.toHaveLength(0);
      expect(ranges.length + notes.length, substance).toBeGreaterThan(0);
      for (const each of [...ranges, ...notes, ...cautions]) expect(sourceText(each), substance).not.toBe("");
      for (const { low, high } of ranges) expect(low).toBeLessThanOrEqual(high);
    }
  });

  test("no name means two substances, and all are written in lower case", () => {
    const names = publishedDoses.flatMap((dose) => dose.names);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toBe(name.toLowerCase());
  });

  test("is found by what keepers write", () => {
    expect(publishedFor("Salt")?.substance).toBe("sodium chloride");
    expect(publishedFor("sodium  chloride")?.substance).toBe("sodium chloride");
    expect(publishedFor("praziquantel")?.substance).toBe("praziquantel");
    expect(publishedFor("blue-drops")).toBeUndefined();
    expect(publishedFor("")).toBeUndefined();
  });

  test("in words", () => {
    const [dip] = publishedFor("salt")!.ranges;
    expect(rangeText(dip!)).toBe("dip 30 g/L, 0.5..10 min, ended when fish roll");
    expect(rangeText(publishedFor("formalin")!.ranges[0]!)).toMatch(/^bath up to 250 uL\/L, at most 1 h/);
    expect(sourceText(publishedFor("metronidazole")!.ranges[0]!)).toBe("recalled, no source at hand");
  });

  // A finding that rested on these would make them a default.
  test("says nothing that may be taken for a promise", () => {
    expect(JSON.stringify(publishedDoses)).not.toMatch(/\bsafe/i);
  });
});
