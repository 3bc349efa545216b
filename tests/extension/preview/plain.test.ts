import fc from "fast-check";
import { expect, test } from "vitest";
import { plain, stretches } from "../../../extension/views/shared/plain.ts";

test("letters of every script stand as they are", () => {
  for (const text of ["dam", "Regenbogenfische", "メダカ", "אקווריום", "👩‍🔬 eggs", "ک‌ار", "é", "a\tb"])
    expect(plain(text)).toBe(text);
});

test("a character that turns the direction of text is shown by its number", () => {
  expect(plain("safe \u202etxet")).toBe("safe [U+202E]txet");
  expect(plain("\u2066dam\u2069")).toBe("[U+2066]dam[U+2069]");
});

test("so is what has no shape: control characters, zero-width space, tags, halves of a pair", () => {
  expect(plain("a\u0007b")).toBe("a[U+0007]b");
  expect(plain("dam\u200b")).toBe("dam[U+200B]");
  expect(plain("\u{e0041}")).toBe("[U+E0041]");
  expect(plain("\ud800x")).toBe("[U+D800]x");
});

test("nothing is lost: what is hidden can be read back from its number", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => {
      const back = stretches(text).map((each) =>
        each.isHidden ? String.fromCodePoint(Number.parseInt(each.text.slice(2), 16)) : each.text,
      );
      return back.join("") === text;
    }),
  );
});
