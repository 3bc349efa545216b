import { dayOf, minuteOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { arrivals } from "./arrivals.ts";
import { raising } from "./broods.ts";
import { flukes } from "./flukes.ts";
import { hygiene } from "./hygiene.ts";
import type { Scene } from "./scene.ts";
import { measured, slips } from "./slips.ts";
import { sponge } from "./sponge.ts";
import { threads } from "./threads.ts";

const byDay = new Map<number, Scene[]>();
for (const scene of [
  ...arrivals,
  ...flukes,
  ...hygiene,
  ...sponge,
  ...raising,
  ...slips,
  ...threads,
  ...measured,
]) {
  const day = dayOf(scene.on);
  byDay.set(day, [...(byDay.get(day) ?? []), scene]);
}

/** Tells the rotation beforehand which changes it need not make. */
export function announce(cellar: Cellar): void {
  for (const [day, scenes] of byDay) {
    for (const { changes } of scenes) {
      if (changes === undefined) continue;
      for (const near of [day - 1, day, day + 1]) cellar.handled.add(`${near}/${changes}`);
    }
  }
}

/** What the stories want of this day. */
export function stories(cellar: Cellar, day: number): void {
  for (const { at, timed, perform } of byDay.get(day) ?? []) {
    cellar.plan(minuteOf(at), (now) => perform(cellar, now), timed);
  }
}
