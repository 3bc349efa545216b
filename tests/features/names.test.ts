import { describe, expect, test } from "vitest";
import { definitionsAt } from "../../language/features/definition.ts";
import { highlightsAt } from "../../language/features/highlights.ts";
import { nameAt, usesIn } from "../../language/features/names.ts";
import { referencesAt } from "../../language/features/references.ts";
import type { Location, View } from "../../language/features/view.ts";
import { atCursor, drawn, viewOf } from "../support/cursor.ts";

const room = `--- room.tank ---
room "Cellar"
  every  30 d test KH

water tap
  content  nitrate 6 mg/L

system rack-water
  sump   90 L
  every  3 d change 30 %

tank dam
  volume  310 L
  limits  nitrate <= 25 mg/L
  every   7 d clean
tank r1
  volume  24 L
  system  rack-water
tank r2
  volume  24 L
  system  rack-water
tank r3
  volume  24 L

group rack = r1 .. r3, dam

species praecox
  kind   fish
  needs  flake at most 2 per 7 d
species horn
  kind  snail

food flake
  kind  dry

remedy prazi
  target  2 mg/L
  harms   snail, praecox

gear canister
  kind   filter
  on     dam
  every  28 d service
`;
const days = `--- days.tank ---
2026-03-01 "as on 2026-02-27"
  dam        change 30 % from tap
  rack-water change 60 L
  @rack      clean
  dam        feed flake 1 pinch, none
  dam        service canister
  dam        count praecox 14, horn 8 "praecox"
  sheet  nitrate  praecox
    dam  18       13
    r2   5        -
  dam        move praecox 2 -> r2
  dam        sick praecox 1 case tuft
  dam        dose prazi 20 mg
  r2         plant fern 3 from r1
  dam        arrive praecox 3 lot "a 17"
  dam        lose praecox 1 lot "a 17"
  dam        chnge 30 %
  dam        change ¤

2026-03-09
  dam        sample gill 1 case tuft
  dam        close tuft recovered
  dam        clean
  canister   service
`;

/** The places, each as \`file line: text\`. */
function shown(view: View, places: readonly Location[]): string[] {
  return places.map((place) => {
    const text = view.checked.logbook.sources.get(place.path)!.text;
    const line = text.slice(0, place.start).split("\n").length;
    return `${place.path} ${line}: ${text.slice(place.start, place.end)}`;
  });
}

