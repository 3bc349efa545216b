import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { serve } from "./server.ts";

// What a dedicated worker calls itself; the checker has the names of a page.
const worker = globalThis as unknown as Worker;

serve(createConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker)));
// Whoever started the worker waits for this before it lets the protocol begin: a worker that cannot be loaded says nothing.
worker.postMessage({ standpipe: "ready" });
