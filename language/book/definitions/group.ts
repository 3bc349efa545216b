import type { DefinitionKind } from "../property.ts";
import { at, every, limits, note } from "./shared.ts";

export const group: DefinitionKind = {
  word: "group",
  title: "Group of tanks",
  doc: "Tanks named together: `group rack = r1 .. r12, q1`. `@rack` writes an entry for each of them.",
  properties: [limits, every, at, note],
};
