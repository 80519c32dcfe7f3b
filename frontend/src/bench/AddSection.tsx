// A new section: what it is made of, what it is called, where it goes.
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import type { Outline, SetValue } from "../api/types";
import { Dialog } from "../parts/Dialog";
import { change } from "../state/bench";
import { say } from "../state/notices";
import { KindPicker } from "./KindPicker";
import type { Kind } from "./kinds";
import { called } from "./plan";
import { opened } from "./state";

interface Props {
  outline: Outline;
  close: () => void;
}

export function AddSection({ outline, close }: Props): JSX.Element {
  const [after, setAfter] = useState(outline.parts.length - 1);
  const place = useId();
  const add = async (kind: Kind): Promise<void> => {
    const name = unused(kind.name, outline);
    const index = after + 1;
    const value = { section: name, work: [kind.step(outline)] } as unknown as SetValue["value"];
    close();
    if (await change({ do: "add", path: "work", index, value })) {
      opened.value = `work.${index}`;
      say(`${name} added.`);
    }
  };
  return (
    <Dialog title="Add a section" close={close} wide>
      <p class="row">
        <label for={place}>It comes</label>
        <select
          id={place}
          value={after}
          onChange={(event) => { setAfter(Number(event.currentTarget.value)); }}
        >
          <option value={-1}>first</option>
          {outline.parts.map((part, i) => (
            <option key={part.path} value={i}>after {called(part)}</option>
          ))}
        </select>
      </p>
      <KindPicker choose={(kind) => void add(kind)} />
    </Dialog>
  );
}

function unused(name: string, outline: Outline): string {
  const taken = new Set(outline.parts.map((p) => p.name));
  let found = name;
  for (let n = 2; taken.has(found); n++) found = `${name} ${n}`;
  return found;
}
