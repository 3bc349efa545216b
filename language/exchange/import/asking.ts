import { didYouMean, nearest } from "../../quantity/nearest.ts";
import { Refused } from "./refused.ts";

/** What a table leaves open is asked, and never guessed; what it settles can be answered otherwise. */

export interface Question {
  /** What an answer names: `unit:Temp`. */
  readonly id: string;
  readonly asks: string;
  /** What may be answered; empty where it is to be typed. */
  readonly choices: readonly string[];
  /** What speaks for an answer; empty where nothing does. */
  readonly hint: string;
  /** Another answer than the choices may be typed; false where what else is taken are other spellings of them. */
  readonly isTypedToo?: boolean;
  /** The column that it is about, from 1. */
  readonly column?: number;
  /** The word of a column that it is about. */
  readonly word?: string;
}

/** A question with what holds for now. */
export interface Decision extends Question {
  /** Undefined while it is open. */
  readonly value: string | undefined;
  /** Why the answer that was given is none; empty where it is one. */
  readonly problem: string;
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
  readonly decisions: Decision[] = [];
  readonly reasons: Reason[] = [];
  private readonly answers: Answers;
  readonly isLenient: boolean;
  private readonly used = new Set<string>();

  /** @param isLenient an answer that is none is told beside its question, and leaves it open; else `Refused` is thrown */
  constructor(answers: Answers, isLenient = false) {
    this.answers = answers;
    this.isLenient = isLenient;
  }

  /** What is open. */
  get questions(): Question[] {
    return this.decisions
      .filter(({ value }) => value === undefined)
      .map(({ value: _, problem: __, ...question }) => question);
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
    return this.decide(question, undefined, also, isFine);
  }

  /**
   * The same where the table says it itself: an answer by the name of the question or the number of the column goes before.
   * @param known what the table says; undefined where it leaves it open
   */
  decide(
    question: Question,
    known: string | undefined,
    also: string | readonly string[] = "",
    isFine?: (answer: string) => boolean,
  ): string | undefined {
    const { id, choices } = question;
    const names = [
      id,
      ...(typeof also === "string" ? [also] : also),
      id.includes(":") ? `${id.split(":")[0]!}:*` : "",
    ];
    const key = names.find(
      (each) =>
        each !== "" && this.answers.has(each) && (known === undefined || each === id || /:#\d+$/.test(each)),
    );
    const told =
      choices.length > 0 && isFine !== undefined && question.isTypedToo !== false
        ? { ...question, isTypedToo: true }
        : question;
    if (key === undefined) return this.settle(told, known);
    this.used.add(key);
    const answer = this.answers.get(key)!.trim();
    const own =
      choices.find((each) => each === answer) ??
      choices.find((each) => each.toLowerCase() === answer.toLowerCase());
    if (own !== undefined) return this.settle(told, own);
    let problem = "";
    if (choices.length > 0 && isFine === undefined)
      problem = `${key}=${answer}: the answers are ${choices.join(", ")}${didYouMean(nearest(answer, choices))}`;
    else if (isFine !== undefined && !isFine(answer))
      problem = `${key}=${answer} does not answer: ${question.asks}`;
    if (problem === "") return this.settle(told, answer);
    if (!this.isLenient) throw new Refused(problem);
    return this.settle(told, known, problem);
  }

  private settle(question: Question, value: string | undefined, problem = ""): string | undefined {
    if (!this.decisions.some(({ id }) => id === question.id))
      this.decisions.push({ ...question, value, problem });
    return value;
  }

  /** Makes a decision that nobody answered a question. Returns the answer that there is. */
  reopen(id: string, asks: string): string | undefined {
    const at = this.decisions.findIndex((each) => each.id === id);
    const decision = this.decisions[at];
    if (decision === undefined) return undefined;
    const names = [id, `parameter:#${decision.column}`, `${id.split(":")[0]!}:*`];
    const key = names.find((each) => this.answers.has(each));
    if (key === undefined) {
      this.decisions[at] = { ...decision, asks, value: undefined };
      return undefined;
    }
    this.used.add(key);
    const answer = this.answers.get(key)!.trim();
    this.decisions[at] = { ...decision, asks, value: answer };
    return answer;
  }

  /** An answer to what is not asked of its own accord; undefined if there is none. */
  given(...ids: readonly string[]): string | undefined {
    const id = ids.find((each) => this.answers.has(each));
    if (id === undefined) return undefined;
    this.used.add(id);
    return this.answers.get(id)!.trim();
  }

  /** @param but an answer that says no more than none does */
  hasAnswer(id: string, but = ""): boolean {
    const answer = this.answers.get(id)?.trim();
    if (answer === but) this.used.add(id);
    return answer !== undefined && answer !== but;
  }

  because(about: string, says: string, sureness: Reason["sureness"] = "sure"): void {
    this.reasons.push({ about, says, sureness });
  }

  /** Answers that nothing asked for. */
  get unasked(): string[] {
    return this.isLenient ? [] : [...this.answers.keys()].filter((key) => !this.used.has(key));
  }
}
