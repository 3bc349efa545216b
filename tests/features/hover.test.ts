import { describe, expect, test } from "vitest";
import { entryKinds } from "../../language/book/entries/registry.ts";
import { hover } from "../../language/features/hover.ts";
import { cellarView } from "../support/cellar.ts";
import { atCursor } from "../support/cursor.ts";

const room = `room "Cellar"
  units gallon US
water tap "Mains"
  content nitrate 6 mg/L
system rack-water
  sump 90 L
tank r1
  volume 24 L
  system rack-water
tank r2
  volume 24 L
  system rack-water
tank dam "Rainbowfish dam"
  inside 100 x 50 x 50 cm; filled 40 cm
  displaced 20 L
  role show
  limits nitrate <= 40 mg/L, pH 6.8..7.8
  every 7 d change 20..30 %
tank q1
  volume 50 L
group rack = r1 .. r2
species praecox "Melanotaenia praecox"
  kind fish
  school >= 8
  needs flake at most 2 per 7 d
species horn
  kind snail
food flake
  kind dry
  portion 1 pinch = 0.2 g
remedy prazi "Flatworm remedy"
  target 2 mg/L
  ceiling 5 mg/L
  half-life 7 d
  repeat 3 times every 7 d
  harms snail
gear canister "Canister filter"
  kind filter
  on dam
  every 28 d service
`;

/** What is told at the cursor: without escapes, pictures as their words. */
function told(log: string, today?: string): string[] {
  const { view, offset } = atCursor(log, today);
  const found = hover(view, offset);
  return found === undefined ? [] : readable(found.markdown);
}

