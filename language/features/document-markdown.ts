import { type Cell, cellText, cellTone, type Line, type Part, type Report, type Tone } from "./document.ts";
import { plain as escaped, picture } from "./markdown.ts";

/** A report as Markdown: for a repository, a pull request, a note to a vet. */
export function reportMarkdown({ title, about, sections }: Report): string {
  const parts = sections.flatMap((section) => [
    `## ${plain(section.title)}${section.note === undefined ? "" : ` (${plain(section.note)})`}`,
    ...section.parts.map(partMarkdown),
  ]);
  return `${[`# ${plain(title)}`, ...(about === "" ? [] : [plain(about)]), ...parts].join("\n\n")}\n`;
}

function partMarkdown(part: Part): string {
  switch (part.is) {
    case "text":
      return toned(part.text, part.tone);
    case "list":
      return part.items.map(item).join("\n");
    case "caution":
      return `> **Take care.** ${plain(part.text)}`;
    case "picture":
      return picture(part.svg, part.alt);
    case "table": {
      const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
      const rule = part.columns.map(({ isFigure }) => (isFigure === true ? "---:" : "---"));
      return [
        line(part.columns.map(({ title }) => plain(title))),
        line(rule),
        ...part.rows.map((row) => line(row.map(cell))),
      ].join("\n");
    }
  }
}

const item = ({ text, note, tone }: Line): string =>
  `- ${toned(text, tone)}${note === undefined || note === "" ? "" : ` ${emphasis(note)}`}`;

// A bar would end the cell: it is escaped with all other punctuation.
const cell = (each: Cell): string => toned(cellText(each), cellTone(each));

function toned(text: string, tone: Tone = "plain"): string {
  return tone === "strong" || tone === "error" || tone === "warning" ? strong(text) : plain(text);
}

/**
 * Text as it is, for a document that is read as it stands too: only what could be markup is escaped. A hyphen within a word, a point or
 * a colon that belongs to no address or list, and marks that mean nothing in Markdown stay bare.
 */
export function plain(text: string): string {
  return escaped(text)
    .replace(/\\([,;'"?%()/])/g, "$1")
    .replace(/(?<=[\p{L}\p{N}])\\-(?=[\p{L}\p{N}])/gu, "-")
    .replace(/(?<=[\p{L}\p{N}.)"])\\\.(?![\p{L}])/gu, ".")
    .replace(/\\:(?=$|[ \p{N}])/gu, ":")
    .replace(/^\\\.(?=\.)/, ".")
    .replace(/^(\p{Nd}+)([.)])/u, "$1\\$2");
}

const strong = (words: string): string => (words.trim() === "" ? "" : `**${plain(words)}**`);
const emphasis = (words: string): string => (words.trim() === "" ? "" : `*${plain(words)}*`);
