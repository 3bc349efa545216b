import { resolve } from "node:path";
import type { Calculation } from "../../calculations/calculation.ts";
import { type Answer, evaluate, type Texts } from "../../calculations/evaluate.ts";
import { givenIn } from "../../calculations/given.ts";
import { calculationPage } from "../../calculations/page.ts";
import { calculationOf, calculations, noCalculation } from "../../calculations/registry.ts";
import { type Prefilled, prefilled } from "../../features/prefill.ts";
import type { Declared } from "../../quantity/units.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { findStation } from "../find-station.ts";
import { type Opened, open } from "../open.ts";
import { locationReport, printJson, tellUnread } from "../report.ts";
import type { WorkedReport, WorkListReport } from "../schema.ts";
import { listText, workedText } from "../work/print.ts";
import { Status, Trouble } from "../world.ts";

export const work: Command = {
  word: "work",
  takes: "[CALCULATION] [NAME=VALUE ...]",
  summary: "one calculation: water chemistry, doses, changes, animals, statistics",
  about:
    "Works one thing out from the values given, in any unit of the log: total=0.5 mg/L, volume=20 US gal. A value may be a range, 7.0..7.4, have the step of the test behind it, " +
    "0.5±0.25, or be censored, <0.25: the result then is a range too. With --tank the log gives what it has; what is given goes before it. Without a calculation it lists them all.",
  options: [
    { name: "list", doc: "all calculations with what they take" },
    { name: "page", doc: "the page of the calculation: formula, range, source, worked example" },
    { name: "tank", value: "NAME", doc: "fill the inputs from this tank or system of the log" },
    { name: "log", value: "DIR", doc: "the log to fill from; else the folder of the call" },
    jsonOption,
    asOfOption,
  ],
  examples: [
    ["standpipe work free-ammonia total=0.5 pH=8.1 temperature=25", "free ammonia and the criteria"],
    [
      "standpipe work free-ammonia total=0.5±0.25 pH=7.8..8.2 temperature=77 F",
      "with what the tests leave open",
    ],
    ["standpipe work --list", "what there is"],
  ],
  run: runWork,
};

async function runWork(call: Call): Promise<Status> {
  const { words, world, terminal } = call;
  const [name, ...rest] = words;
  if (name === undefined) {
    if (["page", "tank", "log"].some((option) => call.has(option)))
      throw new Trouble("which calculation? standpipe work --list names them");
    if (call.has("json")) printJson(world, listReport());
    else world.out.write(listText(calculations, call.has("list"), terminal));
    return Status.clean;
  }
  const of = calculationOf(name);
  if (of === undefined) throw new Trouble(`${noCalculation(name)}; standpipe work --list names them`);
  if (call.has("page")) {
    world.out.write(calculationPage(of));
    return Status.clean;
  }
  const read = givenIn(rest.join(" "));
  if ("stray" in read)
    throw new Trouble(`“${read.stray}” belongs to no input; values are written NAME=VALUE, as in total=0.5`);
  const given = read.texts;
  const log = await logOf(call, of);
  const fills = Object.fromEntries(
    Object.entries(log?.fills ?? {}).filter(([input]) => given[input] === undefined),
  );
  const texts: Texts = { ...textsOf(fills), ...given };
  const answer = evaluate(of, texts, log?.declared);
  const report = reportOf(of, answer, fills, log);
  if (call.has("json")) printJson(world, report);
  else if (answer.problems.length === 0) world.out.write(workedText(report, terminal));
  if (!call.has("json"))
    for (const { message } of answer.problems) world.err.write(`standpipe: ${message}\n`);
  tellUnread(call, log?.unread ?? []);
  if (answer.problems.length > 0) return Status.couldNotRun;
  return answer.outside === undefined ? Status.clean : Status.errors;
}

const textsOf = (fills: Readonly<Record<string, Prefilled>>): Record<string, string> =>
  Object.fromEntries(Object.entries(fills).map(([input, { text }]) => [input, text]));

/** What the log gives. */
interface FromLog {
  readonly opened: Opened;
  readonly fills: Readonly<Record<string, Prefilled>>;
  readonly declared: Declared;
  readonly unread: WorkedReport["unread"];
}

async function logOf(call: Call, of: Calculation): Promise<FromLog | undefined> {
  const tank = call.value("tank");
  const folder = call.value("log");
  if (tank === undefined) {
    if (folder === undefined && Number.isNaN(call.asOf)) return undefined;
    throw new Trouble("--log and --as-of go with --tank NAME");
  }
  const { logbooks, unread } = await open(
    call,
    folder === undefined ? [] : [resolve(call.world.cwd, folder)],
  );
  const { opened, station } = findStation(logbooks, tank);
  const { checked } = opened;
  return {
    opened,
    fills: prefilled(checked, station, of, call.world.day),
    declared: checked.book.units.declared,
    unread: [...unread],
  };
}

function reportOf(
  of: Calculation,
  { inputs, problems, figures, outside, entry }: Answer,
  fills: Readonly<Record<string, Prefilled>>,
  log: FromLog | undefined,
): WorkedReport {
  const { name, title, formula, range, sources, caution } = of;
  const finite = (value: number | undefined): number | null =>
    value === undefined || !Number.isFinite(value) ? null : value;
  return {
    standpipe: 1,
    command: "work",
    calculation: name,
    title,
    inputs: inputs.map((input) => {
      const fill = fills[input.name];
      const place = fill?.at && log ? locationReport(log.opened, fill.at) : undefined;
      return {
        name: input.name,
        title: input.title,
        text: input.text,
        assumed: input.isAssumed,
        ...(fill === undefined ? {} : { from: fill.from }),
        ...(place === undefined ? {} : { place }),
      };
    }),
    problems: [...problems],
    figures: figures.map((figure) => ({
      name: figure.name,
      title: figure.title,
      unit: figure.unit,
      best: finite(figure.best),
      low: finite(figure.low),
      high: finite(figure.high),
      ...(figure.outside === undefined ? {} : { outside: figure.outside }),
      text: figure.text,
    })),
    ...(outside === undefined ? {} : { outside }),
    ...(entry === undefined ? {} : { entry }),
    formula: [...formula],
    range,
    sources: [...sources],
    ...(caution === undefined ? {} : { caution }),
    unread: [...(log?.unread ?? [])],
  };
}

function listReport(): WorkListReport {
  return {
    standpipe: 1,
    command: "work",
    calculations: calculations.map(
      ({ name, title, group, answers, inputs, formula, range, sources, caution }) => ({
        name,
        title,
        group,
        answers,
        inputs: Object.entries(inputs).map(([input, declared]) => ({
          name: input,
          title: declared.title,
          ...("unit" in declared ? { unit: declared.unit } : {}),
          ...("choices" in declared ? { choices: [...declared.choices] } : {}),
          ...("form" in declared ? { form: declared.form } : {}),
          ...("low" in declared && Number.isFinite(declared.low) ? { low: declared.low } : {}),
          ...("high" in declared && Number.isFinite(declared.high) ? { high: declared.high } : {}),
          needed: declared.otherwise === undefined && declared.optional !== true,
          ...(declared.otherwise === undefined ? {} : { otherwise: declared.otherwise }),
        })),
        formula: [...formula],
        range,
        sources: [...sources],
        ...(caution === undefined ? {} : { caution }),
      }),
    ),
  };
}