const readable = (markdown: string): string[] =>
  markdown
    .replace(/\(data:image[^)]*\)/g, "(picture)")
    .replace(/\\([!-/:-@[-`{-~])/g, "$1")
    .split("\n")
    .filter((line) => line !== "");

const days = `2026-03-01
  dam count praecox 14, horn ~20
  dam change 25 %
  dam test nitrate 20, pH 8
  r1 count horn 3
  canister service
2026-03-10
  dam test nitrate 30
  dam feed flake 1 pinch
`;

describe("a tank", () => {
  // 100 x 50 x 40 cm less 20 L: 180 L; 25 % of it 45 L. The change was due on the 8th.
  test("is told at a glance", () => {
    expect(told(`${room}${days}  d¦am note "x"`)).toEqual([
      "**dam** · Rainbowfish dam · show · 180 L",
      "net volume: inside 100 x 50 cm, filled 40 cm, less 20 L",
      "![nitrate in dam: 2 readings from 1 March to 10 March 2026, 20 mg/L to 30 mg/L, last 30 mg/L, limit at most 40 mg/L](picture) nitrate, at most 40 mg/L",
      "~20 horn, 14 praecox",
      "Last change: 1 March, 25 %, 45 L",
      "Water",
      "- pH **8**, 1 March; 6.8..7.8",
      "- nitrate 30 mg/L, 10 March; at most 40 mg/L",
      "Duties",
      "- change 20..30 % every 7 days: **2 days late** (last 1 March)",
      "- canister: service every 28 days: in 19 days (last 1 March)",
      "Findings",
      "- dam: change 20..30 % is 2 days late (last done on 1 March 2026)",
      "- pH 8 in dam is above its limit: 6.8..7.8",
    ]);
  });
  test("is told wherever it is named", () => {
    const first = (log: string): string | undefined => told(log)[0];
    for (const log of [
      `${room.replace("tank dam", "tank da¦m")}${days}`,
      `${room.replace("on dam", "on d¦am")}${days}`,
      `${room}${days}  q1 move horn 1 -> da¦m`,
      `${room}${days}  sheet pH\n    da¦m 7`,
    ])
      expect(first(log)).toBe("**dam** · Rainbowfish dam · show · 180 L");
  });
  // 90 + 24 + 24 L.
  test("in shared water says so; the system tells all that lives in it", () => {
    expect(told(`${room}${days}  ¦r2 note "x"`)).toContain("one water with rack-water, 138 L in all");
    const system = told(`${room}${days}  rack-¦water change 10 %\n  r2 count horn ~4`);
    expect(system[0]).toBe("**rack-water** · system · 138 L");
    expect(system).toContain("~7 horn");
  });
  test("gear, groups and the room too", () => {
    expect(told(`${room}${days}  canis¦ter service`).slice(0, 3)).toEqual([
      "**canister** · Canister filter · filter · on dam",
      "Duties",
      "- service every 28 days: in 28 days (last 10 March)",
    ]);
    expect(told(`${room}${days}  canis¦ter service`).at(-1)).toContain(
      "pull the plug before a hand goes into the water",
    );
    expect(told(`${room}${days}  @r¦ack clean`).slice(0, 2)).toEqual(["**@rack** · 2 tanks", "r1, r2"]);
    expect(told(`${room}${days}  ro¦om note "x"`)).toEqual([
      "**Cellar** · 4 tanks · 2 species",
      "0 due today, 1 late",
    ]);
  });
  test("with the cases that are open there", () => {
    const log = `${room}2026-03-01
  q1 sick praecox 2 of 9 signs "flashing" case flukes-1
  dam sick praecox 1 case other-1
2026-03-03
  q1 sick praecox 4 of 9 case flukes-1
`;
    expect(told(`${log}  q¦1 note "x"`)).toContain(
      "- flukes-1 since 1 March; 4 of 9 praecox show signs; at least 4 affected, 0 dead",
    );
    expect(told(`${log}  q1 close flukes-1 recovered\n  q¦1 note "x"`)).not.toContain("Open cases");
  });
  test("a remedy in its water comes with the caution", () => {
    const lines = told(`${room}${days}  q1 dose prazi 100 mg\n  q¦1 note "x"`);
    expect(lines).toContain("In the water");
    expect(lines.some((line) => /^- prazi .*target 2 mg\/L; ceiling 5 mg\/L; dose 2 of 3/.test(line))).toBe(
      true,
    );
    expect(lines).toContain(
      "*Computed from what you stated; follow the label, local rules and a veterinarian.*",
    );
  });
});

describe("a number", () => {
  const number = (words: string): string | undefined => told(`${room}2026-03-01\n  ${words}\n`)[0];
  // 1 US gal is 3.785411784 L and 1 imp gal 4.54609 L: 37.85 L, 8.327 imp gal. 18 mg/L NO3 x 14.007 / 62.004 = 4.066 mg/L N.
  // 8 dGH x 0.35663 = 2.853 meq/L, x 50.043 = 142.8 mg/L CaCO3.
  test("is said in the units of others", () => {
    expect(number("dam change ¦10 US gal")).toBe("**10 US gal = 37.9 L = 8.33 imp gal**");
    expect(number("dam change 10 ¦gal")).toBe("**10 US gal = 37.9 L = 8.33 imp gal**");
    expect(number("dam test nitrate ¦18")).toBe("**18 mg/L NO3 = 4.07 mg/L N**");
    expect(number("dam test nitrate ¦<5")).toBe("**<5 mg/L NO3 = <1.13 mg/L N**");
    expect(number("dam test temperature ¦77 F")).toBe("**77 F = 25 C**");
    expect(number("dam test GH ¦8")).toBe("**8 dGH = 143 mg/L CaCO3 = 2.85 meq/L**");
    expect(number("dam test pH ¦7.2")).toBe("**7.2**");
    expect(number("dam count praecox 3.5.¦20")).toBe("**28 animals: 3 males, 5 females, 20 unsexed**");
    expect(number("dam count praecox ¦~20")).toBe("**~20**");
  });
  test("of a sheet in the unit of its column", () => {
    expect(number("sheet temperature (F)\n    dam ¦77")).toBe("**77 F = 25 C**");
  });
  test("tells what follows from its entry, and why", () => {
    expect(told(`${room}2026-03-01\n  dam change ¦25 %`)).toEqual([
      "**25 %**",
      "45 L",
      "**45 L, 25 % of the water is new** change of 1 March 2026 in dam",
      "- `f = V / V0`",
      "- `2026-03-01 dam change 25 %`",
      "- net volume of dam: 180 L",
      "    - `inside 100 x 50 cm, filled 40 cm, less 20 L`",
      "    - `stated: inside 100 x 50 x 50 cm`",
      "    - `stated: filled 40 cm`",
      "    - `stated: displaced 20 L`",
    ]);
  });
  test("in a definition says what it is", () => {
    expect(told(room.replace("displaced 20 L", "displaced 2¦0 L"))).toEqual([
      "**20 L = 5.28 US gal = 4.4 imp gal**",
      "Volume of sand, wood, rock.",
    ]);
    expect(told(room.replace("inside 100", "inside 1¦00"))[0]).toBe(
      "**100 x 50 x 50 cm = 39.4 x 19.7 x 19.7 in**",
    );
  });
  test("with a finding tells the reasons of that too", () => {
    const lines = told(`${room}2026-03-01\n  dam count praecox 14\n  dam count praecox 1¦2`);
    expect(lines[0]).toBe("**12**");
    expect(lines[1]).toBe("2 fewer than the book");
    expect(lines).toContain("Why stock/count-differs");
  });
});

describe("what is stated", () => {
  // 100 mg in 50 L: 2 mg/L, at the end of the day 2 x 2^(-1/7) = 1.81.
  test("a remedy: what the keeper said of it, and where it is in the water", () => {
    expect(told(`${room}2026-03-01\n  q1 dose pra¦zi 100 mg`)).toEqual([
      "**prazi** · Flatworm remedy",
      "As you stated",
      "- target 2 mg/L",
      "- ceiling 5 mg/L",
      "- 3 doses, every 7 d",
      "- half-life 7 d",
      "- harms snail",
      "In the water at the end of 1 March 2026",
      "- q1 1.81 mg/L; last dose 1 March; dose 2 of 3, 8 March  ",
      "  over on 22 March  ",
      // The area of the first day: 2 x 7 / ln 2 x (1 - 2^(-1/7)) = 1.904 mg d/L, x 24 h.
      "  1 of 1 day within 1.5..2.5 mg/L; highest 2 mg/L on 1 March; never above the ceiling; exposure 45.7 mg·h/L  ",
      "  To hold the target after a change, add what it took out, target × litres replaced, and not a whole dose: 10 %: 10 mg, 25 %: 25 mg, 30 %: 30 mg, 50 %: 50 mg.",
      "*Computed from what you stated; follow the label, local rules and a veterinarian.*",
      "Published of praziquantel",
      "- bath 2 mg/L, 30 h, best of five in one trial on flukes (trial on monogenean flukes)",
      "- prolonged 2..10 mg/L (recalled, no source at hand)",
      "- repeated for flukes that lay eggs (trial on monogenean flukes)",
      "- eggs survive it; it breaks down and adsorbs (recalled, no source at hand)",
      expect.stringMatching(/^\*Published for orientation.*prescription only\.\*$/),
    ]);
  });
  test("a species: what it needs, and where it lives", () => {
    expect(told(`${room}${days}  q1 arrive prae¦cox 3`)).toEqual([
      "**praecox** · Melanotaenia praecox · fish",
      "school of 8 at least",
      "needs flake at most 2 per 7 d",
      "17 by the book",
      "- dam 14, counted 1 March",
      "- q1 3, never counted",
      "In 30 days: arrived 3, found 14.",
    ]);
  });
  test("a food: its portion, and how often it was fed of late", () => {
    expect(told(`${room}${days}2026-03-11\n  @rack feed fla¦ke`)).toEqual([
      "**flake** · dry",
      "1 pinch weighs 0.2 g",
      "On hand: neither weighed nor bought in the last year.",
      "Fed in the last 7 days: 2 times in 3 tanks; last fed 11 March to @rack.",
    ]);
  });
  test("a source water: what it holds", () => {
    expect(told(`${room}2026-03-01\n  dam change 25 % from ta¦p`)).toEqual([
      "**tap** · Mains · source water",
      "Used where an entry names none.",
      "Holds nitrate 6 mg/L.",
    ]);
  });
  test("a duty: when it was last done, and is due", () => {
    const lines = told(`${room.replace("every 7 d", "eve¦ry 7 d")}${days}`);
    expect(lines.slice(0, 3)).toEqual([
      "**every 7 d change 20..30 %**",
      "Water change",
      "**2 days late** change 20..30 % in dam",
    ]);
    expect(lines).toContain("- `2026-03-01 dam change 25 %`");
  });
  test("a limit: the parameter in that tank", () => {
    const lines = told(`${room.replace("limits nitrate", "limits nit¦rate")}${days}`);
    expect(lines[0]).toBe("**nitrate** · mg/L · in dam");
    expect(lines).toContain("- limit at most 40 mg/L, stated in tank dam");
    expect(lines).toContain("- 10 March 30 mg/L");
  });
});

describe("what runs through the log", () => {
  test("a case: all its entries, and whether it is closed", () => {
    const log = `${room}2026-03-01
  q1 sick praecox 2 of 9 signs "flashing" case flukes-1
2026-03-03
  q1 result flukes-1 positive
2026-03-20
  q1 close flukes-1 recovered
`;
    const lines = (text: string): string[] => told(text);
    expect(lines(log.replace("case flukes", "case fl¦ukes"))).toEqual([
      "**flukes-1** · case · closed 20 March: recovered · 3 entries",
      "since 1 March; 2 of 9 praecox affected, 0 dead",
      "q1: signs since 1 March",
      "Rates",
      "- Attack rate: 2 of 9, 22.2 % (6.32 to 54.7)",
      "- Case-fatality: 0 of 2, 0 % (0 to 65.8)",
      "- Mortality: 0 of 9, 0 % (0 to 29.9)",
      "- Showing signs on 1 March: 2 of 9, 22.2 % (6.32 to 54.7)",
      "behaviour: flashing",
      "Results",
      "- 3 March positive",
      "Entries",
      '- 1 March `q1 sick praecox 2 of 9 signs "flashing" case flukes-1`',
      "- 3 March `q1 result flukes-1 positive`",
      "- 20 March `q1 close flukes-1 recovered`",
      "*Signs name no disease, and a rate no cause. Of a disease that must be notified ask the authority of the place; what to give is for a veterinarian.*",
    ]);
    expect(lines(log.replace("case flukes", "case fl¦ukes").replace(/2026-03-20[\s\S]*/, ""))[0]).toBe(
      "**flukes-1** · case · open, day 3 · 2 entries",
    );
  });
  test("a date: what happened, what was left over", () => {
    const lines = told(`${room}${days}  dam note "as on 2026-03-¦01"`);
    expect(lines).toEqual([
      "**1 March 2026** · 9 days ago · 5 entries · 45 L changed",
      "Done",
      "- dam count, change, test",
      "- r1 count",
      "- canister service",
      "Findings",
      "- pH 8 in dam is above its limit: 6.8..7.8",
    ]);
    expect(told(`${room}${days.replace("2026-03-10", "2026-¦03-10")}`)[0]).toBe(
      "**10 March 2026** · today · 2 entries",
    );
    expect(told(`${room}${days}  dam note "see 2026-02-¦01"`)).toEqual([
      "**1 February 2026** · 37 days ago · nothing is logged",
    ]);
  });
});

describe("words of the format", () => {
  test("each kind of entry: what it records and takes", () => {
    for (const kind of entryKinds) {
      const lines = told(`${room}2026-03-01\n  dam ${kind.word}¦ x`);
      expect(lines[0]).toBe(`**${kind.word}** · ${kind.title}`);
      expect(lines).toContain(`- \`${kind.examples[0]}\``);
    }
    expect(told(`${room}2026-03-01\n  dam chan¦ge 25 %`)).toContain(
      '`change amount [batch|flow] [from source] [at temperature] [barrel …] [with tool] ["text"]`',
    );
  });
  test("properties, definitions, a choice, a sheet", () => {
    expect(told(room.replace("displaced", "disp¦laced"))).toEqual([
      "**displaced** · of a tank",
      "Volume of sand, wood, rock.",
      "- `displaced 38 L`",
    ]);
    expect(told(room.replace("tank q1", "ta¦nk q1"))[0]).toBe("**tank** · Tank");
    expect(told(`${room}2026-03-01\n  dam change 25 % fl¦ow`)[0]).toBe("**method** · of change");
    expect(told(`${room}2026-03-01\n  she¦et pH\n    dam 7`)[0]).toBe("**sheet** · A round as a spreadsheet");
    expect(told(`${room}${days}  sheet nit¦rate\n    dam 7`).slice(0, 4)).toEqual([
      "**nitrate** · mg/L",
      "a reading can be 0..1000 mg/L",
      "Last readings",
      "- dam 7 mg/L, 10 March",
    ]);
  });
  test("nothing in prose, comments and empty lines", () => {
    expect(told(`${room}2026-03-01\n  dam note "the da¦m leaks"`)).toEqual([]);
    expect(told(`${room}2026-03-01\n  dam clean # the da¦m`)).toEqual([]);
    expect(told(`${room}\n¦\n2026-03-01\n  dam clean`)).toEqual([]);
  });
});

