// The cutting plan of the piece for one or several kits: what is cut from which spool, how good
// the plan is, what a kit weighs and costs; carried out on the shelf, and papers to print.
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { door, get, send } from "../api/http";
import type { Document, Making, Supplied, SupplyRequest, TakenAnswer } from "../api/types";
import { Words } from "../lesson/Wishes";
import { Progress } from "../parts/Progress";
import { change } from "../state/bench";
import { ended } from "../state/making";
import { say } from "../state/notices";
import { system } from "../state/prefs";
import { Costs, Plan, Weights } from "./PlanTables";
import { look, of, tried, worked } from "./state";

type Money = "currency" | "minutes" | "hourly" | "overhead" | "fixed" | "wholesale" | "retail";

const MONEY: readonly (readonly [Money, string])[] = [
  ["currency", "Currency, as in EUR"],
  ["minutes", "Minutes of work for a kit"],
  ["hourly", "An hour of work costs"],
  ["overhead", "Overhead, percent"],
  ["fixed", "Once for the run"],
  ["wholesale", "Wholesale: times the cost"],
  ["retail", "Retail: times wholesale"],
];

const START: SupplyRequest = {
  kits: 1, keep: "50cm", setup: "1cm", seconds: 10, in_kit: "ring,rod", maker: "", studio: "",
  minutes: "0", hourly: "0", overhead: "0", fixed: "0", wholesale: "2", retail: "2", units: "metric",
};

export function CuttingPart({ now }: { now: Document }): JSX.Element {
  const [asked, setAsked] = useState<SupplyRequest>(START);
  const [making, setMaking] = useState<Making | null>(null);
  const [plan, setPlan] = useState<Supplied | null>(null);
  const put = (news: Partial<SupplyRequest>): void => { setAsked((a) => ({ ...a, ...news })); };
  const begin = async (): Promise<void> => {
    const body = { ...asked, units: system.value, currency: asked.currency?.trim() || null };
    const number = await worked(door(now.name, "/supply"), body, setMaking);
    if (number === null) return;
    const found = await tried(() => get<Supplied>(`/api/supply/${number}`));
    if (found) setPlan(found);
  };
  const busy = making !== null && !ended(making);
  return (
    <div class="two">
      <form
        class="entry"
        aria-label="What is planned"
        onSubmit={(event) => {
          event.preventDefault();
          void begin();
        }}
      >
        <h2>{now.title}</h2>
        <Sources now={now} />
        <Words
          name="How many kits"
          value={String(asked.kits ?? 1)}
          put={(text) => {
            const kits = Number(text);
            if (Number.isInteger(kits) && kits > 0 && kits <= 10_000) put({ kits });
          }}
        />
        <Words name="Least rest worth keeping" value={asked.keep ?? ""} put={(keep) => { put({ keep }); }} />
        <details class="more">
          <summary>Price and papers</summary>
          {MONEY.map(([word, name]) => (
            <Words key={word} name={name} value={asked[word] ?? ""} put={(text) => { put({ [word]: text }); }} />
          ))}
          <Words name="Studio, for labels" value={asked.studio ?? ""} put={(studio) => { put({ studio }); }} />
        </details>
        <button type="submit" class="main" disabled={busy}>
          {busy ? "Being planned …" : plan ? "Plan it again" : "Plan the cutting"}
        </button>
        {making && <Progress now={making} name="The cutting is being planned" />}
      </form>
      {plan ? <Planned plan={plan} now={now} put={setPlan} /> : (
        <p class="soft">
          The plan says what to cut from which spool with as little lost as can be, and how much
          better any plan could be.
        </p>
      )}
    </div>
  );
}

/** Which of the plan's cords are on the shelf; one that is not can be taken from there. */
function Sources({ now }: { now: Document }): JSX.Element | null {
  const there = (of("cord")?.things ?? []).map((t) => t["name"] ?? "");
  const cords = now.outline?.cords ?? [];
  if (!cords.length || !there.length) {
    return <p class="soft small">Cord that is on the shelf can be cut from; there is none yet.</p>;
  }
  return (
    <>
      {cords.map((cord) => (
        <p class="wish" key={cord.name}>
          <label for={`source-${cord.name}`}>{cord.name} is</label>
          <select
            id={`source-${cord.name}`}
            value={cord.shelf ?? ""}
            onChange={(event) => {
              const name = event.currentTarget.value;
              if (name) void change({ do: "cord", name: cord.name, cord: { shelf: name } });
            }}
          >
            <option value="" disabled>not from the shelf</option>
            {there.map((name) => <option key={name} value={name}>{name}</option>)}
          </select>
        </p>
      ))}
    </>
  );
}

function Planned(props: {
  plan: Supplied;
  now: Document;
  put: (plan: Supplied) => void;
}): JSX.Element {
  const { plan, now, put } = props;
  const take = async (): Promise<void> => {
    const done = await tried(() => send<TakenAnswer>("POST", `/api/supply/${plan.number}/take`, {}));
    if (!done) return;
    put({ ...plan, taken: done.entry });
    say("It is taken off the shelf.");
    await look();
  };
  const papers = `/api/supply/${plan.number}/papers`;
  return (
    <div class="planned">
      {plan.revision !== now.good_revision && (
        <p class="stale" role="status">The piece has changed since. Plan it again.</p>
      )}
      {plan.report.cords.map((cord) => <Plan key={cord.cord} cord={cord} />)}
      <Weights report={plan.report} />
      {plan.report.price && <Costs price={plan.report.price} />}
      <section class="shelf-kind">
        <h2>Carry it out</h2>
        {plan.taken !== null
          ? <p role="status">What is cut is off the shelf, what is kept is on it. It can be put back on the shelf’s page.</p>
          : plan.blocked
            ? <p class="soft">{plan.blocked}</p>
            : (
              <button type="button" class="main" onClick={() => void take()}>
                Take it off the shelf
              </button>
            )}
      </section>
      <section class="shelf-kind">
        <h2>Parts list, packing sheet, labels</h2>
        <p class="row">
          <a class="button" href={`${papers}.html`} download>To print (HTML)</a>
          <a class="button" href={`${papers}.csv`} download>Table (CSV)</a>
          <a class="button" href={`${papers}.txt`} download>Text</a>
        </p>
      </section>
    </div>
  );
}
