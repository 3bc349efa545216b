import * as z from "zod/mini";
import { baselineEntry } from "./schema/baseline.ts";
import { broodsReport } from "./schema/broods.ts";
import { casesReport } from "./schema/cases.ts";
import { diffReport } from "./schema/diff.ts";
import { exposureReport } from "./schema/exposure.ts";
import { feedReport } from "./schema/feed.ts";
import { gitReport } from "./schema/git.ts";
import { historyReport } from "./schema/history.ts";
import { importReport } from "./schema/import.ts";
import { logItem } from "./schema/log.ts";
import { ordersReport, packingReport, registerReport } from "./schema/orders.ts";
import { counts, finding, head, logbook, said, severity, unread, whole, why } from "./schema/parts.ts";
import { periodReport } from "./schema/period.ts";
import { planReport } from "./schema/plan.ts";
import { sheetReport } from "./schema/sheet.ts";
import { stockRegisterReport, stockReport } from "./schema/stock.ts";
import { tankReport } from "./schema/tank.ts";
import { todayReport } from "./schema/today.ts";
import { waterReport } from "./schema/water.ts";
import { workListReport, workReport } from "./schema/work.ts";

/**
 * What `--json` prints, version 1. It only grows: a reader of version 1 may meet keys it does not know, and never misses one that stands
 * here. The command itself takes only the types from this file; the schemas are for its tests, and for `explain --schema`.
 */

export { type BroodsReport, broodsReport } from "./schema/broods.ts";
export { type CasesReport, casesReport } from "./schema/cases.ts";
export { type DiffReport, diffReport } from "./schema/diff.ts";
export { type ExposureReport, exposureReport } from "./schema/exposure.ts";
export { type FeedReport, feedReport } from "./schema/feed.ts";
export { type GitReport, gitReport } from "./schema/git.ts";
export { type HistoryReport, historyReport } from "./schema/history.ts";
export { type ImportReport, importReport } from "./schema/import.ts";
export {
  type OrdersReport,
  ordersReport,
  type PackingReport,
  packingReport,
  type RegisterReport,
  registerReport,
} from "./schema/orders.ts";
export type { FindingReport, LogbookReport, Place, WhyTree } from "./schema/parts.ts";
export { type PeriodReport, periodReport } from "./schema/period.ts";
export { type PlanReport, planReport } from "./schema/plan.ts";
export type { QuarantineReport } from "./schema/quarantine.ts";
export { type SheetReport, sheetReport } from "./schema/sheet.ts";
export {
  type StockRegisterReport,
  type StockReport,
  stockRegisterReport,
  stockReport,
} from "./schema/stock.ts";
export { type TankReport, tankReport } from "./schema/tank.ts";
export { type DayReport, type TodayReport, todayReport, type WorkReport } from "./schema/today.ts";
export { type WaterReport, waterReport } from "./schema/water.ts";
export { type WorkedReport, type WorkListReport, workListReport, workReport } from "./schema/work.ts";

export const checkReport = z.object({
  ...head("check"),
  logbooks: z.array(logbook),
  findings: z.array(finding).check(said("as grave as --severity asks for, by logbook, file and place")),
  counts: counts.check(said("of all findings in the files asked for, shown or not")),
  unread: unread.check(said("files that could not be read; what stands in them is missing everywhere here")),
  baseline: z.optional(
    z.object({
      file: z.string(),
      known: whole().check(said("findings that stand in it: neither listed nor counted here")),
      gone: z.array(baselineEntry).check(said("what stands in it and occurs no more, or less often")),
    }),
  ),
});
export type CheckReport = z.infer<typeof checkReport>;

export const explainReport = z.object({
  ...head("explain"),
  pages: z.array(
    z.object({
      code: z.string(),
      severity: severity.check(said("if nothing else is said")),
      since: z.string().check(said("the version it came with")),
      removed: z.optional(z.string()),
      title: z.string(),
      says: z.string(),
      whatToDo: z.string(),
      raises: z.string().check(said("a log that raises it, the place marked by ^^^ in the comment below")),
      fine: z.string().check(said("a log that just does not")),
      source: z.optional(z.string()),
    }),
  ),
});
export type ExplainReport = z.infer<typeof explainReport>;

export const whyReport = z.object({
  ...head("why"),
  question: z.string(),
  folder: z.string().check(said("of the logbook that answers")),
  answer: why,
  caution: z.optional(z.string().check(said("shown with every figure of a remedy"))),
  unread,
});
export type WhyReport = z.infer<typeof whyReport>;

export const formatReport = z.object({
  ...head("format"),
  written: z.boolean().check(said("false with --check: nothing was written")),
  files: z.array(
    z.object({
      file: z.string(),
      changed: z.boolean().check(said("its layout is, or would be, another than it was")),
    }),
  ),
  unread: unread.check(
    said("files that were left alone: they could not be read as UTF-8, or not be written"),
  ),
});
export type FormatReport = z.infer<typeof formatReport>;

/** What each command prints with `--json`; the list of calculations is a form of its own. */
export const reports = {
  why: whyReport,
  check: checkReport,
  git: gitReport,
  today: todayReport,
  plan: planReport,
  water: waterReport,
  tank: tankReport,
  broods: broodsReport,
  stock: stockReport,
  stockRegister: stockRegisterReport,
  orders: ordersReport,
  packing: packingReport,
  register: registerReport,
  cases: casesReport,
  exposure: exposureReport,
  diff: diffReport,
  history: historyReport,
  sheet: sheetReport,
  report: periodReport,
  feed: feedReport,
  format: formatReport,
  import: importReport,
  explain: explainReport,
  work: workReport,
  workList: workListReport,
};

/** The same as JSON Schema, draft 2020-12; under `$defs` that of an item of an exported log. */
export function jsonSchema(): object {
  const schema = z.toJSONSchema(z.union(Object.values(reports)));
  const { $schema: _, ...item } = z.toJSONSchema(logItem);
  return { ...schema, $defs: { ...schema.$defs, logItem: item } };
}
