import { readMoment } from "./moment.ts";

/**
 * The date of the rows below, where a line holds it alone; undefined where it holds something else.
 * @param prefix how such a line begins; empty where it holds nothing but the date
 */
export function dateInLine(raw: string, delimiter: string, prefix: string): string | undefined {
  const line = raw.trim();
  if (prefix !== "") return line.startsWith(prefix) ? line.slice(prefix.length).trim() : undefined;
  const plain = (delimiter.length === 1 ? line.replaceAll(delimiter, " ") : line).replaceAll('"', " ").trim();
  return plain.length < 40 && readMoment(plain) !== undefined ? plain : undefined;
}
