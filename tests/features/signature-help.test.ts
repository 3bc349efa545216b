import { describe, expect, test } from "vitest";
import { entryKinds } from "../../language/book/entries/registry.ts";
import { signatureHelp } from "../../language/features/signature-help.ts";
import { atCursor } from "../support/cursor.ts";

const room = `tank dam
  volume 300 L
  limits nitrate <= 40 mg/L
tank r4
  volume 20 L
species praecox
`;

/** The signature at the cursor, with the part that is being written in «guillemets». */
function shown(log: string): string | undefined {
  const { view, offset } = atCursor(log);
  const help = signatureHelp(view, offset);
  if (help === undefined) return undefined;
  const { span } = help.active === undefined ? { span: undefined } : help.parameters[help.active]!;
  if (span === undefined) return help.label;
  return `${help.label.slice(0, span.start)}«${help.label.slice(span.start, span.end)}»${help.label.slice(span.end)}`;
}
const entry = (line: string): string | undefined => shown(`${room}2026-03-01\n  ${line}\n`);

describe("an entry", () => {
  test("says what it takes, and what comes next", () => {
    expect(entry("dam change ¦")).toBe(
      'change «amount» [batch|flow] [from source] [at temperature] [barrel …] [with tool] ["text"]',
    );
    expect(entry("dam change 3¦")).toContain("«amount»");
    expect(entry("dam change 30 %¦")).toContain("«amount»");
    expect(entry("dam change 30 % ¦")).toContain("«[batch|flow]»");
    expect(entry("dam change 30 % fl¦")).toBe(
      'change amount [batch|flow] [from source] [at temperature] [barrel …] [with tool] ["text"]',
    );
    expect(entry("dam change 30 % flow¦")).toContain("«[batch|flow]»");
    expect(entry("dam change 30 % from¦")).toContain("«[from source]»");
    expect(entry("dam change 30 % from ¦")).toContain("«[from source]»");
    expect(entry("dam change 30 % from tap¦")).toContain("«[from source]»");
    expect(entry("dam change from tap at ¦")).toContain("«[at temperature]»");
    expect(entry("dam change from tap ¦")).toContain("«amount»");
    expect(entry("dam change ¦ from tap")).toContain("«amount»");
  });
  test("of a list begins anew behind each comma", () => {
    expect(entry("dam test ¦")).toBe('test «parameter» reading, … ["text"]');
    expect(entry("dam test nitrate ¦")).toBe('test parameter «reading», … ["text"]');
    expect(entry("dam test nitrate 18¦")).toBe('test parameter «reading», … ["text"]');
    expect(entry("dam test nitrate 18,¦")).toBe('test «parameter» reading, … ["text"]');
    expect(entry("dam test nitrate 18, pH ¦")).toBe('test parameter «reading», … ["text"]');
    expect(entry("dam test nitrate 18 ¦")).toBe('test parameter reading, … «["text"]»');
    expect(entry("dam count praecox 14 of ¦")).toBe(
      'count species animals «[of expected]» [lot …], … ["text"]',
    );
  });
  test("a text at the end", () => {
    expect(entry('dam feed flake 1 pinch "quick¦')).toContain('«["text"]»');
    expect(entry('dam sick praecox 2 signs "flashing¦')).toContain("«[signs …]»");
  });
  test("what the grammar does not take yet is still being written", () => {
    expect(entry("dam test nitrate <¦")).toBe('test parameter «reading», … ["text"]');
    expect(entry("dam move praecox 4 ->¦")).toContain("«-> destination»");
    expect(entry("dam move praecox 4 -> ¦")).toContain("«-> destination»");
  });
  test("with a time of day, or for a group", () => {
    expect(entry("08:40 dam change ¦")).toContain("«amount»");
    expect(entry("@rack clean ¦")).toBe('clean «[part]», … [with tool] ["text"]');
  });
  test("nothing in a comment, before the kind is written, or at a word that is none", () => {
    expect(entry("dam change 30 %  # abo¦ut")).toBeUndefined();
    expect(entry("da¦m change 30 %")).toBeUndefined();
    expect(entry("dam ¦")).toBeUndefined();
    expect(entry("dam chnge ¦")).toBeUndefined();
    expect(shown(`${room}\n¦`)).toBeUndefined();
  });
  test("each kind has one, and every part of it is explained", () => {
    for (const kind of entryKinds) {
      const { view, offset } = atCursor(`${room}2026-03-01\n  dam ${kind.word} ¦\n`);
      const help = signatureHelp(view, offset)!;
      expect(help.label.startsWith(kind.word)).toBe(true);
      expect(help.parameters.map(({ span }) => help.label.slice(span.start, span.end))).not.toContain("");
      for (const { documentation } of help.parameters) expect(documentation).not.toBe("");
      expect(help.documentation).toContain(kind.examples[0]);
    }
  });
});

