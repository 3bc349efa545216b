import type { Tank } from "../../book/stations.ts";
import { stationLocation } from "../card-parts.ts";
import { unseenOn } from "../unseen.ts";
import type { View } from "../view.ts";
import type { BoardLine } from "./board-card.ts";
import { countWay, noticeTask } from "./ways.ts";

/** Animals that nobody has seen for long, with the count to write. @param isCounted tanks of which a count is due anyway */
export function unseenLines(
  { checked }: View,
  tanks: readonly Tank[],
  isCounted: (tank: Tank) => boolean,
  day: number,
): BoardLine[] {
  const asked = tanks.filter((tank) => !isCounted(tank));
  return unseenOn(checked, asked, day).map(({ tank, holdings, text }): BoardLine => {
    const place = stationLocation(tank);
    return {
      key: `unseen ${tank.name}`,
      name: tank.name,
      text,
      tone: "plain",
      task: noticeTask({
        key: `${tank.name} unseen`,
        target: tank.name,
        kind: "count",
        way: countWay(holdings),
        place,
      }),
      place,
      card: { tank: tank.name },
    };
  });
}
