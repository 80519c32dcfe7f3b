// A knot's measures and the cord that it uses, for a cord as thick as the maker's.
import type { JSX } from "preact";
import type { Knot, KnotLength } from "../api/types";
import { Stepper } from "../parts/Stepper";
import { system } from "../state/prefs";
import { cordMm, setCord } from "./atlas";
import { motion } from "./player";
import { small, stepped, thick, thickness } from "./thickness";

const ROLES: Record<string, [string, string]> = {
  working: ["working cord", "working cords"],
  filler: ["filler", "fillers"],
  holding: ["holding cord", "holding cords"],
};

export function KnotFacts({ knot }: { knot: Knot }): JSX.Element {
  const units = system.value;
  return (
    <section class="knot-facts" aria-label="Measures">
      <div class="row">
        <h2>Measures</h2>
        <Stepper
          label="Cord"
          text={thick(cordMm.value, units)}
          about="How thick your cord is"
          stepped={(by) => thick(stepped(cordMm.value, by, units), units)}
          accept={(text) => {
            const mm = thickness(text, units);
            if (mm === null) return false;
            setCord(mm);
            return true;
          }}
        />
      </div>
      <table>
        <thead>
          <tr>
            <th scope="col"><span class="sr">What</span></th>
            <th scope="col">cords</th>
            <th scope="col">{thick(cordMm.value, units)} cord</th>
          </tr>
        </thead>
        <tbody>
          <Line name="Height" of={knot.height} />
          <Line name="Width" of={knot.width} />
          <Line name="Depth" of={knot.depth} />
          {knot.take_up.map((t) => (
            <Line key={t.role} name={`Used by ${used(t.role, t.strands, knot.take_up.length === 1)}`} of={t.each} />
          ))}
        </tbody>
      </table>
      {knot.twist_deg !== 0 && (
        <p class="soft small">Each next knot is turned by {Math.round(Math.abs(knot.twist_deg))}°.</p>
      )}
      <p class="soft small">
        One cord is its diameter. For round, firm cord pulled tight: soft cord flattens, hands
        differ, and a swatch says by how much.
      </p>
      <Legend />
    </section>
  );
}

function Line({ name, of }: { name: string; of: KnotLength }): JSX.Element {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{of.d.toFixed(2)}</td>
      <td>{small(of.mm, system.value)}</td>
    </tr>
  );
}

function used(role: string, strands: number, alike: boolean): string {
  const [one, many] = alike ? ["strand", "strands"] : (ROLES[role] ?? [role, role]);
  return strands === 1 ? `the ${one}` : `each of ${strands} ${many}`;
}

/** Which cord is which: by colour, by mark, and in words. */
function Legend(): JSX.Element | null {
  const cords = motion.value?.cords ?? [];
  const seen = new Map(cords.map((c) => [`${c.colour} ${c.mark} ${c.role}`, c]));
  if (!cords.length) return null;
  return (
    <ul class="knot-legend" aria-label="Which cord is which">
      {[...seen.values()].map((c) => (
        <li key={c.colour + c.role}>
          <i style={{ background: c.fill, borderColor: c.edge }} aria-hidden="true" />
          {c.fixed ? "Ring or rod" : (ROLES[c.role]?.[0] ?? c.role).replace(/^./, (l) => l.toUpperCase())}
          <span class="soft">{c.colour}{c.mark === "plain" ? "" : `, ${c.mark}`}</span>
        </li>
      ))}
    </ul>
  );
}
