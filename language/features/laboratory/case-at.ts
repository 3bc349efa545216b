import { lineAt } from "../../book/entry.ts";
import { blockAt, type View } from "../view.ts";

/** The case that the entry at an offset names; empty where it names none. */
export function caseAt(view: View, offset: number): string {
  const found = blockAt(view, offset);
  const line = found === undefined ? undefined : lineAt(found.block, found.at);
  if (line?.is !== "entry") return "";
  return line.items.map((item) => item.case?.text ?? "").find((name) => name !== "") ?? "";
}
