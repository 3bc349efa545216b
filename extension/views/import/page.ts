import { h } from "../shared/dom.ts";
import { columnsTable } from "./columns.ts";
import { controlId, decisionField } from "./control.ts";
import { doneOf, refusedOf, takenBackOf, workingOf } from "./ends.ts";
import type { Counted, Decision, Form, ToHost, ToPage } from "./messages.ts";
import { previewTable } from "./preview.ts";
import { countsWords } from "./words.ts";

/** The page of an import: what is open, what each column is taken for, how it is read, and what comes of it. */
export class Page {
  private readonly send: (message: ToHost) => void;
  private readonly head = h("header", { class: "top" });
  private readonly body = h("main", {});
  /** The first rows, in sight whatever is edited. */
  private readonly dock = h("section", {
    class: "dock",
    tabindex: 0,
    role: "region",
    "aria-label": "Preview: the first rows, and what they would write",
    "data-key": "preview",
  });
  private readonly voice = h("p", { class: "voice", role: "status", "aria-live": "polite" });
  private readonly rejects = h("ul", { class: "rejects" });
  private readonly importing: HTMLButtonElement;
  private readonly foot: HTMLElement;
  private isFirst = true;
  private form: Form | undefined;

  constructor(root: HTMLElement, send: (message: ToHost) => void) {
    this.send = send;
    this.importing = h(
      "button",
      {
        type: "button",
        class: "act first",
        "data-key": "import",
        title: "Ctrl+Enter",
        onclick: () => this.import(),
      },
      "Import",
    );
    this.foot = h(
      "footer",
      { class: "foot" },
      h("div", { class: "told" }, this.voice, this.rejects),
      h(
        "div",
        { class: "acts" },
        this.importing,
        h(
          "button",
          { type: "button", class: "act", "data-key": "close", onclick: () => send({ say: "close" }) },
          "Cancel",
        ),
      ),
    );
    root.replaceChildren(this.head, this.body, this.dock, this.foot);
    window.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !(event.ctrlKey || event.metaKey)) return;
      event.preventDefault();
      this.import();
    });
  }

  hear(message: ToPage): void {
    switch (message.say) {
      case "working":
        this.instead(workingOf(message, () => this.send({ say: "close" })));
        return;
      case "form":
        this.show(message.form);
        return;
      case "counts":
        this.count(message.counts, message.percent);
        return;
      case "refused":
        this.instead(
          refusedOf(
            message.why,
            () => this.send({ say: "again" }),
            () => this.send({ say: "close" }),
          ),
        );
        return;
      case "done":
        this.instead(doneOf(message.done, this.send));
        return;
      case "back":
        this.instead(
          takenBackOf(
            message.name,
            () => this.send({ say: "again" }),
            () => this.send({ say: "close" }),
          ),
        );
    }
  }

  private import(): void {
    if (this.foot.hidden || this.importing.getAttribute("aria-disabled") === "true") {
      this.body.querySelector<HTMLElement>("[aria-invalid='true']")?.focus();
      return;
    }
    this.send({ say: "import" });
  }

  private instead(element: HTMLElement): void {
    this.form = undefined;
    this.isFirst = true;
    this.foot.hidden = true;
    this.dock.hidden = true;
    this.head.replaceChildren();
    const isBusy = element.classList.contains("working");
    const had = this.body.firstElementChild;
    // A bar that goes on keeps the focus of its button.
    if (isBusy && had?.classList.contains("working") === true) {
      had.querySelector("p")!.textContent = element.querySelector("p")!.textContent;
      return;
    }
    this.body.replaceChildren(element);
    element.querySelector<HTMLElement>("button, h1")?.focus();
  }

  private show(form: Form): void {
    this.form = form;
    const focused = document.activeElement?.getAttribute("data-key");
    const [top, dockTop] = [this.body.scrollTop, this.dock.scrollTop];
    this.foot.hidden = false;
    this.dock.hidden = false;
    this.head.replaceChildren(
      h("h1", { tabindex: -1 }, `Import ${form.name}`),
      h("p", { class: "quiet" }, [rowsOf(form.rows), form.said].filter(Boolean).join(" · ")),
      ...mapsOf(form, this.send),
    );
    const answer = (id: string, value: string): void => this.send({ say: "answer", id, value });
    const open = form.decisions.filter(({ value }) => value === undefined);
    const general = form.decisions.filter(({ column }) => column === undefined);
    this.body.replaceChildren(
      ...[
        openOf(open, form),
        general.length > 0
          ? h(
              "section",
              { class: "general" },
              h("h2", {}, "How it is read"),
              ...general.map((each) => decisionField(each, form, answer)),
            )
          : null,
        form.columns.length > 0 ? h("section", {}, h("h2", {}, "Columns"), columnsTable(form, answer)) : null,
      ].filter((each) => each !== null),
    );
    this.dock.replaceChildren(h("h2", {}, "Preview"), previewTable(form.preview));
    this.importing.setAttribute("aria-disabled", String(!form.isSettled));
    this.voice.textContent =
      form.problem !== "" ? form.problem : form.isSettled ? "" : openWords(open.length);
    this.voice.classList.toggle("bad", form.problem !== "");
    this.rejects.replaceChildren();
    const again =
      focused == null ? null : document.querySelector<HTMLElement>(`[data-key="${CSS.escape(focused)}"]`);
    if (again !== null) again.focus({ preventScroll: true });
    else if (this.isFirst)
      (this.body.querySelector<HTMLElement>("[aria-invalid='true']") ?? this.importing).focus({
        preventScroll: true,
      });
    this.isFirst = false;
    this.body.scrollTop = top;
    this.dock.scrollTop = dockTop;
  }

  private count(counted: Counted | null, percent: number): void {
    if (this.form?.isSettled !== true || this.form.problem !== "") return;
    if (counted === null) {
      this.voice.textContent = `Counting all rows: ${percent} %`;
      return;
    }
    const { rows, files, rejects } = counted;
    const into = files.map(
      ({ name, isNew, lines }) =>
        `${name} (${lines === 1 ? "1 line" : `${lines} lines`}${isNew ? ", new" : ""})`,
    );
    this.voice.textContent = `${countsWords(rows)}${into.length === 0 ? ". Nothing is new." : `. To be written: ${shortList(into)}.`}`;
    this.rejects.replaceChildren(
      ...rejects.slice(0, 3).map(({ line, why }) => h("li", {}, `line ${line}: ${why}`)),
      ...(rows.rejected > 3
        ? [h("li", {}, `and ${rows.rejected - 3} more; all go to a file of their own`)]
        : []),
    );
  }
}

