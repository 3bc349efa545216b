/** The log with its days moved so that the last is `day`, and without the line that says it is finished. @param day ISO 8601 */
export function movedTo(day: string, text: string): string {
  const heads = /^\d{4}-\d{2}-\d{2}/gm;
  const last = [...text.matchAll(heads)]
    .map(([date]) => date)
    .sort()
    .at(-1);
  if (last === undefined) return text;
  const shiftMs = Date.parse(day) - Date.parse(last);
  return text
    .replace(/^ *as-of .*\r?\n/m, "")
    .replace(heads, (date) => new Date(Date.parse(date) + shiftMs).toISOString().slice(0, 10));
}