describe("names in a day", () => {
  test("each with what it is a name of", () => {
    const view = viewOf(room + days, "days.tank");
    const block = view.source.blocks[0]!;
    const uses = usesIn(view.checked.book, block);
    expect(drawn(block.text, uses)).toMatchInlineSnapshot(`
      "2026-03-01 "as on 2026-02-27"
        dam        change 30 % from tap
        ^^^                         ^^^
        rack-water change 60 L
        ^^^^^^^^^^
        @rack      clean
         ^^^^
        dam        feed flake 1 pinch, none
        ^^^             ^^^^^
        dam        service canister
        ^^^                ^^^^^^^^
        dam        count praecox 14, horn 8 "praecox"
        ^^^              ^^^^^^^     ^^^^
        sheet  nitrate  praecox
                        ^^^^^^^
          dam  18       13
          ^^^
          r2   5        -
          ^^
        dam        move praecox 2 -> r2
        ^^^             ^^^^^^^      ^^
        dam        sick praecox 1 case tuft
        ^^^             ^^^^^^^        ^^^^
        dam        dose prazi 20 mg
        ^^^             ^^^^^
        r2         plant fern 3 from r1
        ^^                           ^^
        dam        arrive praecox 3 lot "a 17"
        ^^^               ^^^^^^^        ^^^^
        dam        lose praecox 1 lot "a 17"
        ^^^             ^^^^^^^        ^^^^
        dam        chnge 30 %
        ^^^
        dam        change ¤

      "
    `);
    expect([...new Set(uses.map((use) => `${use.sort} ${use.name}`))].sort()).toEqual([
      "case tuft",
      "food flake",
      "gear canister",
      "group rack",
      "lot a 17",
      "remedy prazi",
      "species horn",
      "species praecox",
      "system rack-water",
      "tank dam",
      "tank r1",
      "tank r2",
      "water tap",
    ]);
  });

  test("and in definitions", () => {
    const view = viewOf(room + days, "room.tank");
    const uses = view.source.blocks.flatMap((block) =>
      usesIn(view.checked.book, block).map((use) => ({
        start: block.start + use.start,
        end: block.start + use.end,
      })),
    );
    expect(drawn(view.source.text, uses)).toMatchInlineSnapshot(`
      "room "Cellar"
        every  30 d test KH

      water tap
            ^^^
        content  nitrate 6 mg/L

      system rack-water
             ^^^^^^^^^^
        sump   90 L
        every  3 d change 30 %

      tank dam
           ^^^
        volume  310 L
        limits  nitrate <= 25 mg/L
        every   7 d clean
      tank r1
           ^^
        volume  24 L
        system  rack-water
                ^^^^^^^^^^
      tank r2
           ^^
        volume  24 L
        system  rack-water
                ^^^^^^^^^^
      tank r3
           ^^
        volume  24 L

      group rack = r1 .. r3, dam
            ^^^^   ^^    ^^  ^^^

      species praecox
              ^^^^^^^
        kind   fish
        needs  flake at most 2 per 7 d
               ^^^^^
      species horn
              ^^^^
        kind  snail

      food flake
           ^^^^^
        kind  dry

      remedy prazi
             ^^^^^
        target  2 mg/L
        harms   snail, praecox
                       ^^^^^^^

      gear canister
           ^^^^^^^^
        kind   filter
        on     dam
               ^^^
        every  28 d service"
    `);
  });
});

describe("definition", () => {
  const at = (text: string): string[] => {
    const { view, offset } = atCursor(text);
    return shown(view, definitionsAt(view, offset));
  };

  test("of a tank, at the end of its word too", () => {
    expect(at(room + days.replace("dam        change 30 %", "da¦m        change 30 %"))).toEqual([
      "room.tank 11: dam",
    ]);
    expect(at(room + days.replace("dam        change 30 %", "dam¦        change 30 %"))).toEqual([
      "room.tank 11: dam",
    ]);
  });

  test("of the target of a move, a water, a group, a species in a sheet", () => {
    expect(at(room + days.replace("-> r2", "-> ¦r2"))).toEqual(["room.tank 18: r2"]);
    expect(at(room + days.replace("from tap", "from ¦tap"))).toEqual(["room.tank 4: tap"]);
    expect(at(room + days.replace("@rack", "@¦rack"))).toEqual(["room.tank 24: rack"]);
    expect(at(room + days.replace("nitrate  praecox", "nitrate  ¦praecox"))).toEqual([
      "room.tank 26: praecox",
    ]);
  });

  test("of a case where it first comes up", () => {
    expect(at(room + days.replace("close tuft", "close ¦tuft"))).toEqual(["days.tank 12: tuft"]);
  });

  test("of a parameter its limit in that tank", () => {
    expect(
      at(room + days.replace("dam        change 30", "dam        test ¦nitrate 4\n  dam        change 30")),
    ).toEqual(["room.tank 13: nitrate <= 25 mg/L"]);
    expect(at(room + days.replace("dam  18", "dam  1¦8"))).toEqual(["room.tank 13: nitrate <= 25 mg/L"]);
  });

  test("of the word of an entry the duty that it fulfils", () => {
    expect(at(room + days.replace("rack-water change", "rack-water ¦change"))).toEqual([
      "room.tank 9: every  3 d change 30 %",
    ]);
    expect(at(room + days.replace("service canister", "¦service canister"))).toEqual([
      "room.tank 42: every  28 d service",
    ]);
    expect(at(room + days.replace("dam        change 30 %", "dam        ¦change 30 %"))).toEqual([]);
  });

  test("of a date in a text its day", () => {
    expect(at(`${room}${days}\n2026-03-10\n  dam   note "see 2026¦-03-09"\n`)).toEqual([
      "days.tank 20: 2026-03-09",
    ]);
    expect(at(`${room}${days}\n2026-03-10 # 2026-03-0¦9\n`)).toEqual(["days.tank 20: 2026-03-09"]);
  });

  test("of prose nothing", () => {
    expect(at(room + days.replace('8 "praecox"', '8 "pra¦ecox"'))).toEqual([]);
  });
});

