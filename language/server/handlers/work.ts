import { calculationPage } from "../../calculations/page.ts";
import { calculationOf } from "../../calculations/registry.ts";
import { calculationItems, workOut } from "../../features/work-out.ts";
import type { Group } from "../group.ts";
import { calculationPageRequest, calculationsRequest, workRequest } from "../protocol.ts";
import { answer } from "./own-requests.ts";

/** Calculations: which there are, what they answer, their pages. */
export const work: Group = {
  capabilities: () => ({}),
  serve(session) {
    answer(session, calculationsRequest, [], calculationItems);
    answer(session, workRequest, null, ({ calculation, given, uri, position, tank }) => {
      const of = calculationOf(calculation);
      if (of === undefined) return null;
      const looked = uri === undefined ? undefined : session.look(uri);
      if (looked === undefined) return workOut(of, given, undefined);
      const { view, document } = looked;
      const offset = position === undefined ? undefined : document.offsetAt(position);
      return workOut(of, given, { view, offset, tank });
    });
    answer(session, calculationPageRequest, null, ({ name }) => {
      const of = calculationOf(name);
      return of === undefined ? null : calculationPage(of);
    });
  },
};
