import { isoOf, spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import { keptOfFound } from "../room/kept-of-found.ts";
import type { Logbook } from "../room/logbook.ts";
import { roomTest } from "../room/loss-baseline.ts";
import { type Outbreak, type RoomAlarm, type RoomChart, roomChart } from "../room/room-losses.ts";
import { placeOfRow } from "../room/why.ts";
import { falseAlarmText, rateText, whyAlarm } from "../room/why-room-losses.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";

/** Losses of the whole room that are more than the room usually has. */

const prelude = `species praecox
tank dam
  volume 300 L
tank hill
  volume 300 L
2025-06-01
  dam arrive praecox 100
  hill arrive praecox 100
2025-07-20
  dam lose praecox 1 found
2025-08-11
  hill lose praecox 1 found
2025-09-14
  dam lose praecox 1 found
2025-10-02
  hill lose praecox 1 found
2025-11-05
  dam lose praecox 1 found
`;

export const roomLossPages = [
  page({
    code: "loss/room",
    severity: "warning",
    since: "0.3",
    title: "The room loses more than it usually does",
    says: "A cumulative sum of the deaths of each day in all tanks, less what a day may take, has reached its threshold (Poisson CUSUM). The usual rate is that of the 180 days that end two weeks before, per animal-day, without the days of outbreaks that were told; k and the threshold h are set to find three times that rate, with one false alarm in 1000 days at most in the mean, at the mean number of animals. The sum then begins at 0 again; alarms less than two weeks apart are one outbreak and told once. Culled and missing animals are left out, and those that the book did not know of; a day without an entry counts as a day without a death. Where the usual rate rests on fewer than 5 deaths or 90 days nothing is said. Deaths that come in bunches without a cause in common raise it oftener than stated, and the usual rate is itself an estimate: by chance alone, at an even 0.04 to 3 deaths a day, it is raised once in 500 to 1400 days (simulated); the message says what the upper end of its interval would make of it.",
    whatToDo:
      "Look for what the tanks have in common: a water, a tool, a food, an arrival. Look at all animals; test the waters; hold sales and moves until it is clear. Ask a veterinarian where more die or are sick; of some diseases the authority must be told at once.",
    raises: `${prelude}2025-12-20
  dam lose praecox 1 found
2025-12-21
  hill lose praecox 1 found
2025-12-22
  dam lose praecox 1 found
#                  ^ loss/room`,
    fine: `${prelude}2025-12-20
  dam lose praecox 1 found
2025-12-21
  hill lose praecox 1 found
2025-12-22
  dam lose praecox 1 missing`,
    source:
      "Lucas 1985, Counted data CUSUM's, Technometrics 27:129-144; run lengths: Brook & Evans 1972, An approach to the probability distribution of CUSUM run length, Biometrika 59:539-549; interval: Garwood 1936, Biometrika 28:437-442. Reference, ratio and run length: this tool's own.",
  }),
] as const;

/** The outbreaks of a room, by the number of the ledger of the death at which each shows. */
export function roomLossFindings(logbook: Logbook, day: number): ReadonlyMap<number, readonly RowFinding[]> {
  const chart = roomChart(logbook, day);
  return keptOfFound(logbook, `room loss findings ${day}`, [chart], () => {
    const byLedger = new Map<number, RowFinding[]>();
    for (const { first } of chart.outbreaks) {
      const at = logbook.ledgerNumber(first.at.tank);
      byLedger.set(at, [...(byLedger.get(at) ?? []), finding(chart, first)]);
    }
    return { value: byLedger, blocks: [] };
  });
}

function finding(chart: RoomChart, alarm: RoomAlarm): RowFinding {
  const { at } = alarm;
  return {
    code: "loss/room",
    block: at.block,
    row: at.row,
    slots: ["animals"],
    severity: () => "warning",
    message: () => alarmText(alarm),
    // The others: its own place it is.
    related: () =>
      alarm.deaths.slice(0, -1).flatMap((death) => {
        const place = placeOfRow(death.block, death.row);
        return place === undefined ? [] : [{ place, message: `died in ${death.tank.name}` }];
      }),
    why: () => whyAlarm(chart, alarm),
    about: at.tank,
  };
}

/** What an alarm says, with its method, figures and false alarms. */
export function alarmText({ day, from, deaths, expected, sum, k, h, baseline }: RoomAlarm): string {
  const died = deaths.reduce((all, { animals }) => all + animals, 0);
  const since =
    from === day ? `on ${spokenDay(day, day)}` : `from ${spokenDay(from, day)} to ${spokenDay(day, day)}`;
  return (
    `the room loses more than usual: ${formatNumber(died)} died ${whereText(deaths)} ${since}, ${formatNumber(expected, 2)} expected by the usual ${rateText(baseline)}. ` +
    `Poisson CUSUM ${formatNumber(sum)}, alarm at h ${formatNumber(h)}, k ${formatNumber(k, 2)} a day, to find ${roomTest.ratio} times as many; ${falseAlarmText(baseline)}`
  );
}

/** `in dam`, `in 3 tanks (dam 4, hill 1, sill 1)`. */
function whereText(deaths: RoomAlarm["deaths"]): string {
  const byTank = new Map<string, number>();
  for (const { tank, animals } of deaths) byTank.set(tank.name, (byTank.get(tank.name) ?? 0) + animals);
  const tanks = [...byTank].sort((a, b) => b[1] - a[1]);
  if (tanks.length === 1) return `in ${tanks[0]![0]}`;
  const shown = tanks.slice(0, 3).map(([name, died]) => `${name} ${formatNumber(died)}`);
  return `in ${tanks.length} tanks (${shown.join(", ")}${tanks.length > 3 ? ", ..." : ""})`;
}

/** `2026-04-01`, or `2026-04-01 to 2026-04-09, 3 alarms`. */
export function outbreakText({ first, alarms }: Outbreak): string {
  const last = alarms.at(-1)!;
  return alarms.length === 1
    ? isoOf(first.day)
    : `${isoOf(first.day)} to ${isoOf(last.day)}, ${alarms.length} alarms`;
}
