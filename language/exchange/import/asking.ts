import { didYouMean, nearest } from "../../quantity/nearest.ts";
import { Refused } from "./refused.ts";

/** What a table leaves open is asked, and never guessed. */

export interface Question {
  /** What an answer names: `unit:Temp`. */
  readonly id: string;
  readonly asks: string;
  /** What may be answered; empty where it is to be typed. */
  readonly choices: readonly string[];
  /** What speaks for an answer; empty where nothing does. */
  readonly hint: string;
  /** Another answer than the choices may be typed. */
  readonly isTypedToo?: boolean;
}

/** Why a column is taken as what it is. */
export interface Reason {
  /** The head of a column, or `dates`, `tank`, `thin`. */
  readonly about: string;
  readonly says: string;
  readonly sureness: "sure" | "likely";
}

export type Answers = ReadonlyMap<string, string>;

/** Takes answers, and keeps what is still open. */
export class Asking {
  readonly questions: Question[] = [];
  readonly reasons: Reason[] = [];
  private readonly answers: Answers;
  private readonly used = new Set<string>();

  constructor(answers: Answers) {
    this.answers = answers;
  }

  /**
   * The answer to a question; undefined while it is open. `unit:*` answers all of a kind that have no answer of their own. Throws `Refused` for an
   * answer that is none of the choices.
   * @param also other names of it: of a column its number, and what it measures
   * @param isFine of what is to be typed, whether it can be
   */
  ask(
    question: Question,
    also: string | readonly string[] = "",
    isFine?: (answer: string) => boolean,
  ): string | undefined {
    const { id, choices } = question;
    const kind = id.split(":")[0]!;
    const key = [id, ...(typeof also === "string" ? [also] : also), id.includes(":") ? `${kind}:*` : ""].find(
      (each) => each !== "" && this.answers.has(each),
    );
    if (key === undefined) {
      if (!this.questions.some((each) => each.id === id))
        this.questions.push(
          choices.length > 0 && isFine !== undefined ? { ...question, isTypedToo: true } : question,
        );
      return undefined;
    }
    this.used.add(key);
    const answer = this.answers.get(key)!.trim();
    const own =
      choices.find((each) => each === answer) ??
      choices.find((each) => each.toLowerCase() === answer.toLowerCase());
    if (own !== undefined) return own;
    if (choices.length > 0 && isFine === undefined)
      throw new Refused(
        `${key}=${answer}: the answers are ${choices.join(", ")}${didYouMean(nearest(answer, choices))}`,
      );
    if (isFine !== undefined && !isFine(answer))
      throw new Refused(`${key}=${answer} does not answer: ${question.asks}`);
    return answer;
  }

  /** An answer to what is not asked of its own accord; undefined if there is none. */
  given(...ids: readonly string[]): string | undefined {
    const id = ids.find((each) => this.answers.has(each));
    if (id === undefined) return undefined;
    this.used.add(id);
    return this.answers.get(id)!.trim();
  }

  because(about: string, says: string, sureness: Reason["sureness"] = "sure"): void {
    this.reasons.push({ about, says, sureness });
  }

  /** Answers that nothing asked for. */
  get unasked(): string[] {
    return [...this.answers.keys()].filter((key) => !this.used.has(key));
  }
}
