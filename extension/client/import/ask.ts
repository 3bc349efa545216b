import * as vscode from "vscode";
import type { ImportProposal } from "../../../language/server/import-protocol.ts";

/** What an import asks, step by step, each with the way back. */

export type Answer = { readonly is: "answer"; readonly value: string } | { readonly is: "back" } | undefined;

export interface Step {
  readonly title: string;
  /** From 1. */
  readonly step: number;
  readonly steps: number;
}

/** Words of a table as the editor shows them: without its own marks for icons and links, in one line. */
export const shownWords = (words: string): string =>
  words
    .replace(/\p{Cc}+/gu, " ")
    .replaceAll("$(", "$ (")
    .replaceAll("](", "] (");

const longest = 40;
const shortened = (words: string): string =>
  words.length <= longest ? words : `${[...words].slice(0, longest - 1).join("")}…`;

type Question = ImportProposal["questions"][number];

/** @param problem why the answer before was none; empty the first time */
export function askQuestion(question: Question, step: Step, problem: string): Promise<Answer> {
  return question.choices.length === 0
    ? askInWords(question, step, problem)
    : askByChoices(question, step, problem);
}

/** What speaks for an answer, and what stands in the column. */
const reasonsOf = ({ hint, samples }: Question): string[] => [
  ...(hint === "" ? [] : [hint]),
  ...(samples.length === 0
    ? []
    : [vscode.l10n.t("it holds {0}", samples.map((each) => `“${shortened(each)}”`).join(", "))]),
];

function askInWords(question: Question, step: Step, problem: string): Promise<Answer> {
  const input = vscode.window.createInputBox();
  input.prompt = shownWords([question.asks, ...reasonsOf(question)].join(" · "));
  if (problem !== "") input.validationMessage = shownWords(problem);
  const changed = input.onDidChangeValue(() => {
    input.validationMessage = undefined;
  });
  return answered(input, step, () => {
    changed.dispose();
    const value = input.value.trim();
    return value === "" ? undefined : value;
  });
}

interface Choice extends vscode.QuickPickItem {
  readonly value?: string;
}

function askByChoices(question: Question, step: Step, problem: string): Promise<Answer> {
  const picker = vscode.window.createQuickPick<Choice>();
  const { asks, choices, isTypedToo = false } = question;
  picker.placeholder = shownWords(problem === "" ? asks : problem);
  const separator = (label: string): Choice => ({
    label: shownWords(label),
    kind: vscode.QuickPickItemKind.Separator,
  });
  picker.items = [
    ...(problem === "" ? [] : [separator(asks)]),
    ...reasonsOf(question).map(separator),
    ...choices.map((value) => ({
      label: shownWords(value),
      value,
      ...(value === "ignore" ? leftOut() : {}),
    })),
    ...(isTypedToo ? [separator(vscode.l10n.t("another answer may be typed"))] : []),
  ];
  return answered(picker, step, () => {
    const typed = picker.value.trim();
    return picker.selectedItems[0]?.value ?? (isTypedToo && typed !== "" ? typed : undefined);
  });
}

const leftOut = () => ({ description: vscode.l10n.t("leave it out") });

/** What each column is taken for, and why: the last look before the table is read by it. */
export function showColumns(proposal: ImportProposal, step: Step): Promise<Answer> {
  const picker = vscode.window.createQuickPick<Choice>();
  picker.placeholder = vscode.l10n.t("What the columns are taken for");
  const { columns, reasons, rows, said } = proposal;
  const rest = reasons.filter(({ about }) => !columns.some(({ head }) => head === about));
  const told = ({ says, sureness }: (typeof reasons)[number]): string =>
    shownWords(sureness === "likely" ? vscode.l10n.t("{0} (likely)", says) : says);
  picker.items = [
    {
      label: vscode.l10n.t("Go On"),
      description: shownWords([vscode.l10n.t("rows: {0}", rows), said].filter(Boolean).join(" · ")),
      value: "go",
    },
    { label: "", kind: vscode.QuickPickItemKind.Separator },
    ...columns.map(({ at, head, as, why }) => {
      const detail = [shownWords(why), ...reasons.filter(({ about }) => about === head).map(told)].filter(
        Boolean,
      );
      return {
        label: `#${at} ${shownWords(head)}`,
        description: shownWords(as),
        ...(detail.length === 0 ? {} : { detail: detail.join("; ") }),
      };
    }),
    ...rest.map((reason) => ({ label: shownWords(reason.about), description: told(reason) })),
  ];
  return answered(picker, step, () => picker.selectedItems[0]?.value);
}

/** A mapping that lies beside the log; empty where it shall be asked anew. */
export function pickMap(names: readonly string[], title: string): Thenable<string | undefined> {
  const items = [
    ...names.map((name) => ({
      label: shownWords(name),
      description: vscode.l10n.t("lies beside the log, and is for these columns"),
      name,
    })),
    { label: vscode.l10n.t("Ask Anew"), name: "" },
  ];
  const placeHolder = vscode.l10n.t("By which mapping?");
  return vscode.window.showQuickPick(items, { title, placeHolder }).then((picked) => picked?.name);
}

/** @param take undefined while nothing is chosen */
function answered(
  input: vscode.QuickPick<Choice> | vscode.InputBox,
  { title, step, steps }: Step,
  take: () => string | undefined,
): Promise<Answer> {
  input.title = title;
  input.step = step;
  input.totalSteps = steps;
  input.ignoreFocusOut = true;
  if (step > 1) input.buttons = [vscode.QuickInputButtons.Back];
  return new Promise((resolve) => {
    const end = (answer: Answer): void => {
      resolve(answer);
      input.hide();
    };
    input.onDidAccept(() => {
      const value = take();
      if (value !== undefined) end({ is: "answer", value });
    });
    input.onDidTriggerButton(() => end({ is: "back" }));
    input.onDidHide(() => {
      resolve(undefined);
      input.dispose();
    });
    input.show();
  });
}
