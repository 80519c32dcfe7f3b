// What the cords carry. Every caution of the answer is shown with it.
import type { JSX } from "preact";
import type { LoadReport } from "../api/types";
import { Icon } from "../parts/Icon";
import { Num } from "../parts/Num";
import { system } from "../state/prefs";
import { force, mass } from "../units";
import { lit } from "./state";

const VERDICTS: Record<LoadReport["verdict"], string> = {
  enough: "By these figures the cord is strong enough.",
  "not enough": "By these figures the cord is not strong enough.",
  "nothing hangs": "Nothing hangs from it.",
  "not known": "What it carries is not known.",
};

export function LoadBlock({ load }: { load: LoadReport }): JSX.Element {
  const { weakest } = load;
  const bad = load.verdict === "not enough" || load.verdict === "not known";
  return (
    <section class="block">
      <h2>Load</h2>
      <p class={`verdict ${bad ? "bad" : "good"}`}>
        {bad && <Icon sign="warn" />}
        {VERDICTS[load.verdict]}
      </p>
      {load.doubts.map((d) => <p class="hint" key={d}>{d}</p>)}
      <dl class="figures">
        <div><dt>All that hangs</dt><dd><Num>{mass(load.weight_g, system.value)}</Num></dd></div>
        {load.factor !== null && (
          <div>
            <dt>Strength over load, weakest place</dt>
            <dd><Num>{`${load.factor.toFixed(1)} ×`}</Num></dd>
          </div>
        )}
        {load.factor !== null && <div><dt>Asked for</dt><dd>{load.asked.toFixed(0)} ×</dd></div>}
      </dl>
      {weakest && (
        <p
          class="small"
          onPointerEnter={() => { lit.value = [weakest.strand]; }}
          onPointerLeave={() => { lit.value = null; }}
        >
          Weakest: {weakest.place}, {force(weakest.bumped_n, system.value)} when bumped.
        </p>
      )}
      {load.remedies.length > 0 && bad && (
        <ul class="remedies">{load.remedies.map((r) => <li key={r.text}>{r.text}</li>)}</ul>
      )}
      <details open>
        <summary>Cautions</summary>
        <ul class="cautions">{load.cautions.map((c) => <li key={c}>{c}</li>)}</ul>
      </details>
    </section>
  );
}
