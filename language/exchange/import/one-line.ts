/** A name from outside, in a comment or message of ours: whatever letters it has, it stays on its line. */
export const oneLine = (text: string): string => text.replace(/[\p{Cc}\p{Cf}\u2028\u2029]+/gu, " ").trim();
