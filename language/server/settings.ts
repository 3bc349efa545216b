/** The settings the server goes by, as they stand under `standpipe` in the client's configuration. */
export interface Settings {
  readonly hints: { readonly enabled: boolean } & Readonly<Record<string, boolean>>;
  readonly lenses: { readonly enabled: boolean };
}

export const defaultSettings: Settings = { hints: { enabled: true }, lenses: { enabled: true } };

/** What a client's configuration says, with defaults for what it leaves out or gets wrong. */
export function settingsFrom(configuration: unknown): Settings {
  const { hints, lenses } = (
    typeof configuration === "object" && configuration !== null ? configuration : {}
  ) as Record<string, unknown>;
  return {
    hints: { ...defaultSettings.hints, ...switches(hints) },
    lenses: { ...defaultSettings.lenses, ...switches(lenses) },
  };
}

function switches(group: unknown): Record<string, boolean> {
  if (typeof group !== "object" || group === null) return {};
  return Object.fromEntries(
    Object.entries(group).filter((entry): entry is [string, boolean] => typeof entry[1] === "boolean"),
  );
}
