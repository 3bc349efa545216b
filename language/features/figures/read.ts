import { Col, intsPerRow } from "../../book/facts.ts";
import { type Parameter, parameters } from "../../book/parameters.ts";
import type { Ledger } from "../../room/ledger.ts";
import { ledgersOf, type Row } from "./row.ts";

/** A reading of a row in its ledger. */
export interface Read {
  readonly row: Row;
  readonly ledger: Ledger;
  readonly parameter: Parameter;
  readonly index: number;
}

/** The reading of a row; undefined if it is left out, or if a group's row is about several waters. */
export function readOf(row: Row): Read | undefined {
  const parameter = parameters[row.facts.ints[row.at * intsPerRow + Col.subject]!];
  const [ledger, ...others] = ledgersOf(row);
  if (parameter === undefined || ledger === undefined || others.length > 0) return undefined;
  const index = ledger.readings[parameter.id]?.find(row.time, row.block, row.id) ?? -1;
  return index < 0 ? undefined : { row, ledger, parameter, index };
}
