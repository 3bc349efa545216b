import { spokenDay } from "../../book/dates.ts";
import { one } from "../../book/defined.ts";
import type { Tank } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import { type Field, field } from "./field.ts";
import type { SheetScope } from "./scope.ts";

/** A tank as a laboratory asks of it: what it is, how large, and what shares its water. */
export interface SheetTank {
  readonly name: string;
  readonly hasSigns: boolean;
  /** Sick animals were moved there. */
  readonly isMovedTo: boolean;
  readonly fields: readonly Field[];
}

export const sheetTanks = (scope: SheetScope): SheetTank[] =>
  scope.tanks.map((tank) => ({
    name: tank.name,
    hasSigns: scope.sickTanks.includes(tank),
    isMovedTo: !scope.sickTanks.includes(tank) && scope.story.homes.some((home) => home.tank === tank),
    fields: fieldsOf(scope, tank),
  }));

function fieldsOf({ logbook, book, day }: SheetScope, tank: Tank): Field[] {
  const { name, title, role, where, volumeL, volumeBy, from, definition } = tank;
  const { body } = logbook.ledgerOf(tank);
  const system = body?.system;
  const others = (body?.tanks ?? []).filter((each) => each !== tank).map((each) => each.name);
  const gears = book.gears.filter(
    ({ on, from: since }) => (on === name || on === system?.name) && !(since > day),
  );
  const note = one(definition, "note")?.note?.text ?? "";
  const of = (word: string): string => `“${word}” of tank ${name}`;
  return [
    field("Tank", [name, title].filter(Boolean).join(", "), ""),
    field("Use", role ?? "", of("role")),
    field("Where it stands", where, of("place")),
    field(
      "Net volume, and how it was found",
      Number.isFinite(volumeL) ? `${formatNumber(volumeL)} L ${volumeBy}` : "",
      `${of("volume")}, or “inside” and “filled”`,
    ),
    field(
      "System",
      system === undefined
        ? "water of its own"
        : `${[system.name, system.title].filter(Boolean).join(", ")}: ${
            body !== undefined && Number.isFinite(body.volumeL)
              ? `${formatNumber(body.volumeL)} L in all, `
              : ""
          }shared with ${others.length === 0 ? "no other tank" : others.join(", ")}`,
      "",
    ),
    field(
      "Gear on it",
      gears.map((gear) => [gear.name, gear.title || gear.sort].filter(Boolean).join(", ")).join("; "),
      `a gear with “on ${name}”`,
    ),
    field("In service since", Number.isNaN(from) ? "" : spokenDay(from), of("from")),
    ...(note === "" ? [] : [field("Note", note, "")]),
  ];
}
