import type { Command } from "./keys.ts";
import { pieces } from "./line.ts";
import type { ToHost } from "./messages.ts";
import type { Model } from "./model.ts";
import { aboutOf, placeOf, taskOf } from "./sections.ts";

/** What leads away from the board: into the text, or to the preview. */
export type Leading = Extract<Command, "edit" | "write" | "place" | "about" | "round" | "sheet">;

/** What to tell the host; a string is why there is nothing to tell. */
export function leading(command: Leading, model: Model): ToHost | string {
  const row = model.focused;
  switch (command) {
    case "write":
      return { say: "write", what: "start" };
    case "sheet":
      return { say: "write", what: "sheet" };
    case "round":
      return model.card?.hasRound === true
        ? { say: "write", what: "round" }
        : "The round sheet has no boxes: nothing was tested of late.";
    case "edit": {
      const task = row === undefined ? null : taskOf(row);
      return task === null
        ? "There is no line to write here."
        : { say: "edit", pieces: pieces(task, model.wayOf(task)) };
    }
    case "place": {
      const at = row === undefined ? null : placeOf(row);
      return at === null ? "That is stated nowhere." : { say: "reveal", at };
    }
    case "about": {
      const about = row === undefined ? null : aboutOf(row, model.sections);
      return about === null ? "There is no card of that." : { say: "show", about };
    }
  }
}
