import { type Scene, says } from "./scene.ts";

/** Net and siphon lie in chlorine on the first evening of each month; on the third the days on packs and bottles are looked over. */
export const hygiene: readonly Scene[] = Array.from({ length: 12 }, (_, at) => {
  const month = ((3 + at) % 12) + 1;
  const year = 2025 + Math.floor((3 + at) / 12);
  return `${year}-${String(month).padStart(2, "0")}-01`;
}).flatMap((on) => [
  ...["net", "siphon"].map((tool) => says(on, "20:40", tool, 'disinfect with "chlorine, 30 min, rinsed"')),
  says(on.replace(/01$/, "03"), "20:50", "room", "check remedies, foods, kits"),
]);
