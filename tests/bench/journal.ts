import type { Fact } from "./generate.ts";

/** The facts in the form of a plain-text accounting journal, for the peers of this format that are often at hand. */
export function journal(facts: readonly Fact[]): string {
  const lines: string[] = [];
  for (const fact of facts) {
    const unit =
      fact.unit === "%" ? "pct" : fact.unit === "mg/L" ? "mgl" : fact.unit === "" ? "n" : fact.unit;
    const account = [fact.tank, fact.kind, fact.what].filter((part) => part !== "").join(":");
    lines.push(
      `${fact.date} ${fact.kind}${fact.note === "" ? "" : ` ; ${fact.note}`}`,
      `  ${account}  ${fact.value} ${unit}`,
      "  room",
      "",
    );
  }
  return lines.join("\n");
}
