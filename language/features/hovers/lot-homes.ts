import { formatNumber } from "../../quantity/format.ts";
import { lotLife } from "../../room/lot-life.ts";
import { lotStory, lotsAt, supplierOfLot } from "../../room/lots.ts";
import { isOutside } from "../../science/result.ts";
import { paragraphs, plain } from "../markdown.ts";
import { survivalText } from "../stock-report.ts";
import { linked, type Scope } from "./parts.ts";
import { maybeAt } from "./places.ts";

/** Where the animals of a lot are by the entries that name it, who they came from, and how many of them live. */
export function lotHomesText(scope: Scope, lot: string): string {
  const { logbook } = scope.view.checked;
  const homes = lotsAt(logbook, scope.today, lot).map(
    ({ tank, species, animals }) =>
      `${plain(`${formatNumber(animals, 6)} ${species} in`)} ${linked(scope, tank.name, maybeAt(tank.place))}`,
  );
  const story = lotStory(logbook, lot);
  const supplier = story === undefined ? "" : supplierOfLot(story);
  const life = lotLife(logbook, lot, scope.today);
  const alive = isOutside(life) ? "" : survivalText({ life: { ...life, medianDays: null }, unknown: "" });
  return paragraphs(
    homes.length === 0 ? "None by the entries that name it." : homes.join(", "),
    plain(supplier === "" ? "" : `from ${supplier}`),
    plain(alive === "" ? "" : `Alive since they came (Kaplan & Meier): ${alive}`),
  );
}
