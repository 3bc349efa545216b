import type { Sides } from "../../science/interval.ts";
import { choice, quantity } from "../calculation.ts";

/** What the statistics ask alike. */

export const confidence = quantity("confidence of the interval", "%", [50, 99.99], { otherwise: "95 %" });

export const sides = choice("sides; one: each end a bound by itself", ["two", "one"], {
  otherwise: "two",
});

export const sidesOf = (word: "two" | "one"): Sides => (word === "one" ? 1 : 2);

/** A count of animals, tests, days with a loss. */
export const counted = (title: string) => quantity(title, "", [0, 1e6], { isWhole: true });
