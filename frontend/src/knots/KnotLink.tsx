// From a step of the plan to the knot that it ties.
import type { JSX } from "preact";
import type { Part } from "../api/types";
import { Icon } from "../parts/Icon";
import { address } from "../state/route";

const VERBS: Record<string, string> = {
  hitch: "double-half-hitch",
  gather: "gathering",
  mount: "larks-head",
};
const ROUND = ["square-knot", "half-knot", "half-hitch", "overhand"];

/** Name of the knot that a step ties, as the knot room has it; null for work without a knot. */
export function knotOf(step: Part): string | null {
  const value = (key: string): string | undefined =>
    step.values.find((v) => v.key === key)?.text.replaceAll('"', "").trim();
  const tied = value("tie") ?? VERBS[step.verb];
  if (step.verb === "braid") return `braid-n${value("braid") ?? "3"}`;
  if (!tied) return null;
  const each = value("each");
  return each && /^\d+$/.test(each) && ROUND.includes(tied) ? `${tied}-n${each}` : tied;
}

export function KnotLink({ step, name }: { step: Part; name: string }): JSX.Element | null {
  const knot = knotOf(step);
  if (!knot) return null;
  return (
    <a class="knot-link" href={address({ room: "knots", item: knot })}>
      <Icon sign="rope" /> See this knot<span class="sr">: {name}</span>
    </a>
  );
}
