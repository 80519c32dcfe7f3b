// One section open: all its steps, and what can be done with it.
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Outline, Part, SetValue } from "../api/types";
import { KnotLink } from "../knots/KnotLink";
import { Dialog } from "../parts/Dialog";
import { Icon, type Sign } from "../parts/Icon";
import { Stepper } from "../parts/Stepper";
import { change, set } from "../state/bench";
import { say } from "../state/notices";
import { KindPicker } from "./KindPicker";
import { called, placeOf } from "./plan";
import { opened, showLine } from "./state";
import { ValueField } from "./ValueField";

export function SectionSheet({ part, outline }: { part: Part; outline: Outline }): JSX.Element {
  const heading = useRef<HTMLHeadingElement>(null);
  const [adding, setAdding] = useState(false);
  useEffect(() => { heading.current?.focus(); }, [part.path]);
  const { list, index } = placeOf(part.path);
  const inner = part.verb === "section" ? part.parts : [part];
  const work = `${part.path}.work`;
  const add = async (step: unknown): Promise<void> => {
    setAdding(false);
    const value = step as SetValue["value"];
    await change({ do: "add", path: work, index: part.parts.length, value });
  };
  return (
    <section class="sheet" aria-label={`Section ${called(part)}`}>
      <header>
        <button type="button" class="quiet" onClick={() => { opened.value = null; }}>
          <Icon sign="back" /> All sections
        </button>
        <h2 ref={heading} tabIndex={-1} class="title">{called(part)}</h2>
      </header>
      <SectionTools part={part} list={list} index={index} outline={outline} />
      {part.verb === "section" && (
        <Stepper label="Name" text={part.name} accept={(text) => set(`${part.path}.section`, text)} />
      )}
      <ol class="steps">
        {inner.map((step, i) => (
          <StepCard key={step.path} step={step} outline={outline} last={i === inner.length - 1} tools={part.verb === "section"} />
        ))}
      </ol>
      {part.verb === "section" && (
        <button type="button" class="quiet wide" onClick={() => { setAdding(true); }}>
          <Icon sign="plus" /> Add a step
        </button>
      )}
      <button type="button" class="link" onClick={() => { showLine(part.first_line, 1); }}>
        Show it in the text, line {part.first_line}
      </button>
      {adding && (
        <Dialog title="Add a step" close={() => { setAdding(false); }} wide>
          <KindPicker choose={(kind) => void add(kind.step(outline))} />
        </Dialog>
      )}
    </section>
  );
}

interface ToolsProps {
  part: Part;
  list: string;
  index: number;
  outline: Outline;
}

function SectionTools({ part, list, index, outline }: ToolsProps): JSX.Element {
  const name = called(part);
  const count = outline.parts.length;
  const move = async (to: number, words: string): Promise<void> => {
    if (await change({ do: "move", path: part.path, to: list, index: to })) {
      opened.value = `${list}.${to}`;
      say(`${name} moved ${words}.`);
    }
  };
  const copy = async (): Promise<void> => {
    if (await change({ do: "copy", path: part.path, to: list, index: index + 1 })) {
      opened.value = `${list}.${index + 1}`;
      say(`${name} copied.`);
    }
  };
  const remove = async (): Promise<void> => {
    if (await change({ do: "remove", path: part.path })) {
      opened.value = null;
      say(`${name} taken out. Undo brings it back.`);
    }
  };
  return (
    <div class="tools" role="toolbar" aria-label={`What to do with ${name}`}>
      <Tool sign="up" label="Move up" off={index === 0} act={() => move(index - 1, "up")} />
      <Tool sign="down" label="Move down" off={index >= count - 1} act={() => move(index + 1, "down")} />
      <Tool sign="copy" label="Copy" act={copy} />
      <Tool sign="bin" label="Take out" off={count < 2} act={remove} />
    </div>
  );
}

interface ToolProps {
  sign: Sign;
  label: string;
  off?: boolean;
  act: () => Promise<void>;
}

function Tool({ sign, label, off, act }: ToolProps): JSX.Element {
  return (
    <button type="button" class="quiet" disabled={off ?? false} onClick={() => void act()}>
      <Icon sign={sign} /> <span>{label}</span>
    </button>
  );
}

interface StepProps {
  step: Part;
  outline: Outline;
  last: boolean;
  tools: boolean;
}

function StepCard({ step, outline, last, tools }: StepProps): JSX.Element {
  const { list, index } = placeOf(step.path);
  const name = called(step);
  const act = (sign: Sign, label: string, off: boolean, asked: Parameters<typeof change>[0]): JSX.Element => (
    <button
      type="button"
      class="quiet"
      aria-label={`${label}: ${name}`}
      title={label}
      disabled={off}
      onClick={() => void change(asked)}
    >
      <Icon sign={sign} />
    </button>
  );
  return (
    <li class="step-card">
      <div class="step-head">
        <h3>{name}</h3>
        {tools && (
          <span class="step-tools">
            {act("up", "Earlier", index === 0, { do: "move", path: step.path, to: list, index: index - 1 })}
            {act("down", "Later", last, { do: "move", path: step.path, to: list, index: index + 1 })}
            {act("copy", "Copy", false, { do: "copy", path: step.path, to: list, index: index + 1 })}
            {act("bin", "Take out", false, { do: "remove", path: step.path })}
          </span>
        )}
      </div>
      <div class="values">
        {step.values
          .filter((v) => v.key !== "note" && v.kind !== "other")
          .map((value) => <ValueField key={value.path} value={value} outline={outline} />)}
      </div>
      <KnotLink step={step} name={name} />
      {step.missing.length > 0 && <Missing step={step} outline={outline} />}
      {step.note && <p class="soft small">{step.note}</p>}
      {step.parts.length > 0 && (
        <ol class="steps within">
          {step.parts.map((inner, i) => (
            <StepCard key={inner.path} step={inner} outline={outline} last={i === step.parts.length - 1} tools />
          ))}
        </ol>
      )}
    </li>
  );
}

function Missing({ step, outline }: { step: Part; outline: Outline }): JSX.Element {
  return (
    <details class="more">
      <summary>More for this step</summary>
      <div class="values">
        {step.missing
          .filter((v) => v.kind !== "other")
          .map((value) => <ValueField key={value.path} value={value} outline={outline} />)}
      </div>
    </details>
  );
}
