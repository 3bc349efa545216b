import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { signSites, signsIn, signVocabulary } from "../../language/book/signs.ts";

/** Signs as keepers write them, told by site. */

const told = (text: string): string[] =>
  signsIn(text).map(({ sign, grade, rest }) =>
    [sign === undefined ? "?" : `${sign.site}: ${sign.word}`, grade ?? "", rest].filter(Boolean).join(" | "),
  );

describe("signs of a text", () => {
  test.each([
    ["flashing, clamped fins", ["behaviour: flashing", "fins: clamped fins"]],
    ["cotton tuft at the mouth, eats", ["skin: cotton tufts | at the mouth", "? | eats"]],
    [
      "severe ulcer on the flank; Fast breathing",
      ["skin: ulcer | severe | on the flank", "breathing: fast breathing"],
    ],
    ["does not eat", ["behaviour: anorexia"]],
    ["no flashing any more", ["? | no flashing any more"]],
    ["one at the surface", ["behaviour: surface hanging | one"]],
    ["refusing food", ["behaviour: anorexia"]],
    ["a white spot", ["skin: white spots | a"]],
    [
      "flashing and severe gasping, pale",
      ["behaviour: flashing", "breathing: piping | severe", "skin: pale"],
    ],
    ["flashing and tired", ["behaviour: flashing | and tired"]],
    ["white ring", ["shell: white ring"]],
    ["pale gills", ["gills: pale gills"]],
    ["pale", ["skin: pale"]],
    [" , ,", []],
    ["resorely", ["? | resorely"]],
  ])("%s", (text, expected) => expect(told(text)).toEqual(expected));

  test("the longest phrase is meant: a thing said more exactly is not the thing said less exactly", () => {
    expect(told("worms hanging out of the vent")).toEqual(["vent: worms at the vent | of the vent"]);
    expect(told("lies on its side")).toEqual(["behaviour: listing"]);
  });

  test("nothing is lost: each part stands where it says", () => {
    const word = fc.constantFrom(
      ...signVocabulary.map(({ word }) => word),
      "eats",
      "x",
      " ",
      "severe",
      "no",
      "and",
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(word, fc.constantFrom(", ", "; ", " ", ",,"))), (parts) => {
        const text = parts.flat().join("");
        for (const { start, end, written } of signsIn(text)) expect(text.slice(start, end)).toBe(written);
        // An `and` between two signs parts them; one beside anything else stays with it.
        const words = (part: string): string[] =>
          part
            .trim()
            .split(/ and /)
            .flatMap((each) => each.trim() || []);
        const kept = signsIn(text).flatMap(({ written }) => words(written));
        expect(kept).toEqual(text.split(/[,;]/).flatMap(words));
      }),
    );
  });
});

describe("the vocabulary", () => {
  test("no phrase means two signs, and each is found as written", () => {
    const phrases = signVocabulary.flatMap(({ word, also }) => [word, ...also]);
    expect(phrases.filter((phrase, at) => phrases.indexOf(phrase) !== at)).toEqual([]);
    for (const sign of signVocabulary)
      for (const phrase of [sign.word, ...sign.also]) expect(signsIn(phrase)[0]?.sign, phrase).toBe(sign);
  });

  test("each site has signs, each sign a gloss", () => {
    for (const site of signSites) expect(signVocabulary.some((sign) => sign.site === site)).toBe(true);
    for (const { gloss } of signVocabulary) expect(gloss).not.toBe("");
  });
});
