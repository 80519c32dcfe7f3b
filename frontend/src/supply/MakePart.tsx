// What can be made of all pieces with what is on the shelf.
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { get } from "../api/http";
import type { Makeable, Making } from "../api/types";
import { Progress } from "../parts/Progress";
import { ended } from "../state/making";
import { address } from "../state/route";
import { shown, tried, worked } from "./state";

type Plan = Makeable["report"]["plans"][number];

const VERDICTS = { yes: "can be made", no: "not enough cord", "not found": "no way to cut it was found" };

export function MakePart(): JSX.Element {
  const [making, setMaking] = useState<Making | null>(null);
  const [plans, setPlans] = useState<Plan[] | null>(null);
  const begin = async (): Promise<void> => {
    const number = await worked("/api/makeable", {}, setMaking);
    if (number === null) return;
    const found = await tried(() => get<Makeable>(`/api/makeable/${number}`));
    if (found) setPlans(found.report.plans);
  };
  return (
    <section class="shelf-kind">
      <h2>What can I make?</h2>
      <p class="soft">
        Every one of your pieces is tried with the cord on the shelf; where there is too little, or
        enough for more, its sizes are tried too.
      </p>
      <p>
        <button type="button" class="main" disabled={making !== null && !ended(making)} onClick={() => void begin()}>
          Try all pieces
        </button>
      </p>
      {making && <Progress now={making} name="All pieces are being tried" />}
      {plans && (
        <table class="things">
          <thead>
            <tr><th scope="col">piece</th><th scope="col">as planned</th><th scope="col">with other sizes</th></tr>
          </thead>
          <tbody>
            {plans.map((p) => (
              <tr key={p.file}>
                <th scope="row"><a href={address({ room: "piece", piece: p.file })}>{p.title ?? p.file}</a></th>
                <td>{p.trouble ?? (p.fits ? VERDICTS[p.fits] : "")}</td>
                <td>{otherwise(p)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function otherwise(plan: Plan): string {
  if (plan.lacking.length) return `there is no ${plan.lacking.join(", no ")} on the shelf`;
  if (!plan.together) return plan.fits === "yes" || plan.fits === null ? "" : "not even at its least";
  const ways = [plan.together, ...plan.alone].map((way) =>
    way.sizes.map((s) => `${s.name} ${shown(s.value)}`).join(", "));
  return `${plan.fits === "yes" ? "as large as" : "fits with"} ${ways.join("; or ")}`;
}
