import type { CodePage } from "../checks/code.ts";

/** The manual's page of a finding, in Markdown. */
export function findingPage(page: CodePage): string {
  const { code, title, severity, since, says, whatToDo, raises, fine, source } = page;
  const log = (text: string): string => ["```tank", text.trimEnd(), "```"].join("\n");
  return [
    `# ${title}`,
    `\`${code}\` · ${severity} · since ${since}`,
    says,
    `**What to do:** ${whatToDo}`,
    "This log raises it; the marks below a line show where:",
    log(raises),
    "This one just does not:",
    log(fine),
    ...(source === undefined ? [] : [`*Source:* ${source}`]),
    "",
  ].join("\n\n");
}
