import * as vscode from "vscode";
import type { CalculationItem, WorkedOut, WorkInput } from "../../../language/features/work-out.ts";
import {
  calculationPageRequest,
  calculationsRequest,
  type WorkParams,
  workRequest,
} from "../../../language/server/protocol.ts";
import { pickTank } from "../pick-tank.ts";
import { logEditor } from "../places.ts";
import type { Services } from "../services.ts";
import { write } from "./write-day.ts";

const scheme = "standpipe-calculation";

/**
 * Works a calculation out: a pick of calculations, then one list with what it takes, filled from the tank at the cursor, and what
 * follows, made anew at each change. All of it by keyboard; nothing is written before it is chosen.
 */
export function work(services: Services): vscode.Disposable {
  const pages: vscode.TextDocumentContentProvider = {
    provideTextDocumentContent: async ({ path }) =>
      (await services.ask(calculationPageRequest, { name: path.slice(1).replace(/\.md$/, "") })) ?? "",
  };
  return vscode.Disposable.from(
    vscode.workspace.registerTextDocumentContentProvider(scheme, pages),
    vscode.commands.registerCommand("standpipe.work.out", async (name?: unknown) => {
      const asked = typeof name === "string" ? name : await pickCalculation(services);
      if (asked !== undefined) await new Working(services, asked).run();
    }),
  );
}

async function pickCalculation({ ask }: Services): Promise<string | undefined> {
  const all = (await ask(calculationsRequest, null)) ?? [];
  const groups = [...new Set(all.map(({ group }) => group))];
  const item = ({ name, title, answers }: CalculationItem) => ({
    label: title,
    description: name,
    detail: answers,
  });
  const items: vscode.QuickPickItem[] = groups.flatMap((group) => [
    { label: group, kind: vscode.QuickPickItemKind.Separator },
    ...all.filter((each) => each.group === group).map(item),
  ]);
  const chosen = await vscode.window.showQuickPick(items, {
    title: vscode.l10n.t("Work Something Out"),
    placeHolder: vscode.l10n.t("Which calculation?"),
    matchOnDescription: true,
    matchOnDetail: true,
  });
  return chosen?.description;
}

interface Line extends vscode.QuickPickItem {
  /** What choosing it does; a line that only tells does nothing. */
  readonly act?: () => Promise<"again" | "done">;
  readonly input?: string;
}

/** One calculation at work: what was typed so far, and the tank that fills the rest. */
class Working {
  private readonly services: Services;
  private readonly calculation: string;
  private readonly given: Record<string, string> = {};
  private readonly place: Pick<WorkParams, "uri" | "position">;
  private tank: string | undefined;
  /** The input that was edited last: the list comes back at the next one. */
  private last: string | undefined;

  constructor(services: Services, calculation: string) {
    this.services = services;
    this.calculation = calculation;
    const editor = logEditor();
    const { code2ProtocolConverter: converter } = services.client;
    this.place =
      editor === undefined
        ? {}
        : {
            uri: converter.asUri(editor.document.uri),
            position: converter.asPosition(editor.selection.active),
          };
  }

  async run(): Promise<void> {
    for (;;) {
      const worked = await this.ask(this.given);
      if (worked === undefined) return;
      if (worked === null) {
        void vscode.window.showWarningMessage(
          vscode.l10n.t("There is no calculation “{0}”.", this.calculation),
        );
        return;
      }
      const chosen = await this.show(worked);
      if (chosen === undefined) return;
      if ((await chosen.act?.()) === "done") return;
    }
  }

  private ask(given: Readonly<Record<string, string>>): Promise<WorkedOut | null | undefined> {
    return this.services.ask(workRequest, {
      calculation: this.calculation,
      given,
      ...this.place,
      ...(this.tank === undefined ? {} : { tank: this.tank }),
    });
  }

  /** The list; resolves with the line that was chosen, undefined when it was left. */
  private show(worked: WorkedOut): Promise<Line | undefined> {
    const picker = vscode.window.createQuickPick<Line>();
    picker.title = worked.tank === "" ? worked.title : `${worked.title} · ${worked.tank}`;
    picker.placeholder = vscode.l10n.t("Enter changes a value, or does what a line says; Escape leaves");
    picker.ignoreFocusOut = true;
    picker.matchOnDescription = true;
    picker.items = [
      separator(vscode.l10n.t("from")),
      ...worked.inputs.map((input) => this.inputLine(input, worked)),
      separator(vscode.l10n.t("result")),
      ...resultLines(worked),
      separator(vscode.l10n.t("then")),
      ...this.actionLines(worked),
    ];
    const at = worked.inputs.findIndex(({ name }) => name === this.last);
    const missing = worked.inputs.find(({ isNeeded, text }) => isNeeded && text === "");
    const next = missing?.name ?? worked.inputs[at + 1]?.name;
    const active =
      at < 0 && missing === undefined
        ? undefined
        : picker.items.find(({ input, act }) =>
            next === undefined ? act !== undefined && input === undefined : input === next,
          );
    if (active !== undefined) picker.activeItems = [active];
    return new Promise((resolve) => {
      picker.onDidAccept(() => {
        const [line] = picker.selectedItems;
        if (line?.act === undefined) return;
        resolve(line);
        picker.hide();
      });
      picker.onDidHide(() => {
        resolve(undefined);
        picker.dispose();
      });
      picker.show();
    });
  }

