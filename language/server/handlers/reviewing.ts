import type { CancellationToken, GenericRequestHandler } from "vscode-languageserver";
import * as z from "zod/mini";
import { Source } from "../../book/source.ts";
import type { Location } from "../../features/view.ts";
import type { LogText } from "../../history/match-lines.ts";
import type { Change, Side } from "../../history/review/changes.ts";
import { reviewMarkdown } from "../../history/review/markdown.ts";
import { type Review, reviewSteps } from "../../history/review/review.ts";
import { toldReview } from "../../history/review/told.ts";
import { ofValue, type Spot, stepBack } from "../../history/review/trace.ts";
import { changeText, marks } from "../../history/review/words.ts";
import { nextLine } from "../../syntax/blocks.ts";
import type { Group } from "../group.ts";
import type { FilePlace, Position } from "../protocol.ts";
import { turn } from "../reports.ts";
import {
  type LineHistory,
  type LineHistoryParams,
  type LineOrigin,
  type LineOriginParams,
  type LineStep,
  lineHistoryRequest,
  lineOriginRequest,
  type ReviewAnswer,
  type ReviewParams,
  reviewRequest,
  type VersionText,
} from "../review-protocol.ts";
import { cancelled, type Looked, outdated, type Session } from "../session.ts";
import type { Workspace } from "../workspace.ts";
import { answer } from "./own-requests.ts";

/** Versions of a logbook: what changed between two, and what became of a line. The texts of versions come from the client. */
export const reviewing: Group = {
  capabilities: () => ({}),
  serve(session) {
    const handler = session.handler<ReviewParams, ReviewAnswer | null>(
      reviewRequest.method,
      null,
      (params, token) => {
        const asked = reviewParams.safeParse(params);
        return asked.success ? review(session, asked.data, token) : null;
      },
    );
    session.connection.onRequest(reviewRequest.method, handler as GenericRequestHandler<unknown, never>);
    answer(session, lineHistoryRequest, null, (params) => {
      const asked = lineHistoryParams.safeParse(params);
      return asked.success ? lineHistory(asked.data, session.workspace.worldDay) : null;
    });
    answer(session, lineOriginRequest, null, (params) => {
      const asked = lineOriginParams.safeParse(params);
      return asked.success ? lineOrigin(asked.data, session.workspace) : null;
    });
  },
};

const version = z.object({ uri: z.string(), text: z.nullable(z.string()) });
const reviewParams = z.object({
  uri: z.string(),
  before: z.array(version),
  after: z.array(version),
  from: z.string(),
  to: z.string(),
  all: z.boolean(),
});
const lineNumber = z.number().check(z.int(), z.nonnegative());
const lineOriginParams = z.object({
  uri: z.string(),
  line: lineNumber,
  before: z.array(version),
  after: z.nullable(z.array(version)),
  value: z.string(),
});
const lineHistoryParams = z.object({
  uri: z.string(),
  line: lineNumber,
  texts: z.array(z.nullable(z.string())),
  value: z.string(),
});

/** So long keys wait at most between two pieces. */
const pieceMs = 20;
/** Who edits while a review is made gets it of what is there then; who does not stop asks again. */
const mostTries = 3;

async function review(
  session: Session,
  params: ReviewParams,
  token: CancellationToken,
): Promise<ReviewAnswer | null> {
  for (let tried = 0; tried < mostTries; tried++) {
    const looked = session.look(params.uri);
    if (looked === undefined) return null;
    const made = await inPieces(stepsOf(looked, params), session.workspace, token);
    if (token.isCancellationRequested) throw cancelled();
    if (made !== undefined) return answerOf(made, params);
  }
  throw outdated();
}

/** Undefined where it was cancelled, or the log is another now. */
async function inPieces<T>(
  steps: Generator<void, T>,
  workspace: Workspace,
  token: CancellationToken,
): Promise<T | undefined> {
  const { generation } = workspace;
  for (let begun = performance.now(); ; ) {
    const { done, value } = steps.next();
    if (done === true) return value;
    if (performance.now() - begun < pieceMs) continue;
    await turn();
    if (token.isCancellationRequested || workspace.generation !== generation) return undefined;
    begun = performance.now();
  }
}

function stepsOf({ view: { checked, worldDay } }: Looked, params: ReviewParams): Generator<void, Review> {
  const now = [...checked.logbook.sources.values()].map(({ path, text }) => ({ path, text }));
  const asked = { asOf: checked.logbook.asOf, worldDay };
  return reviewSteps(versionOf(now, params.before), versionOf(now, params.after), asked, checked);
}

function answerOf(made: Review, params: ReviewParams): ReviewAnswer {
  const told = toldReview(made, { all: params.all });
  return {
    ...told,
    follows: told.follows.map(({ title, items }) => ({
      title,
      items: items.map(({ at, ...item }) => ({ ...item, at: placeOf(made, item.side, at) })),
    })),
    groups: told.groups.map(({ days, ...group }) => ({
      ...group,
      days: days.map(({ title, lines }) => ({
        title,
        lines: lines.map(({ before, after, ...line }) => ({
          ...line,
          before: placeOf(made, "before", locationOf(before)),
          after: placeOf(made, "after", locationOf(after)),
        })),
      })),
    })),
    page: reviewMarkdown([told], params),
  };
}

/** A version of a logbook: its files as they are now, but for those that are others there. */
function versionOf(now: readonly LogText[], others: readonly VersionText[]): LogText[] {
  const texts = new Map(now.map(({ path, text }) => [path, text]));
  for (const { uri, text } of others)
    if (text === null) texts.delete(uri);
    else texts.set(uri, text);
  return [...texts].map(([path, text]) => ({ path, text }));
}

const locationOf = (side: Side | undefined): Location | null =>
  side === undefined ? null : { path: side.path, start: side.start, end: side.end };

function placeOf(made: Review, side: "before" | "after", at: Location | null): FilePlace | null {
  const source = at === null ? undefined : made[side].logbook.sources.get(at.path);
  if (at === null || source === undefined) return null;
  return { uri: at.path, range: { start: positionOf(source, at.start), end: positionOf(source, at.end) } };
}

/** Where lines begin, of each source that is asked for once. */
const begins = new WeakMap<Source, readonly number[]>();

function positionOf(source: Source, offset: number): Position {
  const lines = begins.get(source) ?? linesOf(source.text);
  begins.set(source, lines);
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (lines[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  return { line: low, character: offset - lines[low]! };
}

function linesOf(text: string): number[] {
  const lines = [0];
  for (let at = nextLine(text, 0); at < text.length; at = nextLine(text, at)) lines.push(at);
  return lines;
}

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

function lineOrigin(
  { uri, line, before, after, value }: LineOriginParams,
  { files, worldDay }: Workspace,
): LineOrigin | null {
  const textsOf = (side: readonly VersionText[]): LogText[] =>
    side.flatMap(({ uri: path, text }) => (text === null ? [] : [{ path, text }]));
  const now = before.map((each) => ({ uri: each.uri, text: files.get(each.uri)?.source.text ?? null }));
  const [old, fresh] = [textsOf(before), textsOf(after ?? now)];
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
