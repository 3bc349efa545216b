import { type Answers, Asking, type Decision, type Question, type Reason } from "./asking.ts";
import { readHead } from "./heads.ts";
import type { KnownNames } from "./known-log.ts";
import type { ColumnAt, Mapping, Role } from "./mapping.ts";
import { chosen } from "./propose-choice.ts";
import { measureOf } from "./propose-columns.ts";
import { decimalOf } from "./propose-decimal.ts";
import { filledSurvey, proposeFill } from "./propose-fill.ts";
import { layoutMapped } from "./propose-layout.ts";
import { longForm, mappedLong, wordColumns } from "./propose-long.ts";
import { flagColumn, isSignColumn, proposeFlags } from "./propose-marks.ts";
import { otherRole } from "./propose-others.ts";
import { aboutOf, askOfFigures, askOfHeads, type ColumnRole, roleOf } from "./propose-role.ts";
import { rowsQuestion, thinning } from "./propose-rows.ts";
import { columnOfTanks, proposeTank, withoutPlace } from "./propose-tanks.ts";
import { nameOf, proposeTime } from "./propose-time.ts";
import { helpingColumns, noReadings, unitAbove, whyNot } from "./propose-words.ts";
import { Refused } from "./refused.ts";
import type { Survey } from "./survey.ts";

/** What a table is, as far as it says so itself; what it leaves open is asked. */
export interface Proposal {
  /** Undefined while a question is open. */
  readonly mapping: Mapping | undefined;
  readonly questions: readonly Question[];
  /** All that was decided, by the table or by an answer, and what is open. */
  readonly decisions: readonly Decision[];
  readonly reasons: readonly Reason[];
  /** What each column is taken for, in words. */
  readonly columns: readonly {
    readonly at: number;
    readonly head: string;
    readonly as: string;
    readonly why: string;
  }[];
}

/**
 * Throws `Refused` for a table that has no dates, no readings, or an answer that is none.
 * @param isLenient an answer that is none is told beside its question, and one that nothing asks for is passed over
 */