/** By which mapping it is read, where some lie beside the log. */
function mapsOf({ maps, map }: Form, send: (message: ToHost) => void): HTMLElement[] {
  if (maps.length === 0) return [];
  const id = "map";
  return [
    h(
      "p",
      { class: "maps" },
      h("label", { for: id }, "Mapping"),
      h(
        "select",
        {
          id,
          "data-key": id,
          onchange: (event) => send({ say: "map", name: (event.target as HTMLSelectElement).value }),
        },
        ...maps.map((name) =>
          h("option", { value: name, selected: name === map }, `${name}, beside the log`),
        ),
        h("option", { value: "", selected: map === "" }, "by heads, values and what is answered here"),
      ),
    ),
  ];
}

const rowsOf = (rows: number): string => (rows === 1 ? "1 row" : `${rows.toLocaleString("en")} rows`);

const openWords = (open: number): string =>
  open === 0 ? "Something is open." : open === 1 ? "1 question is open." : `${open} questions are open.`;

const shortList = (all: readonly string[]): string =>
  all.length <= 3 ? all.join(", ") : `${all.slice(0, 2).join(", ")} and ${all.length - 2} more files`;

/** What is open, each with the way to where it is answered. */
function openOf(open: readonly Decision[], form: Form): HTMLElement | null {
  if (open.length === 0) return null;
  return h(
    "section",
    { class: "open" },
    h("h2", {}, openWords(open.length)),
    h("p", { class: "quiet" }, "Nothing is guessed: the table does not say it."),
    h(
      "ol",
      {},
      ...open.map((each) =>
        h(
          "li",
          {},
          h(
            "button",
            {
              type: "button",
              class: "leads",
              "data-key": `to ${each.id}`,
              onclick: () => {
                const control = document.getElementById(controlId(form, each.id));
                control?.scrollIntoView({ block: "center" });
                control?.focus();
              },
            },
            each.asks,
          ),
        ),
      ),
    ),
  );
}
