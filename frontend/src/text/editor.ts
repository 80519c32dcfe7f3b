// The editor for the plan's text. It lives in a shadow root, because only there does it bring its
// styles as sheets of their own, which the page's policy allows; it knows nothing of the server.
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { yaml } from "@codemirror/lang-yaml";
import { HighlightStyle, indentOnInput, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { type Diagnostic, lintGutter, setDiagnostics } from "@codemirror/lint";
import { Annotation, EditorState, type Text } from "@codemirror/state";
import {
  drawSelection,
  EditorView,
  highlightActiveLine,
  highlightActiveLineGutter,
  keymap,
  lineNumbers,
} from "@codemirror/view";
import { tags } from "@lezer/highlight";
import type { Problem } from "../api/types";

export interface Editor {
  text(): string;
  /** Take over another text, keeping the cursor where the words around it are the same. */
  replace(text: string): void;
  problems(problems: readonly Problem[]): void;
  show(line: number, column: number): void;
  destroy(): void;
}

const fromOutside = Annotation.define<boolean>();

const look = EditorView.theme({
  "&": { height: "100%", fontSize: "14px", color: "var(--ink)", backgroundColor: "transparent" },
  ".cm-scroller": { fontFamily: "var(--mono)", lineHeight: "1.55" },
  ".cm-content": { caretColor: "var(--ink)", padding: "10px 0" },
  "&.cm-focused": { outline: "none" },
  "&.cm-focused .cm-cursor": { borderLeftColor: "var(--ink)", borderLeftWidth: "2px" },
  ".cm-gutters": { backgroundColor: "transparent", color: "var(--soft)", border: "none" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "var(--wash)" },
  ".cm-selectionBackground, &.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground":
    { backgroundColor: "var(--accent-soft)" },
  ".cm-lintRange-error": {
    backgroundImage: "none",
    textDecoration: "underline wavy var(--bad)",
    textUnderlineOffset: "3px",
  },
  ".cm-lintRange-warning": { backgroundImage: "none", borderBottom: "2px dotted var(--warn)" },
  ".cm-lint-marker-error": { content: "none" },
  ".cm-lint-marker": {
    width: "9px", height: "9px", borderRadius: "50%", margin: "6px 2px",
    backgroundColor: "var(--bad)", content: "none",
  },
  ".cm-lint-marker-warning": { backgroundColor: "var(--warn)" },
  ".cm-tooltip": {
    backgroundColor: "var(--paper)", color: "var(--ink)", border: "1px solid var(--line)",
    borderRadius: "8px", boxShadow: "var(--shadow)", fontFamily: "var(--sans)", maxWidth: "34em",
  },
  ".cm-diagnostic-error": { borderLeft: "4px solid var(--bad)" },
  ".cm-diagnostic": { padding: "6px 10px" },
});

const marks = HighlightStyle.define([
  { tag: tags.comment, color: "var(--soft)", fontStyle: "italic" },
  { tag: [tags.definition(tags.propertyName), tags.propertyName], color: "var(--accent)" },
  { tag: [tags.string, tags.content], color: "var(--ink)" },
  { tag: tags.number, color: "var(--glow-text)" },
  { tag: [tags.separator, tags.squareBracket, tags.brace], color: "var(--soft)" },
]);

export function createEditor(host: HTMLElement, text: string, typed: (text: string) => void): Editor {
  const root = host.shadowRoot ?? host.attachShadow({ mode: "open" });
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(":host { display: block; height: 100%; min-height: 0; overflow: hidden; }");
  root.adoptedStyleSheets = [sheet];
  const view = new EditorView({
    root,
    parent: root,
    state: EditorState.create({
      doc: text,
      extensions: [
        lineNumbers(), lintGutter(), history(), drawSelection(), highlightActiveLine(),
        highlightActiveLineGutter(), indentOnInput(), indentUnit.of("  "), yaml(),
        syntaxHighlighting(marks), look, EditorView.lineWrapping,
        // Tab goes on to the next control, as everywhere on the page.
        keymap.of([...defaultKeymap, ...historyKeymap]),
        EditorView.contentAttributes.of({ "aria-label": "Plan as text", spellcheck: "false", tabindex: "0" }),
        EditorView.updateListener.of((update) => {
          if (!update.docChanged || update.transactions.some((t) => t.annotation(fromOutside))) return;
          typed(update.state.doc.toString());
        }),
      ],
    }),
  });
  return {
    text: () => view.state.doc.toString(),
    replace(next) {
      const changes = difference(view.state.doc.toString(), next);
      if (changes) view.dispatch({ changes, annotations: fromOutside.of(true) });
    },
    problems(problems) {
      const found = problems.flatMap((p) => diagnostic(view.state.doc, p));
      view.dispatch(setDiagnostics(view.state, found));
    },
    show(line, column) {
      const { doc } = view.state;
      const at = doc.line(Math.min(Math.max(1, line), doc.lines));
      const anchor = Math.min(at.to, at.from + column - 1);
      view.dispatch({
        selection: { anchor },
        effects: EditorView.scrollIntoView(anchor, { y: "center" }),
      });
      view.focus();
    },
    destroy() {
      view.destroy();
    },
  };
}

/** What lies between the beginning and the end that two texts share. */
function difference(before: string, after: string): { from: number; to: number; insert: string } | null {
  if (before === after) return null;
  let from = 0;
  const least = Math.min(before.length, after.length);
  while (from < least && before[from] === after[from]) from++;
  let same = 0;
  while (same < least - from && before.at(-1 - same) === after.at(-1 - same)) same++;
  return { from, to: before.length - same, insert: after.slice(from, after.length - same) };
}

function diagnostic(doc: Text, problem: Problem): Diagnostic[] {
  if (problem.line === null || problem.line > doc.lines) return [];
  const line = doc.line(problem.line);
  const from = Math.min(line.to, line.from + Math.max(0, (problem.column ?? 1) - 1));
  const word = /^[^\s,:}\]]+/.exec(doc.sliceString(from, line.to))?.[0].length ?? 0;
  return [{
    from,
    to: Math.max(from, Math.min(line.to, from + Math.max(1, word))),
    severity: problem.level,
    message: problem.remedy ? `${problem.what}\nTry this: ${problem.remedy}` : problem.what,
  }];
}
