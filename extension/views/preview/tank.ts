import { spokenDay } from "../../../language/book/dates.ts";
import type { Charts } from "../shared/chart/charts.ts";
import { h } from "../shared/dom.ts";
import { broodsPart } from "./broods.ts";
import { dutiesPart } from "./duties.ts";
import { type Face, leadsTo, leadsToTank } from "./face.ts";
import { feedingPart } from "./feeding.ts";
import { findingsPart } from "./findings.ts";
import { freePart } from "./free.ts";
import { lightsPart } from "./lights.ts";
import { openCasesPart } from "./open-cases.ts";
import { populationsPart } from "./populations.ts";
import { quarantinePart } from "./quarantine.ts";
import { remediesPart } from "./remedies.ts";
import { residentsPart } from "./residents.ts";
import { roundsPart } from "./rounds.ts";
import type { TankCard } from "./shown.ts";
import { waterPart } from "./water.ts";

/** A view of a card: its name for the panel, what stands under it, its parts, and the charts to be let go of with it. */
export interface CardView {
  readonly name: string;
  readonly title: string;
  readonly about: readonly (HTMLElement | string)[];
  /** Its parts in the order they are read; where there is room for two columns the charts stand beside the rest. */
  readonly first: readonly HTMLElement[];
  readonly wide: readonly HTMLElement[];
  readonly last: readonly HTMLElement[];
  readonly charts: readonly Charts[];
}

export function tankView(face: Face, card: TankCard): CardView {
  const { name, title, day, role, place, volumeText, system, note, at } = card;
  const water = waterPart(face, card);
  const rounds = roundsPart(face, card);
  const remedies = remediesPart(face, card);
  const feeding = feedingPart(face, card.feeding);
  const lights = lightsPart(face, card);
  const populations = populationsPart(face, card);
  const findings = findingsPart(face, card.findings, day);
  const about = [
    leadsTo(
      face,
      at,
      "definition",
      "definition",
      [role === "" ? "tank" : role, place].filter(Boolean).join(", "),
    ),
    volumeText,
    ...(system === null ? [] : [systemPart(face, card, system)]),
    `as of ${spokenDay(day)}`,
    ...(note === "" ? [] : [`“${note}”`]),
  ];
  return {
    name,
    title,
    about,
    first: [
      ...openCasesPart(face, card),
      ...(findings === undefined ? [] : [findings]),
      ...quarantinePart(face, card.quarantine, day),
      dutiesPart(face, card.duties, name, day),
    ],
    wide: [
      ...(rounds === undefined ? [] : [rounds]),
      water.element,
      ...(remedies === undefined ? [] : [remedies.element]),
      ...(feeding === undefined ? [] : [feeding]),
      ...(lights === undefined ? [] : [lights.element]),
      ...(populations === undefined ? [] : [populations.element]),
    ],
    last: [
      residentsPart(face, card.residents, name, day),
      ...freePart(face, card.free, name),
      ...broodsPart(face, card.broods, name, day),
    ],
    charts: [water.charts, remedies?.charts, lights?.charts, populations?.charts].filter(
      (charts) => charts !== undefined,
    ),
  };
}

/** What shares the water: of a system its tanks, each leading to its card; of a tank its system. */
function systemPart(face: Face, { name }: TankCard, system: NonNullable<TankCard["system"]>): HTMLElement {
  const { tanks, volumeL } = system;
  const litres = volumeL === null ? "" : `, ${Math.round(volumeL)} L`;
  if (system.name !== name) {
    const words = `one water with ${tanks.length - 1} more on ${system.name}${litres}`;
    return leadsToTank(face, system.name, "system", words);
  }
  const links = tanks.flatMap((tank) => [" ", leadsToTank(face, tank, `system-${tank}`, tank)]);
  return h("span", {}, `${tanks.length} ${tanks.length === 1 ? "tank" : "tanks"}:`, ...links);
}
