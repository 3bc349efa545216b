import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { TextDocument } from "vscode-languageserver-textdocument";
import type { Finding } from "../../language/checks/finding.ts";
import { Workspace } from "../../language/server/workspace.ts";
import { TestClient, uriOf } from "./client.ts";

const twoRooms = `--- cellar/room.tank ---
room "Cellar"
tank dam
  volume 300 L
--- cellar/2026-03.tank ---
2026-03-01
  dam change 30 %
  tub change 30 %
--- shed/room.tank ---
room "Shed"
tank tub
  volume 90 L
--- shed/2026-03.tank ---
2026-03-01
  tub change 30 %
  dam change 30 %
`;

describe("two rooms in one workspace", () => {
  test("know nothing of each other's tanks", async () => {
    const client = await TestClient.start(twoRooms);
    await client.open("cellar/2026-03.tank");
    await client.open("shed/2026-03.tank");
    expect(await client.found("cellar/2026-03.tank")).toEqual(["name/target at 2:2"]);
    expect(await client.found("shed/2026-03.tank")).toEqual(["name/target at 2:2"]);
    await client.stop();
  });

  test("become one when the inner room is no longer a room, and two again", async () => {
    const client = await TestClient.start(
      "--- room.tank ---\nroom\ntank dam\n  volume 9 L\n--- shed/room.tank ---\nroom\n2026-03-01\n  dam change 30 %\n",
    );
    await client.open("shed/room.tank");
    expect(await client.found("shed/room.tank")).toEqual(["name/target at 2:2"]);
    await client.edit("shed/room.tank", "room\n", "");
    expect(await client.found("shed/room.tank")).toEqual([]);
    await client.replace("shed/room.tank", 0, 0, "room\n");
    expect(await client.found("shed/room.tank")).toEqual(["name/target at 2:2"]);
    await client.stop();
  });
});

describe("a file", () => {
  test("counts as it is in the editor, and as it is stored when it is closed", async () => {
    const client = await TestClient.start(
      "--- a.tank ---\n2026-03-01\n  dam change 30 %\n--- b.tank ---\ntank dmm\n  volume 9 L\n",
    );
    await client.open("a.tank");
    expect(await client.found("a.tank")).toEqual(["name/target at 1:2"]);
    await client.open("b.tank");
    await client.edit("b.tank", "dmm", "dam");
    expect(await client.found("a.tank")).toEqual([]);
    await client.close("b.tank");
    // What is stored is asked for; the answer to a question after it comes after it.
    await client.pullAll();
    expect(await client.found("a.tank")).toEqual(["name/target at 1:2"]);
    await client.stop();
  });

  test("that another program changes is read again, unless it is open", async () => {
    const client = await TestClient.start(
      "--- a.tank ---\n2026-03-01\n  dam change 30 %\n--- b.tank ---\ntank dmm\n  volume 9 L\n",
    );
    await client.open("a.tank");
    await client.store("b.tank", "tank dam\n  volume 9 L\n");
    await client.store("a.tank", "");
    await client.pullAll();
    expect(await client.found("a.tank")).toEqual([]);
    expect(client.textOf("a.tank")).toContain("dam");
    await client.store("c.tank", "2026-03-02\n  dum change 30 %\n");
    await client.pullAll();
    await client.open("c.tank");
    expect(await client.found("c.tank")).toEqual(["name/target at 1:2"]);
    await client.stop();
  });

  test("that is not stored anywhere is a logbook of its own", async () => {
    const client = await TestClient.start("");
    await client.open("untitled:Untitled-1", "tank dam\n  volume 9 L\n2026-03-01\n  dam change 30 %\n");
    await client.open("untitled:Untitled-2", "2026-03-01\n  dam change 30 %\n");
    expect(await client.found("untitled:Untitled-1")).toEqual([]);
    expect(await client.found("untitled:Untitled-2")).toEqual(["name/target at 1:2"]);
    await client.close("untitled:Untitled-1");
    expect((await client.pullAll()).items.map(({ uri }) => uri)).toEqual(["untitled:Untitled-2"]);
    await client.stop();
  });

  test("is all there is to a client that gives no files", async () => {
    const client = await TestClient.start(twoRooms, { options: { givesFiles: false } });
    await client.open("shed/2026-03.tank");
    expect(await client.found("shed/2026-03.tank")).toEqual(["name/target at 1:2", "name/target at 2:2"]);
    expect(client.asked).not.toContain("standpipe/files");
    await client.stop();
  });

  test("counts columns in UTF-16 and lines however they end", async () => {
    const client = await TestClient.start("");
    await client.open(
      "a.tank",
      'tank dam\r\n  volume 9 L\r\n2026-03-01\r\n  dam note "🐟🐟 €"\r\n  dam chnge 30 %\r\n  08:00 dam note "🐟" x\r\n',
    );
    expect(await client.found("a.tank")).toEqual(["entry/kind at 4:6", "entry/unexpected at 5:22"]);
    await client.edit("a.tank", "🐟🐟 €", "🐟");
    await client.edit("a.tank", "chnge", "change");
    expect(await client.found("a.tank")).toEqual(["entry/unexpected at 5:22"]);
    await client.stop();
  });
});

