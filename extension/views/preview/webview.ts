import type { Face } from "./face.ts";
import { type Memory, memoryShape, signature, type ToHost, toPreviewShape } from "./messages.ts";
import { Page } from "./page.ts";
import type { Card } from "./shown.ts";

/** The preview's script: hears cards, draws them, tells the host what was asked for, and remembers how it looked. */

interface Host {
  postMessage(message: ToHost): void;
  getState(): unknown;
  setState(state: Memory): void;
}
declare function acquireVsCodeApi(): Host;

function start(host: Host): void {
  const known = memoryShape.safeParse(host.getState() ?? {});
  let memory: Memory = known.success ? known.data : memoryShape.parse({});
  const page = new Page(document.getElementById("page")!);
  let card: Card | undefined;
  let drawn = "";
  /** How far each card was scrolled: who comes back finds it as it was. */
  const scrolls = new Map<string, number>();

  const remember = (change: Partial<Memory>): void => {
    memory = { ...memory, ...change };
    host.setState(memory);
  };
  const again = (): void => {
    page.wait();
    host.postMessage({ say: "again" });
  };
  const redraw = (): void => {
    if (card === undefined) return;
    try {
      page.show(face, card);
    } catch (error) {
      // Said where it is seen, and told to the console for whoever looks for the cause.
      console.error(error);
      page.fail("This card could not be drawn.", again);
    }
  };
  const face: Face = {
    reveal: (at) => host.postMessage({ say: "reveal", at }),
    showTank: (name) => host.postMessage({ say: "tank", name }),
    showDay: (day) => host.postMessage({ say: "day", day }),
    showCase: (name, episode) => host.postMessage({ say: "case", name, episode }),
    pick: () => host.postMessage({ say: "pick" }),
    pin: (isPinned) => host.postMessage({ say: "pin", isPinned }),
    say: (words) => page.say(words),
    isOpen: (key) => memory.open.includes(key),
    setOpen(key, isOpen) {
      const others = memory.open.filter((each) => each !== key);
      if (isOpen !== memory.open.includes(key)) remember({ open: isOpen ? [...others, key] : others });
    },
    setDays(days) {
      remember({ days });
      redraw();
    },
    get days() {
      return memory.days;
    },
    get isPinned() {
      return memory.isPinned;
    },
  };

  window.addEventListener("message", (event) => {
    // Not ours.
    if (typeof event.data !== "object" || event.data === null || !("say" in event.data)) return;
    const heard = toPreviewShape.safeParse(event.data);
    if (!heard.success) {
      page.fail("What the editor sent could not be read.", again);
      return;
    }
    const message = heard.data;
    switch (message.say) {
      case "card": {
        if (card !== undefined) scrolls.set(nameOf(card), window.scrollY);
        else scrolls.set(nameOf(message.card), memory.scroll);
        const text = signature(message.card) + message.isPinned;
        remember({ subject: message.subject, isPinned: message.isPinned });
        card = message.card;
        if (text === drawn) return;
        drawn = text;
        redraw();
        window.scrollTo(0, scrolls.get(nameOf(card)) ?? 0);
        return;
      }
      case "nothing":
        remember({ isPinned: message.isPinned });
        if (card === undefined) page.empty();
        return;
      case "failed":
        card = undefined;
        drawn = "";
        page.fail(message.why, again);
    }
  });

  let scrolled: ReturnType<typeof setTimeout> | undefined;
  window.addEventListener("scroll", () => {
    clearTimeout(scrolled);
    scrolled = setTimeout(() => remember({ scroll: window.scrollY }), 200);
  });

  page.wait();
  host.postMessage({ say: "ready" });
}

/** What a card is about. */
function nameOf(card: Card): string {
  switch (card.is) {
    case "tank":
      return `tank ${card.name}`;
    case "day":
      return `day ${card.day}`;
    case "case":
      return `case ${card.name} ${card.episode}`;
  }
}

start(acquireVsCodeApi());
