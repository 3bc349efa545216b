/**
 * Starts the server as a worker. Where the editor's page and the extension come from different places a worker may not be made from the script's
 * address: then the script is read and the worker made from what was read.
 * @param say is told why the first way did not work
 */
export async function startWorker(
  address: string,
  read: () => Promise<Uint8Array>,
  say: (words: string) => void,
): Promise<Worker> {
  try {
    return await ready(new Worker(address));
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    say(`a worker from the script's address does not start (${words}): from its text instead`);
  }
  const script = new Blob([(await read()).slice()], { type: "application/javascript" });
  const own = URL.createObjectURL(script);
  try {
    return await ready(new Worker(own));
  } finally {
    URL.revokeObjectURL(own);
  }
}

/** A script that cannot be loaded is told by an event, or not at all. */
const patienceMs = 10_000;

/** Resolves when the server in the worker says that it listens. */
function ready(worker: Worker): Promise<Worker> {
  return new Promise((resolve, reject) => {
    const fail = (why: string) => {
      clearTimeout(timer);
      worker.terminate();
      reject(new Error(why));
    };
    const timer = setTimeout(() => fail("it says nothing"), patienceMs);
    worker.onerror = (event) => fail(event.message || "its script cannot be loaded");
    worker.onmessage = () => {
      clearTimeout(timer);
      worker.onerror = null;
      worker.onmessage = null;
      resolve(worker);
    };
  });
}