const told = ({ code, block, start, end, message, severity }: Finding) =>
  [code, block.file.path, block.start + start, block.start + end, severity, message].join(" ");

function findingsOf(workspace: Workspace): string[] {
  return [...workspace.rooms.values()]
    .flatMap((checked) => checked.findings(workspace.worldDay).map(told))
    .sort();
}

describe("after any edits", () => {
  const lines = [
    "room",
    "tank dam",
    "  volume 100 L",
    "  limits nitrate <= 20",
    "  every 7 d change 30 %",
    "tank b1",
    "  volume 50 L",
    "2026-03-01",
    "2026-03-02",
    "2026-03-09",
    "  dam change 30 %",
    "  dam test nitrate 25",
    "  b1 test nitrate 5",
    "  b1 count guppy 5",
    "  dam move guppy 2 -> b1",
    "group all = dam, b1",
    "  @all change 20 %",
    "  sheet nitrate pH",
    "    dam 30 7",
    "junk",
    "",
    "species guppy",
  ];
  const text = fc.array(fc.constantFrom(...lines), { maxLength: 14 }).map((some) => some.join("\n"));
  const edit = fc.record({
    file: fc.constantFrom("a.tank", "b/c.tank"),
    at: fc.nat(300),
    length: fc.nat(40),
    text: fc.oneof(text, fc.constantFrom("\n", " ", "x", "2", '"')),
  });

  test("the findings are those of the same files read anew", () => {
    fc.assert(
      fc.property(text, text, fc.array(edit, { maxLength: 6 }), (a, b, edits) => {
        const edited = new Workspace();
        edited.setToday(20_530, false);
        edited.open(uriOf("a.tank"), 1, a);
        edited.open(uriOf("b/c.tank"), 1, b);
        edits.forEach(({ file, at, length, text: inserted }, index) => {
          const document = edited.document(uriOf(file))!;
          const end = document.getText().length;
          const range = {
            start: document.positionAt(Math.min(at, end)),
            end: document.positionAt(Math.min(at + length, end)),
          };
          edited.edit(uriOf(file), index + 2, [{ range, text: inserted }]);
          findingsOf(edited);
        });
        const fresh = new Workspace();
        fresh.setToday(20_530, false);
        for (const file of ["a.tank", "b/c.tank"])
          fresh.open(uriOf(file), 1, edited.files.get(uriOf(file))!.source.text);
        expect(findingsOf(edited)).toEqual(findingsOf(fresh));
        for (const [uri, { source }] of edited.files)
          expect(source.text).toBe((edited.document(uri) as TextDocument).getText());
      }),
      { numRuns: 200 },
    );
  });

  test("a text that is given whole is taken as the edit it is", () => {
    fc.assert(
      fc.property(text, text, (before, after) => {
        const edited = new Workspace();
        edited.open(uriOf("a.tank"), 1, before);
        findingsOf(edited);
        edited.edit(uriOf("a.tank"), 2, [{ text: after }]);
        const fresh = new Workspace();
        fresh.open(uriOf("a.tank"), 1, after);
        expect(findingsOf(edited)).toEqual(findingsOf(fresh));
      }),
      { numRuns: 100 },
    );
  });
});
