import * as z from "zod/mini";
import { type Keeper, noKeeper } from "../features/laboratory/keeper.ts";

/** The settings the server goes by, as they stand under `standpipe` in the client's configuration. */
export interface Settings {
  readonly hints: { readonly enabled: boolean } & Readonly<Record<string, boolean>>;
  readonly lenses: { readonly enabled: boolean };
  /** Who sends samples: for the laboratory sheet only. */
  readonly keeper: Keeper;
}

export const defaultSettings: Settings = {
  hints: { enabled: true },
  lenses: { enabled: true },
  keeper: noKeeper,
};

/** What a client's configuration says, with defaults for what it leaves out or gets wrong. */
export function settingsFrom(configuration: unknown): Settings {
  const { hints, lenses, keeper } = (
    typeof configuration === "object" && configuration !== null ? configuration : {}
  ) as Record<string, unknown>;
  return {
    hints: { ...defaultSettings.hints, ...switches(hints) },
    lenses: { ...defaultSettings.lenses, ...switches(lenses) },
    keeper: keeperForm.parse(keeper),
  };
}

const line = z.catch(z.string(), "");
const keeperForm = z.catch(
  z.object({
    name: line,
    address: line,
    telephone: line,
    email: line,
    veterinarian: line,
    registration: line,
  }),
  noKeeper,
);

function switches(group: unknown): Record<string, boolean> {
  if (typeof group !== "object" || group === null) return {};
  return Object.fromEntries(
    Object.entries(group).filter((entry): entry is [string, boolean] => typeof entry[1] === "boolean"),
  );
}
