import type { GenericRequestHandler } from "vscode-languageserver";
import { isoOf } from "../../book/dates.ts";
import { definitionKinds } from "../../book/definitions/registry.ts";
import { entryKinds } from "../../book/entries/registry.ts";
import { Source } from "../../book/source.ts";
import { CheckedLogbook } from "../../checks/check.ts";
import { cardChoices } from "../../features/card-at.ts";
import { cellCompletions, newRowCompletions } from "../../features/grid/cell-completion.ts";
import { gridChart } from "../../features/grid/chart.ts";
import { toTsv } from "../../features/grid/copy.ts";
import { foundCells } from "../../features/grid/find.ts";
import type { GridCell, GridRow } from "../../features/grid/grid-model.ts";
import { gridRowIds, gridRows } from "../../features/grid/query.ts";
import { gridSummary } from "../../features/grid/summary.ts";
import type { View } from "../../features/view.ts";
import { definitionWords } from "../../syntax/blocks.ts";
import {
  type ChartOver,
  type GridAbout,
  type GridAsked,
  type GridChangeParams,
  type GridCharted,
  type GridChoices,
  type GridPage,
  gridChangeRequest,
  gridChartRequest,
  gridChoicesRequest,
  gridCompletionRequest,
  gridCopyRequest,
  gridFindRequest,
  gridPlaceRequest,
  gridRequest,
  gridSummaryRequest,
  type PageCell,
  type PageRow,
} from "../grid-protocol.ts";
import type { Group } from "../group.ts";
import type { RequestName } from "../protocol.ts";
import type { Session } from "../session.ts";
import { lspLocation } from "../to-lsp.ts";
import { changedInTime } from "./grid-changes.ts";
import { cellAt, indexOfRow, rowAtLine, rowsIn } from "./grid-places.ts";
import { summed } from "./grid-summary.ts";
import { answer } from "./own-requests.ts";

/** The logbook as cells: windows of rows, and the edits that changes of cells come to. */
export const grid: Group = {
  capabilities: () => ({}),
  serve(session) {
    const old = new OldTexts();
    const viewOf = (params: Omit<GridAbout, "face">): View | undefined =>
      session.workspace.view(params.uri) ?? old.view(params, session.workspace.worldDay);
    const about = <Params extends Omit<GridAbout, "face">, Result>(
      name: RequestName<Params, Result>,
      nothing: Result,
      give: (view: View, params: Params) => Result,
    ): void =>
      answer(session, name, nothing, (params) => {
        const view = viewOf(params);
        return view === undefined ? nothing : give(view, params);
      });
    about(gridRequest, null, (view, params) => pageOf(session, view, params));
    session.connection.onRequest(
      gridChangeRequest.method,
      session.handler(gridChangeRequest.method, null, (params: GridChangeParams, token) =>
        changedInTime(session, () => viewOf(params), params, token),
      ) as GenericRequestHandler<unknown, never>,
    );
    about(gridCopyRequest, null, (view, { face, over }) =>
      toTsv(rowsIn(view, face, over).map(({ cells }) => fitted(cells, over.columns.length))),
    );
    about(gridSummaryRequest, [], (view, { face, over }) => {
      const ids = rowsIn(view, face, { ...over, columns: [] }).map(({ id }) => id);
      return summed(gridSummary(view, face, ids, over.columns));
    });
    about(gridChartRequest, null, charted);
    about(gridFindRequest, null, (view, { face, view: rows, ...search }) => ({
      places: foundCells(view, face, rows, search),
    }));
    about(gridCompletionRequest, [], (view, { face: _, column, typed, caret, of }) => {
      const day = isoOf(view.checked.logbook.today(view.worldDay));
      return "row" in of
        ? cellCompletions(view, { row: of.row, column }, typed, caret)
        : newRowCompletions(view, { ...of.fresh, [column]: typed }, column, caret, of.fresh.date || day);
    });
    about(gridPlaceRequest, null, (view, { face, cell }) => {
      const found = cellAt(view, face, cell);
      const at = found?.cell?.at ?? found?.row.at;
      return at === undefined ? null : (lspLocation(session, at) ?? null);
    });
    about(gridChoicesRequest, null, choicesOf);
  },
};

