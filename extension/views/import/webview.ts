import { type ToHost, toPageShape } from "./messages.ts";
import { Page } from "./page.ts";

/** The script of an import's page. It keeps nothing: what is shown is told anew by its host. */

interface Host {
  postMessage(message: ToHost): void;
}
declare function acquireVsCodeApi(): Host;

function start(host: Host): void {
  const page = new Page(document.getElementById("page")!, (message) => host.postMessage(message));
  window.addEventListener("message", (event) => {
    // Not ours.
    if (typeof event.data !== "object" || event.data === null || !("say" in event.data)) return;
    const heard = toPageShape.safeParse(event.data);
    if (heard.success) page.hear(heard.data);
    else console.error(heard.error);
  });
  host.postMessage({ say: "ready" });
}

start(acquireVsCodeApi());
