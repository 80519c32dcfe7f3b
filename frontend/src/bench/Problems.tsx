// What is wrong with the plan, where it is, and what to try.
import type { JSX } from "preact";
import type { Problem } from "../api/types";
import { Icon } from "../parts/Icon";
import { doc, tryProblems } from "../state/bench";
import { sentence } from "../units";
import { opened, showLine } from "./state";

export function Problems(): JSX.Element | null {
  const all = doc.value?.problems ?? [];
  const wrong = all.filter((p) => p.level === "error");
  const shown = wrong.length ? wrong : tryProblems.value;
  if (!shown.length) return null;
  return (
    <section class="problems" role="alert" aria-label="What is wrong">
      <ul>
        {shown.slice(0, 4).map((p) => <ProblemLine key={`${p.line} ${p.what}`} problem={p} />)}
      </ul>
      {shown.length > 4 && <p class="small">and {shown.length - 4} more, marked in the text</p>}
    </section>
  );
}

function ProblemLine({ problem }: { problem: Problem }): JSX.Element {
  const section = problem.path?.match(/^work\.\d+/)?.[0] ?? null;
  return (
    <li>
      <Icon sign="warn" />
      <div>
        <strong>{problem.what}</strong>
        {problem.remedy && <span> {sentence(problem.remedy)}</span>}
        <span class="row">
          {problem.line !== null && (
            <button type="button" class="link" onClick={() => { showLine(problem.line, problem.column); }}>
              Line {problem.line} of the text
            </button>
          )}
          {section && (
            <button type="button" class="link" onClick={() => { opened.value = section; }}>
              Open the section
            </button>
          )}
        </span>
      </div>
    </li>
  );
}
