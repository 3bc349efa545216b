import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import { nameOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { isAboutAsMany } from "../room/about.ts";
import type { Ledger } from "../room/ledger.ts";
import type { CountSeen, LeaveSeen, Moment, Observer } from "../room/observer.ts";
import { placeOfRow, type Why, whyEntry } from "../room/why.ts";
import { whyAnimals } from "../room/why-stock.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { days } from "./words.ts";

/** Counts and moves against the book of animals. */

const prelude = `species praecox
tank dam
  volume 300 L
tank q1
  volume 50 L
  role quarantine
`;

export const stockPages = [
  page({
    code: "stock/count-differs",
    severity: "warning",
    since: "0.1",
    title: "The count differs from the book",
    says: "What was counted is not what arrivals, births, losses, moves and sales since the last count leave. From here the book goes on with the count.",
    whatToDo:
      "Count again; look behind the filter and in the neighbouring tanks; write the loss, birth or move that is missing.",
    raises: `${prelude}2026-03-01
  dam arrive praecox 14
2026-03-08
  dam count praecox 12
#                   ^^ stock/count-differs`,
    fine: `${prelude}2026-03-01
  dam arrive praecox 14
2026-03-05
  dam lose praecox 2 found
2026-03-08
  dam count praecox 12`,
  }),
  page({
    code: "stock/more-than-there",
    severity: "warning",
    since: "0.1",
    title: "More leave than are there",
    says: "By the book there are fewer animals in the tank than leave it here.",
    whatToDo: "Correct the number or the tank, or write the arrival or birth that is missing.",
    raises: `${prelude}2026-03-01
  dam arrive praecox 4
2026-03-08
  dam move praecox 6 -> q1
#                  ^ stock/more-than-there`,
    fine: `${prelude}2026-03-01
  dam arrive praecox 6
2026-03-08
  dam move praecox 6 -> q1`,
  }),
  page({
    code: "stock/none-there",
    severity: "warning",
    since: "0.1",
    title: "The book knows of none there",
    says: "Animals leave a tank into which, by the book, none of their kind ever came.",
    whatToDo: "Write a count of what is there, or correct the tank or the species.",
    raises: `${prelude}2026-03-08
  dam lose praecox 1 found
#          ^^^^^^^ stock/none-there`,
    fine: `${prelude}2026-03-01
  dam count praecox 8
2026-03-08
  dam lose praecox 1 found`,
  }),
  page({
    code: "quarantine/early",
    severity: "warning",
    since: "0.1",
    title: "Out of quarantine early",
    says: "Animals leave a quarantine tank before the time stated in the room has passed since the last animal came into it. The clock counts from the last arrival, for all of them.",
    whatToDo:
      "Keep them apart, or say in a note why not; watch the tank they went to, and what has shared water with it since.",
    raises: `room "Cellar"
  quarantine 28 d
${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-15
  q1 move praecox 8 -> dam
# ^^^^^^^^^^^^^^^^^^^^^^^^ quarantine/early`,
    fine: `room "Cellar"
  quarantine 28 d
${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-29
  q1 move praecox 8 -> dam`,
    source:
      "The clock counts from the last animal into the water: Australian Department of Agriculture, Fisheries and Forestry 2025, industry notice 41-2025. How many days is the keeper's to state.",
  }),
] as const;

/** Listens to counts and to animals that leave. @param ledgerAsIs the ledger they are in, to tell later what the book rests on */
export function stockChecks(book: Book, ledgerAsIs: () => Ledger | undefined) {
  return (add: (finding: RowFinding) => void): Observer => ({
    count(at, count) {
      if (Number.isNaN(count.expected)) return;
      if (agrees(count)) return;
      // Of a range its nearer end.
      const counted = Number.isNaN(count.of)
        ? count.expected > count.high
          ? count.high
          : count.low
        : count.of;
      const off = counted - count.expected;
      const since = Number.isNaN(count.lastTime) ? "" : ` since ${spokenDay(count.lastTime, at.time)}`;
      add({
        code: "stock/count-differs",
        block: at.block,
        row: at.row,
        slots: Number.isNaN(count.of) ? ["animals"] : ["expected"],
        severity: () => "warning",
        message: () =>
          `${countText(count)} ${count.species} counted in ${count.tank.name}, ${count.isExpectedAbout ? "about " : ""}${count.expected} expected: ` +
          (off < 0 ? `${-off} unaccounted${since}` : `${off} more than the book knows${since}`),
        why: () => whyExpected(ledgerAsIs(), at, count.tank, count.species),
      });
    },
    leave(at, leave) {
      const { tank, species, animals, there } = leave;
      if (Number.isNaN(there)) {
        add({
          code: "stock/none-there",
          block: at.block,
          row: at.row,
          slots: ["species"],
          severity: () => "warning",
          message: () =>
            `the book knows of no ${species} in ${tank.name}: write a count first, or check tank and species`,
          why: () => whyExpected(ledgerAsIs(), at, tank, species),
        });
      } else if (animals > there && !(leave.isAbout && isAboutAsMany(animals, there))) {
        add({
          code: "stock/more-than-there",
          block: at.block,
          row: at.row,
          slots: ["animals"],
          severity: () => "warning",
          message: () => `${animals} ${species} leave ${tank.name}; by the book ${thereText(leave)} there`,
          why: () => whyExpected(ledgerAsIs(), at, tank, species),
        });
      }
      if (
        leave.how !== "lose" &&
        tank.role === "quarantine" &&
        leave.arrival !== undefined &&
        leave.to?.role !== "quarantine" &&
        leave.to?.role !== "hospital"
      ) {
        const { arrival } = leave;
        const passed = Math.floor(at.time) - Math.floor(arrival.time);
        if (passed >= book.quarantineDays || Number.isNaN(book.quarantineDays)) return;
        add({
          code: "quarantine/early",
          block: at.block,
          row: at.row,
          slots: [],
          severity: () => "warning",
          message: () =>
            `${species} leave quarantine in ${tank.name} after ${formatNumber(passed)} of ${days(book.quarantineDays)}: the last animals came on ${spokenDay(arrival.time, at.time)}`,
          related: () => {
            const place = placeOfRow(arrival.block, arrival.row);
            return place === undefined ? [] : [{ place, message: "the last arrival" }];
          },
          why: () => ({
            what: "days since the last animal came in",
            value: String(passed),
            from: [whyEntry(arrival), whyEntry(at)],
          }),
        });
      }
    },
  });
}

/** Why the book had so many just before an entry. */
function whyExpected(ledger: Ledger | undefined, at: Moment, tank: Tank, species: string): Why | undefined {
  const holding = ledger?.stock.known(tank.id, nameOf(species));
  if (ledger === undefined || holding === undefined) return undefined;
  const end = ledger.animals.find(at.time, at.block, at.row, holding.index);
  return end < 0
    ? undefined
    : whyAnimals(ledger, tank, species, `${species} in ${tank.name} by the book before this`, end);
}

/** `12`, `about 12`, `12..14`. */
function countText({ low, high, isAbout, of }: CountSeen): string {
  if (!Number.isNaN(of)) return String(of);
  return high > low ? `${low}..${high}` : `${isAbout ? "about " : ""}${low}`;
}

/** `none is`, `1 is`, `about 3 are`. */
function thereText({ there, isAbout }: LeaveSeen): string {
  if (there === 0) return "none is";
  return `${isAbout ? "about " : ""}${there} ${there === 1 ? "is" : "are"}`;
}

function agrees(count: CountSeen): boolean {
  const { low, high, expected } = count;
  if (!Number.isNaN(count.of)) return within(count.of, expected, count.isExpectedAbout);
  if (high > low) return expected >= low && expected <= high;
  return within(low, expected, count.isAbout || count.isExpectedAbout);
}

function within(counted: number, expected: number, isAbout: boolean): boolean {
  return isAbout ? isAboutAsMany(counted, expected) : counted === expected;
}
