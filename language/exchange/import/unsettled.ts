import type { Logbook } from "../../room/logbook.ts";
import { conflictMark } from "../../syntax/conflict-mark.ts";

/** Where a merge left marks in a log: which of two versions counts is open, and so is what an import would add. */
export function unsettledIn({
  sources,
}: Logbook): { readonly path: string; readonly line: number } | undefined {
  for (const { path, text } of sources.values()) {
    if (!/^(?:<{7}|={7}|>{7}|\|{7})/m.test(text)) continue;
    const line = text.split(/\r\n|\n|\r/).findIndex((each) => conflictMark(each) !== undefined);
    if (line >= 0) return { path, line: line + 1 };
  }
  return undefined;
}

/** @param file as it is shown */
export const unsettledWords = (file: string, line: number): string =>
  `${file}:${line}: a merge left two versions here; nothing is imported before one is chosen, as what stands in them would be written twice`;
