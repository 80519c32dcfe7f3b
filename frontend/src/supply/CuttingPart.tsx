// The cutting plan of the piece for one or several kits: what is cut from which spool, how good
// the plan is, what a kit weighs and costs; carried out on the shelf, and papers to print.
import type { JSX } from "preact";
import { door, get, send } from "../api/http";
import type { Document, Supplied, TakenAnswer } from "../api/types";
import { Words } from "../lesson/Wishes";
import { Progress } from "../parts/Progress";
import { change } from "../state/bench";
import { ended } from "../state/making";
import { say } from "../state/notices";
import { sentence } from "../units";
import { put, request, standing, type Wanted } from "./asked";
import { Cord, CORD_WORDS, Kit, MONEY, Simples } from "./KitFields";
import { Costs, Plan, Weights } from "./PlanTables";
import { look, of, tried, worked } from "./state";

export function CuttingPart({ now }: { now: Document }): JSX.Element {
  const stand = standing(now.name);
  const { wanted, making, plan } = stand;
  const fill = (news: Partial<Wanted>): void => {
    put(now.name, { wanted: { ...standing(now.name).wanted, ...news } });
  };
  const begin = async (): Promise<void> => {
    const number = await worked(door(now.name, "/supply"), request(standing(now.name)), (making) => {
      put(now.name, { making });
    });
    if (number === null) return;
    const found = await tried(() => get<Supplied>(`/api/supply/${number}`));
    if (found) put(now.name, { plan: found, making: null });
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
          value={String(wanted.kits)}
          put={(text) => {
            const kits = Number(text);
            if (Number.isInteger(kits) && kits > 0 && kits <= 1000) fill({ kits });
          }}
        />
        <Simples names={CORD_WORDS} wanted={wanted} fill={fill} />
        <Cord now={now} wanted={wanted} fill={fill} />
        <Kit wanted={wanted} fill={fill} />
        <details class="more">
          <summary>Price and labels</summary>
          <Simples names={MONEY} wanted={wanted} fill={fill} />
        </details>
        <button type="submit" class="main" disabled={busy}>
          {busy ? "Being planned …" : plan ? "Plan it again" : "Plan the cutting"}
        </button>
        {making && <Progress now={making} name="The cutting is being planned" />}
      </form>
      {plan ? <Planned plan={plan} now={now} put={(plan) => { put(now.name, { plan }); }} /> : (
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
            ? <p class="soft">{plan.blocked} {sentence(plan.remedy)}</p>
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
