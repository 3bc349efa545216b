import { spokenDay } from "../book/dates.ts";
import { nameOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import { isAboutAsMany } from "../room/about.ts";
import type { Ledger } from "../room/ledger.ts";
import type { CountSeen, Moment, Observer } from "../room/observer.ts";
import type { Why } from "../room/why.ts";
import { whyAnimalsBefore } from "../room/why-stock.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { countFixes, writing } from "./stock-fixes.ts";

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
    code: "lot/more-than-there",
    severity: "warning",
    since: "0.2",
    title: "More of a lot leave than are there",
    says: "By the entries that name the lot there are fewer of it in the tank than leave it here. An entry that names no lot is about animals of the species, whichever they are, and moves none of a lot.",
    whatToDo:
      "Correct the number, the tank or the lot, or name the lot in the entry by which they came here.",
    raises: `${prelude}2026-03-01
  q1 arrive praecox 4 lot a17
  q1 arrive praecox 8
2026-03-08
  q1 lose praecox 6 found lot a17
#                 ^ lot/more-than-there`,
    fine: `${prelude}2026-03-01
  q1 arrive praecox 4 lot a17
  q1 arrive praecox 8
2026-03-08
  q1 lose praecox 4 found lot a17`,
  }),
] as const;

/** Listens to counts and to animals that leave. @param ledgerAsIs the ledger they are in, to tell later what the book rests on */
export function stockChecks(ledgerAsIs: () => Ledger | undefined) {
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
          `${countText(count)} ${count.species}${ofLot(count.lot)} counted in ${count.tank.name}, ${count.isExpectedAbout ? "about " : ""}${count.expected} expected: ` +
          (off < 0 ? `${-off} unaccounted${since}` : `${off} more than the book knows${since}`),
        fixes: (place) => countFixes(at, place, count, off),
        why: () => whyExpected(ledgerAsIs(), at, count.tank, count.species, count.lot),
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
            `the book knows of no ${species} in ${tank.name}${comesLater(ledgerAsIs(), at, tank, species)}: write a count first, or check tank and species`,
          why: () => whyExpected(ledgerAsIs(), at, tank, species),
        });
      } else if (animals > there && !(leave.isAbout && isAboutAsMany(animals, there))) {
        add({
          code: "stock/more-than-there",
          block: at.block,
          row: at.row,
          slots: ["animals"],
          severity: () => "warning",
          message: () =>
            `${animals} ${species} leave ${tank.name}; by the book ${thereText(there, leave.isAbout)} there`,
          fixes: (place) => writing(at, place, there),
          why: () => whyExpected(ledgerAsIs(), at, tank, species),
        });
      }
      const { lot, ofLot: inLot } = leave;
      if (animals > inLot && !(leave.isAbout && isAboutAsMany(animals, inLot))) {
        add({
          code: "lot/more-than-there",
          block: at.block,
          row: at.row,
          slots: ["animals"],
          severity: () => "warning",
          message: () =>
            `${animals} of lot ${lot} leave ${tank.name}; by the entries that name it ${thereText(inLot, leave.isAbout)} there`,
          fixes: (place) => writing(at, place, inLot),
          why: () => whyExpected(ledgerAsIs(), at, tank, species, lot),
        });
      }
    },
  });
}

/** Why the book had so many just before an entry. */
function whyExpected(
  ledger: Ledger | undefined,
  at: Moment,
  tank: Tank,
  species: string,
  lot = "",
): Why | undefined {
  return ledger === undefined
    ? undefined
    : whyAnimalsBefore(
        ledger,
        at,
        tank,
        species,
        lot,
        `${species}${ofLot(lot)} in ${tank.name} by the book before this`,
      );
}

const ofLot = (lot: string): string => (lot === "" ? "" : ` of lot ${lot}`);

/** `, the first came on 5 March`: where the log has them come only after they left. */
function comesLater(ledger: Ledger | undefined, at: Moment, tank: Tank, species: string): string {
  const holding = ledger?.stock.known(tank.id, nameOf(species));
  if (ledger === undefined || holding === undefined) return "";
  const { animals } = ledger;
  for (let later = animals.from(at.time); later < animals.length; later++)
    if (animals.tag[later] === holding.index && animals.second[later]! > 0)
      return `, the first came on ${spokenDay(animals.time[later]!, at.time)}`;
  return "";
}

/** `12`, `about 12`, `12..14`. */
function countText({ low, high, isAbout, of }: CountSeen): string {
  if (!Number.isNaN(of)) return String(of);
  return high > low ? `${low}..${high}` : `${isAbout ? "about " : ""}${low}`;
}

/** `none is`, `1 is`, `about 3 are`. */
function thereText(there: number, isAbout: boolean): string {
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
