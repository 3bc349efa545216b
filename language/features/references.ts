import { definitionOf } from "./definition.ts";
import { dutiesAt, entriesOf } from "./duty-entries.ts";
import { nameAt, usesOf } from "./names.ts";
import { type Location, locationOf, type View } from "./view.ts";

/**
 * Where else what stands at an offset is spoken of: every place of a name, over all files; of a duty, or of the word of an entry that
 * fulfils one, the entries that did.
 */
export function referencesAt(view: View, offset: number, withDefinition = true): Location[] {
  const named = nameAt(view, offset);
  if (named !== undefined) {
    const places = usesOf(view.checked, named).map(locationOf);
    if (withDefinition) return places;
    const [given] = definitionOf(view, named);
    return places.filter((place) => place.path !== given?.path || place.start !== given.start);
  }
  const duties = dutiesAt(view, offset);
  const done = entriesOf(view, duties).map((each) => each.place);
  const stated = withDefinition ? duties.map((duty) => locationOf(duty.place)) : [];
  return inOrder([...stated, ...done]);
}

/** Each place once, in order of files and offsets. */
function inOrder(places: readonly Location[]): Location[] {
  const byKey = new Map(places.map((place) => [`${place.path} ${place.start}`, place]));
  return [...byKey.values()].sort(
    (a, b) => (a.path === b.path ? 0 : a.path < b.path ? -1 : 1) || a.start - b.start,
  );
}