describe("references", () => {
  const at = (text: string, withDefinition = true): string[] => {
    const { view, offset } = atCursor(text);
    return shown(view, referencesAt(view, offset, withDefinition));
  };

  test("of a species: counts, heads of sheets, moves, what harms it; not prose", () => {
    expect(at(room.replace("species praecox", "species pra¦ecox") + days)).toEqual([
      "days.tank 7: praecox",
      "days.tank 8: praecox",
      "days.tank 11: praecox",
      "days.tank 12: praecox",
      "days.tank 15: praecox",
      "days.tank 16: praecox",
      "room.tank 26: praecox",
      "room.tank 37: praecox",
    ]);
  });

  test("of a tank within a range of names, and without its definition", () => {
    expect(at(room.replace("tank r2", "tank ¦r2") + days, false)).toEqual([
      "days.tank 10: r2",
      "days.tank 11: r2",
      "days.tank 14: r2",
      "room.tank 24: r1 .. r3",
    ]);
  });

  test("in a row of a sheet in which nothing was measured", () => {
    expect(
      at("tank d¦am\n  volume  3 L\n2026-03-01\n  sheet  pH  horn\n    dam  -   -\nspecies horn\n"),
    ).toEqual(["log.tank 1: dam", "log.tank 5: dam"]);
    expect(at("species h¦orn\n2026-03-01\n  sheet  pH  horn\n    dam  -   -\n")).toEqual([
      "log.tank 1: horn",
      "log.tank 3: horn",
    ]);
  });

  test("of a target also in a line that does not count, but not in one that cannot be read", () => {
    expect(at(room.replace("tank dam", "tank d¦am") + days).filter((each) => / (17|18):/.test(each))).toEqual(
      ["days.tank 17: dam"],
    );
  });

  test("of a duty the entries that fulfilled it", () => {
    expect(at(room.replace("every   7 d clean", "ever¦y   7 d clean") + days)).toEqual([
      "days.tank 4: @rack      clean",
      "days.tank 23: dam        clean",
      "room.tank 14: every   7 d clean",
    ]);
    expect(at(room + days.replace("dam        clean", "dam        cl¦ean"), false)).toEqual([
      "days.tank 4: @rack      clean",
      "days.tank 23: dam        clean",
    ]);
  });

  test("of a lot that is a text", () => {
    expect(at(room + days.replace('3 lot "a 17"', '3 lot "a¦ 17"'))).toEqual([
      "days.tank 15: a 17",
      "days.tank 16: a 17",
    ]);
  });
});

describe("highlights", () => {
  test("of a name in this file, written where it is defined", () => {
    const { view, offset } = atCursor(room.replace("tank r1", "tank r¦1") + days);
    expect(
      highlightsAt(view, offset).map((each) => `${view.source.text.slice(each.start, each.end)} ${each.is}`),
    ).toEqual(["r1 write", "r1 read"]);
  });
});

test("CRLF moves nothing", () => {
  const { view, offset } = atCursor(
    (room + days.replace("-> r2", "-> r¦2")).replace(/\n/g, "\r\n").replaceAll("---\r\n", "---\n"),
  );
  expect(nameAt(view, offset)).toMatchObject({ name: "r2", sort: "tank" });
  expect(shown(view, definitionsAt(view, offset))).toEqual(["room.tank 18: r2"]);
});
