import { afterEach, describe, expect, test } from "vitest";
import { laboratorySheetRequest, sheetCasesRequest } from "../../language/server/protocol.ts";
import { TestClient, uriOf } from "./client.ts";

/** The laboratory sheet over the wire. */

const log = `--- room.tank ---
room "Cellar"
species praecox
tank q1
  volume 48 L
tank q2
--- 2026-03.tank ---
2026-03-01
  q2 sick praecox 1 case old
2026-03-02
  q2 close old recovered
2026-03-03
  q1 sick praecox 2 of 9 signs "flashing" case flukes-1
  q1 sample gill 2 case flukes-1
2026-03-04
  q1 sick praecox 1 case fins
`;

let client: TestClient;
afterEach(() => client.stop());

const uri = uriOf("2026-03.tank");
async function start(settings: unknown = {}): Promise<void> {
  client = await TestClient.start(log, { settings, today: "2026-03-09" });
  await client.open("2026-03.tank");
}

describe("the laboratory sheet", () => {
  test("is of a case to choose: open ones first, the one at the position known", async () => {
    await start();
    const cases = await client.ask(sheetCasesRequest, { uri, position: { line: 5, character: 6 } });
    expect(cases.map(({ name, closed, isHere }) => [name, closed, isHere])).toEqual([
      ["fins", null, false],
      ["flukes-1", null, true],
      ["old", "2026-03-02", false],
    ]);
    expect(cases[1]).toMatchObject({ since: "2026-03-03", tanks: ["q1"], samples: 1 });
    expect((await client.ask(sheetCasesRequest, { uri })).some(({ isHere }) => isHere)).toBe(false);
  });

  test("comes as Markdown or as a page, with the keeper from the settings", async () => {
    await start({ keeper: { name: "A <b>keeper</b>" } });
    const of = { uri, case: "flukes-1" };
    const markdown = await client.ask(laboratorySheetRequest, { ...of, form: "markdown" });
    expect(markdown).toContain("# Laboratory sheet: case flukes-1");
    expect(markdown).toContain("| Keeper | A \\<b\\>keeper\\</b\\> |");
    const page = await client.ask(laboratorySheetRequest, { ...of, form: "html" });
    expect(page).toContain("A &#60;b&#62;keeper");
  });

  test("there is none of a case that there is not", async () => {
    await start();
    expect(await client.ask(laboratorySheetRequest, { uri, case: "worms", form: "html" })).toBeNull();
    expect(await client.ask(sheetCasesRequest, { uri: uriOf("none.tank") })).toEqual([]);
  });
});
