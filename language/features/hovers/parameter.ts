import { spokenDay } from "../../book/dates.ts";
import type { Parameter } from "../../book/parameters.ts";
import type { Station, Tank } from "../../book/stations.ts";
import { readingSpan } from "../../checks/words.ts";
import { paragraphs, plain } from "../markdown.ts";
import { waterCard } from "../water-card.ts";
import { whyWater } from "../why.ts";
import { whyMarkdown } from "../why-text.ts";
import { headline, linked, type Scope, section } from "./parts.ts";
import { waterPicture } from "./picture.ts";
import { maybeAt } from "./places.ts";

/** A parameter: in one tank its readings and where it heads; of the room the last reading of each tank. */
export function parameterHover(scope: Scope, parameter: Parameter, station: Station | undefined): string {
  const { checked } = scope.view;
  const unit = parameter.dimension === "pH" ? "" : checked.book.units.shown(parameter).symbol;
  const [low, high] = parameter.possible;
  const bounds =
    `a reading can be ${low}..${high} ${parameter.dimension === "pH" ? "" : parameter.unit.symbol}`.trimEnd();
  const title = parameter.title.toLowerCase() === parameter.name.toLowerCase() ? "" : parameter.title;
  const head = headline(parameter.name, title, unit);
  if (station === undefined || station.body < 0)
    return paragraphs(head, plain(bounds), section("Last readings", lastReadings(scope, parameter), 16));
  const ledger = checked.logbook.ledgerOf(station);
  const tank = station.kind === "tank" ? (station as Tank) : ledger.body?.tanks[0];
  const card = waterCard(ledger, tank, parameter, scope.today);
  const { level, production, crossing, regular, holdingText, changeBackText, limit } = card;
  const lines = [
    limit === null ? "" : `limit ${limit.text}, stated in ${limit.by}`,
    level === null ? "" : `today ${level.text}, by all readings and the changes since`,
    production === null ? card.productionUnknown : `${production.text} a day`,
    crossing === null ? "" : `meets its limit ${crossing.text}`,
    regular === null
      ? ""
      : `changed as stated, ${regular.text}: ${regular.steadyText === "" ? "no steady state" : `${regular.steadyText} in the long run`}`,
    crossing === null || holdingText === "" ? "" : `to hold the limit: ${holdingText}`,
    changeBackText === "" ? "" : `to be back within it: ${changeBackText}`,
  ].filter((line) => line !== "");
  const late = card.readings.slice(-4).reverse();
  const why = whyWater(ledger, station, parameter, scope.today);
  return paragraphs(
    `${head} · ${plain(`in ${ledger.body?.name ?? station.name}`)}`,
    section("Where it stands", lines.map(plain)),
    waterPicture(ledger.body?.name ?? station.name, card),
    section(
      "Last readings",
      late.map(({ text, time, at }) => `${linked(scope, spokenDay(time, scope.today), at)} ${plain(text)}`),
    ),
    why === undefined || level === null ? "" : whyMarkdown(why, scope.address),
  );
}

function lastReadings(scope: Scope, parameter: Parameter): string[] {
  const { book, logbook } = scope.view.checked;
  return book.bodies.flatMap((body) => {
    const ledger = logbook.ledgers[body.id]!;
    const series = ledger.readings[parameter.id];
    const last = (series?.from(scope.today + 1) ?? 0) - 1;
    if (series === undefined || last < 0) return [];
    const text = readingSpan(book, parameter, series.first[last]!, series.second[last]!);
    const place = body.system?.place ?? body.tanks[0]?.place;
    return [
      `${linked(scope, body.name, maybeAt(place))} ${plain(`${text}, ${spokenDay(series.time[last]!, scope.today)}`)}`,
    ];
  });
}
