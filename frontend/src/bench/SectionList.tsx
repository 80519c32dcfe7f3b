// The piece's sections, each beside where it is in the piece.
import type { JSX } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Outline, Part } from "../api/types";
import { Icon } from "../parts/Icon";
import { numbers } from "../state/bench";
import { system } from "../state/prefs";
import { counted, length } from "../units";
import { AddSection } from "./AddSection";
import { arranged } from "./layout";
import { called, knobsOf } from "./plan";
import { arrangedAt, opened, pointed, spans } from "./state";
import { KnobField } from "./ValueField";

const GAP = 8;

export function SectionList({ outline, room }: { outline: Outline; room: number }): JSX.Element {
  const list = useRef<HTMLOListElement>(null);
  const [adding, setAdding] = useState(false);
  useArranged(list, outline, room);
  return (
    <nav class="sections" aria-label="Sections of the piece">
      <ol ref={list}>
        <li class="card mount" data-path="mount">
          <MountCard outline={outline} />
        </li>
        {outline.parts.map((part) => (
          <SectionCard key={part.path} part={part} outline={outline} />
        ))}
        <li class="card add" data-path="add">
          <button type="button" class="quiet wide" onClick={() => { setAdding(true); }}>
            <Icon sign="plus" /> Add a section
          </button>
        </li>
      </ol>
      {adding && <AddSection outline={outline} close={() => { setAdding(false); }} />}
    </nav>
  );
}

function MountCard({ outline }: { outline: Outline }): JSX.Element {
  const kind = outline.mount.kind;
  const on = { ring: "On a ring", rod: "On a rod", cord: "On a cord", nothing: "From its own cords" };
  return (
    <button
      type="button"
      class="title"
      aria-expanded={opened.value === "mount"}
      onClick={() => { opened.value = "mount"; }}
    >
      <strong>{on[kind as keyof typeof on] ?? "Mount"}</strong>
      <span class="soft">{counted(outline.strands, "strand")}</span>
      <Icon sign="open" />
      <span class="soft all">{kind === "nothing" ? "Cords" : "Mount, cords"}, what it holds</span>
    </button>
  );
}

function SectionCard({ part, outline }: { part: Part; outline: Outline }): JSX.Element {
  const depth = numbers.value?.parts[part.path];
  const top = depth?.[0] ?? part.top_mm;
  const bottom = depth?.[1] ?? part.bottom_mm;
  const high = top !== null && bottom !== null ? length(bottom - top, system.value) : "";
  const tells = [part.knots ? counted(part.knots, "knot") : "", high].filter(Boolean).join(" · ");
  const is = pointed.value === part.path;
  return (
    <li
      class={`card${is ? " pointed" : ""}`}
      data-path={part.path}
      onPointerEnter={() => { pointed.value = part.path; }}
      onPointerLeave={() => { pointed.value = null; }}
      onFocusCapture={() => { pointed.value = part.path; }}
      onBlurCapture={() => { pointed.value = null; }}
    >
      <button type="button" class="title" onClick={() => { opened.value = part.path; }}>
        <strong>{called(part)}</strong>
        <span class="soft">{tells}</span>
        <Icon sign="open" />
      </button>
      <div class="knobs">
        {knobsOf(part, outline).map((knob) => (
          <KnobField key={knob.path} knob={knob} />
        ))}
      </div>
    </li>
  );
}

/** Put every card beside its part, whenever the picture or the cards' heights change. */
function useArranged(
  list: { current: HTMLOListElement | null },
  outline: Outline,
  room: number,
): void {
  const now = spans.value;
  useLayoutEffect(() => {
    const ol = list.current;
    if (!ol) return;
    const free = getComputedStyle(ol).position !== "relative";
    const items = [...ol.children] as HTMLLIElement[];
    if (free || room <= 0) {
      ol.style.height = "";
      for (const li of items) li.style.transform = "";
      return;
    }
    const last = items.length - 1;
    ol.classList.remove("tight");
    const heights = items.map((li) => li.offsetHeight);
    const all = heights.reduce((sum, h) => sum + h + GAP, 0);
    ol.classList.toggle("tight", all > room);
    const cards = items.map((li, i) => ({ wanted: wantedAt(li, i, last, room), height: li.offsetHeight }));
    const tops = arranged(cards, room, GAP);
    items.forEach((li, i) => {
      li.style.transform = `translateY(${Math.round(tops[i] ?? 0)}px)`;
    });
    const end = (tops[last] ?? 0) + (cards[last]?.height ?? 0);
    ol.style.height = `${Math.max(room, end)}px`;
    arrangedAt.value += 1;
  }, [now, outline, room]);
}

function wantedAt(li: HTMLLIElement, i: number, last: number, room: number): number {
  const span = spans.value.find((s) => s.path === li.dataset["path"]);
  if (span) return (span.top + span.bottom) / 2;
  return i === 0 ? 0 : i === last ? room : room / 2;
}
