// From a step of the plan to the knots that it ties.
import type { JSX } from "preact";
import type { Part } from "../api/types";
import { Icon } from "../parts/Icon";
import { address } from "../state/route";

/** So many forms of a knot are offered; a fan of slanted hitches has many. */
const MOST = 4;

export function KnotLink({ step, name }: { step: Part; name: string }): JSX.Element | null {
  const shapes = step.shapes.slice(0, MOST);
  if (!shapes.length) return null;
  return (
    <p class="knot-links">
      {shapes.map((shape, i) => (
        <a key={shape} class="knot-link" href={address({ room: "knots", item: shape })}>
          {i === 0 && <Icon sign="rope" />}
          {shapes.length === 1 ? "See this knot" : i === 0 ? "See this knot: form 1" : `form ${i + 1}`}
          <span class="sr">: {name}</span>
        </a>
      ))}
    </p>
  );
}
