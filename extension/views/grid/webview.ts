import { listenToClipboard } from "./clipboard.ts";
import { Desk } from "./desk.ts";
import { pressKey } from "./keys.ts";
import { type Memory, memoryShape, type ToHost, toGridShape } from "./messages.ts";
import { listenToPointer } from "./pointer.ts";
import { press } from "./press.ts";

/** The grid's script: hears answers and what has changed, and remembers how the grid stood. */

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
  window.addEventListener("message", (event) => {
    // Not ours.
    if (typeof event.data !== "object" || event.data === null || !("say" in event.data)) return;
    const heard = toGridShape.safeParse(event.data);
    if (!heard.success) {
      console.error(heard.error);
      return;
    }
    const message = heard.data;
    switch (message.say) {
      case "hello":
        desk.showing.begin(message);
        return;
      case "stale":
        desk.told.notice(message.notice);
        desk.stale();
        return;
      case "answer":
        desk.asking.answered(message.ask, message.answer);
        return;
      case "failed":
        desk.asking.failed(message.ask, message.why);
        return;
      case "progress":
        desk.asking.progressed(message.ask, message.share);
        return;
      case "line":
        desk.showing.goToLine(message.line);
        return;
      case "press":
        press(desk, message.press, message.column);
    }
  });
  const { grid } = desk.table;
  grid.addEventListener("keydown", (event) => {
    if (desk.offers.isOpen && !desk.input.isOpen && desk.fixes.pressOffers(event)) return;
    pressKey(desk, event);
  });
  listenToPointer(desk);
  listenToClipboard(desk);
  // Another theme or font: rows are as high as the font.
  new MutationObserver(() => desk.table.measure()).observe(document.body, {
    attributes: true,
    attributeFilter: ["class", "style"],
  });
  host.postMessage({ say: "ready" });
}

start(acquireVsCodeApi());
