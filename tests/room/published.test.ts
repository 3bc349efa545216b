import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { Inputs } from "../published/inputs.ts";
import { type Row, readRows } from "../published/published.ts";
import { Room } from "../support/room.ts";

/** Published worked examples, as a keeper would log them. */

const folder = fileURLToPath(new URL("../published/reference/", import.meta.url));
const rows = ["07-volume-units.csv", "08-dilution-exchange.csv", "09-dosing.csv"].flatMap((name) =>
  readRows(folder + name),
);

/** The figure of a row from a log that is made of its inputs. */
const asLogged: Readonly<Record<string, (given: Inputs, row: Row) => number>> = {
  tank_volume_rect: () => netVolume("inside 60 x 30 x 36 cm"),
  tank_volume_rect_usgal: () => netVolume("inside 48 x 18 x 21 in") / 3.785411784,
  flow_through_fraction_replaced: (given) => {
    const throughL = given.in("Q", "L/h") * given.in("t", "d") * 24;
    return new Room(
      `tank dam\n  volume ${given.in("V", "L")} L\n2026-03-01\n  dam change ${throughL} L flow`,
    ).changes("dam")[0]!;
  },
  batch_change_series_conc: (given) => {
    const entering = given.number("Cin_mg_L");
    // What is dosed is diluted as what is produced: with pure water, and above what the source itself holds.
    const dose = given.number("C0_mg_L") - entering;
    const change = `  dam change ${given.number("fraction") * 100} %\n`;
    const log = `remedy salt\ntank dam\n  volume 80 L\n2026-03-01\n  dam dose salt ${dose} mg/L\n${change.repeat(given.number("n"))}`;
    return entering + new Room(log).remedy("dam", "salt");
  },
  redose_after_change_mg: (given) => {
    const [dose, litres] = [given.number("dose_mg_L"), given.number("V_L")];
    const log = `remedy salt\ntank dam\n  volume ${litres} L\n2026-03-01\n  dam dose salt ${dose} mg/L\n  dam change ${given.number("fraction_changed") * 100} %`;
    return (dose - new Room(log).remedy("dam", "salt")) * litres;
  },
};

const netVolume = (says: string): number => new Room(`tank dam\n  ${says}`).tank("dam").volumeL;

describe("published figures, logged", () => {
  const taken = rows.filter(({ quantity }) => asLogged[quantity] !== undefined);

  it("are there", () => {
    expect(new Set(taken.map(({ quantity }) => quantity))).toEqual(new Set(Object.keys(asLogged)));
    expect(taken.length).toBeGreaterThanOrEqual(9);
  });

  it.each(taken.map((row) => [row.id, row] as const))("%s", (_, row) => {
    const got = asLogged[row.quantity]!(new Inputs(row.inputs, row.unit), row);
    expect(Math.abs(got - Number(row.expected))).toBeLessThanOrEqual(Number(row.tolerance) || 1e-9);
  });
});

/** The dose that a published formula asks for makes the concentration it is for. */
describe("published doses, logged", () => {
  const doses = rows.filter(
    ({ quantity }) => quantity === "product_mass_for_ppm" || quantity === "stock_volume_for_dose",
  );

  it.each(doses.map((row) => [row.id, row] as const))("%s", (_, { inputs, expected, quantity }) => {
    const has = (key: string): number | undefined => {
      const found = new RegExp(`${key}=([\\d.]+)`).exec(inputs);
      return found === null ? undefined : Number(found[1]);
    };
    const volume = has("V_L") === undefined ? `${has("V_usgal")} US gal` : `${has("V_L")} L`;
    const isStock = quantity === "stock_volume_for_dose";
    const stockGL = has("stock_g_L") ?? (has("stock_percent_w_v") ?? 0) * 10;
    const strength = isStock ? `${stockGL} mg/mL` : `${has("percent_active")} %`;
    const log = `remedy r\n  strength ${strength}\ntank dam\n  volume ${volume}\n2026-03-01\n  dam dose r ${expected} ${isStock ? "mL" : "g"}`;
    expect(new Room(log).remedy("dam", "r")).toBeCloseTo(has("dose_mg_L")!, 4);
  });

  it("of a liquid by volume in volume", () => {
    // 25 mL of formalin in 100 L are 250 uL/L, by definition.
    const log = `remedy formalin\n  target 200..250 uL/L\ntank dam\n  volume 100 L\n2026-03-01\n  dam dose formalin 25 mL`;
    expect(new Room(log).remedy("dam", "formalin")).toBeCloseTo(250, 9);
  });
});

describe("net volume", () => {
  it.each([
    ["volume 310 L", 310],
    ["volume 55 US gal", 55 * 3.785411784],
    ["inside 150 x 55 x 50 cm", 412.5],
    ["inside 150 x 55 x 50 cm; filled 46 cm", 379.5],
    ["inside 150 x 55 cm; filled 46 cm; displaced 38 L", 341.5],
    ["inside 1.5 x 0.55 x 0.5 m; filled 46 cm", 379.5],
    ["inside 60 x 30 x 36", 64.8],
  ])("%s", (says, litres) => {
    expect(netVolume(says)).toBeCloseTo(litres, 9);
  });

  it("tells how it was found in litres and centimetres, whatever was written", () => {
    const { volumeBy } = new Room("tank dam\n  inside 48 x 18 x 21 in; displaced 5 US gal").tank("dam");
    expect(volumeBy).toBe("inside 121.9 x 45.72 cm, filled 53.34 cm, less 18.93 L");
  });

  it("is not known without what it takes, and said so", () => {
    const findings = (says: string): string[] =>
      new Room(`tank dam\n  ${says}`).findings("definition/volume");
    expect(findings('place "shelf"')).toHaveLength(1);
    expect(findings("inside 150 x 55 cm")).toHaveLength(1);
    expect(findings("volume 0 L")).toHaveLength(1);
    expect(findings("inside 20 x 20 x 20 cm; displaced 9 L")).toHaveLength(1);
    expect(findings("inside 20 x 20 x 20 cm; filled 25 cm")).toHaveLength(1);
    expect(findings("inside 20 x 20 x 20 cm; filled 18 cm")).toEqual([]);
  });
});
