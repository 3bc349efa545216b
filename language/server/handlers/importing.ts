import type { CancellationToken, GenericRequestHandler } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import * as z from "zod/mini";
import type { Question } from "../../exchange/import/asking.ts";
import { newDays } from "../../exchange/import/entry-lines.ts";
import { type Looked as LookedAt, lookAt } from "../../exchange/import/import.ts";
import { fits, importTable } from "../../exchange/import/import-table.ts";
import { KnownLog } from "../../exchange/import/known-log.ts";
import { type Mapping, mappingText, readMapping } from "../../exchange/import/mapping.ts";
import { nameOf } from "../../exchange/import/propose-time.ts";
import { Refused } from "../../exchange/import/refused.ts";
import { rejectsText } from "../../exchange/import/rejects-file.ts";
import { Cancelled, type TableFile, type Watch } from "../../exchange/import/table-file.ts";
import { type FileWriting, writeDays } from "../../exchange/import/write-days.ts";
import type { Logbook } from "../../room/logbook.ts";
import type { Group } from "../group.ts";
import {
  type ImportAnswer,
  type ImportParams,
  type ImportProposal,
  importProgress,
  importRequest,
  mostTableBytes,
} from "../import-protocol.ts";
import { cancelled, type Session } from "../session.ts";
import { textEdits } from "../to-lsp.ts";

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
        const params: ImportParams = read.data;
        if (params.step === "take" && params.part === 0) table = new Table(params.id, params.name);
        const own = table;
        if (own?.id !== params.id) return null;
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
    base64: z.string(),
  }),
  z.object({
    ...about,
    step: z.literal("propose"),
    answers: z.record(z.string(), z.string()),
    maps: z.array(z.object({ name: z.string(), text: z.string() })),
  }),
  z.object({ ...about, step: z.literal("write"), mapping: z.string() }),
]);

/** Bytes between two breaths, in which a cancellation is heard. */
const breathBytes = 1 << 18;

/** A table that is handed over, or was. */
class Table implements TableFile {
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
  params: ImportParams,
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
      if (!table.take(params.part, params.base64)) return null;
      if (table.bytes > mostTableBytes) throw new Refused("the table is too large for the editor");
      return { is: "taken", folder: folderOf(logbook) };
    case "propose":
      return proposal(table, new KnownLog(logbook), params, watch);
    case "write":
      return writing(session, table, logbook, params, watch);
  }
}

async function proposal(
  table: Table,
  log: KnownLog,
  { answers, maps }: Extract<ImportParams, { step: "propose" }>,
  watch: Watch,
): Promise<ImportProposal> {
  table.looked ??= await lookAt(table, log.places, watch);
  const fitting: string[] = [];
  for (const { name, text } of maps) {
    const mapping = mappingOf(text);
    if (mapping !== undefined && (await fits(table, mapping, log, watch))) fitting.push(name);
  }
  const { looked } = table;
  const made = looked.propose(new Map(Object.entries(answers)));
  return {
    is: "proposal",
    rows: looked.survey.rows,
    said: looked.said,
    columns: made.columns,
    reasons: made.reasons,
    questions: made.questions.map((each) => ({ ...each, samples: samplesFor(looked, each) })),
    mapping: made.mapping === undefined ? null : mappingText(made.mapping),
    fits: fitting,
  };
}

function mappingOf(text: string): Mapping | undefined {
  try {
    return readMapping(text);
  } catch {
    return undefined;
  }
}

const samplesShown = 4;

/** What stands in the columns that a question is about; nothing where it is about none in particular. */
function samplesFor({ survey }: LookedAt, { id }: Question): string[] {
  const [kind = "", ...rest] = id.split(":");
  const of = rest.join(":");
  const isTime = kind === "date-order" || kind === "zone";
  const at = survey.columns.findIndex(({ filled, moments }, index) =>
    isTime
      ? filled > 0 && moments >= filled / 2
      : of !== "" && (of === `#${index + 1}` || of === nameOf(survey, index)),
  );
  return [...(survey.columns[at]?.distinct.keys() ?? [])].slice(0, samplesShown);
}

async function writing(
  session: Session,
  table: Table,
  logbook: Logbook,
  { uri, mapping: text }: Extract<ImportParams, { step: "write" }>,
  watch: Watch,
): Promise<ImportAnswer> {
  const mapping = mappingOf(text);
  if (mapping === undefined) throw new Refused("this is no mapping");
  const texts = new Map([...logbook.sources].map(([path, source]) => [path, source.text]));
  const imported = await importTable(table, mapping, new KnownLog(logbook), watch);
  const now = session.look(uri)?.view.checked.logbook;
  const isSame =
    now === logbook &&
    now.sources.size === texts.size &&
    [...texts].every(([path, was]) => now.sources.get(path)?.text === was);
  if (!isSame) return { is: "outdated" };
  // From here on nothing waits: the edits are for the texts that were read.
  const writings = writeDays(logbook, newDays(imported, table.name));
  if (folderOf(logbook) === "" && writings.some(({ isNew }) => isNew))
    throw new Refused("the log is not stored yet, and the days need a file of their own: store it first");
  return {
    is: "writing",
    rows: imported.rows,
    files: writings.map((each) => fileOf(session, each)),
    rejects: imported.rejects.length === 0 ? null : rejectsText(imported, table.name),
  };
}

function fileOf(
  session: Session,
  made: FileWriting,
): Extract<ImportAnswer, { is: "writing" }>["files"][number] {
  const { path: uri, lines, isNew } = made;
  const document = session.workspace.document(uri) ?? TextDocument.create(uri, "standpipe", 0, "");
  const edits = made.isNew ? [{ start: 0, end: 0, text: made.text }] : made.edits;
  const version = session.workspace.files.get(uri)?.version ?? null;
  return { uri, version, isNew, edits: textEdits(document, edits), lines };
}

/** The folder of the room, or of its first file. */
function folderOf({ sources }: Logbook): string {
  const all = [...sources.values()];
  const room = all.find(({ blocks }) => blocks.some(({ definition }) => definition?.word === "room"));
  const path = (room ?? all[0])?.path ?? "";
  return path.slice(0, path.lastIndexOf("/") + 1);
}
