// The page: its head, the room that is open, and what has to be said.
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { locked } from "./api/http";
import { Bench } from "./bench/Bench";
import { opened } from "./bench/state";
import { Head } from "./Head";
import { Icon } from "./parts/Icon";
import { Knots } from "./rooms/Knots";
import { Lesson } from "./rooms/Lesson";
import { Pieces } from "./rooms/Pieces";
import { Supply } from "./rooms/Supply";
import { close, doc, link, open, redo, undo } from "./state/bench";
import { dismiss, notices, spoken } from "./state/notices";
import { route } from "./state/route";
import { sentence } from "./units";

export function App(): JSX.Element {
  const { room, piece } = route.value;
  useEffect(() => {
    if (!piece) return;
    opened.value = null;
    open(piece);
    return close;
  }, [piece]);
  useEffect(keys, []);
  const title = doc.value?.title;
  useEffect(() => {
    document.title = title ? `${title} – Cordwright` : "Cordwright";
  }, [title]);
  return (
    <>
      <a class="skip" href="#main" onClick={skip}>Skip to the piece</a>
      <Head />
      <Lost />
      <main id="main" tabIndex={-1} data-room={room}>
        <Room />
      </main>
      <Notices />
      <div class="sr" aria-live="polite">{spoken.value}</div>
    </>
  );
}

function Room(): JSX.Element {
  const { room, piece } = route.value;
  if (room === "knots") return <Knots />;
  if (room === "supply") return <Supply />;
  if (!piece) return <Pieces />;
  return room === "lesson" ? <Lesson /> : <Bench />;
}

function skip(event: MouseEvent): void {
  // The address after the # is the room's; so the jump is made here.
  event.preventDefault();
  document.getElementById("main")?.focus();
}

function Lost(): JSX.Element | null {
  if (locked.value) {
    return (
      <p class="lost-bar" role="alert">
        This page is of an earlier start of the workbench, and can change nothing any more;
        everything up to your last change is saved. Close it, and go on in the page that the new
        start opened. If there is none, open the address that the workbench shows where you started it.
      </p>
    );
  }
  if (!route.value.piece || link.value !== "lost") return null;
  return (
    <p class="lost-bar" role="alert">
      The workbench does not answer; everything up to your last change is saved. This page goes on as
      soon as it answers. If you closed it, start it again: it opens a page of its own.
    </p>
  );
}

function Notices(): JSX.Element {
  return (
    <div class="notices" role="status" aria-live="assertive">
      {notices.value.map((n) => (
        <div class="notice" key={n.id}>
          <div>
            <strong>{n.what}</strong>
            {n.remedy && <p>{sentence(n.remedy)}</p>}
          </div>
          <button type="button" class="quiet" aria-label="Close" onClick={() => { dismiss(n.id); }}>
            <Icon sign="close" />
          </button>
        </div>
      ))}
    </div>
  );
}

/** Undo and redo by keys, but not inside a field, which has an undo of its own. */
function keys(): () => void {
  const heard = (event: KeyboardEvent): void => {
    const [target] = event.composedPath();
    const typing = target instanceof HTMLElement &&
      (target.isContentEditable || target instanceof HTMLTextAreaElement ||
        (target instanceof HTMLInputElement && target.dataset["typed"] !== undefined));
    if (typing || !(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key === "z" || key === "y") {
      event.preventDefault();
      void (key === "y" || event.shiftKey ? redo() : undo());
    }
  };
  window.addEventListener("keydown", heard);
  return () => { window.removeEventListener("keydown", heard); };
}
