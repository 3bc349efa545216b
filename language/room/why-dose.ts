import { type Facts, floatsPerRow, unitOfAmount } from "../book/facts.ts";
import { type Block, rowOfId } from "../book/source.ts";
import type { Remedy } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { addedBy, addedInWords } from "./dose-amount.ts";
import type { Ledger } from "./ledger.ts";
import { decayed, firstDoseOf, type RemedyStep, remedySteps } from "./past.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";

const number = (value: number): string => formatNumber(value, 3);

/**
 * Why so much of a remedy is in the water at a time: each dose and each change since there was next to none, with the arithmetic.
 * @param until a time as `settledTime` gives it; what stands at or after it does not count
 */
export function whyRemedy(ledger: Ledger, remedy: Remedy, until: number, what: string): Why {
  const { unit, halfLifeDays } = remedy;
  const steps = remedySteps(ledger, remedy, until, Math.max(0, firstDoseOf(ledger, remedy, until)));
  const from: Why[] = steps.map((step) => whyStep(ledger, remedy, step));
  const last = steps.at(-1);
  let level = last?.after ?? 0;
  if (last !== undefined && !Number.isNaN(halfLifeDays) && until - last.time > 1e-3) {
    level = decayed(last.after, until - last.time, halfLifeDays);
    from.push({
      what: "left after the time since",
      value: `${halved(last.after, until - last.time, halfLifeDays)} = ${number(level)} ${unit}`,
      formula: "C 2^(-t / half-life)",
      from: [],
    });
  }
  from.push(whyVolume(ledger), ...statements(remedy.place.block, remedyWords));
  return {
    what,
    value: Number.isNaN(level) ? "not known" : `${number(level)} ${unit}`,
    formula: Number.isNaN(halfLifeDays)
      ? "each dose adds mass / volume, each change leaves C (1 - f)"
      : "each dose adds mass / volume, each change leaves C (1 - f), time leaves C 2^(-t / half-life)",
    source:
      "Doses: Masser & Jensen 1991, SRAC 410, Calculating treatments for ponds and tanks. Changes: mass balance of water that is well mixed. Half-life: as you stated",
    from,
  };
}

function whyStep(ledger: Ledger, remedy: Remedy, step: RemedyStep): Why {
  const { series, index, days, left, before, after } = step;
  const { unit, halfLifeDays } = remedy;
  const leaf = whyEntry({ block: series.block[index]!, row: series.row[index]! });
  const isDecayed = days > 1e-3 && !Number.isNaN(halfLifeDays) && left > 0;
  const rest = isDecayed ? `${halved(left, days, halfLifeDays)} = ${number(before)}; ` : "";
  if (step.is === "change") {
    const fraction = series.first[index]!;
    const sum = `${number(before)} × (1 - ${number(fraction)}) = ${number(after)} ${unit}`;
    return { ...leaf, value: rest + sum };
  }
  const added = series.first[index]!;
  const block = series.block[index]!;
  const row = rowOfId(block, series.row[index]!);
  const how = row < 0 ? "" : howGiven(ledger, remedy, block.facts, row, added);
  return {
    ...leaf,
    value: Number.isNaN(added)
      ? "what it adds cannot be computed"
      : `${rest}${number(before)} + ${number(added)} = ${number(after)} ${unit}`,
    from: how === "" ? [] : [{ what: "added", value: `${how} = ${number(added)} ${unit}`, from: [] }],
  };
}

/** The arithmetic of a dose in words; of one given into several tanks of shared water with their number. */
function howGiven({ body, book }: Ledger, remedy: Remedy, facts: Facts, row: number, added: number): string {
  if (body === undefined) return "";
  const value = facts.floats[row * floatsPerRow]!;
  const code = unitOfAmount(facts, row);
  const words = addedInWords(remedy, book.units, value, code, body.volumeL);
  const one = addedBy(remedy, book.units, value, code, body.volumeL);
  const tanks = "added" in one && one.added > 0 ? Math.round(added / one.added) : 1;
  return tanks > 1 ? `${tanks} tanks × ${words}` : words;
}

const halved = (level: number, days: number, halfLifeDays: number): string =>
  `${number(level)} × 2^(-${number(days)} d / ${number(halfLifeDays)} d)`;

/** The volume that a body of water is computed with. */
export function whyVolume(ledger: Ledger): Why {
  const { body } = ledger;
  if (body === undefined) return { what: "no water", value: "", from: [] };
  const litres = (value: number): string => (Number.isNaN(value) ? "not stated" : `${number(value)} L`);
  if (body.system === undefined) {
    const tank = body.tanks[0];
    return {
      what: `net volume of ${body.name}`,
      value: litres(body.volumeL),
      ...(tank === undefined || tank.volumeBy === "stated" ? {} : { formula: tank.volumeBy }),
      from: statements(tank?.place?.block, volumeWords),
    };
  }
  const sump = statements(body.system.place?.block, volumeWords);
  return {
    what: `water of ${body.name}`,
    value: litres(body.volumeL),
    formula: `sump and ${body.tanks.length} tanks`,
    from: [
      ...sump,
      ...body.tanks.map((tank) => ({
        what: tank.name,
        value: litres(tank.volumeL),
        ...(tank.place === undefined ? {} : { place: tank.place }),
        from: [],
      })),
    ],
  };
}

const volumeWords: ReadonlySet<string> = new Set(["volume", "inside", "filled", "displaced", "sump"]);
const remedyWords: ReadonlySet<string> = new Set(["target", "ceiling", "strength", "drop", "half-life"]);

/** The statements of some properties of a definition, as leaves. */
function statements(block: Block | undefined, words: ReadonlySet<string>): Why[] {
  if (block === undefined) return [];
  return (block.definition?.properties ?? [])
    .filter((each) => words.has(each.word))
    .map(({ start, end }) => whyStated({ block, start, end }));
}
