import { describe, expect, it } from "vitest";
import { noKeeper } from "../../language/features/laboratory/keeper.ts";
import { defaultSettings, settingsFrom } from "../../language/server/settings.ts";

/** What a client's configuration says is taken as it is, or not at all. */

describe("settings", () => {
  it.each([[null], [undefined], ["hints"], [[]], [{}], [{ hints: 1, lenses: null, keeper: "A" }]])(
    "%j are the defaults",
    (configuration) => {
      expect(settingsFrom(configuration)).toEqual(defaultSettings);
    },
  );

  it("of the keeper are texts, each by itself", () => {
    const given = { keeper: { name: "A keeper", telephone: 5, address: "Lane 1\nTown", more: "x" } };
    expect(settingsFrom(given).keeper).toEqual({ ...noKeeper, name: "A keeper", address: "Lane 1\nTown" });
  });

  it("of hints are switches", () => {
    expect(settingsFrom({ hints: { enabled: false, dose: "no" } }).hints).toEqual({ enabled: false });
  });
});
