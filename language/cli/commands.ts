import type { Command } from "./command.ts";
import { broods } from "./commands/broods.ts";
import { calendar } from "./commands/calendar.ts";
import { cases } from "./commands/cases.ts";
import { check } from "./commands/check.ts";
import { diff } from "./commands/diff.ts";
import { explain } from "./commands/explain.ts";
import { exportCommand } from "./commands/export.ts";
import { exposure } from "./commands/exposure.ts";
import { feed } from "./commands/feed.ts";
import { format } from "./commands/format.ts";
import { gitCommand } from "./commands/git.ts";
import { history } from "./commands/history.ts";
import { importCommand } from "./commands/import.ts";
import { merge } from "./commands/merge.ts";
import { orders } from "./commands/orders.ts";
import { plan } from "./commands/plan.ts";
import { report } from "./commands/report.ts";
import { round } from "./commands/round.ts";
import { sheet } from "./commands/sheet.ts";
import { stock } from "./commands/stock.ts";
import { tank } from "./commands/tank.ts";
import { today } from "./commands/today.ts";
import { water } from "./commands/water.ts";
import { why } from "./commands/why.ts";
import { work } from "./commands/work.ts";

/** Every command, in the order of the help. */
export const commands: readonly Command[] = [
  check,
  today,
  plan,
  water,
  round,
  tank,
  stock,
  feed,
  broods,
  orders,
  cases,
  exposure,
  sheet,
  report,
  calendar,
  diff,
  history,
  gitCommand,
  merge,
  why,
  work,
  format,
  importCommand,
  exportCommand,
  explain,
];
