import type { DefinitionWord } from "../../syntax/blocks.ts";
import type { DefinitionKind } from "../property.ts";
import { food } from "./food.ts";
import { gear } from "./gear.ts";
import { group } from "./group.ts";
import { lot } from "./lot.ts";
import { order } from "./order.ts";
import { remedy } from "./remedy.ts";
import { room } from "./room.ts";
import { species } from "./species.ts";
import { system } from "./system.ts";
import { tank } from "./tank.ts";
import { water } from "./water.ts";

/** Every kind of definition; the compiler names one that is missing. */
export const definitionKinds: Readonly<Record<DefinitionWord, DefinitionKind>> = {
  room,
  water,
  system,
  tank,
  group,
  species,
  food,
  remedy,
  gear,
  lot,
  order,
};
