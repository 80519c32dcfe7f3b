// A short list that grows line by line: what to buy, what goes into a kit, how fast one ties.
import { Fragment, type JSX } from "preact";
import { useId } from "preact/hooks";
import { Icon } from "./Icon";

export interface Column {
  key: string;
  name: string;
  example?: string;
  /** What can be chosen, each with its name; anything can be written if left out. */
  choices?: readonly (readonly [string, string])[];
}

export type Line = Readonly<Record<string, string>>;

interface Props {
  name: string;
  about: string;
  /** What the button says that adds a line. */
  add: string;
  columns: readonly Column[];
  lines: readonly Line[];
  put: (lines: Line[]) => void;
}

export function Lines({ name, about, add, columns, lines, put }: Props): JSX.Element {
  const change = (at: number, key: string, text: string): void => {
    put(lines.map((line, i) => (i === at ? { ...line, [key]: text } : line)));
  };
  const fresh = (): Line => Object.fromEntries(columns.map((c) => [c.key, c.choices?.[0]?.[0] ?? ""]));
  return (
    <fieldset class="lines">
      <legend>{name}</legend>
      <p class="soft small">{about}</p>
      {lines.map((line, at) => (
        <div class="line" role="group" aria-label={`${name}, line ${at + 1}`} key={at}>
          {columns.map((column, i) => (
            <Fragment key={column.key}>
              <Cell
                column={column}
                value={line[column.key] ?? ""}
                put={(text) => { change(at, column.key, text); }}
              />
              {i === 0 && (
                <button
                  type="button"
                  class="quiet"
                  aria-label={`Take out line ${at + 1} of ${name}`}
                  title="Take out"
                  onClick={() => { put(lines.filter((_, other) => other !== at)); }}
                >
                  <Icon sign="bin" />
                </button>
              )}
            </Fragment>
          ))}
        </div>
      ))}
      <button type="button" class="quiet" onClick={() => { put([...lines, fresh()]); }}>
        <Icon sign="plus" /> {add}
      </button>
    </fieldset>
  );
}

interface CellProps {
  column: Column;
  value: string;
  put: (text: string) => void;
}

function Cell({ column, value, put }: CellProps): JSX.Element {
  const id = useId();
  const { name, example, choices } = column;
  return (
    <p class="wish">
      <label for={id}>{name}</label>
      {choices
        ? (
          <select id={id} value={value} onChange={(event) => { put(event.currentTarget.value); }}>
            {choices.map(([word, said]) => <option key={word} value={word}>{said}</option>)}
          </select>
        )
        : (
          <input
            id={id}
            type="text"
            value={value}
            maxLength={80}
            autocomplete="off"
            placeholder={example ?? ""}
            onChange={(event) => { put(event.currentTarget.value); }}
          />
        )}
    </p>
  );
}
