import { spokenDay } from "../../../book/dates.ts";
import { quarantineCard } from "../../../features/quarantine-card.ts";
import type { Follows, Standing } from "../consequence.ts";

interface QuarantineStanding extends Standing {
  readonly tanks: string;
  readonly end: number;
  readonly isOver: boolean;
  readonly putOff: string;
  readonly text: string;
}

/** The end of each quarantine. */
export const quarantine: Follows<QuarantineStanding> = {
  is: "quarantine",
  reach: "water",

  standing({ logbook }, day) {
    return new Map(
      quarantineCard(logbook, day).map(({ tanks, end, isOver, putOff, text, at }) => [
        tanks.join(" "),
        {
          of: tanks[0]!,
          at: putOff.at(-1)?.at ?? at,
          terms: [],
          tanks: tanks.join(", "),
          end,
          isOver,
          putOff: putOff.at(-1)?.text ?? "",
          text,
        },
      ]),
    );
  },

  told(before, after, day) {
    const words = { before: before?.text ?? "", after: after?.text ?? "" };
    if (before === undefined)
      return after!.isOver ? [] : [{ text: `quarantine runs now: ${after!.text}`, tone: "worse", ...words }];
    if (after === undefined)
      return before.isOver ? [] : [{ text: `no quarantine runs any more (it was ${before.text})`, ...words }];
    if (before.end === after.end) return [];
    const by = after.putOff === "" ? "" : `, put off by ${after.putOff}`;
    return [
      {
        text: `quarantine ends on ${spokenDay(after.end, day)}, not ${spokenDay(before.end, day)}${by}`,
        tone: after.end > before.end ? "worse" : "plain",
        ...words,
      },
    ];
  },
};
