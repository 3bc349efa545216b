import { expect, it } from "vitest";
import { validateGrammar } from "../../language/syntax/parser.ts";

it("has a grammar without ambiguities", () => {
  expect(validateGrammar).not.toThrow();
});
