import { parameterOf } from "../../book/parameters.ts";
import type { Answers } from "./asking.ts";
import { basesFor, importUnit } from "./import-units.ts";
import type { ColumnAt, Mapping, Measured, Role } from "./mapping.ts";
import { aboutOf } from "./propose-role.ts";
import type { Survey } from "./survey.ts";

/** A mapping as the answers that lead to it, so that one that was kept can be edited like a new one. */
export function answersOf(mapping: Mapping, survey: Survey): Answers {
  const answers = new Map<string, string>();
  const { time, tank, table, thin, only = [], long, flags = {}, columns } = mapping;
  answers.set("decimal", table.decimal === "," ? "comma" : "point");
  if (time.order === "ymd" || time.order === "dmy" || time.order === "mdy")
    answers.set("date-order", time.order);
  timeAnswers(answers, mapping, survey);
  answers.set("zone", time.zone);
  if (time.from !== undefined) answers.set("from", time.from);
  if (thin === "none" || thin.crossings) answers.set("thin", thin === "none" ? "none" : `${thin.hours}h`);
  if ("name" in tank) answers.set("tank", tank.name);
  if ("column" in tank)
    for (const [word, name] of Object.entries(tank.names)) answers.set(`tank:${word}`, name);
  for (const { head, is } of only) answers.set(`rows:${head}`, is.join("|"));
  for (const [mark, means] of Object.entries(flags)) answers.set(`flag:${mark}`, means);
  for (const [word, means] of Object.entries(long?.means ?? {})) {
    if (means === "ignore") answers.set(`parameter:${word}`, "ignore");
    else measured(answers, word, means);
  }
  const used = new Set<number>();
  const about = ({ at }: ColumnAt): string =>
    at <= survey.columns.length ? aboutOf(survey, at - 1) : `#${at}`;
  for (const role of columns) {
    if (role.as === "ignored") continue;
    used.add(role.at);
    columnAnswers(answers, about(role), role);
  }
  survey.layout.heads.forEach((head, index) => {
    const at = index + 1;
    if (!used.has(at)) answers.set(`parameter:${about({ at, head })}`, "ignore");
    const own = columns.find((role) => role.at === at);
    if (own !== undefined && "tank" in own && own.tank !== undefined) answers.set(`tank:#${at}`, own.tank);
  });
  return answers;
}

/** Which columns say when, and which cells are left empty below one. */
function timeAnswers(answers: Map<string, string>, { time, table }: Mapping, survey: Survey): void {
  const name = ({ at }: ColumnAt): string =>
    at <= survey.columns.length ? aboutOf(survey, at - 1) : `#${at}`;
  const { date, year } = time;
  if (typeof year === "number") answers.set("year", String(year));
  if (date !== "line" && "month" in date)
    answers.set(
      "date",
      [...(typeof year === "object" ? [year] : []), date.month, date.day].map(name).join(", "),
    );
  else answers.set("date", date === "line" ? "above" : name(date));
  survey.layout.heads.forEach((head, index) => {
    const at = index + 1;
    const isFilled = table.fill?.some((each) => each.at === at) === true;
    answers.set(`fill:${name({ at, head })}`, isFilled ? "down" : "none");
  });
}

function measured(answers: Map<string, string>, about: string, { parameter, unit }: Measured): void {
  answers.set(`parameter:${about}`, parameter);
  const known = parameterOf(parameter);
  if (known.dimension === "pH") return;
  const basis = basesFor(known).find((each) => importUnit(unit)?.unit.basis === each);
  answers.set(`unit:${about}`, basis === undefined ? unit : unit.replace(` ${basis}`, ""));
  if (basis !== undefined) answers.set(`basis:${about}`, basis);
}

function columnAnswers(
  answers: Map<string, string>,
  about: string,
  role: Exclude<Role, { as: "ignored" }>,
): void {
  const names = (what: string, of: Readonly<Record<string, string>> | undefined): void => {
    for (const [word, name] of Object.entries(of ?? {})) answers.set(`${what}:${word}`, name);
  };
  switch (role.as) {
    case "test":
      measured(answers, about, role);
      return;
    case "fed":
      answers.set(`parameter:${about}`, "feed");
      names("food", role.names);
      return;
    case "count":
    case "lose":
      answers.set(`parameter:${about}`, role.as);
      if (role.species !== undefined) answers.set(`species:${about}`, role.species);
      names("species", role.of?.names);
      return;
    case "feed":
      if (role.food !== undefined) answers.set(`food:${about}`, role.food);
      names("food", role.foods?.names);
      break;
  }
  answers.set(`parameter:${about}`, role.as);
  if ("unit" in role) answers.set(`unit:${about}`, role.unit);
}

/** Whether two mappings read a table alike. */
export const isSameMapping = (a: Mapping, b: Mapping): boolean => inOrder(a) === inOrder(b);

/** Without what says where it came from, in one order of keys. */
function inOrder({ for: _, table: { heads: __, rows: ___, ...table }, columns, ...rest }: Mapping): string {
  const of = columns.filter(({ as }) => as !== "ignored").sort((x, y) => x.at - y.at);
  return JSON.stringify({ ...rest, table, columns: of }, (_key, value: unknown) =>
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1)))
      : value,
  );
}
