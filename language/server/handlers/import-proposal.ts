import { answersOf, isSameMapping } from "../../exchange/import/answers-of.ts";
import type { Decision } from "../../exchange/import/asking.ts";
import { type Looked, lookAt } from "../../exchange/import/import.ts";
import { KnownLog } from "../../exchange/import/known-log.ts";
import { type Mapping, mappingText, readMapping } from "../../exchange/import/mapping.ts";
import { fits } from "../../exchange/import/mapping-fit.ts";
import { type PreviewRow, previewOf } from "../../exchange/import/preview.ts";
import { nameOf } from "../../exchange/import/propose-time.ts";
import { Refused } from "../../exchange/import/refused.ts";
import type { TableFile, Watch } from "../../exchange/import/table-file.ts";
import type { Logbook } from "../../room/logbook.ts";
import type { ImportParams, ImportProposal } from "../import-protocol.ts";

/** A table that is held for an import, and what was seen of it. */
export interface TakenTable extends TableFile {
  looked: Looked | undefined;
}

const previewRows = 40;

/** What a table is taken for: decided and open, with its first rows beside what they would become. */
export async function proposal(
  table: TakenTable,
  logbook: Logbook,
  { answers, maps, by }: Extract<ImportParams, { step: "propose" }>,
  watch: Watch,
): Promise<ImportProposal> {
  const log = new KnownLog(logbook);
  table.looked ??= await lookAt(table, log.names, watch);
  const { looked } = table;
  const fitting: string[] = [];
  for (const { name, text } of maps) {
    const mapping = mappingOf(text);
    if (mapping !== undefined && (await fits(table, mapping, log, watch))) fitting.push(name);
  }
  const kept = by === undefined ? undefined : mappingOf(by);
  if (by !== undefined && kept === undefined) throw new Refused("this is no mapping");
  const given = kept === undefined ? new Map(Object.entries(answers)) : answersOf(kept, looked.survey);
  const made = looked.propose(given, true, log.names);
  const isOwn = kept === undefined || (made.mapping !== undefined && isSameMapping(made.mapping, kept));
  const mapping = isOwn ? made.mapping : kept;
  return {
    is: "proposal",
    rows: looked.survey.rows,
    said: looked.said,
    columns: made.columns.map((each) => ({
      ...each,
      samples: [...(looked.survey.columns[each.at - 1]?.distinct.keys() ?? [])].slice(0, samplesShown),
    })),
    reasons: made.reasons,
    decisions: isOwn ? made.decisions.map((each) => ({ ...each, samples: samplesFor(looked, each) })) : [],
    answers: Object.fromEntries(given),
    mapping: mapping === undefined ? null : mappingText(mapping),
    fits: fitting,
    preview: await rowsOf(looked, mapping, log, watch),
  };
}

export function mappingOf(text: string): Mapping | undefined {
  try {
    return readMapping(text);
  } catch {
    return undefined;
  }
}

function rowsOf(
  looked: Looked,
  mapping: Mapping | undefined,
  log: KnownLog,
  watch: Watch,
): Promise<PreviewRow[]> | PreviewRow[] {
  const { isCancelled } = watch;
  if (mapping !== undefined)
    return previewOf(
      looked.first(previewRows),
      mapping,
      log,
      isCancelled === undefined ? {} : { isCancelled },
    );
  // A row whose heads are dates has a sample for each of them.
  return looked.survey.samples
    .filter(({ line }, at, all) => line !== all[at - 1]?.line)
    .slice(0, previewRows)
    .map(({ line, raw }) => ({ line, raw, is: "open" as const, why: "", day: "", lines: [] }));
}

const samplesShown = 4;

/** What stands in the columns that a decision is about; nothing where it is about none in particular. */
function samplesFor({ survey }: Looked, { id, column, word }: Decision): string[] {
  if (word !== undefined) return [];
  const [kind = "", ...rest] = id.split(":");
  const of = rest.join(":");
  const isTime = kind === "date-order" || kind === "zone";
  const at =
    column === undefined
      ? survey.columns.findIndex(({ filled, moments }, index) =>
          isTime ? filled > 0 && moments >= filled / 2 : of !== "" && of === nameOf(survey, index),
        )
      : column - 1;
  return [...(survey.columns[at]?.distinct.keys() ?? [])].slice(0, samplesShown);
}
