import { stationLocation } from "../../../features/card-parts.ts";
import { openExposures } from "../../../features/exposure-card.ts";
import type { Follows, Standing } from "../consequence.ts";

interface ExposureStanding extends Standing {
  readonly case: string;
  readonly kind: string;
  readonly isOrigin: boolean;
  readonly path: string;
}

/** Tanks that what may be in an open case has reached. */
export const exposure: Follows<ExposureStanding> = {
  is: "exposure",
  reach: "water",

  standing(checked, day) {
    const found = new Map<string, ExposureStanding>();
    for (const card of openExposures(checked, day))
      for (const held of card.hold) {
        const station = checked.book.tank(held.tank);
        found.set(JSON.stringify([card.case, held.tank]), {
          of: held.tank,
          at: held.steps.at(-1)?.at ?? (station === undefined ? null : stationLocation(station)),
          terms: [card.case],
          case: card.case === "" ? "signs without a case" : `case ${card.case}`,
          kind: held.kind,
          isOrigin: held.isOrigin,
          path: held.steps.map(({ text }) => text).join(", "),
        });
      }
    return found;
  },

  told(before, after) {
    const words = { before: before?.kind ?? "", after: after?.kind ?? "" };
    if (before === undefined) {
      const { case: of, kind, path, isOrigin } = after!;
      const by = isOrigin ? kind : path === "" ? `by ${kind}` : `by ${kind}: ${path}`;
      return [{ text: `now among the tanks of ${of} (${by})`, tone: "worse", isSmall: isOrigin, ...words }];
    }
    if (after === undefined)
      return [
        { text: `no longer among the tanks that ${before.case} may have reached`, tone: "better", ...words },
      ];
    if (before.kind === after.kind) return [];
    return [{ text: `of ${after.case} by ${after.kind}, not by ${before.kind}`, isSmall: true, ...words }];
  },
};
