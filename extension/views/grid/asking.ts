import type * as z from "zod/mini";
import type { Question, ToHost } from "./messages.ts";

/** Questions to the host and their answers, which are checked before anybody sees them. */
export class Asking {
  private readonly post: (message: ToHost) => void;
  private readonly open = new Map<
    number,
    {
      readonly shape: z.ZodMiniType;
      take(answer: unknown): void;
      fail(why: string): void;
      readonly onShare: (share: number) => void;
    }
  >();
  private last = 0;

  constructor(post: (message: ToHost) => void) {
    this.post = post;
  }

  /** @param waiting is told how much of it is done, and given what gives it up */
  ask<Answer>(question: Question, shape: z.ZodMiniType<Answer>, waiting?: Waiting): Promise<Answer> {
    const ask = ++this.last;
    waiting?.begun(() => this.post({ say: "cancel", ask }));
    return new Promise<Answer>((resolve, reject) => {
      this.open.set(ask, {
        shape,
        take: (answer) => resolve(answer as Answer),
        fail: (why) => reject(new Failure(why)),
        onShare: (share) => waiting?.share(share),
      });
      this.post({ say: "ask", ask, question });
    });
  }

  answered(ask: number, answer: unknown): void {
    const asked = this.open.get(ask);
    this.open.delete(ask);
    if (asked === undefined) return;
    const read = asked.shape.safeParse(answer);
    if (read.success) asked.take(read.data);
    else {
      console.error(read.error);
      asked.fail("What the editor sent could not be read.");
    }
  }

  progressed(ask: number, share: number): void {
    this.open.get(ask)?.onShare(share);
  }

  failed(ask: number, why: string): void {
    this.open.get(ask)?.fail(why);
    this.open.delete(ask);
  }
}

export interface Waiting {
  begun(giveUp: () => void): void;
  /** From 0 to 1. */
  share(share: number): void;
}

/** In words for who looks at the grid. */
export class Failure extends Error {}

export const wordsOf = (error: unknown): string => {
  if (error instanceof Failure) return error.message;
  console.error(error);
  return "This failed.";
};
