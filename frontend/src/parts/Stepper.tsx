// One value: typed, or stepped with its two buttons or the arrow keys.
import type { JSX } from "preact";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { Icon } from "./Icon";

export interface StepperProps {
  label: string;
  /** As it is shown and typed. */
  text: string;
  about?: string;
  /** The text after a step up or down; null where there is none. */
  stepped?: (by: 1 | -1, large: boolean) => string | null;
  accept: (text: string) => Promise<boolean> | boolean;
  /** Takes what a step leads to; `accept` if left out. */
  acceptStep?: (text: string) => Promise<boolean> | boolean;
  /** What stands after the field: the result of a sum, for example. */
  after?: string;
  onFocus?: () => void;
}

export function Stepper(props: StepperProps): JSX.Element {
  const { label, text, about, stepped, accept, acceptStep, after, onFocus } = props;
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState(false);
  const shown = typed ?? text;
  useEffect(() => {
    setWrong(false);
  }, [text]);

  const give = async (value: string): Promise<void> => {
    setTyped(null);
    if (value.trim() === text) return;
    if (!(await accept(value.trim()))) {
      // What was typed stays to be mended.
      setTyped(value);
      setWrong(true);
    }
  };
  const by = (direction: 1 | -1, large: boolean): void => {
    const next = stepped?.(direction, large);
    if (next === null || next === undefined) return;
    if (acceptStep) void acceptStep(next);
    else void give(next);
  };
  const keys = (event: KeyboardEvent): void => {
    if (event.key === "Enter") void give(shown);
    else if (event.key === "Escape" && typed !== null) {
      setTyped(null);
      setWrong(false);
      event.stopPropagation();
    } else if (stepped && (event.key === "ArrowUp" || event.key === "ArrowDown")) {
      event.preventDefault();
      by(event.key === "ArrowUp" ? 1 : -1, event.shiftKey);
    }
  };
  const button = (direction: 1 | -1): JSX.Element => (
    <button
      type="button"
      class="step"
      tabIndex={-1}
      aria-label={`${direction > 0 ? "More" : "Less"}: ${label}`}
      disabled={stepped?.(direction, false) === null}
      onClick={(event) => {
        by(direction, event.shiftKey);
      }}
    >
      <Icon sign={direction > 0 ? "plus" : "minus"} />
    </button>
  );
  return (
    <div class={`stepper${wrong ? " wrong" : ""}`} title={about ?? ""}>
      <label for={id}>{label}</label>
      <span class="field">
        {stepped && button(-1)}
        <input
          id={id}
          ref={field}
          value={shown}
          size={Math.max(3, Math.min(18, shown.length))}
          spellcheck={false}
          autocomplete="off"
          aria-invalid={wrong}
          data-typed={typed === null ? undefined : ""}
          onInput={(event) => {
            setTyped(event.currentTarget.value);
          }}
          onBlur={() => {
            if (typed !== null && !wrong) void give(typed);
          }}
          onFocus={() => onFocus?.()}
          onKeyDown={keys}
        />
        {stepped && button(1)}
      </span>
      {after && <span class="after">{after}</span>}
    </div>
  );
}
