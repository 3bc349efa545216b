import type { KeyStroke } from "./keys.ts";

/** Keys in a box: from one to the next, and what becomes of them. */
export type BoxCommand = "next" | "nextOrLog" | "before" | "onward" | "backward" | "close" | "type";

/** Undefined for a key that is the box's own. */
export function boxCommandOf(stroke: KeyStroke & { readonly isComposing?: boolean }): BoxCommand | undefined {
  const { key, shiftKey, ctrlKey, metaKey, altKey, isComposing } = stroke;
  if (ctrlKey || metaKey || altKey || isComposing === true) return undefined;
  switch (key) {
    case "Escape":
      return "close";
    case "Enter":
      return shiftKey ? "before" : "nextOrLog";
    // No value needs one: `18mg/L`.
    case " ":
    case "ArrowDown":
      return "next";
    case "ArrowUp":
      return "before";
    case "Tab":
      return shiftKey ? "backward" : "onward";
    default:
      return key.length === 1 ? "type" : undefined;
  }
}
