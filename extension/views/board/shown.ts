import type * as board from "../../../language/features/board/board-card.ts";
import type { FilePlace, Placed } from "../../../language/server/protocol.ts";

/** The board's card as it comes to the page: with places as lines of files. */
export type Place = FilePlace;
export type Card = Placed<board.BoardCard>;
export type Load = Placed<board.BoardLoad>;
export type Stop = Placed<board.BoardStop>;
export type Task = Placed<board.BoardTask>;
export type Way = Placed<board.BoardWay>;
export type NoticeLine = Placed<board.BoardLine>;
export type Done = Placed<board.BoardDone>;
export type Day = Placed<board.BoardDay>;
/** What the preview shows of it. */
export type About = NonNullable<NoticeLine["card"]>;
