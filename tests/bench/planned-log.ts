import { isoOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { roomPlan } from "../../language/room/planner/plan.ts";

/** How long the plan of a room takes from its log: with the plan of the day before, and after one more entry. */
export interface PlannedLogTimes {
  readonly firstMs: number;
  readonly afterEntryMs: number;
}

const first = Date.UTC(2026, 2, 1) / 86_400_000;
const daysKept = 30;

/** A log of a month in which changes, cleans and tests were done on their days, within a room that holds what comes on average, over `load`. */
function loggedRoom(tanks: number, seed: number, load: number): string {
  let state = seed + 1;
  const random = (below: number): number => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return Math.floor((state / 0x80000000) * below);
  };
  const kept = Array.from({ length: tanks }, (_, at) => ({
    name: `t${at + 1}`,
    litres: 30 + random(200),
    change: [3, 4, 7, 7, 7, 10, 14][random(7)]!,
    clean: [7, 14, 28][random(3)]!,
    from: random(28),
  }));
  const visits = kept.reduce((sum, { change, clean }) => sum + 1 / change + 1 / clean, 0);
  const litres = kept.reduce((sum, { litres, change }) => sum + (0.3 * litres) / change, 0);
  const lines = [
    `room "R"`,
    `  capacity ${Math.ceil(visits / load)} tanks, ${Math.ceil(litres / load)} L`,
    ...kept.flatMap(({ name, litres: holds, change, clean }) => [
      `tank ${name}`,
      `  volume ${holds} L`,
      `  every ${change} d change 25..35 %`,
      `  every ${clean} d clean`,
      "  every 14 d test nitrate",
    ]),
  ];
  for (let day = 0; day < daysKept; day++) {
    lines.push(isoOf(first + day));
    for (const { name, change, clean, from } of kept) {
      if ((day + from) % change === 0) lines.push(`  ${name} change 30 %`);
      if ((day + from) % clean === 0) lines.push(`  ${name} clean`);
      if ((day + from) % 14 === 0) lines.push(`  ${name} nitrate 10`);
    }
  }
  return `${lines.join("\n")}\n`;
}

export function plannedLogTimes(tanks: number, load: number, rooms = 9): PlannedLogTimes {
  const times = Array.from({ length: rooms + 1 }, (_, seed) => {
    const text = loggedRoom(tanks, seed, load);
    const checked = new CheckedLogbook();
    checked.set("room.tank", text);
    const day = first + daysKept;
    checked.logbook.asOf = day;
    checked.refresh();
    const plan = (): number => {
      const begun = performance.now();
      roomPlan(checked.logbook, day, 14);
      return performance.now() - begun;
    };
    const firstMs = plan();
    checked.set("room.tank", `${text}${isoOf(day)}\n  t1 change 30 %\n`);
    checked.refresh();
    return { firstMs, afterEntryMs: plan() };
  }).slice(1); // The first is for the compiler.
  const middle = (of: keyof PlannedLogTimes): number =>
    times.map((each) => each[of]).sort((a, b) => a - b)[times.length >> 1]!;
  return { firstMs: middle("firstMs"), afterEntryMs: middle("afterEntryMs") };
}
