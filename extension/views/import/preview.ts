import { h } from "../shared/dom.ts";
import { severitySign } from "../shared/icons.ts";
import type { PreviewRow } from "./messages.ts";

const told: Readonly<Record<Exclude<PreviewRow["is"], "imported" | "rejected">, string>> = {
  known: "in the log already",
  thinned: "thinned: another of these hours is kept",
  twice: "twice in the table",
  empty: "nothing to log",
  "left out": "left out",
  open: "once the questions are answered",
};

/** The first rows beside what they would write. */
export function previewTable(rows: readonly PreviewRow[]): HTMLElement {
  if (rows.length === 0) return h("p", { class: "quiet" }, "No rows.");
  let day = "";
  return h(
    "div",
    {},
    h(
      "table",
      { class: "preview" },
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          ...["Line", "Row of the table", "In the log"].map((each) => h("th", { scope: "col" }, each)),
        ),
      ),
      h(
        "tbody",
        {},
        ...rows.map((row) => {
          const isSameDay = row.day === day;
          if (row.day !== "") day = row.day;
          return h(
            "tr",
            { class: "row" },
            h("td", { class: "line" }, String(row.line)),
            h("td", { class: "raw" }, row.raw.replace(/\t/g, " → ")),
            h("td", {}, ...written(row, isSameDay)),
          );
        }),
      ),
    ),
  );
}

function written(row: PreviewRow, isSameDay: boolean): HTMLElement[] {
  if (row.is === "rejected")
    return [h("p", { class: "rejected" }, severitySign("error"), h("span", {}, `rejected: ${row.why}`))];
  if (row.is !== "imported") return [h("p", { class: "quiet" }, told[row.is])];
  return [
    ...(isSameDay ? [] : [h("p", { class: "entry day" }, row.day)]),
    ...row.lines.map((line) => h("p", { class: "entry" }, line)),
  ];
}
