import type { CancellationToken, GenericRequestHandler } from "vscode-languageserver";
import * as z from "zod/mini";
import { spokenDay } from "../../book/dates.ts";
import { Source } from "../../book/source.ts";
import type { LogText } from "../../history/match-lines.ts";
import { type Change, changesSteps, type Side } from "../../history/review/changes.ts";
import { naming, ofValue, type Spot, stepBack } from "../../history/review/trace.ts";
import { changeText, marks } from "../../history/review/words.ts";
import type { Group } from "../group.ts";
import { inPieces, linesOf, positionOf } from "../review-pieces.ts";
import {
  type LineHistory,
  type LineHistoryParams,
  type LineOrigin,
  type LineOriginParams,
  type LineStep,
  lineHistoryRequest,
  lineOriginRequest,
  type NameHistoryParams,
  type NameStep,
  nameHistoryRequest,
  type VersionText,
} from "../review-protocol.ts";
import { cancelled, type Session } from "../session.ts";
import type { Workspace } from "../workspace.ts";
import { answer } from "./own-requests.ts";

/** What became of a line, and of a name, from version to version of a logbook. The texts of versions come from the client. */
export const tracing: Group = {
  capabilities: () => ({}),
  serve(session) {
    answer(session, lineHistoryRequest, null, (params) => {
      const asked = lineHistoryParams.safeParse(params);
      return asked.success ? lineHistory(asked.data, session.workspace.worldDay) : null;
    });
    const names = session.handler<NameHistoryParams, readonly (readonly NameStep[])[] | null>(
      nameHistoryRequest.method,
      null,
      (params, token) => {
        const asked = nameHistoryParams.safeParse(params);
        return asked.success ? nameHistory(session, asked.data, token) : null;
      },
    );
    session.connection.onRequest(nameHistoryRequest.method, names as GenericRequestHandler<unknown, never>);
    answer(session, lineOriginRequest, null, (params) => {
      const asked = lineOriginParams.safeParse(params);
      return asked.success ? lineOrigin(asked.data, session.workspace) : null;
    });
  },
};

const version = z.object({ uri: z.string(), text: z.nullable(z.string()) });
const lineNumber = z.number().check(z.int(), z.nonnegative());
const lineOriginParams = z.object({
  uri: z.string(),
  line: lineNumber,
  before: z.array(version),
  after: z.nullable(z.array(version)),
  value: z.string(),
});
const nameHistoryParams = z.object({
  uri: z.string(),
  name: z.string(),
  steps: z.array(z.object({ before: z.array(version), after: z.nullable(z.array(version)) })),
});
const lineHistoryParams = z.object({
  uri: z.string(),
  line: lineNumber,
  texts: z.array(z.nullable(z.string())),
  value: z.string(),
});

function lineHistory({ uri, line, texts, value }: LineHistoryParams, near: number): LineHistory | null {
  const sources = texts.map((text) => (text === null ? undefined : new Source(uri, text)));
  const isMeant = value === "" ? () => true : ofValue(value);
  let spot = sources[0] === undefined ? undefined : spotOf(sources[0], line);
  if (spot === undefined) return null;
  const steps: LineStep[] = [];
  // Behind the oldest text nothing is known; that one may have come from elsewhere.
  for (let at = 0; at + 1 < sources.length; at++) {
    const [now, was] = [sources[at]!, sources[at + 1]];
    const of = ({ text }: Source) => [{ path: uri, text }];
    const { change, earlier } = stepBack(was === undefined ? [] : of(was), of(now), spot);
    const begin = positionOf(now, spot.start).line;
    if (change !== undefined && isMeant(change))
      steps.push({
        at,
        ...changeOf(change, near),
        line: begin,
        lineBefore: was === undefined || earlier === undefined ? null : positionOf(was, earlier.start).line,
      });
    if (earlier === undefined) return { steps, first: { at, line: begin } };
    spot = { ...earlier };
  }
  return { steps, first: null };
}

