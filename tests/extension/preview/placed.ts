import type { TankCard } from "../../../extension/views/preview/shown.ts";
import type { CheckedLogbook } from "../../../language/checks/check.ts";
import { tankCard } from "../../../language/features/tank-card.ts";

/** The card of a tank as it comes to the preview: with lines for offsets. */
export function placedCard(checked: CheckedLogbook, name: string): TankCard {
  const card = tankCard(checked, checked.book.tank(name)!, 0);
  return placed(checked, card) as TankCard;
}

export function placed(checked: CheckedLogbook, value: unknown): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map((each) => placed(checked, each));
  if ("path" in value && "start" in value && "end" in value) {
    const { path, start, end } = value as { path: string; start: number; end: number };
    const text = checked.logbook.sources.get(path)!.text;
    return { uri: path, range: { start: positionAt(text, start), end: positionAt(text, end) } };
  }
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, placed(checked, each)]));
}

function positionAt(text: string, offset: number): { line: number; character: number } {
  const lines = text.slice(0, offset).split("\n");
  return { line: lines.length - 1, character: lines.at(-1)!.length };
}
