import type { CancellationToken, GenericRequestHandler } from "vscode-languageserver";
import * as z from "zod/mini";
import type { Looked as LookedAt } from "../../exchange/import/import.ts";
import { Refused } from "../../exchange/import/refused.ts";
import { Cancelled, type Watch } from "../../exchange/import/table-file.ts";
import type { Group } from "../group.ts";
import {
  type ImportAnswer,
  type ImportParams,
  importProgress,
  importRequest,
  mostTableBytes,
} from "../import-protocol.ts";
import { cancelled, type Session } from "../session.ts";
import { proposal, type TakenTable } from "./import-proposal.ts";
import { folderOf, refuseUnknown, written } from "./import-writing.ts";

/** A table into a logbook: taken part by part, proposed, and written as edits that the client shows and makes. */
export const importing: Group = {
  capabilities: () => ({}),
  serve(session) {
    let table: Table | undefined;
    const handler = session.handler(
      importRequest.method,
      null,
      async (given: unknown, token: CancellationToken) => {
        const read = importParams.safeParse(given);
        if (!read.success) throw new TypeError(z.prettifyError(read.error));
        const params = read.data as ImportParams;
        if (params.step === "take" && params.part === 0) table = new Table(params.id, params.name);
        const own = table;
        if (own?.id !== params.id) return null;
        if (params.step === "leave") {
          table = undefined;
          return { is: "left" } as const;
        }
        try {
          return await stepOf(session, own, params, token);
        } catch (error) {
          if (error instanceof Cancelled) return cancelled() as never;
          if (error instanceof Refused) return { is: "refused", why: error.message } as const;
          throw error;
        }
      },
    );
    // The connection cannot know that a result of any sort is one of its own.
    session.connection.onRequest(importRequest.method, handler as GenericRequestHandler<unknown, never>);
  },
};

const about = { uri: z.string(), id: z.number() };
const importParams = z.discriminatedUnion("step", [
  z.object({
    ...about,
    step: z.literal("take"),
    part: z.number().check(z.int(), z.nonnegative()),
    name: z.string(),
    bytes: z.number().check(z.int(), z.nonnegative()),
    base64: z.string(),
  }),
  z.object({
    ...about,
    step: z.literal("propose"),
    answers: z.record(z.string(), z.string()),
    maps: z.array(z.object({ name: z.string(), text: z.string() })),
    by: z.optional(z.string()),
  }),
  z.object({ ...about, step: z.enum(["count", "write"]), mapping: z.string() }),
  z.object({ ...about, step: z.literal("leave") }),
]);

/** Bytes between two breaths, in which a cancellation is heard. */
const breathBytes = 1 << 16;

/** A table that is handed over, or was. */
class Table implements TakenTable {
  readonly id: number;
  readonly name: string;
  looked: LookedAt | undefined;
  bytes = 0;
  private readonly parts: Uint8Array[] = [];

  constructor(id: number, name: string) {
    this.id = id;
    this.name = name;
  }

  /** Whether the part is the one that was due. */
  take(part: number, base64: string): boolean {
    if (part !== this.parts.length) return false;
    const letters = atob(base64);
    const bytes = new Uint8Array(letters.length);
    for (let at = 0; at < letters.length; at++) bytes[at] = letters.charCodeAt(at);
    this.parts.push(bytes);
    this.bytes += bytes.length;
    return true;
  }

  async *chunks(): AsyncGenerator<Uint8Array> {
    for (const part of this.parts)
      for (let at = 0; at < part.length; at += breathBytes) {
        yield part.subarray(at, at + breathBytes);
        await new Promise((resolve) => setTimeout(resolve));
      }
  }
}

async function stepOf(
  session: Session,
  table: Table,
  params: Exclude<ImportParams, { step: "leave" }>,
  token: CancellationToken,
): Promise<ImportAnswer | null> {
  const logbook = session.look(params.uri)?.view.checked.logbook;
  if (logbook === undefined) return null;
  let shown = -1;
  const watch: Watch = {
    isCancelled: () => token.isCancellationRequested,
    step: (_what, done, of) => {
      const percent = Math.floor((100 * done) / Math.max(1, of));
      if (percent === shown) return;
      shown = percent;
      session.tell(importProgress, { id: table.id, percent });
    },
  };
  switch (params.step) {
    case "take":
      if (params.part === 0) await refuseUnknown(session, params.uri, logbook);
      if (params.bytes > mostTableBytes) throw new Refused("the table is too large for the editor");
      if (!table.take(params.part, params.base64) || table.bytes > params.bytes) return null;
      return { is: "taken", folder: folderOf(logbook) };
    case "propose":
      return proposal(table, logbook, params, watch);
    default:
      await refuseUnknown(session, params.uri, logbook);
      return written(session, table, logbook, params, watch);
  }
}