const changeOf = (change: Change, near: number): Pick<LineStep, "is" | "text"> => ({
  is: change.is,
  text: `${marks[change.is]} ${changeText(change, near)}`,
});

/** Where a line begins, in front of what it says; undefined for one that is not there, or says nothing. */
function spotOf(source: Source, line: number): Spot | undefined {
  const lines = linesOf(source.text);
  const begin = lines[line];
  if (begin === undefined) return undefined;
  const written = source.text.slice(begin, lines[line + 1] ?? source.text.length);
  if (/^\s*(?:#|$)/.test(written)) return undefined;
  return { path: source.path, start: begin + written.length - written.trimStart().length };
}

async function nameHistory(
  session: Session,
  { uri, name, steps }: NameHistoryParams,
  token: CancellationToken,
): Promise<readonly (readonly NameStep[])[] | null> {
  const { workspace } = session;
  const looked = session.look(uri);
  if (looked === undefined) return null;
  const isMeant = naming(name, looked.view.checked.book);
  const isOwn = ownFiles(workspace, uri);
  const own = ({ path }: LogText): boolean => isOwn(path);
  const told: NameStep[][] = [];
  for (const { before, after } of steps) {
    const [was, now] = sidesOf(workspace, before, after);
    const changes = await inPieces(changesSteps(was.filter(own), now.filter(own)), token);
    if (changes === undefined) throw cancelled();
    told.push(changes.list.filter(isMeant).map((change) => nameStep(change, workspace.worldDay)));
  }
  return told;
}

/** Which files are of the logbook of one, and not of another of the repository; of those that are gone by where they stood. */
function ownFiles({ files, rooms }: Workspace, uri: string): (path: string) => boolean {
  const folder = files.get(uri)?.folder;
  const inward = [...rooms.keys()].sort((a, b) => b.length - a.length);
  return (path) => {
    const holding = files.get(path)?.folder ?? inward.find((each) => path.startsWith(`${each}/`));
    return holding === undefined || holding === folder;
  };
}

function nameStep(change: Change, near: number): NameStep {
  const { station, definition, day, before, after } = change;
  const placed = (side: Side | undefined) =>
    side === undefined ? null : { uri: side.path, line: side.number - 1 };
  const { is, text } = changeOf(change, near);
  const of = definition || [Number.isNaN(day) ? "" : spokenDay(day, near), station].filter(Boolean).join(" ");
  return { is, text, of, before: placed(before), after: placed(after) };
}

/** The files that are others on both sides; as they are now where there is no other side. */
function sidesOf(
  { files }: Workspace,
  before: readonly VersionText[],
  after: readonly VersionText[] | null,
): [LogText[], LogText[]] {
  const textsOf = (side: readonly VersionText[]): LogText[] =>
    side.flatMap(({ uri: path, text }) => (text === null ? [] : [{ path, text }]));
  const now = before.map(({ uri }) => ({ uri, text: files.get(uri)?.source.text ?? null }));
  return [textsOf(before), textsOf(after ?? now)];
}

function lineOrigin(
  { uri, line, before, after, value }: LineOriginParams,
  workspace: Workspace,
): LineOrigin | null {
  const { worldDay } = workspace;
  const [old, fresh] = sidesOf(workspace, before, after);
  const own = fresh.find(({ path }) => path === uri);
  const spot = own === undefined ? undefined : spotOf(new Source(uri, own.text), line);
  if (spot === undefined) return null;
  const { change, earlier } = stepBack(old, fresh, spot);
  const from = old.find(({ path }) => path === earlier?.path);
  if (earlier === undefined || from === undefined) return null;
  const isMeant = change !== undefined && (value === "" || ofValue(value)(change));
  return {
    uri: earlier.path,
    line: positionOf(new Source(from.path, from.text), earlier.start).line,
    change: isMeant ? changeOf(change, worldDay) : null,
  };
}
