import { pathToFileURL } from "node:url";
import { pageOf } from "../../checks/codes.ts";
import type { Severity } from "../../checks/finding.ts";
import type { Unread } from "../files.ts";
import type { FindingReport, Place } from "../schema.ts";

/**
 * Static Analysis Results Interchange Format 2.1.0 (OASIS 2020), as code scanning services read it. Columns are UTF-16 code units from
 * 1, as in `--json`.
 */

const levels: Readonly<Record<Severity, "error" | "warning" | "note">> = {
  error: "error",
  warning: "warning",
  information: "note",
  hint: "note",
};
/** The usual name for the root of the repository. */
const root = "%SRCROOT%";

export interface SarifInput {
  readonly version: string;
  readonly findings: readonly FindingReport[];
  readonly unread: readonly Unread[];
  readonly status: number;
  /** The path of a file from the root of the repository, or an absolute one. */
  fileOf(shown: string): string;
}

export function sarifOf(input: SarifInput): object {
  const codes = [...new Set(input.findings.map(({ code }) => code))].sort();
  return {
    $schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "Standpipe", version: input.version, rules: codes.map(ruleOf) } },
        columnKind: "utf16CodeUnits",
        invocations: [
          {
            executionSuccessful: input.unread.length === 0,
            exitCode: input.status,
            ...(input.unread.length === 0
              ? {}
              : {
                  toolExecutionNotifications: input.unread.map(({ file, message }) => ({
                    level: "error",
                    message: { text: message },
                    locations: [{ physicalLocation: { artifactLocation: artifact(input.fileOf(file)) } }],
                  })),
                }),
          },
        ],
        results: input.findings.map((finding) => resultOf(input, finding, codes.indexOf(finding.code))),
      },
    ],
  };
}

function ruleOf(code: string): object {
  const { title, says, whatToDo, severity, source } = pageOf(code);
  return {
    id: code,
    shortDescription: { text: title },
    fullDescription: { text: says },
    help: { text: source === undefined ? whatToDo : `${whatToDo}\n\nSource: ${source}` },
    defaultConfiguration: { level: levels[severity] },
  };
}

function resultOf(input: SarifInput, finding: FindingReport, ruleIndex: number): object {
  const { code, severity, message, place, text, fixes, related } = finding;
  const at = (where: Place): object => ({
    artifactLocation: artifact(input.fileOf(where.file)),
    region: region(where),
  });
  return {
    ruleId: code,
    ruleIndex,
    level: levels[severity],
    message: { text: message },
    locations: [
      {
        physicalLocation: {
          artifactLocation: artifact(input.fileOf(place.file)),
          region: region(place),
          contextRegion: { startLine: place.line, endLine: place.line, snippet: { text } },
        },
      },
    ],
    ...(related.length === 0
      ? {}
      : {
          relatedLocations: related.map((each, id) => ({
            id,
            physicalLocation: at(each.place),
            message: { text: each.message },
          })),
        }),
    ...(fixes.length === 0
      ? {}
      : {
          fixes: fixes.map(({ title, edits }) => ({
            description: { text: title },
            artifactChanges: [...byFile(edits)].map(([file, changes]) => ({
              artifactLocation: artifact(input.fileOf(file)),
              replacements: changes.map((edit) => ({
                deletedRegion: region(edit.place),
                insertedContent: { text: edit.text },
              })),
            })),
          })),
        }),
  };
}

type Edit = FindingReport["fixes"][number]["edits"][number];

function byFile(edits: readonly Edit[]): Map<string, Edit[]> {
  const files = new Map<string, Edit[]>();
  for (const edit of edits) {
    const known = files.get(edit.place.file);
    if (known === undefined) files.set(edit.place.file, [edit]);
    else known.push(edit);
  }
  return files;
}

const region = ({ line, column, endLine, endColumn }: Place): object => ({
  startLine: line,
  startColumn: column,
  endLine,
  endColumn,
});

/** A relative path stands below the root of the repository, which the reader of the report knows. */
function artifact(file: string): object {
  const isAbsolute = /^([A-Za-z]:)?\//.test(file);
  if (isAbsolute) return { uri: pathToFileURL(file).href };
  return { uri: file.split("/").map(encodeURIComponent).join("/"), uriBaseId: root };
}
