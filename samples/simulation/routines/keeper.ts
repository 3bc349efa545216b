import { dayOf, FIRST_DAY, LAST_DAY, within } from "../calendar.ts";

/** When the keeper is there, and what the head of a day says. */
export type Presence = "home" | "away" | "ill" | "counting";

export const HOLIDAY = { from: "2025-08-09", until: "2025-08-16" } as const;
const ILLNESS = { from: "2026-02-03", until: "2026-02-04" } as const;

export function presence(day: number): Presence {
  if (day === FIRST_DAY) return "counting";
  if (within(day, HOLIDAY.from, HOLIDAY.until)) return "away";
  return within(day, ILLNESS.from, ILLNESS.until) ? "ill" : "home";
}

/** In the last days nothing is left undone but what the stories leave undone. */
export function isLastStretch(day: number): boolean {
  return day > LAST_DAY - 12;
}

const titles: ReadonlyMap<number, string> = new Map(
  Object.entries({
    "2025-04-01": "new book, everything counted",
    "2025-04-23": "written up the next morning",
    "2025-05-14": "written up on the 15th",
    "2025-06-03": "short day",
    "2025-06-29": "club table in the afternoon",
    "2025-07-11": "away until evening",
    "2025-07-24": "written up two days later from the slip",
    "2025-08-10": "from the slip by the door",
    "2025-08-12": "from the slip by the door",
    "2025-08-14": "from the slip by the door",
    "2025-08-16": "from the slip by the door, back at night",
    "2025-08-17": "first day back",
    "2025-09-12": "written up the next day",
    "2025-10-06": "laboratory day",
    "2025-11-02": "visitors",
    "2025-11-23": "power cut, 04:10 to 06:30",
    "2025-12-25": "only the needful",
    "2026-01-01": "late start",
    "2026-01-19": "drain pipe frozen until noon",
    "2026-02-03": "in bed with a cold, fed only",
    "2026-02-04": "in bed, fed only",
    "2026-02-27": "written up the next morning",
    "2026-03-11": "power cut, 20 min",
  }).map(([iso, title]) => [dayOf(iso), title]),
);

export function titleOf(day: number): string | undefined {
  return titles.get(day);
}
