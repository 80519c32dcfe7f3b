// The knot room: every knot of the atlas, turning, tied before one's eyes, and measured.
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import {
  chosen, cordMm, hand, knots, load, loadOther, missing, motionOf, other, problem, shown, told,
} from "../knots/atlas";
import { KnotFacts } from "../knots/KnotFacts";
import { KnotList } from "../knots/KnotList";
import { KnotStage } from "../knots/KnotStage";
import { KnotSteps } from "../knots/KnotSteps";
import { motion, show } from "../knots/player";
import { Icon } from "../parts/Icon";
import { tell } from "../state/notices";
import { address, route } from "../state/route";

export function Knots(): JSX.Element {
  const mm = cordMm.value;
  useEffect(() => void load(mm), [mm]);
  if (problem.value) return <p class="wait" role="alert">{problem.value}</p>;
  if (!knots.value) return <p class="wait" role="status">Opening the atlas …</p>;
  return (
    <div class="knots" data-open={route.value.item !== null}>
      <KnotList />
      <View />
    </div>
  );
}

function View(): JSX.Element {
  const [name, which] = [shown.value, hand.value];
  const knot = chosen.value;
  useEffect(() => {
    let wanted = true;
    motion.value = null;
    if (!knot) return;
    motionOf(name, which).then(
      (found) => { if (wanted) show(found); },
      (why: unknown) => { if (wanted) tell({ what: told(why), remedy: "" }); },
    );
    return () => { wanted = false; };
  }, [name, which, knot !== null]);
  const mm = cordMm.value;
  const asking = knot === null || other.value?.name === name;
  useEffect(() => { if (asking) void loadOther(name, mm); }, [name, mm, asking]);
  if (!knot) {
    return (
      <p class="wait" role="status">
        {missing.value || "Tightening this knot …"}
        <a href={address({ room: "knots" })}>See all knots</a>
      </p>
    );
  }
  const mirrored = which === "right";
  return (
    <article class="knot-view">
      <header>
        <a class="button knot-back" href={address({ room: "knots" })}>
          <Icon sign="back" /> All knots
        </a>
        <h1>{knot.title}</h1>
        <button
          type="button"
          aria-pressed={mirrored}
          title="Left and right change places: for left-handed makers, and to begin from the other side"
          onClick={() => { hand.value = mirrored ? "left" : "right"; }}
        >
          <Icon sign="mirror" /> Mirrored
        </button>
      </header>
      <KnotStage title={motion.value?.title ?? knot.title} />
      <KnotFacts knot={knot} />
      <KnotSteps />
    </article>
  );
}
