// A piece on the first page: open it, give it another title, see its past, delete it.
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { door, get, Offline, Refused, remove, send } from "../api/http";
import type { Document, History, PieceCard } from "../api/types";
import { Dialog } from "../parts/Dialog";
import { Icon } from "../parts/Icon";
import { say, tell } from "../state/notices";
import { address } from "../state/route";

interface Props {
  piece: PieceCard;
  /** Read the list again. */
  again: () => void;
}

export function PieceTile({ piece, again }: Props): JSX.Element {
  const [open, setOpen] = useState<"name" | "past" | null>(null);
  const close = (): void => { setOpen(null); };
  const gone = async (): Promise<void> => {
    if (await tried(() => remove(door(piece.name)))) {
      say(`${piece.title} is deleted. You can bring it back below.`);
      again();
    }
  };
  return (
    <li class="own">
      <a class="tile" href={address({ room: "piece", piece: piece.name })}>
        <strong>{piece.title}</strong>
        <span class="soft small">{piece.problem || when(piece.changed_at, "changed ")}</span>
      </a>
      <div class="tile-tools">
        <button type="button" class="quiet small" aria-label={`Rename ${piece.title}`} onClick={() => { setOpen("name"); }}>
          Rename
        </button>
        <button type="button" class="quiet small" aria-label={`Past states of ${piece.title}`} onClick={() => { setOpen("past"); }}>
          Past states
        </button>
        <button type="button" class="quiet small" aria-label={`Delete ${piece.title}`} title="Delete" onClick={() => void gone()}>
          <Icon sign="bin" />
        </button>
      </div>
      {open === "name" && <Rename piece={piece} again={again} close={close} />}
      {open === "past" && <Past piece={piece} again={again} close={close} />}
    </li>
  );
}

/** A deleted piece, which stays in the history. */
export function DeletedPiece({ piece, again }: Props): JSX.Element {
  const back = async (): Promise<void> => {
    const body = { revision: null, to: piece.revision };
    if (await tried(() => send<Document>("POST", door(piece.name, "/restore"), body))) {
      say(`${piece.title} is back.`);
      again();
    }
  };
  return (
    <li>
      <span>{piece.title} <span class="soft small">{when(piece.changed_at, "deleted ")}</span></span>
      <button type="button" class="quiet" aria-label={`Bring back ${piece.title}`} onClick={() => void back()}>
        Bring back
      </button>
    </li>
  );
}

function Rename({ piece, again, close }: Props & { close: () => void }): JSX.Element {
  const [title, setTitle] = useState(piece.title);
  const keep = async (): Promise<void> => {
    const done = await tried(async () => {
      const now = await get<Document>(door(piece.name));
      await send<Document>("POST", door(piece.name, "/change"), {
        revision: now.revision,
        change: { do: "set", path: "title", value: title.trim() },
      });
    });
    if (done) {
      close();
      again();
    }
  };
  return (
    <Dialog title="Rename" close={close}>
      <form
        class="rename"
        onSubmit={(event) => {
          event.preventDefault();
          if (title.trim()) void keep();
        }}
      >
        <label>
          Its title
          <input
            type="text"
            data-typed
            maxLength={80}
            value={title}
            onInput={(event) => { setTitle(event.currentTarget.value); }}
          />
        </label>
        <p class="soft small">Its file stays {piece.name}.yaml.</p>
        <button type="submit" class="button">Keep this title</button>
      </form>
    </Dialog>
  );
}

function Past({ piece, again, close }: Props & { close: () => void }): JSX.Element {
  const [history, setHistory] = useState<History | null>(null);
  const more = async (before?: number): Promise<void> => {
    const asked = before === undefined ? "" : `?before=${before}`;
    await tried(async () => {
      const found = await get<History>(door(piece.name, `/history${asked}`));
      setHistory((old) => ({ ...found, states: [...(old?.states ?? []), ...found.states] }));
    });
  };
  useEffect(() => { void more(); }, []);
  const back = async (to: number): Promise<void> => {
    const done = await tried(async () => {
      const now = await get<Document>(door(piece.name));
      await send<Document>("POST", door(piece.name, "/restore"), { revision: now.revision, to });
    });
    if (done) {
      say("It is as it was then.");
      close();
      again();
    }
  };
  const last = history?.states.at(-1);
  return (
    <Dialog title={`Past states of ${piece.title}`} close={close}>
      <p class="soft small">Going back keeps all that came after: you can come here again.</p>
      {!history && <p role="status">Looking …</p>}
      <ul class="past">
        {history?.states.map((s) => (
          <li key={s.revision}>
            <span>{s.what} <span class="soft small">{when(s.at, "")}</span></span>
            {s.present ? <span class="soft small">as it is now</span> : (
              <button
                type="button"
                class="quiet"
                aria-label={`Go back to: ${s.what}, ${when(s.at, "")}`}
                onClick={() => void back(s.revision)}
              >
                Go back to this
              </button>
            )}
          </li>
        ))}
      </ul>
      {history?.more && last && (
        <button type="button" class="quiet" onClick={() => void more(last.revision)}>Older ones</button>
      )}
    </Dialog>
  );
}

function when(at: string, before: string): string {
  const time = new Date(at);
  return Number.isNaN(time.getTime()) ? "" : before + time.toLocaleString(undefined, {
    dateStyle: "medium", timeStyle: "short",
  });
}

/** Ask the server; says what is wrong if it refuses. */
async function tried(what: () => Promise<unknown>): Promise<boolean> {
  try {
    await what();
    return true;
  } catch (problem) {
    if (problem instanceof Refused) tell(problem.trouble);
    else if (problem instanceof Offline) tell({ what: problem.message, remedy: "Start it again." });
    else tell({ what: "The piece was changed elsewhere meanwhile.", remedy: "Try once more." });
    return false;
  }
}