test("the span is that of what is told", () => {
  const { view, offset } = atCursor(`${room}2026-03-01\n  dam move horn 2 -> r¦1`);
  const { span } = hover(view, offset)!;
  expect(view.source.text.slice(span.start, span.end)).toBe("r1");
});

test("where places have addresses, entries lead to them", () => {
  const { view, offset } = atCursor(`${room}${days}  da¦m note "x"`);
  const { markdown } = hover(view, offset, { address: ({ path, start }) => `file:///${path}#${start}` })!;
  const at = view.source.text.indexOf("dam change 25 %");
  expect(markdown).toContain(`[1 March](file:///log.tank#${at})`);
});

describe("what a log says stays text", () => {
  const evil =
    "<img src=x onerror=alert(1)> [x](command:evil) ![y](https://example.org/z) `code` **b** $(gear)";
  const log = `room "${evil}"
tank dam "${evil}"
  volume 100 L
  place "${evil}"
  note "${evil}"
  limits nitrate <= 4 mg/L
species praecox "${evil}"
food flake "${evil}"
remedy prazi "${evil}"
  target 1 mg/L
  source "${evil}"
2026-03-01 "${evil}"
  dam count praecox 4 "${evil}"
  dam test nitrate 50 "${evil}"
  dam feed flake 1 pinch "${evil}"
  dam dose prazi 50 mg "${evil}"
  dam sick praecox 1 signs "${evil}" case c-1
`;
  /** What is left of Markdown without code, escapes and our own pictures: nothing may be a link, a picture or HTML. */
  const bare = (markdown: string): string =>
    markdown
      .replace(/\\[!-/:-@[-`{-~]/g, "")
      .replace(/(`+)(?!`)[\s\S]*?[^`]\1(?!`)/g, "")
      .replace(/!\[[^\]]*\]\(data:image\/svg\+xml;base64,[A-Za-z0-9+/=]+\)/g, "");

  test("in every hover of it", () => {
    const { view } = atCursor(`${log}¦`);
    let hovers = 0;
    for (let offset = 0; offset < log.length; offset++) {
      const found = hover(view, offset);
      if (found === undefined) continue;
      hovers++;
      expect(bare(found.markdown)).not.toMatch(/[<>[\]$]|https?:|command:/);
      expect(found.markdown.split("\n")[0]!.length).toBeLessThan(400);
    }
    expect(hovers).toBeGreaterThan(100);
  });
});

describe("in the sample room", () => {
  const at = (file: string, words: string, add: number): string[] => {
    const view = cellarView(file);
    const offset = view.source.text.lastIndexOf(words) + add;
    return readable(hover(view, offset)?.markdown ?? "");
  };
  test("the ford heads for its limit", () => {
    const lines = at("2026-03.tank", "ford      test nitrate 35", 1);
    expect(lines.some((line) => /^- nitrate 35 mg\/L.*meets its limit about 7 April/.test(line))).toBe(true);
    expect(lines.some((line) => line.startsWith("![nitrate in ford: "))).toBe(true);
  });
  test("the outbreak, entry by entry", () => {
    const lines = at("2025-10.tank", "case flukes-1", 8);
    expect(lines[0]).toMatch(/^\*\*flukes-1\*\* · case · closed/);
    expect(lines.filter((line) => line.includes("sample")).length).toBe(3);
  });
  test("every place of a month may be asked", () => {
    const view = cellarView("2026-03.tank");
    const { text } = view.source;
    for (let offset = 0; offset < text.length; offset += 23) {
      const found = hover(view, offset);
      if (found === undefined) continue;
      expect(found.span.start).toBeLessThanOrEqual(offset);
      expect(found.span.end).toBeGreaterThanOrEqual(offset);
      expect(found.markdown).not.toMatch(/NaN|undefined|Infinity|∞|\?/);
    }
  });
});
