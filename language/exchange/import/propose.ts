import { type Answers, Asking, type Question, type Reason } from "./asking.ts";
import { type Head, readHead } from "./heads.ts";
import type { ColumnAt, Mapping, Role } from "./mapping.ts";
import { type Decimal, isMissing, readNumber } from "./number.ts";
import { chosen } from "./propose-choice.ts";
import { measureOf, parameterFor } from "./propose-columns.ts";
import { longForm } from "./propose-long.ts";
import { flagColumn, isSignColumn, proposeFlags } from "./propose-marks.ts";
import { rowsQuestion, thinning } from "./propose-rows.ts";
import { type KnownPlace, proposeTank, tankColumn, withoutPlace } from "./propose-tanks.ts";
import { nameOf, proposeTime } from "./propose-time.ts";
import { Refused } from "./refused.ts";
import type { Survey } from "./survey.ts";

/** What a table is, as far as it says so itself; what it leaves open is asked. */
export interface Proposal {
  /** Undefined while a question is open. */
  readonly mapping: Mapping | undefined;
  readonly questions: readonly Question[];
  readonly reasons: readonly Reason[];
  /** What each column is taken for, in words. */
  readonly columns: readonly {
    readonly at: number;
    readonly head: string;
    readonly as: string;
    readonly why: string;
  }[];
}

/** Throws `Refused` for a table that has no dates, no readings, or an answer that is none. */
export function propose(
  survey: Survey,
  fileName: string,
  places: readonly KnownPlace[],
  answers: Answers = new Map(),
): Proposal {
  const asking = new Asking(answers);
  const { layout } = survey;
  if (survey.rows === 0) throw new Refused("the table has heads and no rows");
  if (layout.headLine === 0)
    throw new Refused("no line of heads stands above the rows: write one, so that the columns have names");
  const decimal = decimalOf(survey, asking);
  const time = proposeTime(survey, asking);
  const taken = new Set<number>();
  if (time !== undefined)
    for (const place of [time.date, time.clock])
      if (place !== undefined && place !== "line") taken.add(place.at - 1);
  const columnOfTank = asking.given("tank") === undefined ? tankColumn(survey) : -1;
  if (columnOfTank >= 0) taken.add(columnOfTank);
  const heads = layout.heads.map((head, at) =>
    readHead(withoutPlace(head, places), layout.units[at] || unitAbove(layout.preamble, head)),
  );
  const at = (index: number): ColumnAt => ({ at: index + 1, head: layout.heads[index]! });
  const columns: Role[] = [];
  const words: Proposal["columns"][number][] = [];
  const long = longForm(survey, asking, decimal ?? ".");
  const undecided = new Set<number>();
  const tests =
    long === undefined
      ? chosen(survey, heads, taken, decimal ?? ".", asking, undecided, places)
      : new Map<number, Head>();
  if (long === undefined && tests.size === 0) throw new Refused(noReadings(survey, heads));
  const { tank, byColumn } = proposeTank(survey, tests, places, fileName, asking);
  const flagged: number[] = [];
  const measured: number[] = [];
  let isOpen = false;
  for (let index = 0; index < layout.heads.length; index++) {
    const head = heads[index]!;
    const name = nameOf(survey, index);
    const say = (as: string, why = ""): void => void words.push({ at: index + 1, head: name, as, why });
    if (taken.has(index)) {
      say(index === columnOfTank ? "tank" : "time");
      continue;
    }
    if (long !== undefined) {
      const as = long.roles.get(index);
      say(as ?? "ignored", as === undefined ? "the table has one reading a row" : "");
      continue;
    }
    if (!tests.has(index)) {
      // A note belongs to a tank, and where the heads of readings name theirs it has none.
      const role = tank !== undefined && "by" in tank ? undefined : otherRole(survey, index, asking);
      if (role === "open") isOpen = true;
      else if (role !== undefined) columns.push(role);
      if (role !== undefined) say(role === "open" ? "open" : role.as);
      else say("ignored", whyNot(survey, head, index));
      continue;
    }
    const named = { ...head, text: layout.heads[index]! };
    const parameter = parameterFor(named, index, asking);
    if (parameter === undefined || parameter === "ignore") continue;
    const ofTank = byColumn.get(index);
    if (ofTank === "ignore") {
      say("ignored", "its tank is left out");
      continue;
    }
    if (undecided.has(index)) {
      measured.push(index);
      isOpen = true;
      say(`${parameter.name}, open`);
      continue;
    }
    if (parameter.name === "conductivity" && !/^sp|^sc$|specific|25/i.test(name))
      asking.because(name, "taken as conductivity at 25 °C, as meters show it", "likely");
    const measure = measureOf(named, index, parameter, survey.columns[index]!, decimal ?? ".", asking);
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
      `${parameter.name}${measure.unit === undefined ? ", unit open" : measure.unit === "pH" ? "" : ` in ${measure.unit}`}${ofTank === undefined ? "" : ` of ${ofTank}`}`,
    );
    if (measure.unit === undefined || (tank !== undefined && "by" in tank && ofTank === undefined))
      isOpen = true;
    else
      columns.push({
        ...at(index),
        as: "test",
        parameter: parameter.name,
        unit: measure.unit,
        ...(ofTank === undefined ? {} : { tank: ofTank }),
        ...(sign < 0 ? {} : { sign: at(sign) }),
        ...(flags < 0 ? {} : { flags: at(flags) }),
      });
  }
  if (long !== undefined) {
    measured.push(long.value.at - 1);
    if (long.flags !== undefined) flagged.push(long.flags.at - 1);
  } else if (measured.length === 0) throw new Refused("no column of readings is left to import");
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
    decimal !== undefined;
  if (asking.unasked.length > 0 && asking.questions.length === 0)
    throw new Refused(`nothing asks for ${asking.unasked.join(", ")}`);
  return {
    questions: asking.questions,
    reasons: asking.reasons,
    columns: words,
    mapping: !isReady
      ? undefined
      : {
          standpipe: "import",
          version: 1,
          for: fileName,
          table: {
            delimiter: layout.delimiter,
            ...(layout.edges.length > 0 ? { edges: [...layout.edges] } : {}),
            heads: layout.headLine,
            rows: layout.firstLine,
            ...(layout.dateLine === "" ? {} : { dateLine: layout.dateLine }),
            decimal,
          },
          time,
          tank,
          ...(only === undefined ? {} : { only: [only] }),
          ...(long === undefined
            ? {}
            : {
                long: {
                  parameter: long.parameter,
                  value: long.value,
                  ...(long.sign === undefined ? {} : { sign: long.sign }),
                  ...(long.flags === undefined ? {} : { flags: long.flags }),
                  ...(long.unit === undefined ? {} : { unit: long.unit }),
                  means: long.means,
                },
              }),
          columns,
          ...(Object.keys(flags).length === 0 ? {} : { flags }),
          thin,
        },
  };
}

