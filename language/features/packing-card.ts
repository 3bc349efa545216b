import { clockOf, spokenDay } from "../book/dates.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Fed } from "../room/feeds.ts";
import { type BagAsked, type PackedWater, type PackingPlan, packingPlan } from "../room/packing.ts";
import { journeyOf, waterToPack, weightOf } from "../room/packing-given.ts";
import { bagsOf, type Parcel, type Part, parcelOf } from "../room/parcel.ts";
import { publishedLoads } from "../room/published-loads.ts";
import type { Why } from "../room/why.ts";
import { type Figure, isOutside } from "../science/result.ts";
import { known, whyCard } from "./card-parts.ts";
import { reasonCard } from "./orders-card.ts";
import type { ArrivalCard, LabelCard, PackingCard, PackingPartCard } from "./packing-cards.ts";

/** What the keeper states of bags: NaN where nothing is stated and it follows from the order, or is taken. */
export interface BagStated extends Omit<BagAsked, "hours" | "temperatureC"> {
  readonly hours: number;
  readonly temperatureC: number;
  /** Animals to a bag at most; NaN to go by the bounds. */
  readonly atMost: number;
  /** What was not stated and is taken, in words. */
  readonly taken: readonly string[];
}

const packingCaution =
  "Reckoned from rates of resting fish of other species, which differ by a factor of two and more: no licence for a load. In the closed bag the low pH binds the ammonia; once it is open the carbon dioxide goes, the pH rises and the same ammonia turns free: bags are not aired before the animals are out of their water. Pack only healthy animals, count on a delay, and look up the rules of the carrier and the law of the place: the live animals rules of IATA by air, CITES for species it lists, and the health papers of the country.";

/** The packing of an order on a day; undefined without the order. @param worldDay today outside */
export function packingCard(
  checked: CheckedLogbook,
  name: string,
  stated: BagStated,
  worldDay: number,
): PackingCard | undefined {
  const { logbook, book } = checked;
  const day = logbook.today(worldDay);
  const parcel = parcelOf(logbook, name, day);
  if (parcel === undefined) return undefined;
  const { order } = parcel;
  const waters = parcel.parts.map(({ tank }) => waterToPack(logbook.ledgerOf(tank), day + 1));
  const warmest = Math.max(
    ...waters.flatMap((water) =>
      water === undefined || Number.isNaN(water.temperatureC) ? [] : [water.temperatureC],
    ),
  );
  const journey = journeyOf(order, stated, Number.isFinite(warmest) ? warmest : Number.NaN);
  const asked: BagAsked = { ...stated, hours: journey.hours, temperatureC: journey.temperatureC };
  const planned = parcel.parts.map((part, at) => {
    const weight = weightOf(logbook, part.species, part.tank, day);
    const species = { name: part.species, known: book.species.get(part.species) };
    return {
      part,
      water: waters[at],
      plan: packingPlan(species, weight, waters[at], asked, book.altitudeM, stated.atMost, part.animals),
    };
  });
  return {
    is: "packing",
    day,
    order: order.name,
    buyer: order.buyer === "" ? order.title : order.buyer,
    due: known(order.due),
    carrier: order.carrier,
    route: order.route,
    bag: {
      waterL: asked.waterL,
      gasL: asked.gasL,
      gas: asked.gas,
      hours: asked.hours,
      temperatureC: asked.temperatureC,
      activity: asked.activity,
      leastOxygenMgL: asked.leastOxygenMgL,
      mostTotalMgLN: known(asked.mostTotalMgLN),
      mostFreeMgLN: known(asked.mostFreeMgLN),
      mostCo2MgL: known(asked.mostCo2MgL),
      mostLoadGPerL: known(asked.mostLoadGPerL),
      taken: [...journey.assumed, ...stated.taken],
    },
    parts: planned.map(({ part, plan }) => partCard(checked, part, plan, asked, day)),
    held: parcel.held.map(({ species, tank, animals, reasons }) => ({
      species,
      tank: tank.name,
      animals,
      reasons: reasons.map((reason) => reasonCard(book, reason, day)),
    })),
    lacking: parcel.lacking,
    labels: labelsOf(checked, parcel, planned, day),
    published: publishedLoads,
    caution: packingCaution,
  };
}

