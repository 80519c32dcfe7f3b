// All pieces, and what a new one can be begun from.
import type { JSX } from "preact";
import { useEffect, useId, useState } from "preact/hooks";
import { get, Offline, Refused, send } from "../api/http";
import type { Document, NewPiece, Pieces as All } from "../api/types";
import { tell } from "../state/notices";
import { address, go } from "../state/route";

type Begin = NewPiece["begin"];

const MOUNTS: { mount: "ring" | "rod" | "cord" | "nothing"; name: string; about: string }[] = [
  { mount: "ring", name: "Ring", about: "for planters, lamps and mandalas" },
  { mount: "rod", name: "Rod", about: "for wall hangings and curtains" },
  { mount: "cord", name: "Cord", about: "for fringes and edgings" },
  { mount: "nothing", name: "No mount", about: "for slings, keyrings and bracelets" },
];

export function Pieces(): JSX.Element {
  const [all, setAll] = useState<All | null>(null);
  const [problem, setProblem] = useState("");
  useEffect(() => {
    get<All>("/api/pieces").then(setAll, (why: unknown) => {
      setProblem(why instanceof Error ? why.message : "The pieces could not be read.");
    });
  }, []);
  if (problem) return <p class="wait" role="alert">{problem}</p>;
  if (!all) return <p class="wait" role="status">Looking for your pieces …</p>;
  return (
    <div class="pieces">
      <h1>{all.pieces.length ? "Your pieces" : "What would you like to make?"}</h1>
      {all.pieces.length > 0 && (
        <ul class="tiles">
          {all.pieces.map((p) => (
            <li key={p.name}>
              <a class="tile" href={address({ room: "piece", piece: p.name })}>
                <strong>{p.title}</strong>
                <span class="soft small">{p.problem || changed(p.changed_at)}</span>
              </a>
            </li>
          ))}
        </ul>
      )}
      <Begin all={all} />
      <p class="soft small">Your pieces are readable files in {all.folder}.</p>
    </div>
  );
}

function changed(at: string): string {
  const when = new Date(at);
  return Number.isNaN(when.getTime()) ? "" : `changed ${when.toLocaleString(undefined, {
    dateStyle: "medium", timeStyle: "short",
  })}`;
}

function Begin({ all }: { all: All }): JSX.Element {
  const taken = new Set(all.pieces.map((p) => p.name));
  const upload = useId();
  return (
    <>
      <h2>Begin with an empty mount</h2>
      <ul class="tiles">
        {MOUNTS.map(({ mount, name, about }) => (
          <li key={mount}>
            <button
              type="button"
              class="tile"
              onClick={() => void begin(unused(`${name} piece`, taken), { kind: "blank", mount, cords: 8 })}
            >
              <strong>{name}</strong>
              <span class="soft small">{about}</span>
            </button>
          </li>
        ))}
      </ul>
      <h2>Begin with a piece that is there</h2>
      <ul class="tiles">
        {all.examples.map((e) => (
          <li key={e.name}>
            <button
              type="button"
              class="tile"
              onClick={() => void begin(unused(e.title, taken), { kind: "example", example: e.name })}
            >
              <strong>{e.title}</strong>
              <span class="soft small">{e.about}</span>
            </button>
          </li>
        ))}
      </ul>
      <p class="upload">
        <label for={upload}>Or open a plan file:</label>{" "}
        <input
          id={upload}
          type="file"
          accept=".yaml,.yml"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            if (file) void opened(file, taken);
          }}
        />
      </p>
    </>
  );
}

async function opened(file: File, taken: ReadonlySet<string>): Promise<void> {
  if (file.size > 1_000_000) {
    tell({ what: "That file is too large for a plan.", remedy: "A plan has at most 1 MB." });
    return;
  }
  const name = file.name.replace(/\.ya?ml$/i, "");
  await begin(unused(name, taken), { kind: "text", text: await file.text() });
}

function unused(name: string, taken: ReadonlySet<string>): string {
  let found = name;
  for (let n = 2; taken.has(found); n++) found = `${name} ${n}`;
  return found;
}

async function begin(name: string, from: Begin): Promise<void> {
  try {
    const made = await send<Document>("POST", "/api/pieces", { name, begin: from });
    go({ room: "piece", piece: made.name });
  } catch (problem) {
    if (problem instanceof Refused) tell(problem.trouble);
    else if (problem instanceof Offline) tell({ what: problem.message, remedy: "Start it again." });
    else throw problem;
  }
}
