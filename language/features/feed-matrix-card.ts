import type { Location } from "./view.ts";

/** What the preview shows of feeding. Plain JSON as in `cards.ts`. */

/** Feedings by day: of a tank a row a kind of food, of a day or a system a row a tank. */
export interface FeedMatrixCard {
  readonly day: number;
  readonly days: number;
  /** What a row is: its head in the table. */
  readonly rowsAre: "kind" | "tank";
  readonly rows: readonly FeedRowCard[];
  /** `today 07:20 larvae 3 cubes`; empty where nothing was fed in the last months. Of a tank only. */
  readonly lastText: string;
  readonly lastAt: Location | null;
  /** `5.53 g a day, 3.48 % of 159 g`; empty where it cannot be told. Of a tank only. */
  readonly rationText: string;
}

export interface FeedRowCard {
  readonly name: string;
  readonly isTank: boolean;
  /** Days with feedings, in order. */
  readonly cells: readonly {
    readonly day: number;
    readonly times: number;
    /** `cyclops 2 cubes; flake 1 pinch`, `fasting`. */
    readonly text: string;
    readonly isFast: boolean;
    readonly at: Location | null;
  }[];
  /** What is needed of it, or missing: `at least 3 in 7 days, got 2: due today`; empty for nothing. */
  readonly need: string;
  readonly isShort: boolean;
  readonly isOver: boolean;
}