function partCard(
  { book }: CheckedLogbook,
  part: Part,
  plan: PackingPlan,
  asked: BagAsked,
  day: number,
): PackingPartCard {
  const { species, tank, lot, animals, reasons, fed, isShipped } = part;
  const { weight, most, boundBy } = plan;
  return {
    species,
    title: book.species.get(species)?.title ?? "",
    tank: tank.name,
    lot,
    animals,
    weightG: known(weight?.grams ?? Number.NaN),
    weightText: weight?.why.value ?? "not known",
    most: figureOf(most),
    mostText: isOutside(most) ? most.outside : `${most} to a bag at most, by ${boundBy}`,
    bags: bagsOf(animals, plan.count),
    arrival: arrivalOf(plan),
    reasons: reasons.map((reason) => reasonCard(book, reason, day)),
    fedText: fedText(fed, day),
    isShipped,
    why: whyCard(whyPacking(plan, asked)),
  };
}

const figureOf = (figure: Figure): number | null => (isOutside(figure) ? null : known(figure));

function arrivalOf({ state, loadGPerL, hours, opened, unheld }: PackingPlan): ArrivalCard | null {
  if (isOutside(state)) return null;
  return {
    loadGPerL: figureOf(loadGPerL),
    oxygenMgL: state.oxygenMgL,
    hours: figureOf(hours),
    totalMgLN: state.totalMgLN,
    freeMgLN: unheld.length > 0 ? null : figureOf(state.freeMgLN),
    co2MgL: unheld.length > 0 ? null : figureOf(state.co2MgL),
    pH: unheld.length > 0 ? null : figureOf(state.pH),
    airedFreeMgLN: isOutside(opened) ? null : figureOf(opened.aeratedMgLN),
    airedPH: isOutside(opened) ? null : figureOf(opened.aeratedPH),
    unheld,
  };
}

/** What a bag is reckoned from. */
function whyPacking({ species, most, boundBy, weight, water }: PackingPlan, asked: BagAsked): Why {
  const said = (figure: number): string => formatNumber(figure, 3);
  return {
    what: `${species} to a bag at most`,
    value: isOutside(most) ? most.outside : `${most}, bound by ${boundBy}`,
    formula:
      "the most of which after so many hours at so many degrees the oxygen is above its least, ammonia and CO2 below their most: oxygen used = count × exp(15.7 - 5020 / T) × (weight / 50 g)^0.79 × 32 mg/h × activity; 0.85 mol of CO2 and 0.08 mol of N for each of O2; Henry's law over water and gas",
    source:
      "Clarke & Johnston 1999, J. Anim. Ecol. 68:893-905 (abstract); nitrogen and CO2: J. Exp. Biol. 1998, 201:3123 (abstract); least oxygen of 5 mg/L: Bowser & Buttner 1993, NRAC Bulletin 111; bounds and activity are the keeper's to state",
    from: [
      {
        what: "bag",
        value: `${said(asked.waterL)} L of water, ${said(asked.gasL)} L of ${asked.gas}, ${said(asked.hours)} h at ${said(asked.temperatureC)} C, ${said(asked.activity)} times the resting rate`,
        from: [],
      },
      ...(weight === undefined ? [] : [weight.why]),
      ...(water?.from ?? []),
    ],
  };
}

function labelsOf(
  { book }: CheckedLogbook,
  { order }: Parcel,
  planned: readonly { part: Part; water: PackedWater | undefined; plan: PackingPlan }[],
  day: number,
): LabelCard[] {
  const bags = planned.flatMap(({ part, water, plan }) =>
    bagsOf(part.animals, plan.count).map((animals) => ({ part, water, animals })),
  );
  return bags.map(({ part, water, animals }, at) => ({
    species: part.species,
    title: book.species.get(part.species)?.title ?? "",
    animals,
    lot: part.lot,
    bag: at + 1,
    of: bags.length,
    order: order.name,
    buyer: order.buyer === "" ? order.title : order.buyer,
    packed: day,
    fedText: fedText(part.fed, day),
    waterText: waterText(part, water),
  }));
}

const fedText = (fed: Fed | undefined, day: number): string =>
  fed === undefined ? "not within 30 days" : `${spokenDay(fed.time, day)} ${clockOf(fed.time)}`;

/** `of r12: pH 7.4, alkalinity 1.43 meq/L, 24 C`. */
function waterText({ tank }: Part, water: PackedWater | undefined): string {
  if (water === undefined) return `of ${tank.name}`;
  const warm = Number.isNaN(water.temperatureC) ? "" : `, ${formatNumber(water.temperatureC, 3)} C`;
  return `of ${tank.name}: pH ${formatNumber(water.pH, 2)}, alkalinity ${formatNumber(water.alkalinityMeqL, 2)} meq/L${warm}`;
}
