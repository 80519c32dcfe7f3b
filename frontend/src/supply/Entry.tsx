// One thing of the shelf, entered or changed, in the words that people write.
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import type { ShelfField } from "../api/types";
import { Dialog } from "../parts/Dialog";
import { system } from "../state/prefs";
import { changed, of, shelf, type Kind, type Thing } from "./state";

interface Props {
  kind: Kind;
  name: string;
  thing: Thing | null;
  close: () => void;
}

export function Entry({ kind, name, thing, close }: Props): JSX.Element {
  const [fields, setFields] = useState<Thing>(thing ?? {});
  const all = of(kind)?.fields ?? [];
  const save = async (): Promise<void> => {
    if (await changed("things", { kind, fields, change: thing !== null })) close();
  };
  return (
    <Dialog title={thing ? `${thing["name"] ?? ""}` : `A new ${name}`} close={close}>
      <form
        class="entry"
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        {all.filter((f) => !thing || f.word !== "name").map((field) => (
          <FieldLine
            key={field.word}
            field={field}
            value={fields[field.word] ?? ""}
            put={(text) => { setFields((before) => ({ ...before, [field.word]: text })); }}
          />
        ))}
        <p class="row">
          <button type="submit" class="main">{thing ? "Keep the changes" : "Put it on the shelf"}</button>
          {thing && (
            <button
              type="button"
              onClick={() => {
                void changed("remove", { kind, name: thing["name"] }).then((done) => {
                  if (done) close();
                });
              }}
            >
              Take it off the shelf
            </button>
          )}
        </p>
      </form>
    </Dialog>
  );
}

interface Line {
  field: ShelfField;
  value: string;
  put: (text: string) => void;
}

export function FieldLine({ field, value, put }: Line): JSX.Element {
  const id = useId();
  const choices = choicesOf(field.word);
  return (
    <p class="wish">
      <label for={id}>
        {field.word}
        {field.required ? "" : <span class="soft"> (if known)</span>}
      </label>
      {choices
        ? (
          <select id={id} value={value} onChange={(e) => { put(e.currentTarget.value); }}>
            <option value="">choose …</option>
            {choices.map((c) => <option key={c} value={c}>{c}</option>)}
          </select>
        )
        : (
          <input
            id={id}
            type="text"
            value={value}
            maxLength={200}
            autocomplete="off"
            placeholder={example(field)}
            aria-description={field.about}
            required={field.required}
            onInput={(event) => { put(event.currentTarget.value); }}
          />
        )}
    </p>
  );
}

/** One way to write a field, in the maker's units where there are several. */
function example({ example }: ShelfField): string {
  if (example === "words") return "";
  const ways = example.split(/, | or /);
  const inches = ways.find((way) => / (in|ft)$/.test(way));
  return `as in ${(system.value === "inch" && inches) || (ways[0] ?? "")}`;
}

function choicesOf(word: string): string[] | null {
  if (word === "cord") return (of("cord")?.things ?? []).map((t) => t["name"] ?? "");
  if (word === "knot") return shelf.value?.knots ?? [];
  if (word === "sort") return ["spool", "part-spool", "left-over"];
  return null;
}
