import type { ColumnAt, Mapping, Role } from "./mapping.ts";

/** Which columns a mapping looks into. */

/** Those that say when. */
export function timeColumns({ date, year, clock }: Mapping["time"]): ColumnAt[] {
  return [
    ...(date === "line" ? [] : "month" in date ? [date.month, date.day] : [date]),
    ...(typeof year === "object" ? [year] : []),
    ...(clock === undefined
      ? []
      : "hour" in clock
        ? [clock.hour, clock.minute].flatMap((each) => each ?? [])
        : [clock]),
  ];
}

/** All of them. */
export function columnsOf({ table, time, tank, only, long, columns }: Mapping): ColumnAt[] {
  return [
    ...timeColumns(time),
    ...(table.fill ?? []),
    ...("column" in tank ? [tank.column] : []),
    ...(only ?? []),
    ...(long === undefined
      ? []
      : [long.parameter, long.value, long.sign, long.flags, long.unit].flatMap((each) => each ?? [])),
    ...columns.flatMap((role) =>
      role.as === "ignored" ? [] : [role, ...besides(role).flatMap((each) => each ?? [])],
    ),
  ];
}

/** The columns that a role looks into besides its own. */
function besides(role: Role): (ColumnAt | undefined)[] {
  if (role.as === "test") return [role.sign, role.flags];
  if (role.as === "feed") return [role.foods];
  return role.as === "count" || role.as === "lose" ? [role.of] : [];
}

/** What it reads as readings. */
export function measuresOf({ long, columns }: Mapping): { parameter: string; unit: string }[] {
  return [
    ...columns.flatMap((role) => (role.as === "test" ? [role] : [])),
    ...Object.values(long?.means ?? {}).flatMap((each) => (each === "ignore" ? [] : [each])),
  ];
}
