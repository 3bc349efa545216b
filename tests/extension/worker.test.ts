import { afterEach, describe, expect, test, vi } from "vitest";
import { startWorker } from "../../extension/client/worker.ts";

/** What a host does when a worker is made from an address: throws, tells of an error, or runs the script. */
type Host = (address: string) => "throws" | "cannot load" | "runs";

const made: string[] = [];
const ended: string[] = [];

function stubWorker(host: Host): void {
  vi.stubGlobal(
    "Worker",
    class {
      onmessage: (() => void) | null = null;
      onerror: ((event: { message: string }) => void) | null = null;
      readonly address: string;
      constructor(address: string) {
        this.address = address.startsWith("blob:") ? "blob" : address;
        made.push(this.address);
        const outcome = host(this.address);
        if (outcome === "throws") throw new Error("another origin");
        queueMicrotask(() => (outcome === "runs" ? this.onmessage?.() : this.onerror?.({ message: "" })));
      }
      terminate(): void {
        ended.push(this.address);
      }
    },
  );
}

const start = async (host: Host) => {
  stubWorker(host);
  const said: string[] = [];
  const read = vi.fn(async () => new TextEncoder().encode("postMessage('ready')"));
  const worker = await startWorker("https://host/server.js", read, (words) => said.push(words));
  return { worker, said, read };
};

afterEach(() => {
  made.length = ended.length = 0;
  vi.unstubAllGlobals();
});

describe("the server in a worker", () => {
  test("is made from the script's address where that may be", async () => {
    const { said, read } = await start(() => "runs");
    expect(made).toEqual(["https://host/server.js"]);
    expect(read).not.toHaveBeenCalled();
    expect(said).toEqual([]);
  });

  test("is made from its text where the host throws", async () => {
    const { said, worker } = await start((address) => (address === "blob" ? "runs" : "throws"));
    expect(made).toEqual(["https://host/server.js", "blob"]);
    expect(said).toEqual([expect.stringContaining("another origin")]);
    expect(worker.onmessage).toBeNull();
  });

  test("is made from its text where the script cannot be loaded, and the first is ended", async () => {
    await start((address) => (address === "blob" ? "runs" : "cannot load"));
    expect(made).toEqual(["https://host/server.js", "blob"]);
    expect(ended).toEqual(["https://host/server.js"]);
  });

  test("fails in words where neither works", async () => {
    await expect(start(() => "cannot load")).rejects.toThrow("its script cannot be loaded");
  });
});
