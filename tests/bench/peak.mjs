// Loaded before a measured program: tells the peak of its memory, in KiB, on the fourth pipe when it ends.
import { writeSync } from "node:fs";

process.on("exit", () => {
  writeSync(3, String(process.resourceUsage().maxRSS));
});
