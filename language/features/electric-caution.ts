import type { Gear } from "../book/stations.ts";

/** Kinds of gear that hang on a socket. */
const electric: ReadonlySet<string> = new Set(["filter", "heater", "pump", "lamp", "air", "uv", "feeder"]);

export const isElectric = ({ sort }: Gear): boolean => electric.has(sort);

/** *Common practice, no source.* */
export const electricCaution =
  "Electricity and wet hands: pull the plug before a hand goes into the water, let each lead hang in a loop below its socket, and test the residual current device by its button.";
