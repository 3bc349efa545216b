import type { Book } from "../book/book.ts";
import type { Body } from "../book/stations.ts";

/** What contacts are between, as small whole numbers: bodies of water by their own, all else as it is met. One table a book. */
export type ContactNode =
  | { readonly is: "water"; readonly body: Body }
  /** A gear or a word: all that is called so is one. */
  | { readonly is: "tool"; readonly name: string }
  /** A batch of prepared water: it gives and takes nothing. */
  | { readonly is: "barrel"; readonly name: string }
  /** What came at once: a lot, or what one supplier sent on one day. */
  | {
      readonly is: "consignment";
      readonly supplier: string;
      readonly lot: string;
      /** NaN for a lot. */
      readonly day: number;
      readonly isPlants: boolean;
    }
  /** Somebody outside: who bought, and who may send back. */
  | { readonly is: "party"; readonly name: string };

export class ContactNodes {
  private readonly nodes: ContactNode[];
  private readonly byKey = new Map<string, number>();

  constructor({ bodies }: Book) {
    this.nodes = bodies.map((body) => ({ is: "water", body }));
  }

  at(node: number): ContactNode {
    return this.nodes[node]!;
  }

  tool(name: string): number {
    return this.of(`tool ${name}`, { is: "tool", name });
  }

  barrel(name: string): number {
    return this.of(`barrel ${name}`, { is: "barrel", name });
  }

  party(name: string): number {
    return this.of(`party ${name}`, { is: "party", name });
  }

  /** @param day of animals of a lot it does not matter */
  consignment(supplier: string, lot: string, day: number, isPlants: boolean): number {
    const key = lot === "" ? `came ${day} ${isPlants} ${supplier}` : `lot ${lot}`;
    const on = lot === "" ? day : Number.NaN;
    return this.of(key, { is: "consignment", supplier, lot, day: on, isPlants });
  }

  private of(key: string, node: ContactNode): number {
    const known = this.byKey.get(key);
    if (known !== undefined) return known;
    const made = this.nodes.push(node) - 1;
    this.byKey.set(key, made);
    return made;
  }
}

const byBook = new WeakMap<Book, ContactNodes>();

export function nodesOf(book: Book): ContactNodes {
  const known = byBook.get(book);
  if (known !== undefined) return known;
  const made = new ContactNodes(book);
  byBook.set(book, made);
  return made;
}
