import type { Calculation, Input } from "./calculation.ts";
import { evaluate } from "./evaluate.ts";
import { givenIn } from "./given.ts";

/** The manual's page of a calculation, in Markdown. What stands in it is declared by us: there is no text of a log in it. */
export function calculationPage(of: Calculation): string {
  const { title, name, answers, formula, range, sources, caution, examples, inputs } = of;
  return [
    `# ${title}`,
    `\`standpipe work ${name}\``,
    answers,
    ...(caution === undefined ? [] : [`> **Take care.** ${caution}`]),
    "## What it takes",
    inputTable(inputs),
    "## How it is reckoned",
    ["```text", ...formula, "```"].join("\n"),
    `It holds for: ${range}. Outside that there is no figure.`,
    "## Worked example",
    ...examples.map(({ given, from }) => example(of, given, from)),
    "## What it rests on",
    sources.map((source) => `- ${source}`).join("\n"),
    "",
  ].join("\n\n");
}

function inputTable(inputs: Calculation["inputs"]): string {
  const rows = Object.entries(inputs).map(
    ([name, input]) => `| \`${name}\` | ${input.title} | ${measured(input)} | ${missing(input)} |`,
  );
  return ["| input | is | in | if left out |", "| --- | --- | --- | --- |", ...rows].join("\n");
}

/** In what an input is measured, or what it may be. */
export function measured(input: Input): string {
  switch (input.is) {
    case "quantity":
    case "series":
      return [
        input.unit === "" ? "a number" : input.unit,
        input.is === "series" ? "several, parted by commas" : "",
        input.is === "series" && input.isCensored === true ? "`<` and `>` may stand before any" : "",
        input.is === "quantity" && input.isWhole === true ? "whole" : "",
      ]
        .filter((part) => part !== "")
        .join(", ");
    case "choice":
      return input.choices.join(", ");
    default:
      return input.form.replaceAll("|", "\\|");
  }
}

function missing({ otherwise, optional }: Input): string {
  return otherwise ?? (optional === true ? "goes without" : "needed");
}

function example(of: Calculation, given: string, from: string): string {
  const read = givenIn(given);
  if ("stray" in read) throw new RangeError(`the example of ${of.name} does not read`);
  const { figures } = evaluate(of, read.texts);
  const widest = Math.max(...figures.map(({ title }) => title.length));
  return [
    "```text",
    `standpipe work ${of.name} ${given.includes(" ") ? given.replace(/=([^=]* [^=]*?)(?=\s+\S+=|$)/g, '="$1"') : given}`,
    ...figures.map(({ title, text }) => `${title.padEnd(widest)}  ${text}`),
    "```",
    "",
    from,
  ].join("\n");
}
