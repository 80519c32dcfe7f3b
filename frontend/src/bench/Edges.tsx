// Grips at the lower edges of the sections, on the piece itself.
import { effect } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Outline, Part } from "../api/types";
import { attempt, endAttempt, numbers, outline, set } from "../state/bench";
import { system } from "../state/prefs";
import { length } from "../units";
import { asText, edgeKnob, learned, nudged, type Pull, pull, pulled } from "./edge";
import { called, type Knob } from "./plan";
import { edges, pointed, type Span, spans, stage } from "./state";
import { asValue } from "./ValueField";

export function Edges(): JSX.Element | null {
  const now = outline.value;
  if (!now) return null;
  return (
    <div class="edges">
      {now.parts.map((part) => {
        const span = spans.value.find((s) => s.path === part.path);
        const knob = edgeKnob(part, now);
        return span && knob
          ? <Edge key={part.path} part={part} knob={knob} span={span} outline={now} />
          : null;
      })}
    </div>
  );
}

interface Props {
  part: Part;
  knob: Knob;
  span: Span;
  outline: Outline;
}

function Edge({ part, knob, span }: Props): JSX.Element {
  const [value, setValue] = useState<number | null>(null);
  const grip = useRef<HTMLDivElement>(null);
  const place = useRef<HTMLDivElement>(null);
  const drag = useDrag(part, knob, setValue);
  useEffect(() => {
    const style = place.current?.style;
    style?.setProperty("top", `${span.bottom}px`);
    style?.setProperty("left", `${edges.value[1]}px`);
  });
  const shown = value ?? knob.number ?? 0;
  const says = knob.kind === "length" ? length(shown, system.value) : String(shown);
  const keys = (event: KeyboardEvent): void => {
    const by = event.key === "ArrowDown" || event.key === "ArrowRight" ? 1
      : event.key === "ArrowUp" || event.key === "ArrowLeft" ? -1 : null;
    if (by === null) return;
    event.preventDefault();
    const next = nudged(knob, by, system.value);
    if (next !== knob.number) void set(knob.path, asValue(asText(knob, next, system.value)));
  };
  return (
    <div ref={place} class={`edge${value === null ? "" : " dragged"}`}>
      <div
        ref={grip}
        class="grip"
        tabIndex={0}
        role="slider"
        aria-orientation="vertical"
        aria-label={`Lower edge of ${called(part)}: ${knob.label.toLowerCase()}`}
        aria-valuenow={Math.round(shown)}
        {...(knob.least === null ? {} : { "aria-valuemin": Math.round(knob.least) })}
        {...(knob.most === null ? {} : { "aria-valuemax": Math.round(knob.most) })}
        aria-valuetext={says}
        onKeyDown={keys}
        onPointerEnter={() => { pointed.value = part.path; }}
        onPointerLeave={() => { if (value === null) pointed.value = null; }}
        onFocus={() => { pointed.value = part.path; }}
        onBlur={() => { pointed.value = null; }}
        {...drag}
      />
      <span class="edge-says" aria-hidden="true">
        {knob.label} <b>{says}</b>
      </span>
    </div>
  );
}

interface Going {
  pull: Pull;
  y: number;
  value: number;
  tries: Map<number, number>;
  end: () => void;
}

type Handlers = Pick<
  JSX.IntrinsicElements["div"],
  "onPointerDown" | "onPointerMove" | "onPointerUp" | "onPointerCancel"
>;

function useDrag(part: Part, knob: Knob, show: (value: number | null) => void): Handlers {
  const going = useRef<Going | null>(null);
  const finish = (keep: boolean): void => {
    const now = going.current;
    going.current = null;
    if (!now) return;
    now.end();
    const moved = now.value !== now.pull.start;
    if (keep && moved) {
      const text = asText(knob, now.value, system.value);
      void set(knob.path, asValue(text)).finally(() => { show(null); });
    } else {
      endAttempt();
      show(null);
    }
  };
  return {
    onPointerDown(event) {
      event.preventDefault();
      event.currentTarget.focus();
      event.currentTarget.setPointerCapture(event.pointerId);
      const depth = numbers.peek()?.parts[part.path] ?? [part.top_mm, part.bottom_mm];
      const top = depth[0] ?? 0;
      const bottom = depth[1] ?? 0;
      const tries = new Map<number, number>();
      const end = effect(() => {
        // What a try came to tells how far the value moves the edge.
        const got = numbers.value;
        const tried = got?.trying === null ? undefined : tries.get(got?.trying ?? -1);
        const edge = got?.parts[part.path]?.[1];
        const now = going.current;
        if (now && tried !== undefined && edge !== null && edge !== undefined) {
          now.pull = learned(now.pull, tried, edge);
        }
      });
      const y = event.clientY;
      going.current = { pull: pull(knob, bottom, bottom - top), y, value: knob.number ?? 0, tries, end };
      show(knob.number);
    },
    onPointerMove(event) {
      const now = going.current;
      const on = stage.peek();
      if (!now || !on) return;
      const mm = 1000 * (on.sceneHeight(now.y) - on.sceneHeight(event.clientY));
      const value = pulled(now.pull, mm, system.value);
      if (value === now.value) return;
      now.value = value;
      show(value);
      const text = asText(knob, value, system.value);
      const number = attempt([{ do: "set", path: knob.path, value: asValue(text) as string }]);
      now.tries.set(number, value);
    },
    onPointerUp() { finish(true); },
    onPointerCancel() { finish(false); },
  };
}
