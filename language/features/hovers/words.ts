import type { EntryKind } from "../../book/kind.ts";
import type { DefinitionKind, PropertyKind } from "../../book/property.ts";
import type { Slot } from "../../book/slots.ts";
import { bold, code, declared, list, paragraphs, plain } from "../markdown.ts";
import { signatureLabel, slotText } from "../signature-label.ts";
import { keptHover } from "./kept.ts";

/** Words of the format: what they mean and what stands behind them. */

export function kindHover(kind: EntryKind): string {
  return paragraphs(
    `${bold(kind.word)} · ${plain(kind.title)}`,
    declared(kind.doc),
    code(signatureLabel(kind, true)),
    list(kind.slots.map((slot) => `${code(slotText(slot))} ${declared(slot.doc)}`)),
    kind.duty ? "It can be a duty." : "",
    examples(kind.examples),
  );
}

export function sheetHover(): string {
  return paragraphs(
    `${bold("sheet")} · A round as a spreadsheet`,
    declared(
      "Heads once, then a row a tank, indented deeper. Heads are parameters (tests) or species (counts), with the unit of the column in brackets where it is not the usual one. `-` is not measured.",
    ),
    examples(["sheet temperature (F) pH nitrate"]),
  );
}

export function definitionHover({ word, title, doc, properties }: DefinitionKind): string {
  return paragraphs(
    `${bold(word)} · ${plain(title)}`,
    declared(doc),
    `It may say: ${properties.map((each) => code(each.word)).join(", ")}`,
  );
}

export function propertyHover(of: DefinitionKind, property: PropertyKind): string {
  return paragraphs(
    `${bold(property.word)} · ${plain(`of a ${of.word}`)}`,
    declared(property.doc),
    examples(property.examples),
  );
}

/** A word that stands for itself in a slot: `flow`, `found`. */
export function slotHover(signature: string, slot: Slot, word = ""): string {
  return paragraphs(
    `${bold(slot.name)} · ${plain(`of ${signature}`)}`,
    declared(slot.doc),
    keptHover(signature, slot.name, word),
  );
}

function examples(lines: readonly string[]): string {
  return lines.length === 0 ? "" : list(lines.map(code));
}
