import { spokenDay } from "../book/dates.ts";
import { html } from "./document-html.ts";
import type { RoundHead, RoundRow, RoundSheet } from "./round-sheet.ts";

/**
 * Round sheets as a page to print: each room one side of A4 up to some two dozen tanks, rows as high as the paper allows, no script,
 * nothing fetched, black on white. Further rows go to a second side under the same heads.
 */
export function roundSheetHtml(sheets: readonly RoundSheet[]): string {
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Round sheet</title>
<style>${style}</style>
</head>
<body>
${sheets.map(sheetHtml).join("\n")}
</body>
</html>
`;
}

/** Millimetres of A4, 297 less margins of 8, less what stands above and below the rows. */
const rowsMm = 217;
const leastMm = 6.5;
const mostMm = 16;
const reminderMm = 4.3;
/** What is to be done, large, or small where there is much of it: letters to a line about, and how high a line is. */
const prints = [
  { name: "large", perLine: 38, lineMm: 3.7 },
  { name: "small", perLine: 48, lineMm: 2.9 },
] as const;

/** The rows as high as all of them can be together, in print as large as goes on one side; one with much to do takes more. */
function sizeOf(rows: readonly RoundRow[]): { readonly print: string; readonly mm: number } {
  const reminders = rows.filter(({ before }) => before !== "").length * reminderMm;
  for (const { name, perLine, lineMm } of prints) {
    const least = rows.map(({ flags, acts }) => {
      const letters = [...flags, ...acts].reduce((sum, words) => sum + words.length + tickLetters, 0);
      return 1 + lineMm * Math.ceil(letters / perLine);
    });
    const highWith = (mm: number): number => least.reduce((sum, each) => sum + Math.max(mm, each), reminders);
    let mm = mostMm;
    while (mm > leastMm && highWith(mm) > rowsMm) mm -= 0.1;
    if (highWith(mm) <= rowsMm) return { print: name, mm: Math.floor(mm * 10) / 10 };
  }
  // It goes to a second side.
  return { print: "large", mm: readableMm };
}

/** As wide as a box to tick with what stands around it. */
const tickLetters = 4;
const readableMm = 8;

function sheetHtml({ title, day, heads, left, rows }: RoundSheet): string {
  const { print, mm } = sizeOf(rows);
  const columns = heads.length + 3;
  const more = left.length === 0 ? "" : ` Also tested, without a column: ${left.join(", ")}.`;
  const head = (each: RoundHead): string =>
    `<th scope="col" class="box">${html(each.parameter.name)}${each.unit === "" ? "" : `<br><small>${html(each.unit)}</small>`}</th>`;
  const body =
    rows.length === 0
      ? `<tr><td colspan="${columns}">No tank is defined yet.</td></tr>`
      : rows.map((row) => rowHtml(row, columns, mm)).join("\n");
  return `<main class="${print}">
<header><h1>${html(title === "" ? "Round" : title)}</h1><p>${html(spokenDay(day))}</p><p class="line">done on</p><p class="line">by</p></header>
<table>
<thead><tr><th scope="col" class="tank">Tank</th><th scope="col">Do</th>${heads.map(head).join("")}<th scope="col" class="dead">dead</th></tr></thead>
<tbody>
${body}
</tbody>
</table>
<footer>
<p class="line">Deaths: tank, species, how many</p>
<p class="line">Notes</p>
${'<p class="line"></p>\n'.repeat(surprises)}<p class="foot">In the order of hands. HELD: the case may have reached it, nothing leaves. Pull the plug before a hand goes into the water. Small in a box: the last value, in the units above.${html(more)} A row is typed in under the same heads: “Type In Round Sheet”.</p>
</footer>
</main>`;
}

/** Blank lines for what nobody expected. */
const surprises = 2;

function rowHtml(
  { at, title, before, flags, acts, boxes, isTank }: RoundRow,
  columns: number,
  mm: number,
): string {
  const reminder =
    before === "" ? "" : `<tr class="before"><td colspan="${columns}">${html(capital(before))}</td></tr>\n`;
  const flagged = flags.map((flag) => `<b class="flag">${html(flag)}</b>`);
  const ticked = acts.map((act) => {
    const [first = "", ...rest] = act.split(" ");
    // A box is not parted from its word.
    const words = [`<span class="act"><span class="tick"></span>${html(first)}</span>`, ...rest.map(html)];
    return words.join(" ");
  });
  const todo = [...flagged, ...ticked].join('<span class="gap"></span> ');
  const cells = boxes
    .map((last) =>
      last === undefined ? '<td class="none"></td>' : `<td class="box"><small>${html(last)}</small></td>`,
    )
    .join("");
  const name = title === "" ? "" : ` <small>${html(title)}</small>`;
  return `${reminder}<tr style="height:${mm}mm"><th scope="row"><div><b${at.length > 7 ? ' class="long"' : ""}>${html(at)}</b>${name}</div></th><td class="do">${todo}</td>${cells}<td class="${isTank ? "box" : "none"}"></td></tr>`;
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const style = `
:root { color-scheme: light; }
@page { size: A4; margin: 8mm; }
body { font: 9.5pt/1.15 system-ui, sans-serif; margin: 0; color: #000; background: #fff; }
main { max-width: 194mm; margin: 0 auto; }
main + main { break-before: page; }
header { display: flex; gap: 6mm; align-items: baseline; height: 10mm; }
h1 { font-size: 15pt; margin: 0; max-width: 60mm; overflow: hidden; white-space: nowrap; text-overflow: ellipsis; }
header p { margin: 0; white-space: nowrap; }
header .line { flex: 1; height: auto; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; }
thead th { font-size: 8pt; height: 8mm; vertical-align: bottom; padding: 0 .5mm; }
tbody td, tbody th { border: .3mm solid #000; padding: 0 1mm; text-align: left; vertical-align: middle; overflow-wrap: anywhere; }
tbody th { font-weight: normal; }
tbody th div { overflow: hidden; white-space: nowrap; text-overflow: ellipsis; }
th b { font-size: 12pt; }
th b.long { font-size: 9pt; }
th small { font-size: 8pt; line-height: 1.05; }
.large .do { font-size: 8pt; line-height: 3.7mm; }
.small .do { font-size: 6.5pt; line-height: 2.9mm; }
.tank { width: 31mm; text-align: left; }
thead th:nth-child(2) { text-align: left; }
.box { width: 14.5mm; }
.dead { width: 11mm; }
td.box { vertical-align: top; padding: .4mm .8mm; }
td.box small { font-size: 7.5pt; }
td.none { background: #ddd; }
.act { white-space: nowrap; }
.gap { display: inline-block; width: 1.5mm; }
.tick { display: inline-block; width: 1.1em; height: 1.1em; box-sizing: border-box; border: .35mm solid #000; margin-right: 1mm; vertical-align: -.2em; }
.do .flag { font-size: inherit; text-decoration: underline; }
tr { break-inside: avoid; }
.before td { border: 0; font-size: 8pt; height: 4mm; padding: 0 1mm; font-weight: 700; }
.line { border-bottom: .3mm solid #000; margin: 0; height: 8mm; font-size: 8pt; }
footer { break-inside: avoid; }
.foot { font-size: 7pt; margin: 1mm 0 0; }
@media print { td.none { -webkit-print-color-adjust: exact; print-color-adjust: exact; } }
`;