/** Above the heads, `TEMPERATURE` and on the next line `UNIT: C`. */
function unitAbove(preamble: readonly string[], head: string): string {
  const at = head === "" ? -1 : preamble.findIndex((line) => line.toLowerCase() === head.toLowerCase());
  return at < 0 ? "" : (/^units?\s*[:=]\s*(.*)$/i.exec(preamble[at + 1] ?? "")?.[1] ?? "");
}

/** Point or comma, as all cells tell. */
function decimalOf({ columns, layout }: Survey, asking: Asking): Decimal | undefined {
  // Dates and codes with points are no numbers.
  const numeric = columns.filter(({ moments, filled }) => moments < filled / 2);
  const sum = (key: "point" | "comma" | "either"): number =>
    numeric.reduce((total, column) => total + column[key], 0);
  const [point, comma, either] = [sum("point"), sum("comma"), sum("either")];
  const given = asking.given("decimal");
  if (given === "." || given === "point") return ".";
  if (given === "," || given === "comma") return ",";
  if (comma > 0 && comma >= point) {
    asking.because("numbers", "written with a decimal comma");
    return ",";
  }
  if (point > 0 || either === 0 || layout.delimiter === ",") return ".";
  const sample =
    numeric.flatMap(({ distinct }) => [...distinct.keys()]).find((cell) => /^\d{1,3},\d{3}$/.test(cell)) ??
    "1,234";
  const answer = asking.ask({
    id: "decimal",
    asks: `“${sample}” may be ${sample.replace(",", "")} or ${sample.replace(",", ".")}; no cell settles it`,
    choices: ["point", "comma"],
    hint: "point: the comma parts thousands",
  });
  return answer === undefined ? undefined : answer === "comma" ? "," : ".";
}

/** Notes and water changes. */
function otherRole(survey: Survey, index: number, asking: Asking): Role | "open" | undefined {
  const head = survey.layout.heads[index]!;
  const evidence = survey.columns[index]!;
  if (evidence.filled === 0) return undefined;
  if (/^(?:notes?|comments?|remarks?|bemerkung(?:en)?|notiz(?:en)?|kommentar)$/i.test(head.trim()))
    return { at: index + 1, head, as: "note" };
  if (
    !/^(?:water ?change|wasserwechsel|wc|change)\b/i.test(head.trim()) ||
    evidence.numbers < evidence.filled * 0.8
  )
    return undefined;
  const said = readHead(head, survey.layout.units[index] ?? "").unit;
  const own =
    said?.is === "unit" && ["fraction", "volume"].includes(said.unit.unit.dimension)
      ? said.unit.symbol
      : undefined;
  const choices = said?.is === "open" ? said.choices : ["%", "L", "US gal", "imp gal"];
  const unit =
    own ??
    asking.ask(
      {
        id: `unit:${head}`,
        asks:
          said?.is === "open"
            ? `“${said.written}” of “${head}” may mean several units; which is it?`
            : `no unit is said of “${head}”; which is it?`,
        choices: [...choices, "ignore"],
        hint: "",
      },
      `unit:#${index + 1}`,
    );
  if (unit === undefined) return "open";
  return unit === "ignore" ? undefined : { at: index + 1, head, as: "change", unit };
}

function whyNot(survey: Survey, head: Head, index: number): string {
  const { filled, distinct } = survey.columns[index]!;
  if (head.not !== "") return head.not;
  if (filled === 0) return "nothing stands in it";
  if (
    head.parameter !== undefined &&
    [...distinct.keys()].some((cell) => !isMissing(cell) && readNumber(cell, ".") !== undefined)
  )
    return "another column is taken";
  return "a log has no word for it";
}

function noReadings(survey: Survey, heads: readonly Head[]): string {
  const nots = [...new Set(heads.map(({ not }) => not).filter((not) => not !== ""))];
  const named = survey.layout.heads.filter((head) => head !== "").slice(0, 8);
  return `no column is a reading that a log has a word for (${named.map((head) => `“${head.slice(0, 30)}”`).join(", ")}${survey.layout.heads.length > 8 ? " ..." : ""})${nots.length > 0 ? `; ${nots.join("; ")}` : ""}`;
}
