import { type Command, jsonOption } from "../command.ts";

export const importCommand: Command = {
  word: "import",
  takes: "FILE|- [DIR]",
  summary: "readings from a spreadsheet, a meter or a probe into the log",
  about:
    "Proposes from heads and values what the columns of a table are, and asks what the table leaves open: the order of a date, a unit, whether " +
    "nitrate is counted as nitrogen, which tank it is of. Nothing is imported before all is answered, by --answer or by a mapping. Importing again adds " +
    "only what is new; a figure that differs from the log's is reported and not written. Dates may stand in a column, in columns of year, month and day, once " +
    "over several rows, or as heads with a row a tank or a parameter. Every row is imported, skipped or rejected; rejected rows go " +
    "to a file beside the log, with their lines and reasons. Of a dense series the first reading of each 6 h is kept, and of a day the lowest and " +
    "highest beyond a limit of the tank.",
  options: [
    { name: "map", value: "FILE", doc: "the mapping to read the table by" },
    {
      name: "answer",
      value: "ID=VALUE",
      isMany: true,
      doc: "answers a question; may be given more than once",
    },
    {
      name: "write-map",
      value: "FILE",
      doc: "keep the mapping with its answers, for the next table of this kind",
    },
    { name: "dry-run", doc: "write nothing; tell what would be" },
    jsonOption,
  ],
  examples: [
    ["standpipe import probe.csv", "what it is taken for, and what is open"],
    [
      "standpipe import probe.csv --answer tank=dam --answer unit:Temp=C --write-map probe.map.json",
      "once answered",
    ],
    ["standpipe import probe-april.csv --map probe.map.json", "the next month"],
  ],
  // Loaded when it is called: a table needs what no other command does.
  run: async (call) => (await import("../import/run.ts")).runImport(call),
};
