import { plain } from "../../features/document-markdown.ts";
import { code } from "../../features/markdown.ts";
import type { ToldConsequence, ToldFollows, ToldGroup, ToldReview } from "./told.ts";
import { grouped } from "./words.ts";

/** A review as Markdown, for a pull request or a page: what follows first, what changed folded by tank. What comes from the log is escaped. */

/** Beyond so many lines a section says how many more there are: a comment on a pull request has an end. */
const mostLines = 200;

/** @param from what the two states are called */
export function reviewMarkdown(
  reviews: readonly ToldReview[],
  { from, to }: { readonly from: string; readonly to: string },
  most = mostLines,
): string {
  const parts = [`# What changed in the log`, `From ${plain(from)} to ${plain(to)}.`];
  if (reviews.length === 0) parts.push("There is no log on either side.");
  for (const review of reviews) parts.push(...logbook(review, reviews.length > 1, most));
  return `${parts.join("\n\n")}\n`;
}

function logbook(review: ToldReview, isOneOfMany: boolean, most: number): string[] {
  const { title, counts, files, day, small, follows, groups } = review;
  const parts = isOneOfMany ? [`## ${plain(title || "A log without a title")}`] : [];
  if (counts === "" && files.length === 0) return [...parts, "Nothing changed."];
  if (counts !== "") parts.push(`**${plain(capital(counts))}.**`);
  if (files.length > 0) parts.push(listed(files.map(plain)));
  const level = isOneOfMany ? "###" : "##";
  parts.push(`${level} What follows from it`, `As of ${plain(day)}.`);
  if (follows.length === 0) parts.push("Nothing that is computed is another.");
  else parts.push(...follow(follows, most));
  if (small > 0) parts.push(quiet(`${grouped(small)} smaller differences are not listed.`));
  if (groups.length > 0)
    parts.push(
      `${level} Entries and definitions${review.onDay === "" ? "" : ` of ${plain(review.onDay)}`}`,
      ...changed(groups, most),
    );
  return parts;
}

function follow(follows: readonly ToldFollows[], most: number): string[] {
  const items = follows.flatMap(({ title, items: told }) =>
    told.map((each) => `${consequence(title, each)}`),
  );
  const shown = items.slice(0, most);
  return [listed(shown), ...rest(items.length - shown.length)];
}

function consequence(of: string, { tone, lead, text, causes, more }: ToldConsequence): string {
  const said = [of === "" ? "" : `**${plain(of)}**`, lead === "" ? "" : code(lead), plain(text)]
    .filter(Boolean)
    .join(" ");
  const toned = tone === "worse" ? `**!** ${said}` : said;
  if (causes.length === 0) return toned;
  const others = more > 0 ? ` and ${grouped(more)} more in its water` : "";
  return `${toned}<br>with ${causes.map((cause) => code(cause.text)).join(", ")}${others}`;
}

/** A part of a page that is closed until it is asked for; its title is of our own making, with what the log holds escaped for HTML. */
function changed(groups: readonly ToldGroup[], most: number): string[] {
  let left = most;
  return groups.map(({ name, title, count, days }) => {
    const lines = days.flatMap(({ title: day, lines: told }) =>
      told.map(({ mark, text }) => `${day === "" ? "" : `${plain(day)}: `}${code(`${mark} ${text}`)}`),
    );
    const shown = lines.slice(0, Math.max(0, left));
    left -= shown.length;
    const head = `${html(name)}${title === "" ? "" : `, ${html(title)}`} (${grouped(count)})`;
    const body = [shown.length === 0 ? "" : listed(shown), ...rest(lines.length - shown.length)].filter(
      Boolean,
    );
    return `<details><summary>${head}</summary>\n\n${body.join("\n\n")}\n\n</details>`;
  });
}

const rest = (count: number): string[] =>
  count <= 0 ? [] : [quiet(`and ${grouped(count)} more: standpipe diff --all lists them`)];

/** Small print of our own words. */
const quiet = (words: string): string => `*${plain(words)}*`;

const listed = (lines: readonly string[]): string => lines.map((line) => `- ${line}`).join("\n");
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** For the inside of an element; Markdown is not read there, HTML is. */
function html(text: string): string {
  const signs: Readonly<Record<string, string>> = {
    "&": "&amp;",
    "<": "&lt;",
    ">": "&gt;",
    '"': "&quot;",
    "'": "&#39;",
  };
  const bare = text.replace(/\s+/g, " ").replace(/[\p{Cc}\p{Cf}]/gu, "");
  return bare
    .replace(/[&<>"']/g, (sign) => signs[sign]!)
    .replace(/[*_`[\]\\~@]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
