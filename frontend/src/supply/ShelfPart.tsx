// The shelf: cords, spools, fittings and what suppliers sell; tables in and out, and the log.
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import { send } from "../api/http";
import type { Imported, ShelfKind } from "../api/types";
import { Icon } from "../parts/Icon";
import { say } from "../state/notices";
import { Entry } from "./Entry";
import { changed, look, shelf, shown, tried, type Kind, type Thing } from "./state";

const NAMES: Record<Kind, { many: string; one: string; about: string }> = {
  cord: { many: "Cords", one: "cord", about: "every kind of cord that you work with" },
  length: { many: "Spools and left-overs", one: "spool", about: "cord that you have, in one piece" },
  "put-up": { many: "What suppliers sell", one: "supplier’s spool", about: "to plan what to buy" },
  ring: { many: "Rings", one: "ring", about: "" },
  rod: { many: "Rods", one: "rod", about: "" },
  pot: { many: "Pots", one: "pot", about: "" },
  swatch: { many: "Swatches", one: "swatch", about: "" },
  finished: { many: "Finished pieces", one: "finished piece", about: "" },
};
const SHOWN: readonly Kind[] = ["cord", "length", "ring", "rod", "pot", "put-up"];

export function ShelfPart(): JSX.Element {
  const [open, setOpen] = useState<{ kind: Kind; thing: Thing | null } | null>(null);
  const kinds = shelf.value?.kinds ?? [];
  const there = SHOWN.flatMap((kind) => kinds.filter((k) => k.kind === kind));
  return (
    <>
      {there.map((kind) => (
        <section class="shelf-kind" key={kind.kind}>
          <header class="row">
            <h2>{NAMES[kind.kind].many}</h2>
            <button
              type="button"
              class="quiet"
              onClick={() => { setOpen({ kind: kind.kind, thing: null }); }}
            >
              <Icon sign="plus" />
              Add a {NAMES[kind.kind].one}
            </button>
          </header>
          <Things kind={kind} pick={(thing) => { setOpen({ kind: kind.kind, thing }); }} />
        </section>
      ))}
      <Carrying />
      <Log />
      {open && (
        <Entry
          kind={open.kind}
          name={NAMES[open.kind].one}
          thing={open.thing}
          close={() => { setOpen(null); }}
        />
      )}
    </>
  );
}

export function Things(props: { kind: ShelfKind; pick?: (thing: Thing) => void }): JSX.Element {
  const { kind, pick } = props;
  if (!kind.things.length) {
    return <p class="soft small">None yet{NAMES[kind.kind].about && `: ${NAMES[kind.kind].about}`}.</p>;
  }
  const used = kind.fields.filter((f) => f.word !== "name" && kind.things.some((t) => t[f.word]));
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label={NAMES[kind.kind].many}>
      <table class="things">
        <thead>
          <tr>
            <th scope="col">name</th>
            {used.map((f) => <th scope="col" key={f.word}>{f.word}</th>)}
          </tr>
        </thead>
        <tbody>
          {kind.things.map((thing) => (
            <tr key={thing["name"]}>
              <th scope="row">
                {pick
                  ? <button type="button" class="link" onClick={() => { pick(thing); }}>{thing["name"]}</button>
                  : thing["name"]}
              </th>
              {used.map((f) => <td key={f.word}>{shown(thing[f.word] ?? "")}</td>)}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Carrying(): JSX.Element {
  const id = useId();
  return (
    <section class="shelf-kind">
      <h2>Take the shelf along</h2>
      <p class="row">
        <a class="button" href="/api/shelf/table.csv" download>Save as a table (CSV)</a>
        <a class="button" href="/api/shelf/backup.db" download>Save a backup</a>
      </p>
      <p class="upload">
        <label for={id}>Or bring a table onto the shelf:</label>{" "}
        <input
          id={id}
          type="file"
          accept=".csv,text/csv"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = "";
            if (file) void bring(file);
          }}
        />
      </p>
    </section>
  );
}

async function bring(file: File): Promise<void> {
  const text = await file.text();
  const done = await tried(() => send<Imported>("POST", "/api/shelf/table", { text }));
  if (!done) return;
  say(`${done.count} things are on the shelf.`);
  await look();
}

function Log(): JSX.Element | null {
  const entries = [...(shelf.value?.entries ?? [])].reverse();
  if (!entries.length) return null;
  return (
    <section class="shelf-kind">
      <h2>Cut and taken</h2>
      <ul class="log">
        {entries.map((entry) => (
          <li key={entry.number} class="row">
            <span>
              {entry.what} <span class="soft small">{entry.at}</span>
            </span>
            {entry.undone
              ? <span class="soft small">undone</span>
              : (
                <button
                  type="button"
                  aria-label={`Put back: ${entry.what}`}
                  onClick={() => void changed("undo", { entry: entry.number })}
                >
                  Put back
                </button>
              )}
          </li>
        ))}
      </ul>
    </section>
  );
}