export function propose(
  seen: Survey,
  fileName: string,
  known: KnownNames,
  answers: Answers = new Map(),
  isLenient = false,
): Proposal {
  const asking = new Asking(answers, isLenient);
  const { layout } = seen;
  const { places } = known;
  if (seen.rows === 0) throw new Refused("the table has heads and no rows");
  if (layout.headLine === 0)
    throw new Refused("no line of heads stands above the rows: write one, so that the columns have names");
  const decimal = decimalOf(seen, asking);
  const taken = new Set<number>();
  const time = proposeTime(seen, asking, taken, fileName);
  const columnOfTank = columnOfTanks(seen, places, asking);
  const said = [...taken, columnOfTank].filter(
    (index) => index >= 0 && index < (layout.across?.from ?? index + 1),
  );
  const fill = proposeFill(seen, [...new Set([...said, ...wordColumns(seen)])], time, asking);
  const survey = filledSurvey(seen, fill ?? []);
  if (columnOfTank >= 0) taken.add(columnOfTank);
  const heads = layout.heads.map((head, at) =>
    readHead(withoutPlace(head, places), layout.units[at] || unitAbove(layout.preamble, head)),
  );
  const at = (index: number): ColumnAt => ({ at: index + 1, head: layout.heads[index]! });
  const columns: Role[] = [];
  const words: Proposal["columns"][number][] = [];
  const long = longForm(survey, asking, decimal ?? ".");
  const roles = new Map<number, ColumnRole>();
  for (let index = 0; index < layout.heads.length; index++)
    if (!taken.has(index) && long?.roles.has(index) !== true)
      roles.set(
        index,
        roleOf(survey, heads[index]!, index, decimal ?? ".", known, asking, long !== undefined),
      );
  const undecided = new Set<number>();
  const apart = new Set<number>();
  if (long === undefined && layout.across !== undefined)
    askOfFigures(survey, layout.across.from + 1, roles, asking);
  else if (long === undefined && [...roles.values()].every(({ is }) => is === "ignore" || is === "note"))
    askOfHeads(survey, heads, roles, apart, places, asking);
  const without = [...new Set(survey.columns.flatMap(({ missingWords }) => [...missingWords]))];
  const unsaid = without.filter((word) =>
    /^(?:nd|n\.d\.|n\.n\.|bdl|<lod|<bg|not detected|traces?|spuren)$/i.test(word),
  );
  if (unsaid.length > 0)
    asking.because(
      "readings",
      `${unsaid.map((word) => `“${word}”`).join(", ")}: below a limit that is not said, so no reading is made of it`,
    );
  const tests = chosen(survey, heads, roles, asking, undecided, apart, places);
  const others = [...roles].filter(([, { is }]) => !["test", "ignore", "note", "open"].includes(is));
  const isAsked = [...roles.values()].some(({ is }) => is === "open");
  if (long === undefined && tests.size === 0 && others.length === 0 && !isAsked)
    throw new Refused(noReadings(survey, heads));
  const ofTank = new Map([
    ...tests,
    ...others.map(([index]) => [index, { ...heads[index]!, text: layout.heads[index]! }] as const),
  ]);
  const { tank, byColumn } = proposeTank(survey, ofTank, places, fileName, columnOfTank, apart, asking);
  const isByColumns = tank !== undefined && "by" in tank;
  const helping = helpingColumns(survey, roles, known);
  const flagged: number[] = [];
  const measured: number[] = [];
  let isOpen = false;
  let otherCount = 0;
  for (let index = 0; index < layout.heads.length; index++) {
    const head = heads[index]!;
    const name = nameOf(survey, index);
    const say = (as: string, why = ""): void => void words.push({ at: index + 1, head: name, as, why });
    if (taken.has(index)) {
      say(index === columnOfTank ? "tank" : "time");
      continue;
    }
    if (long?.roles.has(index) === true) {
      say(long.roles.get(index)!);
      continue;
    }
    const role = roles.get(index)!;
    if (role.is === "open") {
      isOpen = true;
      say("open");
      continue;
    }
    const own = byColumn.get(index);
    if (own === "ignore") {
      say("ignored", "its tank is left out");
      continue;
    }
    if (role.is !== "test") {
      // A note belongs to a tank, and where the heads of readings name theirs it has none.
      const made =
        role.is === "ignore" || (role.is === "note" && isByColumns)
          ? undefined
          : otherRole(survey, index, role.is, known, asking);
      const help = helping.get(index);
      if (made === undefined) say(help ?? "ignored", help === undefined ? whyNot(survey, head, index) : "");
      else {
        otherCount++;
        const hasNoTank = byColumn.has(index) && own === undefined;
        if (made === "open" || hasNoTank) isOpen = true;
        else columns.push(own === undefined || made.as === "note" ? made : { ...made, tank: own });
        say(made === "open" ? `${role.is}, open` : `${made.as}${own === undefined ? "" : ` of ${own}`}`);
      }
      continue;
    }
    if (!tests.has(index)) {
      say("ignored", "another column is taken");
      continue;
    }
    const { parameter } = role;
    const named = { ...head, text: layout.heads[index]! };
    if (undecided.has(index)) {
      measured.push(index);
      isOpen = true;
      say(`${parameter.name}, open`);
      continue;
    }
    if (parameter.name === "conductivity" && !/^sp|^sc$|specific|25/i.test(name))
      asking.because(name, "taken as conductivity at 25 °C, as meters show it", "likely");
    const evidence = survey.columns[index]!;
    const about = aboutOf(survey, index);
    const measure = measureOf(named, index, parameter, evidence, decimal ?? ".", asking, about);
    if (measure === undefined) {
      say("ignored", "left out, as answered");
      continue;
    }
    measured.push(index);
    const flags = flagColumn(layout.heads, index);
    if (flags >= 0) flagged.push(flags);
    const sign =
      index > 0 &&
      !tests.has(index - 1) &&
      /^(?:[<>]|sign|qual)/i.test(layout.heads[index - 1]!) &&
      isSignColumn(survey.columns[index - 1]!, layout.heads[index - 1]!)
        ? index - 1
        : -1;
    say(
      `${parameter.name}${measure.unit === undefined ? ", unit open" : measure.unit === "pH" ? "" : ` in ${measure.unit}`}${own === undefined ? "" : ` of ${own}`}`,
    );
    if (measure.unit === undefined || (byColumn.has(index) && own === undefined)) isOpen = true;
    else
      columns.push({
        ...at(index),
        as: "test",
        parameter: parameter.name,
        unit: measure.unit,
        ...(own === undefined ? {} : { tank: own }),
        ...(sign < 0 ? {} : { sign: at(sign) }),
        ...(flags < 0 ? {} : { flags: at(flags) }),
      });
  }
  if (long !== undefined) {
    measured.push(long.value.at - 1);
    if (long.flags !== undefined) flagged.push(long.flags.at - 1);
  } else if (measured.length === 0 && otherCount === 0 && !isAsked)
    throw new Refused("no column is left to import");
  const flags = proposeFlags(
    flagged.map((index) => survey.columns[index]!),
    measured.map((index) => survey.columns[index]!),
    asking,
  );
  const keys = [columnOfTank, long === undefined ? -1 : long.parameter.at - 1].filter((index) => index >= 0);
  const only = time === undefined ? undefined : rowsQuestion(survey, time, keys, measured, asking);
  const thin = thinning(survey, time, keys, asking);
  const isReady =
    asking.questions.length === 0 &&
    !isOpen &&
    time !== undefined &&
    tank !== undefined &&
    fill !== undefined &&
    decimal !== undefined;
  if (asking.unasked.length > 0 && asking.questions.length === 0)
    throw new Refused(`nothing asks for ${asking.unasked.join(", ")}`);
  return {
    questions: asking.questions,
    decisions: asking.decisions,
    reasons: asking.reasons,
    columns: words,
    mapping: !isReady
      ? undefined
      : {
          standpipe: "import",
          version: 1,
          for: fileName,
          table: layoutMapped(layout, decimal, fill),
          time,
          tank,
          ...(only === undefined ? {} : { only: [only] }),
          ...(long === undefined ? {} : { long: mappedLong(long) }),
          columns,
          ...(Object.keys(flags).length === 0 ? {} : { flags }),
          thin,
        },
  };
}
