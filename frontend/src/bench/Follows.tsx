// What follows from the plan, beside the piece: it changes as anything changes.
import type { JSX } from "preact";
import type { CordReport, Numbers } from "../api/types";
import { Num } from "../parts/Num";
import { cancel, doc, hanging, link, numbers, progress, refresh, stopped } from "../state/bench";
import { system } from "../state/prefs";
import { address } from "../state/route";
import { diameter, length, mass, roughly, sentence } from "../units";
import { FitBlock } from "./FitBlock";
import { LoadBlock } from "./LoadBlock";
import { held, lit, strandsOf, strandsLit } from "./state";

export function Follows(): JSX.Element {
  const now = numbers.value;
  if (!now) {
    const broken = doc.value && !doc.value.good_revision;
    return (
      <p class="soft pad" role="status">
        {broken ? "Figures come as soon as the plan can be worked." : "Working it out …"}
      </p>
    );
  }
  const stale = link.value === "lost" || !doc.value?.good;
  return (
    <div class={`follows${stale ? " stale" : ""}`}>
      {!doc.value?.good && (
        <p class="hint">The plan has a mistake. These figures are of the last state without one.</p>
      )}
      <Cuts now={now} />
      <Whole now={now} />
      {hanging.value?.fit && <FitBlock fit={hanging.value.fit} />}
      {hanging.value?.load && <LoadBlock load={hanging.value.load} />}
      {hanging.value?.problems.map((p) => (
        <p class="hint" key={p.what}>{p.what} {sentence(p.remedy)}</p>
      ))}
      <Progress />
    </div>
  );
}

function Cuts({ now }: { now: Numbers }): JSX.Element {
  const several = now.cut.kinds.length > 1;
  return (
    <section class="block">
      <header class="row">
        <h2>Cut</h2>
        <a href={address({ room: "lesson" })}>To print</a>
      </header>
      <table class="cuts">
        <thead>
          <tr>
            <th scope="col"><span class="sr">Name</span></th>
            <th scope="col">How many</th>
            <th scope="col">How long</th>
            <th scope="col">Fold</th>
          </tr>
        </thead>
        <tbody>
          {now.cut.cords.map((cord) => (
            <CutRow key={cord.id} cord={cord} several={several} />
          ))}
        </tbody>
      </table>
      <ul class="kinds">
        {now.cut.kinds.map((kind) => (
          <li key={kind.cord}>
            <span><i class="dot" ref={(i) => { paint(i, kind.cord); }} />{kind.cord}, {diameter(kind.diameter_mm, system.value)}</span>
            <Num>{roughly(kind.cut_mm, system.value)}</Num>
            <Num soft>{kind.weight_g === null ? "weight not known" : mass(kind.weight_g, system.value)}</Num>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The cord's own colour, set on the element itself: the page's policy allows no style in markup. */
function paint(on: HTMLElement | null, name: string): void {
  const rgb = doc.peek()?.outline?.cords.find((c) => c.name === name)?.rgb;
  if (on && rgb) on.style.setProperty("background-color", rgb);
}

function CutRow({ cord, several }: { cord: CordReport; several: boolean }): JSX.Element {
  const names = strandsOf(cord.id);
  const isHeld = held.value?.join() === names.join();
  const on = strandsLit.value?.some((n) => names.includes(n)) ?? false;
  const fold = cord.fold === "middle" ? "in the middle"
    : cord.fold === "none" ? "no fold"
    : cord.fold_mm ? `at ${length(cord.fold_mm[0], system.value)}` : "uneven";
  const spare = `${length(cord.spare_mm, system.value)} of each is spare`;
  return (
    <tr
      class={on ? "on" : ""}
      title={cord.already_cut ? "Already cut" : spare}
      onPointerEnter={() => { lit.value = names; }}
      onPointerLeave={() => { lit.value = null; }}
    >
      <th scope="row">
        <button
          type="button"
          class="letter"
          aria-pressed={isHeld}
          aria-label={`Cut ${cord.id}: show on the piece`}
          onFocus={() => { lit.value = names; }}
          onBlur={() => { lit.value = null; }}
          onClick={() => { held.value = isHeld ? null : names; }}
        >
          {cord.id}
        </button>
      </th>
      <td><Num>{`${cord.count}`}</Num>{several && <span class="soft"> {cord.cord}</span>}</td>
      <td><Num>{length(cord.length_mm, system.value)}</Num></td>
      <td class="soft">{fold}</td>
    </tr>
  );
}

function Whole({ now }: { now: Numbers }): JSX.Element {
  const { extent, cord_mass: cord, cut } = now;
  const row = (label: string, value: string | null): JSX.Element | null =>
    value === null ? null : (
      <div>
        <dt>{label}</dt>
        <dd><Num>{value}</Num></dd>
      </div>
    );
  const of = (mm: number | null): string | null => (mm === null ? null : length(mm, system.value));
  return (
    <section class="block">
      <h2>The piece</h2>
      <dl class="figures">
        {row("Length", of(hanging.value?.fit?.length_mm ?? extent.length_mm))}
        {row("Width", of(extent.width_mm))}
        {row("Knots", String(cut.knots))}
        {row("Cord to buy", roughly(cut.total_mm, system.value))}
        {row("Cord in it", roughly(cut.used_mm, system.value))}
        {row("Weight of the cord", cord ? mass(cord.g, system.value) : null)}
        {row("Cost of the cord", now.cost.amounts.length
          ? now.cost.amounts.map((a) => `${a.amount} ${a.currency}`).join(" + ") : null)}
      </dl>
      <Unpriced now={now} />
      {cut.warnings.map((w) => <p class="hint" key={w.what}>{w.what}</p>)}
    </section>
  );
}

/** Says plainly which cords have no price, and what to do about it. */
function Unpriced({ now }: { now: Numbers }): JSX.Element | null {
  const { amounts, unpriced } = now.cost;
  const named = (why: string): string =>
    unpriced.filter((u) => u.why === why).map((u) => u.cord).join(", ");
  const [none, other] = [named("no price"), named("not from the shelf")];
  if (!unpriced.length) return null;
  return (
    <p class="soft small">
      {amounts.length ? "Not in the cost: " : "The cost is not known: "}
      {none && `the shelf has no price for ${none}`}
      {none && other && "; "}
      {other && `the plan names no cord of your shelf for ${other}`}.
    </p>
  );
}

function Progress(): JSX.Element | null {
  const now = progress.value;
  if (link.value === "lost") return null;
  if (!now) return <Stopped />;
  return (
    <div class="progress" role="status">
      <span>{now.what}</span>
      <progress {...(now.share === null ? {} : { value: now.share })} max={1} aria-label={now.what} />
      <button type="button" class="quiet" onClick={cancel}>Stop</button>
    </div>
  );
}

/** After the maker stopped what took long: a way to have it after all. */
function Stopped(): JSX.Element | null {
  if (!stopped.value) return null;
  return (
    <div class="progress" role="status">
      <span>Stopped; not all of this is of the last change.</span>
      <button type="button" class="quiet" onClick={refresh}>Go on</button>
    </div>
  );
}
