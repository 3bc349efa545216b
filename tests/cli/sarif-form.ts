import * as z from "zod";

/**
 * The parts of SARIF 2.1.0 that we write, after its schema (OASIS 2020, sarif-schema-2.1.0.json, errata 01): what must be there, what may be,
 * and nothing else.
 */

const message = z.strictObject({ text: z.string().min(1) });
const artifactLocation = z.strictObject({
  uri: z.string().regex(/^[\w!$&'()*+,;=:@/?#~.%-]+$/, "a URI reference"),
  uriBaseId: z.string().optional(),
});
const region = z.strictObject({
  startLine: z.int().min(1),
  startColumn: z.int().min(1).optional(),
  endLine: z.int().min(1),
  endColumn: z.int().min(1).optional(),
  snippet: z.strictObject({ text: z.string() }).optional(),
});
const physicalLocation = z.strictObject({
  artifactLocation,
  region: region.optional(),
  contextRegion: region.optional(),
});
const location = z.strictObject({
  id: z.int().min(-1).optional(),
  physicalLocation,
  message: message.optional(),
});
const level = z.enum(["none", "note", "warning", "error"]);

const rule = z.strictObject({
  id: z.string(),
  shortDescription: message,
  fullDescription: message,
  help: message,
  defaultConfiguration: z.strictObject({ level }),
});

const fix = z.strictObject({
  description: message,
  artifactChanges: z
    .array(
      z.strictObject({
        artifactLocation,
        replacements: z
          .array(
            z.strictObject({ deletedRegion: region, insertedContent: z.strictObject({ text: z.string() }) }),
          )
          .min(1),
      }),
    )
    .min(1),
});

const result = z.strictObject({
  ruleId: z.string(),
  ruleIndex: z.int().min(0),
  level,
  message,
  locations: z.array(location).length(1),
  relatedLocations: z.array(location).optional(),
  fixes: z.array(fix).optional(),
});

export const sarif = z.strictObject({
  $schema: z.url(),
  version: z.literal("2.1.0"),
  runs: z
    .array(
      z.strictObject({
        tool: z.strictObject({
          driver: z.strictObject({ name: z.string(), version: z.string(), rules: z.array(rule) }),
        }),
        columnKind: z.literal("utf16CodeUnits"),
        invocations: z
          .array(
            z.strictObject({
              executionSuccessful: z.boolean(),
              exitCode: z.int(),
              toolExecutionNotifications: z
                .array(z.strictObject({ level, message, locations: z.array(location) }))
                .optional(),
            }),
          )
          .length(1),
        results: z.array(result),
      }),
    )
    .length(1),
});
