/**
 * What a rating of algae means: a scale of our own, in plain words, so that two ratings half a year apart mean the same. The shares are those
 * of the cover classes of J. Braun-Blanquet 1932, Plant Sociology (recalled), the two from a quarter to three quarters taken together.
 */
export const algaeScale = [
  { rating: 0, words: "none to be found", cover: "0 %" },
  { rating: 1, words: "found on looking for it", cover: "up to 5 %" },
  { rating: 2, words: "seen at once, in patches", cover: "5 to 25 %" },
  { rating: 3, words: "much of the surface", cover: "25 to 75 %" },
  { rating: 4, words: "nearly everything covered", cover: "over 75 %" },
] as const;

/** The scale in one sentence. */
export const scaleSentence = algaeScale
  .map(({ rating, words, cover }) => `${rating} ${words}${rating === 0 ? "" : ` (${cover})`}`)
  .join(", ");
