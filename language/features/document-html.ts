import { cellText, cellTone, type Line, type Part, type Report, type Tone } from "./document.ts";

/**
 * A report as one page of HTML to print or to make a PDF of: no script, nothing fetched, black on white on paper, the reader's own
 * light or dark on a screen.
 */
export function reportHtml({ title, about, sections }: Report): string {
  const body = sections
    .map(
      (section) =>
        `<section${section.isLabel === true ? ' class="label"' : ""}>\n<h2>${html(section.title)}${
          section.note === undefined ? "" : ` <small>${html(section.note)}</small>`
        }</h2>\n${section.parts.map(partHtml).join("\n")}\n</section>`,
    )
    .join("\n");
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${html(title)}</title>
<style>${style}</style>
</head>
<body>
<main>
<h1>${html(title)}</h1>
${about === "" ? "" : `<p class="about">${html(about)}</p>\n`}${body}
</main>
</body>
</html>
`;
}

function partHtml(part: Part): string {
  switch (part.is) {
    case "text":
      return `<p${toned(part.tone)}>${html(part.text)}</p>`;
    case "list":
      return `<ul>\n${part.items.map(item).join("\n")}\n</ul>`;
    case "caution":
      return `<p class="caution"><strong>Take care.</strong> ${html(part.text)}</p>`;
    case "picture":
      return `<img alt="${html(part.alt)}" src="data:image/svg+xml,${encodeURIComponent(part.svg)}">`;
    case "table": {
      const side = (at: number): string => (part.columns[at]?.isFigure === true ? ' class="figure"' : "");
      const heads = part.columns.map(({ title }, at) => `<th scope="col"${side(at)}>${html(title)}</th>`);
      const rows = part.rows.map(
        (row) =>
          `<tr>${row
            .map((cell, at) => `<td${side(at)}>${whole(spanned(cellText(cell), cellTone(cell)))}</td>`)
            .join("")}</tr>`,
      );
      return `<table>\n<thead><tr>${heads.join("")}</tr></thead>\n<tbody>\n${rows.join("\n")}\n</tbody>\n</table>`;
    }
  }
}

const item = ({ text, note, tone = "plain" }: Line): string =>
  `<li>${spanned(text, tone)}${note === undefined || note === "" ? "" : ` <small>${html(note)}</small>`}</li>`;

const spanned = (text: string, tone: Tone): string =>
  tone === "plain" ? html(text) : `<span${toned(tone)}>${html(text)}</span>`;

const toned = (tone: Tone = "plain"): string => (tone === "plain" ? "" : ` class="${tone}"`);

/** A day is not broken at its hyphens. */
const whole = (markup: string): string =>
  markup.replace(/\b\d{4}-\d{2}-\d{2}\b/g, '<span class="day">$&</span>');

/** A text of a log as text: no markup, no turning of the direction of writing. */
export function html(text: string): string {
  return text
    .replace(/[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]+/gu, " ")
    .replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

const style = `
:root { color-scheme: light dark; }
body { font: 11pt/1.45 system-ui, sans-serif; margin: 2em auto; max-width: 60em; padding: 0 1em; }
h1 { font-size: 1.6em; margin: 0 0 .2em; }
h2 { font-size: 1.2em; margin: 1.6em 0 .4em; border-bottom: 1px solid; padding-bottom: .15em; }
small, .about, .faint { font-weight: normal; opacity: .75; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .25em .6em .25em 0; border-bottom: 1px solid color-mix(in srgb, currentColor 25%, transparent); }
.day { white-space: nowrap; }
.figure { text-align: right; font-variant-numeric: tabular-nums; }
.strong, .warning, .error { font-weight: 600; }
.caution { border: 1px solid; padding: .5em .8em; }
table + table, table + img, img + table { margin-top: 1em; }
img { display: block; max-width: 100%; }
tr, .caution, img, .label { break-inside: avoid; }
.label { border: 2px dashed; padding: 0 1em; margin: 1.5em 0; }
@page { size: A4; margin: 14mm; }
@media print {
  :root { color-scheme: light; }
  body { margin: 0; padding: 0; max-width: none; font-size: 10pt; color: #000; background: #fff; }
  table { break-inside: avoid; }
  th, td { padding: .15em .6em .15em 0; }
  small, .about, .faint { opacity: 1; }
  h2, h2 + p { break-after: avoid; }
}
`;
