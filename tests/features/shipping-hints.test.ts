import { describe, expect, test } from "vitest";
import { inlayHints } from "../../language/features/hints.ts";
import { viewOf } from "../support/cursor.ts";

const room = `room "Cellar"
  quarantine 28 d
species praecox
species horn
  kind snail
order o-1
  wants praecox 6; placed 2026-03-01
tank dam
  volume 100 L
tank r1
  volume 20 L
tank q1
  volume 50 L
  role quarantine
`;

/** The hint at the end of the last line, and its reasons. */
function lastHint(log: string): { label: string; tooltip: string } | undefined {
  const text = room + log;
  const view = viewOf(text);
  const { label = "", tooltip = "" } = inlayHints(view, 0, text.length).at(-1) ?? {};
  return label === "" ? undefined : { label, tooltip };
}

describe("the hint of a sale or shipment", () => {
  test("says how many are left, and nothing more where nothing is against it", () => {
    const log = "2026-03-01\n  dam count horn 9\n  dam sell horn 2\n";
    expect(lastHint(log)?.label).toBe("7 left");
  });

  test("says how many were free, and what was against it, as it was on that day", () => {
    const log = `2026-03-01
  q1 arrive horn 9
2026-03-10
  q1 ship horn 2
`;
    expect(lastHint(log)).toEqual({
      label: "7 left · free: 0 of 9; quarantine until 29 March",
      tooltip: expect.stringContaining("q1 arrive horn 9"),
    });
    expect(lastHint(log.replace("03-10", "03-29"))?.label).toBe("7 left");
  });

  test("says what others wait for, but for the order that it fills", () => {
    const log = `2026-03-01
  dam count praecox 8
  r1 count praecox 3
  dam ship praecox 2
`;
    // Of 11 in two tanks 6 are promised: 5 are free.
    expect(lastHint(log)?.label).toBe("6 left · free: 5 of 8; 6 promised to o-1");
    expect(lastHint(log.replace("ship praecox 2", "ship praecox 2 order o-1"))?.label).toBe("6 left");
  });

  test("of a list names each, and stays one short line", () => {
    const log = `2026-03-01
  q1 arrive horn 9
  q1 arrive praecox 9
  q1 ship horn 2, praecox 4
`;
    const hint = lastHint(log)!;
    expect(hint.label).toBe("horn 7 left, praecox 5 left · horn free: 0 of 9 …");
    expect(hint.tooltip).toContain("praecox of q1 free to go before this");
  });
});
