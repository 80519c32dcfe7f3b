// A cutting plan in tables: spools, weights, costs.
import type { JSX } from "preact";
import type { Supplied } from "../api/types";
import { system } from "../state/prefs";
import { length, mass } from "../units";

type Report = Supplied["report"];
type Cord = Report["cords"][number];
type Pieces = Cord["missing"];

const ENDS: Record<Cord["end"], string> = {
  proved: "",
  time: " Time ran out before that was settled.",
  size: " There are too many ways to cut for it to be settled.",
};

function listed(pieces: Pieces): string {
  return pieces.map((p) => `${p.count} × ${p.id} ${length(p.length_mm, system.value)}`).join(", ");
}

export function Plan({ cord }: { cord: Cord }): JSX.Element {
  const mm = (value: number): string => length(value, system.value);
  return (
    <section class="shelf-kind">
      <h2>Cut {cord.cord}: {mm(cord.need_mm)}</h2>
      {cord.spools.length > 0 && (
        <div class="scroll" tabIndex={0} role="region" aria-label={`Spools of ${cord.cord}`}>
          <table class="things">
            <thead>
              <tr>
                <th scope="col">spool</th>
                <th scope="col">has</th>
                <th scope="col">cut</th>
                <th scope="col">leaves</th>
              </tr>
            </thead>
            <tbody>
              {cord.spools.map((s) => (
                <tr key={`${s.id} ${s.number}`}>
                  <th scope="row">{s.bought ? `buy ${s.id}, number ${s.number}` : s.id}</th>
                  <td>{mm(s.length_mm)}</td>
                  <td>{listed(s.pieces)}</td>
                  <td>{s.rest_mm ? mm(s.rest_mm) : "nothing"}{s.kept ? ", keep it" : ""}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {cord.missing.length > 0 && (
        <p class="failed">
          Not enough: {listed(cord.missing)} cannot be cut.
          {cord.spools.length === 0 && " Choose which cord of the shelf it is, or say what can be bought."}
        </p>
      )}
      {cord.spools.length > 0 && (
        <p class="soft">
          Lost {mm(cord.lost_mm)}, kept {mm(cord.kept_mm)}.{" "}
          {cord.proved
            ? "No plan can be better."
            : `A better plan could save ${(100 * cord.gap).toPrecision(2)} % of the cord at most.${ENDS[cord.end]}`}
        </p>
      )}
    </section>
  );
}

export function Weights({ report }: { report: Report }): JSX.Element {
  const { weight, fittings } = report;
  const grams = (g: number | null): string => (g === null ? "not known" : mass(g, system.value));
  return (
    <section class="shelf-kind">
      <h2>In each kit</h2>
      <table class="things">
        <tbody>
          <tr><th scope="row">cord</th><td>{grams(weight.cord_g)}</td></tr>
          {fittings.map((f, i) => (
            <tr key={i}>
              <th scope="row">{f.sort}</th>
              <td>
                {f.measures_mm.map((m) => length(m, system.value)).join(" and ")};{" "}
                {f.on_shelf === null ? "not on the shelf"
                  : `${f.needed} of “${f.on_shelf}”, of which there ${f.count === 1 ? "is" : "are"} ${f.count}`}
                {f.on_shelf !== null && f.short > 0 && `, ${f.short} too few`}
              </td>
            </tr>
          ))}
          <tr><th scope="row">fittings and packing</th><td>{grams(weight.things_g)}</td></tr>
          <tr class="sum"><th scope="row">together</th><td>{grams(weight.gross_g)}</td></tr>
          {weight.box_mm && (
            <tr>
              <th scope="row">a box of {weight.box_mm.map((m) => length(m, system.value)).join(" × ")}</th>
              <td>is charged as {grams(weight.volumetric_g)}</td>
            </tr>
          )}
        </tbody>
      </table>
    </section>
  );
}

export function Costs({ price }: { price: NonNullable<Report["price"]> }): JSX.Element {
  const last = [
    ["all kits", price.total], ["one kit", price.per_kit],
    ["wholesale", price.wholesale], ["retail", price.retail],
  ] as const;
  return (
    <section class="shelf-kind">
      <h2>Costs, {price.currency}</h2>
      <table class="things sums">
        <tbody>
          {price.lines.map((line) => (
            <tr key={line.what}><th scope="row">{line.what}</th><td>{line.amount}</td></tr>
          ))}
          {last.map(([what, amount]) => (
            <tr key={what} class="sum"><th scope="row">{what}</th><td>{amount}</td></tr>
          ))}
        </tbody>
      </table>
      <p class="soft small">
        {price.break_even === null
          ? `At ${price.asked} a kit, what is spent once is never earned back.`
          : `At ${price.asked} a kit, ${price.break_even} sold earn back what is spent once.`}
      </p>
      {price.unpriced.length > 0 && (
        <p class="soft small">Without a price, and not in these sums: {price.unpriced.join(", ")}.</p>
      )}
    </section>
  );
}
