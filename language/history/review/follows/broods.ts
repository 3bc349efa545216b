import { broodCard, openBroods } from "../../../features/brood-card.ts";
import type { Follows, Standing, Told } from "../consequence.ts";

interface BroodStanding extends Standing {
  readonly name: string;
  readonly state: string;
  readonly stateText: string;
  readonly stage: string;
  readonly expected: string;
}

/** Broods that are waited for or reared: how they stand, and when they hatch or swim. */
export const broods: Follows<BroodStanding> = {
  is: "brood",
  reach: "water",

  standing({ logbook }, day) {
    return new Map(
      openBroods(logbook, day).map((brood) => {
        const card = broodCard(logbook, brood, day);
        const { name, of, at, state, stateText, expected } = card;
        return [
          name,
          {
            of,
            at,
            terms: [brood.species, brood.lot],
            name,
            state,
            stateText,
            stage: expected?.stage ?? "",
            expected: expected?.text ?? "",
          },
        ];
      }),
    );
  },

  told(before, after) {
    const { name } = (after ?? before)!;
    const brood = `brood ${name}`;
    if (before === undefined) {
      const expected = after!.expected === "" ? "" : `, ${stageWords(after!.stage)} ${after!.expected}`;
      return [
        { text: `${brood}: ${after!.stateText}${expected}`, after: after!.stateText, reach: "station" },
      ];
    }
    if (after === undefined) return [{ text: `${brood} is waited for no more`, before: before.stateText }];
    const told: Told[] = [];
    if (before.state !== after.state || before.stateText !== after.stateText)
      told.push({
        text: `${brood}: ${after.stateText} (it was: ${before.stateText})`,
        before: before.stateText,
        after: after.stateText,
      });
    if (before.stage === after.stage && before.expected !== after.expected && after.expected !== "")
      told.push({
        text: `${brood} ${stageWords(after.stage)} ${after.expected}, not ${before.expected === "" ? "at a day that nothing told" : before.expected}`,
        before: before.expected,
        after: after.expected,
      });
    return told;
  },
};

const stageWords = (stage: string): string => (stage === "swim" ? "swims free" : "hatches");
