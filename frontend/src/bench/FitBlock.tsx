// Whether what is held sits in the piece, and where everything comes.
import type { JSX } from "preact";
import type { FitReport } from "../api/types";
import { Icon } from "../parts/Icon";
import { Num } from "../parts/Num";
import { system } from "../state/prefs";
import { length, sentence } from "../units";
import { set } from "../state/bench";
import { written } from "../units";

export function FitBlock({ fit }: { fit: FitReport }): JSX.Element {
  const of = (mm: number): string => length(mm, system.value);
  return (
    <section class="block">
      <h2>The {fit.holds}</h2>
      <p class={`verdict ${fit.fits ? "good" : "bad"}`}>
        {!fit.fits && <Icon sign="warn" />}
        {fit.fits ? `The ${fit.holds} sits in it.` : `The ${fit.holds} does not sit as it should.`}
      </p>
      {fit.troubles.map((t) => (
        <p class="hint" key={t.kind}>{t.what} {sentence(t.remedy)}</p>
      ))}
      {fit.lengthen.map((l) => (
        <p class="hint" key={l.size}>
          <button
            type="button"
            class="mend"
            onClick={() => void set(`sizes.${l.size}`, written(l.at_least_mm, system.value))}
          >
            Make {l.size} {of(l.at_least_mm)}
          </button>{" "}
          (now {of(l.now_mm)}) and it would sit.
        </p>
      ))}
      <dl class="figures">
        <div><dt>Its base, below the top</dt><dd><Num>{of(fit.base.below_hook_mm)}</Num></dd></div>
        <div><dt>Its rim, below the top</dt><dd><Num>{of(fit.rim.below_hook_mm)}</Num></dd></div>
        {fit.lowest.above_floor_mm !== null && (
          <div><dt>Lowest end, above the floor</dt><dd><Num>{of(fit.lowest.above_floor_mm)}</Num></dd></div>
        )}
        <div><dt>Largest opening</dt><dd><Num>{of(fit.gap.across_mm)}</Num></dd></div>
      </dl>
      {fit.remarks.map((r) => <p class="soft small" key={r}>{r}</p>)}
    </section>
  );
}
