import type { CancellationToken, GenericRequestHandler } from "vscode-languageserver";
import * as z from "zod/mini";
import { decoded } from "../../features/files-in-text.ts";
import type { Location } from "../../features/view.ts";
import type { LogText } from "../../history/match-lines.ts";
import type { Side } from "../../history/review/changes.ts";
import { logbookPairs } from "../../history/review/logbook-pairs.ts";
import { reviewMarkdown } from "../../history/review/markdown.ts";
import { type Review, reviewSteps } from "../../history/review/review.ts";
import { type ToldLine, toldReview } from "../../history/review/told.ts";
import type { Steps } from "../../history/steps.ts";
import type { Group } from "../group.ts";
import type { FilePlace } from "../protocol.ts";
import { inPieces, positionOf } from "../review-pieces.ts";
import { type ReviewAnswer, type ReviewParams, reviewRequest, type VersionText } from "../review-protocol.ts";
import { cancelled, type Looked, outdated, type Session } from "../session.ts";
import type { Workspace } from "../workspace.ts";

/** Two versions of a logbook: what changed and what follows from it. The texts of versions come from the client. */
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

/** Who edits while a review is made gets it of what is there then; who does not stop asks again. */
const mostTries = 3;
/** So many lines of one tank are listed: who looks for more than that looks for another way. */
const mostLines = 400;

async function review(
  session: Session,
  params: ReviewParams,
  token: CancellationToken,
): Promise<ReviewAnswer | null> {
  for (let tried = 0; tried < mostTries; tried++) {
    const looked = session.look(params.uri);
    if (looked === undefined) return null;
    const { workspace } = session;
    const { generation } = workspace;
    const isOutdated = (): boolean => workspace.generation !== generation;
    const made = await inPieces(stepsOf(looked, workspace, params), token, isOutdated);
    if (token.isCancellationRequested) throw cancelled();
    if (made !== undefined) return answerOf(made, params, session.workspace.files.get(params.uri)!.folder);
  }
  throw outdated();
}

function stepsOf(
  { uri, view: { checked, worldDay } }: Looked,
  workspace: Workspace,
  params: ReviewParams,
): Steps<Review> {
  const asked = { asOf: checked.logbook.asOf, worldDay };
  const { before, after } = ofLogbook(
    uri,
    versionOf(workspace, params.before),
    versionOf(workspace, params.after),
  );
  return reviewSteps(before, after, asked, checked);
}

/** Of the files of both versions those of the logbook of one: a repository may hold several. */
function ofLogbook(uri: string, before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>) {
  const pairs = logbookPairs(before, after);
  const has = (files: readonly LogText[]): boolean => files.some(({ path }) => path === uri);
  return (
    pairs.find((pair) => has(pair.after)) ??
    pairs.find((pair) => has(pair.before)) ?? { before: [], after: [] }
  );
}

function answerOf(made: Review, params: ReviewParams, folder: string): ReviewAnswer {
  const shown = (path: string): string => nameIn(folder, path);
  const told = toldReview(made, { all: params.all, shown });
  const placed = ({ before, after }: Pick<ToldLine, "before" | "after">) => ({
    before: placeOf(made, "before", locationOf(before)),
    after: placeOf(made, "after", locationOf(after)),
  });
  return {
    ...told,
    follows: told.follows.map(({ title, items }) => ({
      title,
      items: items.map(({ at, causes, ...item }) => ({
        ...item,
        at: placeOf(made, item.side, at),
        causes: causes.map((cause) => ({ ...cause, ...placed(cause) })),
      })),
    })),
    groups: told.groups.map(({ days, ...group }) => {
      let room = params.all ? Number.POSITIVE_INFINITY : mostLines;
      let left = 0;
      const shownDays = days.flatMap(({ title, lines }) => {
        const listed = lines.slice(0, room);
        room -= listed.length;
        left += lines.length - listed.length;
        return listed.length === 0
          ? []
          : [{ title, lines: listed.map((line) => ({ ...line, ...placed(line) })) }];
      });
      return { ...group, days: shownDays, left };
    }),
    page: reviewMarkdown([told], params),
  };
}

/** A file as its logbook calls it. @param folder the URI of the logbook's */
const nameIn = (folder: string, uri: string): string =>
  decoded(uri.startsWith(`${folder}/`) ? uri.slice(folder.length + 1) : uri);

/** A version of all logs: the files as they are now, but for those that are others there. */
function versionOf({ files }: Workspace, others: readonly VersionText[]): Map<string, string> {
  const texts = new Map([...files].map(([uri, { source }]) => [uri, source.text]));
  for (const { uri, text } of others)
    if (text === null) texts.delete(uri);
    else texts.set(uri, text);
  return texts;
}

const locationOf = (side: Side | undefined): Location | null =>
  side === undefined ? null : { path: side.path, start: side.start, end: side.end };

function placeOf(made: Review, side: "before" | "after", at: Location | null): FilePlace | null {
  const source = at === null ? undefined : made[side].logbook.sources.get(at.path);
  if (at === null || source === undefined) return null;
  return { uri: at.path, range: { start: positionOf(source, at.start), end: positionOf(source, at.end) } };
}
