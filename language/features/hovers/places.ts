import type { Place } from "../../book/stations.ts";
import { type Location, locationOf } from "../view.ts";

export const maybeAt = (place: Place | undefined): Location | null =>
  place === undefined ? null : locationOf(place);
