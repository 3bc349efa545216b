import { h } from "../shared/dom.ts";
import { keyHelp } from "./keys.ts";

/** The keys, over the board until they are closed. */
export function keysDialog(): HTMLDialogElement {
  const close = h("button", { type: "button", class: "tool", onclick: () => dialog.close() }, "Close");
  const dialog: HTMLDialogElement = h(
    "dialog",
    { class: "keys", "aria-labelledby": "keys-head" },
    h("h2", { id: "keys-head" }, "Keys of the board"),
    h("dl", {}, ...keyHelp.map(([keys, does]) => h("div", {}, h("dt", {}, keys), h("dd", {}, does)))),
    close,
  );
  dialog.addEventListener("keydown", (event) => {
    event.stopPropagation();
    if (event.key === "?") dialog.close();
  });
  return dialog;
}
