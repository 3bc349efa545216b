import { type Field, field } from "./field.ts";

/** Who sends a sample: personal, so it stands in settings and never in a log. Empty where it is not stated. */
export const keeperKeys = ["name", "address", "telephone", "email", "veterinarian", "registration"] as const;
export type KeeperKey = (typeof keeperKeys)[number];
export type Keeper = Readonly<Record<KeeperKey, string>>;

export const noKeeper: Keeper = {
  name: "",
  address: "",
  telephone: "",
  email: "",
  veterinarian: "",
  registration: "",
};

const titles: Readonly<Record<KeeperKey, string>> = {
  name: "Keeper",
  address: "Address",
  telephone: "Telephone",
  email: "E-mail",
  veterinarian: "Veterinarian",
  registration: "Registration of the room",
};

export const keeperFields = (keeper: Keeper): Field[] =>
  keeperKeys.map((key) =>
    field(titles[key], keeper[key], `setting standpipe.keeper.${key}, or “${key}” in the file of --keeper`),
  );
