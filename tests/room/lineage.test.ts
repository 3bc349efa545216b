import { describe, expect, it } from "vitest";
import { broodsUntil } from "../../language/room/broods.ts";
import { type Inbred, inbredOf, lineageUntil } from "../../language/room/lineage.ts";
import { Room } from "../support/room.ts";

const tank = "tank b1\n  volume 40 L\nspecies praecox\n";

/** The inbreeding of a brood by its lot. */
function inbred(log: string, lot: string): Inbred | undefined {
  const room = new Room(tank + log);
  const lineage = lineageUntil(room.checked.logbook, room.today);
  const brood = broodsUntil(room.checked.logbook, room.today).find((each) => each.lot === lot);
  return inbredOf(lineage, brood?.parents ?? { father: undefined, mother: undefined });
}

const single = (name: string, sex: string, father = "", mother = ""): string =>
  `lot ${name}\n  species praecox; sex ${sex}${father === "" ? "" : `; father ${father}`}${mother === "" ? "" : `; mother ${mother}`}\n`;

describe("inbreeding of a brood", () => {
  it("is a quarter of brother and sister, with the paths by which", () => {
    const log = `${single("blue-1", "male", "blue-0", "gold-0")}${single("blue-2", "female", "blue-0", "gold-0")}
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father blue-1 mother blue-2`;
    expect(inbred(log, "p7")).toMatchObject({ low: 0.25, high: 0.25, groups: [] });
    expect(
      inbred(log, "p7")
        ?.paths?.map(({ through, adds }) => [through.join(" "), adds])
        .sort(),
    ).toEqual([
      ["blue-1 blue-0 blue-2", 0.125],
      ["blue-1 gold-0 blue-2", 0.125],
    ]);
    expect([...(inbred(log, "p7")?.founders ?? [])].sort()).toEqual(["blue-0", "gold-0"]);
  });

  it("is a quarter of two animals of one brood, whoever they are", () => {
    const log = `2026-03-01
  b1 spawn praecox 60 eggs lot p7 father blue-1 mother gold-1
2026-09-01
  b1 spawn praecox 60 eggs lot p8 father p7 mother p7`;
    expect(inbred(log, "p8")).toMatchObject({ low: 0.25, high: 0.25, groups: ["p7"], paths: undefined });
  });

  it("has bounds where a parent is one of a batch", () => {
    const log = `2026-01-01
  b1 arrive praecox 6 lot a17
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father a17 mother gold-1
  b1 spawn praecox 60 eggs lot p8 father a17 mother gold-2
2026-09-01
  b1 spawn praecox 60 eggs lot p9 father p7 mother p8`;
    expect(inbred(log, "p9")).toMatchObject({ low: 0, high: 0.125 });
  });

  it("is not told where a parent is not known, or where the pedigree goes round", () => {
    expect(inbred("2026-03-01\n  b1 spawn praecox 60 eggs lot p7 father blue-1", "p7")).toBeUndefined();
    const round = `${single("blue-1", "male", "blue-2", "gold-0")}${single("blue-2", "male", "blue-1", "gold-0")}
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father blue-1 mother gold-0`;
    expect(inbred(round, "p7")).toBeUndefined();
    const room = new Room(tank + round);
    expect(lineageUntil(room.checked.logbook, room.today).rings.map((ring) => [...ring].sort())).toEqual([
      ["blue-1", "blue-2"],
    ]);
  });
});
