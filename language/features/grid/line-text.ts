import type { Span } from "../view.ts";

/** One text put into another. */

export const put = (text: string, at: number, added: string): string =>
  text.slice(0, at) + added + text.slice(at);
export const cutOut = (text: string, start: number, end: number): string =>
  text.slice(0, start) + text.slice(end);
export const replaced = (text: string, { start, end }: Span, by: string): string =>
  text.slice(0, start) + by + text.slice(end);

export function afterSpaces(text: string, at: number): number {
  while (at < text.length && /\s/.test(text[at]!)) at++;
  return at;
}

export function beforeSpaces(text: string, at: number): number {
  while (at > 0 && /\s/.test(text[at - 1]!)) at--;
  return at;
}

/** What stands behind keeps its column where there is room. @param next where it begins @param least spaces between */
export function inColumn(
  text: string,
  span: Span,
  by: string,
  next: number | undefined,
  least: number,
): string {
  if (next === undefined || !/^ +$/.test(text.slice(span.end, next))) return replaced(text, span, by);
  const room = next - span.start;
  const gap = Math.max(Math.min(least, next - span.end), room - by.length);
  return text.slice(0, span.start) + by + " ".repeat(gap) + text.slice(next);
}
