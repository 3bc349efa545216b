import * as vscode from "vscode";

/**
 * Starts the server as a worker. Where the editor's page and the extension come from different places a worker may not be made from the script's
 * address: then the script is read and the worker made from what was read.
 */
export async function startWorker(script: vscode.Uri, log: vscode.LogOutputChannel): Promise<Worker> {
  try {
    return await ready(new Worker(script.toString(true)));
  } catch (error) {
    log.info(`a worker from the script's address does not start (${words(error)}): from its text instead`);
  }
  const text = await vscode.workspace.fs.readFile(script);
  const address = URL.createObjectURL(new Blob([text.slice()], { type: "application/javascript" }));
  try {
    return await ready(new Worker(address));
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** A script that cannot be loaded is told by an event, or not at all. */
const patienceMs = 10_000;

/** Resolves when the server in the worker says that it listens. */
function ready(worker: Worker): Promise<Worker> {
  return new Promise((resolve, reject) => {
    const fail = (why: unknown) => {
      clearTimeout(timer);
      worker.terminate();
      reject(why);
    };
    const timer = setTimeout(() => fail(new Error("it says nothing")), patienceMs);
    worker.onerror = (event) => fail(new Error(event.message || "its script cannot be loaded"));
    worker.onmessage = () => {
      clearTimeout(timer);
      worker.onerror = null;
      worker.onmessage = null;
      resolve(worker);
    };
  });
}

function words(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
