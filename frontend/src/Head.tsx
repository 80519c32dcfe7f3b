// The head of the page: which piece, the rooms, undo and redo, how things are shown.
import type { JSX } from "preact";
import { Icon } from "./parts/Icon";
import { doc, link, redo, undo, waiting } from "./state/bench";
import { dark, system, theme } from "./state/prefs";
import { address, route, ROOMS, type Room } from "./state/route";

const NAMES: Record<Room, string> = {
  piece: "Piece",
  knots: "Knots",
  lesson: "Booklet",
  supply: "Supply",
};

export function Head(): JSX.Element {
  const { room, piece } = route.value;
  const rooms = ROOMS.filter((r) => r !== "lesson" || piece);
  return (
    <header class="head">
      <a class="brand" href="#/piece" aria-label="Cordwright: all pieces">
        <img src="/icon.svg" alt="" width="26" height="26" />
        <span>Cordwright</span>
      </a>
      {piece && <PieceName />}
      <nav class="rooms" aria-label="Rooms">
        {rooms.map((r) => (
          <a key={r} href={address({ room: r })} {...(r === room ? { "aria-current": "page" } : {})}>
            {NAMES[r]}
          </a>
        ))}
      </nav>
      <div class="tools" role="toolbar" aria-label="Undo and display">
        {piece && <Steps />}
        <button
          type="button"
          class="quiet units"
          aria-label={`Lengths in ${system.value === "metric" ? "centimetres; change to inches" : "inches; change to centimetres"}`}
          onClick={() => { system.value = system.value === "metric" ? "inch" : "metric"; }}
        >
          {system.value === "metric" ? "cm" : "in"}
        </button>
        <button
          type="button"
          class="quiet"
          aria-label={dark.value ? "Light colours" : "Dark colours"}
          title={dark.value ? "Light colours" : "Dark colours"}
          onClick={() => { theme.value = dark.value ? "light" : "dark"; }}
        >
          <Icon sign={dark.value ? "sun" : "moon"} />
        </button>
      </div>
    </header>
  );
}

function PieceName(): JSX.Element {
  const now = doc.value;
  const saving = waiting.value > 0;
  const tells = link.value === "lost" ? "the workbench does not answer"
    : saving ? "saving …" : now ? "saved" : "";
  return (
    <p class="piece-name">
      <strong>{now?.title ?? route.value.piece}</strong>
      <span class={`soft small${link.value === "lost" ? " lost" : ""}`}>{tells}</span>
    </p>
  );
}

function Steps(): JSX.Element {
  const now = doc.value;
  return (
    <>
      <button
        type="button"
        class="quiet"
        aria-label="Undo"
        title="Undo (Ctrl+Z)"
        disabled={!now?.can_undo}
        onClick={() => void undo()}
      >
        <Icon sign="undo" />
      </button>
      <button
        type="button"
        class="quiet"
        aria-label="Redo"
        title="Redo (Ctrl+Shift+Z)"
        disabled={!now?.can_redo}
        onClick={() => void redo()}
      >
        <Icon sign="redo" />
      </button>
    </>
  );
}