function pageOf(session: Session, view: View, { uri, face, query, track, place }: GridAsked): GridPage {
  const document = session.workspace.document(uri);
  const placedAt =
    place === undefined || document === undefined
      ? -1
      : rowAtLine(view, face, query, uri, document.offsetAt({ line: place.line, character: 0 }));
  // Who comes from a place is shown what is about it.
  const from = placedAt < 0 ? query.from : Math.max(0, placedAt - Math.floor(query.count / 2));
  const { columns, shown, total, rows, problem } = gridRows(view, face, { ...query, from });
  return {
    version: session.workspace.files.get(uri)?.version ?? null,
    columns,
    shown,
    total,
    from,
    rows: rows.map((row) => pageRow(session, row)),
    problem,
    trackedAt: track === undefined ? -1 : indexOfRow(view, face, query, rows, from, track),
    placedAt,
  };
}

function pageRow(session: Session, { id, is, at, cells }: GridRow): PageRow {
  const document = at === undefined ? undefined : session.workspace.document(at.path);
  const line = at === undefined ? -1 : (document?.positionAt(at.start).line ?? -1);
  return { id, is, line, cells: cells.map(pageCell) };
}

function pageCell({ text, fixed, implied, state, detail, unit, marks }: GridCell): PageCell {
  return {
    text,
    ...(fixed === "" ? {} : { fixed }),
    ...(implied === "" ? {} : { implied }),
    ...(state === "" ? {} : { state }),
    ...(detail === "" ? {} : { detail }),
    ...(unit === undefined ? {} : { unit }),
    ...(marks.length === 0
      ? {}
      : { marks: marks.map(({ code, severity, message }) => ({ code, severity, message })) }),
  };
}

/** More rows are no chart any more, and not worth the wait. */
const mostDrawn = 4000;

function charted(
  view: View,
  { face, over }: GridAbout & { readonly over: ChartOver },
): GridCharted | "moved" {
  const { columns } = over;
  if ("rows" in over) return { ...gridChart(view, face, over.rows, columns), rows: over.rows, skipped: 0 };
  const skipped = Math.max(0, over.count - mostDrawn);
  const rows = gridRowIds(view, face, {
    ...over.view,
    from: over.from + skipped,
    count: over.count - skipped,
  });
  const isMoved = rows.at(-1) !== over.last || (skipped === 0 && rows[0] !== over.first);
  return isMoved ? "moved" : { ...gridChart(view, face, rows, columns), rows, skipped };
}

/** A row of one text stands in the first column. */
function fitted(cells: readonly GridCell[], width: number): string[] {
  return Array.from({ length: width }, (_, at) => cells[at]?.text ?? "");
}

function choicesOf(view: View): GridChoices {
  const { checked, worldDay } = view;
  let [first, last] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { day } of checked.logbook.blocks()) {
    if (day < first) first = day;
    if (day > last) last = day;
  }
  return {
    kinds: entryKinds.map(({ word, title }) => ({ word, title })),
    places: cardChoices(checked).map(({ name, title }) => ({ name, title })),
    definitions: definitionWords.map((word) => ({ word, title: definitionKinds[word].title })),
    first: view.source.blocks.find(({ kind }) => kind === "definition")?.definition?.word ?? null,
    isDefining: !view.source.blocks.some(({ kind }) => kind === "day"),
    firstDay: Number.isFinite(first) ? first : null,
    lastDay: Number.isFinite(last) ? last : null,
    today: checked.logbook.today(worldDay),
  };
}

/** Texts that are no file of the workspace: older revisions. The last few are kept. */
class OldTexts {
  private readonly known = new Map<string, { readonly text: string; readonly view: View }>();

  view({ uri, text }: Omit<GridAbout, "face">, worldDay: number): View | undefined {
    if (text === undefined) return undefined;
    const known = this.known.get(uri);
    if (known?.text === text) return known.view;
    const checked = new CheckedLogbook();
    const source = new Source(uri, text);
    checked.put(source);
    const view = { checked, source, worldDay };
    this.known.set(uri, { text, view });
    for (const first of this.known.keys()) if (this.known.size > 4) this.known.delete(first);
    return view;
  }
}
