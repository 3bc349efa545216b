import { h } from "../shared/dom.ts";
import { severitySign } from "../shared/icons.ts";
import type { Done, ToHost, ToPage } from "./messages.ts";
import { countsWords } from "./words.ts";

/** What stands in place of the form: work that takes time, a refusal, what was done. */

const button = (words: string, key: string, act: () => void, look = "act"): HTMLButtonElement =>
  h("button", { type: "button", class: look, "data-key": key, onclick: act }, words);

export function workingOf(
  { what, percent }: Extract<ToPage, { say: "working" }>,
  stop: () => void,
): HTMLElement {
  return h(
    "div",
    { class: "working" },
    h("p", { role: "status" }, percent === null ? what : `${what}: ${percent} %`),
    button("Cancel", "stop", stop),
  );
}

export function refusedOf(why: string, again: () => void, close: () => void): HTMLElement {
  return h(
    "div",
    { class: "outcome" },
    h("h1", { tabindex: -1 }, "Not imported"),
    h("p", { class: "rejected", role: "alert" }, severitySign("error"), h("span", {}, why)),
    h("p", { class: "quiet" }, "Nothing was written."),
    h(
      "p",
      { class: "acts" },
      button("Read Again", "again", again, "act first"),
      button("Close", "close", close),
    ),
  );
}

export function doneOf(done: Done, send: (message: ToHost) => void): HTMLElement {
  const { name, rows, files, rejects, keep, kept, problem } = done;
  const unsaved = files.filter(({ isSaved }) => !isSaved);
  return h(
    "div",
    { class: "outcome" },
    h("h1", { tabindex: -1 }, files.length === 0 ? `Nothing of ${name} is new` : `${name} is imported`),
    h("p", { role: "status" }, `${countsWords(rows)}.`),
    files.length === 0
      ? null
      : h(
          "ul",
          {},
          ...files.map((each) =>
            h(
              "li",
              {},
              h("span", { class: "entry" }, each.name),
              `: ${each.lines === 1 ? "1 line" : `${each.lines.toLocaleString("en")} lines`}${each.isNew ? ", a new file" : ""}, ${each.isSaved ? "saved" : "not saved"}`,
            ),
          ),
        ),
    unsaved.length > 0
      ? h(
          "p",
          {},
          "What was unsaved before is not saved for you. ",
          button("Save These Files", "save", () => send({ say: "save" })),
        )
      : null,
    files.length > 0
      ? h(
          "p",
          { class: "quiet" },
          "All of it can be taken back, as long as nothing of it is edited. ",
          button("Take Back", "back", () => send({ say: "back" })),
        )
      : null,
    problem === ""
      ? null
      : h("p", { class: "rejected", role: "alert" }, severitySign("error"), h("span", {}, problem)),
    rows.rejected > 0
      ? h(
          "p",
          {},
          rejects === ""
            ? "The rejected rows stand in a file that is not saved. "
            : `The rejected rows stand in ${rejects}, each below its reason: mend them there, and import that file. `,
          button("Show Rejected Rows", "rejects", () => send({ say: "rejects" })),
        )
      : null,
    keep === ""
      ? null
      : h(
          "p",
          {},
          `The next table of this kind can be read the same way. `,
          button(`Keep Mapping as ${keep}`, "keep", () => send({ say: "keep" })),
        ),
    kept === "" ? null : h("p", { role: "status" }, kept),
    h(
      "p",
      { class: "acts" },
      files.length > 0 ? button("Show in Log", "show", () => send({ say: "show" }), "act first") : null,
      button("Close", "close", () => send({ say: "close" })),
    ),
  );
}

export function takenBackOf(name: string, again: () => void, close: () => void): HTMLElement {
  return h(
    "div",
    { class: "outcome" },
    h("h1", { tabindex: -1 }, `The import of ${name} is taken back`),
    h("p", { role: "status" }, "The log is as it was before."),
    h(
      "p",
      { class: "acts" },
      button("Read Again", "again", again, "act first"),
      button("Close", "close", close),
    ),
  );
}
