import { spokenDay } from "../../book/dates.ts";
import { linesOf } from "../../book/entry.ts";
import { signGrades, signsIn, signVocabulary } from "../../book/signs.ts";
import { caseSigns } from "../../room/case-signs.ts";
import { casesUntil } from "../../room/cases.ts";
import { lineOfText } from "../lines.ts";
import { blockAt, type Span, type View } from "../view.ts";
import type { Offers } from "./offer.ts";

/** Signs of disease within `signs "..."`, from the vocabulary, one by one between commas. */

/** The sign that is being written. */
export interface SignHere {
  /** From its first letter to the cursor, and to its last letter. Offsets in the file. */
  readonly insert: Span;
  readonly replace: Span;
  readonly partial: string;
  /** What else is written in the text. */
  readonly others: readonly string[];
  readonly day: number;
  readonly species: string;
  readonly case: string;
}

/** The sign at an offset; undefined outside the text of signs of a day. */
export function signAt(view: View, offset: number): SignHere | undefined {
  const { text } = view.source;
  const line = lineOfText(text, offset);
  const prefix = text.slice(line.start, offset);
  const open =
    /^(?:[^"#]|"(?:[^"\\]|\\.)*")*\ssick\s(?:[^"#]|"(?:[^"\\]|\\.)*")*\bsigns\s*"((?:[^"\\]|\\.)*)$/.exec(
      prefix,
    );
  const found = blockAt(view, offset);
  if (open === null || found?.block.kind !== "day" || Number.isNaN(found.block.day)) return undefined;
  const before = open[1]!;
  const behind = /^(?:[^"\\\r\n]|\\.)*/.exec(text.slice(offset, line.end))![0];
  const partial = before.slice(Math.max(before.lastIndexOf(","), before.lastIndexOf(";")) + 1).trimStart();
  const rest = /^[^,;]*/.exec(behind)![0].trimEnd();
  const start = offset - partial.length;
  const entry = linesOf(found.block).find((each) => found.at >= each.start && found.at <= each.end);
  const item = entry?.is === "entry" ? entry.items[0] : undefined;
  const whole = before.slice(0, before.length - partial.length) + behind.slice(rest.length);
  return {
    insert: { start, end: offset },
    replace: { start, end: offset + rest.length },
    partial,
    others: signsIn(whole).flatMap(({ sign }) => (sign === undefined ? [] : [sign.word])),
    day: found.block.day,
    species: item?.species?.text ?? "",
    case: item?.case?.text ?? "",
  };
}

/** What the case showed before first, then the vocabulary; a sign that stands there already is not offered again. */
export function offerSigns(view: View, here: SignHere, offers: Offers): void {
  const put = (word: string, detail: string): void => {
    const sign = signVocabulary.find((each) => each.word === word);
    if (sign === undefined || here.others.includes(word)) return;
    offers.add({
      label: word,
      sort: "word",
      detail,
      // Who types another word for it finds it too.
      filterText: [word, ...sign.also].join(" "),
      about: {
        is: "text",
        text: `${sign.gloss}${sign.also.length === 0 ? "" : ` (also: ${sign.also.join(", ")})`}`,
      },
    });
  };
  const seen = casesUntil(view.checked.logbook, here.day)
    .filter((each) =>
      here.case !== ""
        ? each.name === here.case
        : Number.isNaN(each.closed) && each.sick.some(({ species }) => species === here.species),
    )
    .flatMap(caseSigns);
  for (const { word, site, last } of seen)
    if (site !== undefined) put(word, `${site}, seen ${spokenDay(last, here.day)}`);
  const typed = here.partial.toLowerCase();
  const begins = signVocabulary.filter(({ word, also }) =>
    [word, ...also].some((each) => each.startsWith(typed)),
  );
  for (const { word, site } of [...begins, ...signVocabulary]) put(word, site);
  // Behind a sign its grade.
  const [sign] = signsIn(here.partial);
  if (sign?.sign === undefined || sign.grade !== undefined) return;
  for (const grade of signGrades)
    offers.add({
      label: `${sign.sign.word} ${grade}`,
      sort: "word",
      detail: "how bad it is",
      filterText: `${here.partial.trimEnd()} ${grade}`,
    });
}
