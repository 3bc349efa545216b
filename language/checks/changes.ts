import type { Observer } from "../room/observer.ts";
import type { RowFinding } from "./observe.ts";
import { percent } from "./words.ts";

/** Listens to changes of water: a batch cannot be more than there is. The page is with the names and units of entries. */
export function changeChecks(add: (finding: RowFinding) => void): Observer {
  return {
    change(at, change) {
      if (change.isFlow || !(change.asked > 1 + 1e-9)) return;
      add({
        code: "change/too-much",
        block: at.block,
        row: at.row,
        slots: ["amount"],
        severity: () => "warning",
        message: () =>
          `a batch of ${percent(change.asked)} of ${change.tank.name} is more than it holds; drained and filled at once is written “flow”`,
        fixes: (place) => [
          {
            title: "Add “flow”",
            edits: [{ block: at.block, start: place.end, end: place.end, text: " flow" }],
            isSure: false,
          },
        ],
      });
    },
  };
}
