import { evaluate, type Texts } from "../../../language/calculations/evaluate.ts";
import { calculationOf } from "../../../language/calculations/registry.ts";
import { type Figure, outside } from "../../../language/science/result.ts";
import { type Calculation, gives } from "../calculation.ts";
import { type Inputs, MissingInput } from "../inputs.ts";

/**
 * A figure of a public calculation by its own name, `free-ammonia.share`, its inputs as they are typed in the terminal:
 * `total=0.5 mg/L;pH=8;temperature=77 F`. The figure comes in the unit the calculation says it in.
 */
export function asked(quantity: string): Calculation | undefined {
  const [, name = "", figure = ""] = /^([a-z][a-z0-9-]*)\.([A-Za-z][\w-]*)$/.exec(quantity) ?? [];
  const of = calculationOf(name);
  if (of === undefined) return undefined;
  // The unit of a figure is known once it is worked out: the example of the calculation has each.
  const unit = unitOfFigure(of, figure);
  return unit === undefined ? undefined : gives(unit, (given) => figureOf(of, figure, textsOf(given)));
}

type Of = NonNullable<ReturnType<typeof calculationOf>>;

function unitOfFigure(of: Of, figure: string): string | undefined {
  for (const { given } of of.examples) {
    const texts = Object.fromEntries(
      [...given.matchAll(/(\S+?)=(.*?)(?=\s+\S+=|$)/g)].map(([, input = "", text = ""]) => [input, text]),
    );
    const found = evaluate(of, texts).figures.find(({ name }) => name === figure);
    if (found !== undefined) return found.unit;
  }
  return undefined;
}

const textsOf = (given: Inputs): Texts =>
  Object.fromEntries([...given.values.keys()].map((key) => [key, given.text(key)]));

function figureOf(of: Of, figure: string, texts: Texts): Figure {
  const { problems, outside: reason, figures } = evaluate(of, texts);
  const [problem] = problems;
  if (problem !== undefined) {
    if (texts[problem.input] === undefined) throw new MissingInput(problem.message);
    return outside(problem.message);
  }
  if (reason !== undefined) return outside(reason);
  const found = figures.find(({ name }) => name === figure);
  if (found === undefined) throw new MissingInput(`${of.name} gives no ${figure} of what is given`);
  if (found.outside !== undefined) return outside(found.outside);
  return found.best ?? outside("a range is no single figure");
}