  private inputLine(input: WorkInput, { problems }: WorkedOut): Line {
    const problem =
      input.text === "" ? undefined : problems.find((each) => each.input === input.name)?.message;
    const nothing = input.isNeeded ? vscode.l10n.t("needed") : vscode.l10n.t("none");
    const unit = input.text === "" && input.choices.length === 0 ? ` (${input.measured})` : "";
    const from = input.from === "" ? "" : ` · ${input.from}`;
    return {
      label: `$(edit) ${input.title}`,
      description: input.text === "" ? `${nothing}${unit}` : `${input.text}${from}`,
      ...(problem === undefined ? {} : { detail: `$(error) ${problem}` }),
      input: input.name,
      act: () => this.edit(input),
    };
  }

  private async edit(input: WorkInput): Promise<"again"> {
    const text = input.choices.length > 0 ? await this.choose(input) : await this.type(input);
    if (text === undefined) return "again";
    this.given[input.name] = text;
    this.last = input.name;
    return "again";
  }

  private choose({ title, choices, text }: WorkInput): Thenable<string | undefined> {
    const first = choices.filter((choice) => choice === text);
    return vscode.window.showQuickPick([...first, ...choices.filter((choice) => choice !== text)], {
      title,
      placeHolder: text,
      ignoreFocusOut: true,
    });
  }

  private type({ name, title, text, measured }: WorkInput): Thenable<string | undefined> {
    return vscode.window.showInputBox({
      title,
      value: text,
      prompt: vscode.l10n.t(
        "In {0}, or another unit of the log; a range 7.0..7.4, a step 0.5±0.25, or <0.25",
        measured,
      ),
      ignoreFocusOut: true,
      validateInput: async (typed) => {
        if (typed.trim() === "") return undefined;
        const worked = await this.ask({ ...this.given, [name]: typed });
        return worked?.problems.find((each) => each.input === name)?.message;
      },
    });
  }

  private actionLines(worked: WorkedOut): Line[] {
    const { services } = this;
    const lines = worked.lines.map(
      ({ is, shown, snippet }): Line => ({
        label:
          is === "note"
            ? vscode.l10n.t("$(note) Write as a Note into Today")
            : vscode.l10n.t("$(add) Write as an Entry into Today"),
        detail: shown,
        act: async () => {
          await write(services, "entry", snippet);
          return "done";
        },
      }),
    );
    const result = worked.figures.map(({ title, text }) => `${title} ${text}`).join("\n");
    if (result !== "")
      lines.push({
        label: vscode.l10n.t("$(copy) Copy the Result"),
        act: async () => {
          await vscode.env.clipboard.writeText(result);
          return "done";
        },
      });
    if (this.place.uri !== undefined)
      lines.push({
        label:
          worked.tank === ""
            ? vscode.l10n.t("$(arrow-swap) Fill from a Tank")
            : vscode.l10n.t("$(arrow-swap) Fill from Another Tank"),
        act: () => this.pickTank(worked.tank),
      });
    lines.push({
      label: vscode.l10n.t("$(book) Show the Page: Formula, Range, Source, Worked Example"),
      act: async () => {
        const page = vscode.Uri.from({ scheme, path: `/${this.calculation}.md` });
        await vscode.commands.executeCommand("markdown.showPreviewToSide", page);
        return "done";
      },
    });
    return lines;
  }

  private async pickTank(shown: string): Promise<"again"> {
    const { uri } = this.place;
    if (uri === undefined) return "again";
    const chosen = await pickTank(this.services, uri, {
      shown,
      mark: vscode.l10n.t("filled from now"),
      title: vscode.l10n.t("Fill From"),
      placeHolder: vscode.l10n.t("What was typed stays; the rest is taken from this tank"),
      ignoreFocusOut: true,
    });
    if (chosen !== undefined) this.tank = chosen;
    return "again";
  }
}

function resultLines({ figures, outside, problems, inputs, caution }: WorkedOut): Line[] {
  const told = problems.filter(({ input }) => !inputs.some(({ name }) => name === input));
  const lines: Line[] = [
    ...figures.map(({ title, text }): Line => ({ label: title, description: text, alwaysShow: true })),
    ...(outside === "" ? [] : [{ label: `$(circle-slash) ${outside}`, alwaysShow: true }]),
    ...told.map(({ message }): Line => ({ label: `$(error) ${message}`, alwaysShow: true })),
  ];
  if (lines.length === 0)
    lines.push({
      label: vscode.l10n.t("nothing yet: a value is missing, or does not read"),
      alwaysShow: true,
    });
  // A list cuts what is too long for it: a caution is read whole, or it is none.
  folded(caution).forEach((label, at) => {
    lines.push({ label: at === 0 ? `$(warning) ${label}` : label, alwaysShow: true });
  });
  return lines;
}

/** A text in lines that a list shows whole. */
function folded(text: string, width = 88): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ").filter((each) => each !== "")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

const separator = (label: string): Line => ({ label, kind: vscode.QuickPickItemKind.Separator });
