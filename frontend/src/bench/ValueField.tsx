// One value of the plan, changed in place: stepped, typed or chosen, by its kind.
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { Outline, Value } from "../api/types";
import { Stepper } from "../parts/Stepper";
import { set } from "../state/bench";
import { system } from "../state/prefs";
import { length, stepped, written } from "../units";
import { type Knob, sizeKnob, valueKnob, words } from "./plan";

/** A text as it goes into the plan: whole numbers and lists of numbers as such. */
export function asValue(text: string): unknown {
  if (/^\d{1,9}$/.test(text)) return Number(text);
  if (/^\[[\d,\s]*\]$/.test(text)) return JSON.parse(text) as unknown;
  return text;
}

export function next(knob: Knob, by: 1 | -1, large: boolean): string | null {
  if (!knob.plain || knob.number === null) return null;
  const inside = (n: number): boolean =>
    (knob.least === null || n >= knob.least - 1e-6) && (knob.most === null || n <= knob.most + 1e-6);
  if (knob.kind === "length") {
    let mm = stepped(knob.number, by, large ? 5 : 1, system.value);
    if (!inside(mm)) {
      // The last step goes as far as the plan allows.
      const bound = by > 0 ? knob.most : knob.least;
      if (bound === null || Math.abs(bound - knob.number) < 1e-6) return null;
      mm = bound;
    }
    return mm === knob.number ? null : written(mm, system.value);
  }
  if (knob.kind !== "count" && knob.kind !== "amount") return null;
  const count = knob.number + by * (large ? 5 : 1);
  return count >= 0 && inside(count) ? String(count) : null;
}

export function KnobField({ knob, onFocus }: { knob: Knob; onFocus?: () => void }): JSX.Element {
  const canStep = knob.plain && (knob.kind === "count" || knob.kind === "length");
  const shown = knob.kind === "length" && knob.number !== null && knob.plain
    ? length(knob.number, system.value)
    : knob.text;
  return (
    <Stepper
      label={knob.label}
      text={shown}
      about={bounds(knob)}
      {...(canStep ? { stepped: (by: 1 | -1, large: boolean) => next(knob, by, large) } : {})}
      accept={(text) => set(knob.path, asValue(text))}
      {...(onFocus ? { onFocus } : {})}
      {...(!knob.plain && knob.number !== null ? { after: `= ${figure(knob)}` } : {})}
    />
  );
}

function figure(knob: Knob): string {
  return knob.kind === "length" && knob.number !== null
    ? length(knob.number, system.value)
    : String(knob.number);
}

function bounds(knob: Knob): string {
  if (knob.least === null && knob.most === null) return knob.about;
  const of = (n: number): string => (knob.kind === "length" ? length(n, system.value) : String(n));
  const range = [
    knob.least === null ? "" : `at least ${of(knob.least)}`,
    knob.most === null ? "" : `at most ${of(knob.most)}`,
  ].filter(Boolean).join(", ");
  return knob.about ? `${knob.about} (${range})` : range;
}

export function ValueField({ value, outline }: { value: Value; outline: Outline }): JSX.Element {
  const choices = value.kind === "cord" ? outline.cords.map((c) => c.name) : value.choices;
  if ((value.kind === "choice" || value.kind === "cord") && choices.length) {
    return <Choice value={value} choices={choices} />;
  }
  const size = outline.sizes.find((s) => s.name === value.text);
  if (size) {
    // A value that is one of the sizes by name: stepping changes the size, typing the value.
    const knob = sizeKnob(size);
    return (
      <Stepper
        label={words(value.key)}
        text={value.text}
        about={`${value.about} The size ${value.text}: stepping changes it wherever it is used.`}
        {...(knob.plain
          ? { stepped: (by: 1 | -1, large: boolean) => next(knob, by, large) }
          : {})}
        accept={(text) => set(value.path, asValue(text))}
        acceptStep={(text) => set(size.path, asValue(text))}
        after={`= ${figure(knob)}`}
      />
    );
  }
  return <KnobField knob={valueKnob(value)} />;
}

function Choice({ value, choices }: { value: Value; choices: string[] }): JSX.Element {
  const id = useId();
  const all = choices.includes(value.text) ? choices : [value.text, ...choices];
  return (
    <div class="stepper" title={value.about}>
      <label for={id}>{words(value.key)}</label>
      <select
        id={id}
        value={value.text}
        onChange={(event) => {
          void set(value.path, event.currentTarget.value);
        }}
      >
        {all.map((c) => (
          <option key={c} value={c}>
            {words(c)}
          </option>
        ))}
      </select>
    </div>
  );
}
