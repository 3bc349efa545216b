/**
 * Stands in for the served editor's log library, whose native part would have to be compiled: writes each line of an
 * output channel or log to its file at once. The editor loads it as `@vscode/spdlog`.
 */

const { appendFileSync, mkdirSync } = require("node:fs");
const { dirname } = require("node:path");

const LEVELS = ["trace", "debug", "info", "warn", "error", "critical"];

class Logger {
  #file;
  #level = 2;
  #isPlain = false;

  constructor(_type, _name, file) {
    this.#file = file;
    mkdirSync(dirname(file), { recursive: true });
  }

  getLevel() {
    return this.#level;
  }
  setLevel(level) {
    this.#level = level;
  }
  /** Plain: the message as it is, as output channels want it. */
  clearFormatters() {
    this.#isPlain = true;
  }
  setPattern() {}
  flush() {}
  drop() {}

  write(level, message) {
    if (level < this.#level) return;
    const time = new Date().toISOString().replace("T", " ").replace("Z", "");
    appendFileSync(this.#file, this.#isPlain ? message : `${time} [${LEVELS[level]}] ${message}\n`);
  }
}

for (const [level, name] of LEVELS.entries()) {
  Logger.prototype[name] = function (message) {
    this.write(level, message);
  };
}

const create = (name, file) => Promise.resolve(new Logger("rotating", name, file));

// One by one: the editor imports this file as an ES module, which finds names only in this form.
exports.Logger = Logger;
exports.createRotatingLogger = create;
exports.createAsyncRotatingLogger = create;
exports.setLevel = () => {};
exports.setFlushOn = () => {};
exports.version = 0;
