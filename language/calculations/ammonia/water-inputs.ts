import { quantity } from "../calculation.ts";

/** What says how much of the ammonia of a water is free. */
export const ammoniaWater = {
  total: quantity("total ammonia", "mg/L N", [0, 1000], { from: "reading ammonia" }),
  pH: quantity("pH", "pH", [0, 14], { from: "reading pH" }),
  temperature: quantity("temperature", "C", [-5, 100], { from: "reading temperature" }),
  salinity: quantity("salinity", "g/kg", [0, 100], {
    otherwise: "0",
    alike: "g/L",
    from: "reading salinity",
  }),
};
