import type { GenericRequestHandler } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { isoOf } from "../../book/dates.ts";
import type { CodePage } from "../../checks/code.ts";
import { codePages } from "../../checks/codes.ts";
import { boardCard } from "../../features/board/board.ts";
import { logLines, takeBackLines } from "../../features/board/log-lines.ts";
import { cardAt, cardChoices, cardOfCase, cardOfTank } from "../../features/card-at.ts";
import { casebookCard } from "../../features/case-card.ts";
import { dayCard, dueToday } from "../../features/day-card.ts";
import { findingPage } from "../../features/finding-page.ts";
import type { View } from "../../features/view.ts";
import { whyAt, whyJson } from "../../features/why.ts";
import {
  type DayWriting,
  dueOffers,
  writeLine,
  writeRound,
  writeSheet,
  writeToday,
} from "../../features/write-day.ts";
import type { Group } from "../group.ts";
import {
  boardRequest,
  cardChoicesRequest,
  cardOfRequest,
  cardRequest,
  casebookRequest,
  codesRequest,
  type DayEdit,
  type DayParams,
  type DutyItem,
  dayRequest,
  dutiesRequest,
  type LogLines,
  type LogLinesParams,
  logLinesRequest,
  pageRequest,
  type RequestName,
  type Status,
  statusRequest,
  whyRequest,
} from "../protocol.ts";
import type { Looked, Session } from "../session.ts";
import { lspLocation, placed, textEdits } from "../to-lsp.ts";

/** What the client asks beyond the protocol (protocol.ts). */
export const ownRequests: Group = {
  capabilities: () => ({}),
  serve(session) {
    const pages: readonly CodePage[] = codePages;
    about(session, statusRequest, null, statusOf);
    about(session, dutiesRequest, [], (looked) => dutiesOf(session, looked));
    about(session, dayRequest, null, (looked, params) => dayEdit(session, looked, params));
    about(session, boardRequest, null, ({ view }) => placed(session, boardCard(view)));
    about(session, logLinesRequest, null, (looked, params) => linesEdit(session, looked, params));
    about(session, cardRequest, null, ({ view, document }, { position }) => {
      const card = cardAt(view, document.offsetAt(position));
      return card === undefined ? null : placed(session, card);
    });
    about(session, casebookRequest, null, ({ view }) =>
      placed(session, casebookCard(view.checked, view.worldDay)),
    );
    about(session, cardOfRequest, null, ({ view }, { tank, day, case: name, episode }) => {
      const card =
        tank !== undefined
          ? cardOfTank(view, tank)
          : name !== undefined
            ? cardOfCase(view, name, episode)
            : day !== undefined
              ? dayCard(view.checked, day, view.worldDay)
              : undefined;
      return card === undefined ? null : placed(session, card);
    });
    about(session, cardChoicesRequest, [], ({ view }) => cardChoices(view.checked));
    about(session, whyRequest, null, ({ view, document }, { position }) => {
      const why = whyAt(view, document.offsetAt(position));
      return why === undefined ? null : placed(session, whyJson(why));
    });
    answer(session, pageRequest, null, ({ code }) => {
      const page = pages.find((each) => each.code === code);
      return page === undefined ? null : findingPage(page);
    });
    answer(session, codesRequest, [], () => pages.map(({ code, title }) => ({ code, title })));
  },
};

export function answer<Params, Result>(
  session: Session,
  name: RequestName<Params, Result>,
  nothing: Result,
  give: (params: Params) => Result,
): void {
  const handler = session.handler(name.method, nothing, give);
  // The connection cannot know that a result of any sort is one of its own.
  session.connection.onRequest(name.method, handler as GenericRequestHandler<unknown, never>);
}

/** Answers about a file; with `nothing` for one that is not known. */
export function about<Params extends { readonly uri: string }, Result>(
  session: Session,
  name: RequestName<Params, Result>,
  nothing: Result,
  give: (looked: Looked, params: Params) => Result,
): void {
  answer(session, name, nothing, (params) => {
    const looked = session.look(params.uri);
    return looked === undefined ? nothing : give(looked, params);
  });
}

function statusOf({ view: { checked, worldDay } }: Looked): Status {
  // Tests of one place are one thing to do, as on the board.
  const due = [
    ...new Map(
      dueToday(checked, worldDay).map((each, at) => [/^test /.test(each.act) ? `test ${each.of}` : at, each]),
    ).values(),
  ];
  const late = due.filter((each) => (each.late ?? 0) > 0).length;
  return {
    title: checked.book.title,
    today: isoOf(checked.logbook.today(worldDay)),
    due: due.length - late,
    late,
    findings: checked.count(worldDay),
  };
}

function dutiesOf(session: Session, { view }: Looked): DutyItem[] {
  return dueOffers(view).flatMap(({ entry, stage, before, at, line }) => {
    const place = lspLocation(session, at);
    const { target, words, reason, late } = entry;
    return place === undefined
      ? []
      : [{ what: `${target} ${words}`, when: reason, late, stage, before, entry: line, ...place }];
  });
}

function writingOf(view: View, write: DayParams["write"], entry: string): DayWriting | undefined {
  switch (write) {
    case "start":
      return writeToday(view);
    case "sheet":
      return writeSheet(view);
    case "round":
      return writeRound(view);
    default:
      return writeLine(view, entry);
  }
}

function dayEdit(session: Session, { view }: Looked, { write, entry = "" }: DayParams): DayEdit | null {
  const written = writingOf(view, write, entry);
  if (written === undefined) return null;
  const { path, isNewFile, edits, cursor, snippet } = written;
  const before = isNewFile ? TextDocument.create(path, "standpipe", 0, "") : session.workspace.document(path);
  if (before === undefined) return null;
  const changes = textEdits(before, edits);
  const after = TextDocument.create(path, "standpipe", 0, TextDocument.applyEdits(before, changes));
  return { uri: path, isNew: isNewFile, edits: changes, position: after.positionAt(cursor), snippet };
}

function linesEdit(session: Session, { view }: Looked, params: LogLinesParams): LogLines | null {
  const { lines, takeBack, begun: before } = params;
  const logged = takeBack === true ? takeBackLines(view, lines, before) : logLines(view, lines);
  if ("refused" in logged) return logged;
  const { path, isNewFile, edits, written, begun } = logged;
  const file = isNewFile ? TextDocument.create(path, "standpipe", 0, "") : session.workspace.document(path);
  if (file === undefined) return null;
  const answer = { uri: path, isNew: isNewFile, edits: textEdits(file, edits), written };
  return begun === undefined ? answer : { ...answer, begun };
}
