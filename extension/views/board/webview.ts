import { Desk } from "./desk.ts";
import { failed, noLogbook, waiting } from "./empty.ts";
import { type Memory, memoryShape, type ToHost, toBoardShape } from "./messages.ts";

/** The board's script: hears cards and answers, and remembers how the board stood. */

interface Host {
  postMessage(message: ToHost): void;
  getState(): unknown;
  setState(state: Memory): void;
}
declare function acquireVsCodeApi(): Host;

function start(host: Host): void {
  const known = memoryShape.safeParse(host.getState() ?? {});
  const desk = new Desk(
    document.getElementById("page")!,
    known.success ? known.data : memoryShape.parse({}),
    (message) => host.postMessage(message),
    (memory) => host.setState(memory),
  );
  const { page, model } = desk;
  const again = (): void => {
    page.instead(waiting(), true);
    host.postMessage({ say: "again" });
  };
  window.addEventListener("message", (event) => {
    // Not ours.
    if (typeof event.data !== "object" || event.data === null || !("say" in event.data)) return;
    const heard = toBoardShape.safeParse(event.data);
    if (!heard.success) {
      console.error(heard.error);
      page.instead(failed("What the editor sent could not be read.", again));
      return;
    }
    const message = heard.data;
    switch (message.say) {
      case "card":
        desk.take(message);
        return;
      case "nothing":
        page.instead(noLogbook(() => host.postMessage({ say: "new" })));
        return;
      case "failed":
        page.instead(failed(message.why, again));
        return;
      default:
        desk.hear(message);
    }
  });
  page.instead(waiting(), true);
  const { uri } = model.memory;
  host.postMessage(uri === undefined ? { say: "ready" } : { say: "ready", uri });
}

start(acquireVsCodeApi());