describe("a sheet", () => {
  const sheet = (row: string): string | undefined =>
    shown(`${room}2026-03-01
  dam test nitrate 18
  sheet  temperature (F)  nitrate  praecox
    r4   75.2             5        3
${row}`);
  test("its head", () => {
    expect(entry("sheet ¦")).toBe("sheet «head [(unit)] …»");
    expect(entry("sheet temperature (¦")).toBe("sheet «head [(unit)] …»");
  });
  test("its rows: the heads, and which cell it is", () => {
    expect(sheet("    dam ¦")).toBe('dam «temperature (F)» nitrate praecox ["text"]');
    expect(sheet("    dam 76.3¦")).toBe('dam «temperature (F)» nitrate praecox ["text"]');
    expect(sheet("    dam 76.3 - ¦")).toBe('dam temperature (F) nitrate «praecox» ["text"]');
    expect(sheet("    dam 76.3 <¦")).toBe('dam temperature (F) «nitrate» praecox ["text"]');
    expect(sheet('    dam 76.3 "new¦')).toBe('dam temperature (F) nitrate praecox «["text"]»');
    expect(sheet("  dam change ¦")).toContain("change «amount»");
  });
  test("what is known of a head in this tank", () => {
    const { view, offset } = atCursor(`${room}2026-03-01
  dam test nitrate 18
  sheet  nitrate
    dam  ¦`);
    expect(signatureHelp(view, offset)!.parameters[0]!.documentation.replaceAll("\\", "")).toBe(
      "Nitrate, at most 40 mg/L, last 18 mg/L on 1 March 2026",
    );
  });
});

describe("a definition", () => {
  const property = (line: string): string | undefined => shown(`tank dam\n  ${line}\n`);
  test("its head", () => {
    expect(shown("tank ¦\n")).toBe('tank «name» ["title"]');
    expect(shown("tank dam ¦\n")).toBe('tank name «["title"]»');
    expect(shown("group rack ¦\n")).toBe('group name «["title"]» = tank, …');
    expect(shown("group rack = r1¦\n")).toBe('group name ["title"] «= tank, …»');
    expect(shown("tank¦ dam\n")).toBeUndefined();
  });
  test("a property, and one of several on a line", () => {
    expect(property("volume ¦")).toBe("volume «volume»");
    expect(property("limits nitrate ¦")).toBe("limits parameter «bounds», …");
    expect(property("inside 100 x 50 x 50 cm; filled ¦")).toBe("filled «filled»");
    expect(property("place ¦")).toBe("place «place»");
    expect(property("vol¦")).toBeUndefined();
    expect(property("volme ¦")).toBeUndefined();
    expect(shown("remedy x\n  repeat 3 times every ¦")).toBe("repeat times [times] «every interval»");
  });
  test("a duty: when, what, and then what the act takes", () => {
    expect(property("every ¦")).toBe("every «time» act");
    expect(property("every 7¦")).toBe("every «time» act");
    expect(property("every 7 d ¦")).toBe("every time «act»");
    expect(property("every 7 d change ¦")).toBe(
      "every time change «amount» [batch|flow] [from source] [at temperature] [barrel …] [with tool]",
    );
    expect(property("every 7 d test nitrate ¦")).toBe("every time test parameter «reading», …");
    expect(property("at ¦")).toBe("at «least|most» times per time act");
    expect(property("at least 3 ¦")).toBe("at least|most times «per time» act");
    expect(property("at least 3 per 7 d ¦")).toBe("at least|most times per time «act»");
    expect(property("at most 2 per 7 d feed ¦")).toBe("at least|most times per time feed «food» [amount], …");
  });
  test("needs and units", () => {
    expect(shown("species praecox\n  needs ¦")).toBe("needs «food» at least|most times per time, …");
    expect(shown("species praecox\n  needs frozen at least 3 ¦")).toBe(
      "needs food at least|most times «per time», …",
    );
    expect(shown("species praecox\n  needs frozen at least 3 per 7 d, ¦")).toBe(
      "needs «food» at least|most times per time, …",
    );
    expect(shown('room "x"\n  units temperature ¦')).toBe("units what «unit», …");
    expect(shown('room "x"\n  units temperature C, gallon ¦')).toBe("units what «unit», …");
  });
});
