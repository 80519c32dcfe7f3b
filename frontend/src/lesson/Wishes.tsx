// How the lesson is wanted: its language, units, paper and hand, and its size editions.
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { Document } from "../api/types";
import { ended } from "../state/making";
import { Editions } from "./Editions";
import { PaceLog } from "./PaceLog";
import { make, standing, wished, type Wish } from "./state";

type Choices<K extends keyof Wish> = readonly (readonly [Wish[K] & string, string])[];

const LANGUAGES: Choices<"language"> = [["en", "English"], ["de", "Deutsch"], ["fr", "Français"]];
const UNITS: Choices<"units"> = [
  ["metric", "Centimetres"], ["inch", "Inches"], ["both", "Both"],
];
const PAPERS: Choices<"paper"> = [["a4", "A4"], ["letter", "Letter"]];

export function Wishes({ now }: { now: Document }): JSX.Element {
  const { wish, making, lesson } = standing(now.name);
  const busy = making !== null && !ended(making);
  const put = (news: Partial<Wish>): void => { wished(now.name, news); };
  return (
    <form
      class="wishes"
      aria-label="How the booklet is made"
      onSubmit={(event) => {
        event.preventDefault();
        void make(now.name);
      }}
    >
      <Choice
        name="Language"
        value={wish.language ?? "en"}
        choices={LANGUAGES}
        put={(language) => { put({ language }); }}
      />
      <Choice
        name="Lengths in"
        value={wish.units ?? "metric"}
        choices={UNITS}
        put={(units) => { put({ units }); }}
      />
      <Choice
        name="Paper"
        value={wish.paper ?? "a4"}
        choices={PAPERS}
        put={(paper) => { put({ paper }); }}
      />
      <Choice
        name="Hand"
        value={wish.left_handed ? "left" : "right"}
        choices={[["right", "Right-handed"], ["left", "Left-handed, all mirrored"]] as const}
        put={(hand) => { put({ left_handed: hand === "left" }); }}
      />
      <Editions now={now} />
      <details class="more">
        <summary>Licence, version, spare, your pace</summary>
        <Words
          name="What buyers may do with it"
          value={wish.licence ?? ""}
          put={(licence) => { put({ licence }); }}
        />
        <Words
          name="Version of the booklet"
          value={wish.version ?? ""}
          put={(version) => { put({ version }); }}
        />
        <Words
          name="Whose hands tie it"
          value={wish.maker ?? ""}
          put={(maker) => { put({ maker }); }}
        />
        <Words
          name="Of 100 strands, too short may be"
          value={String(wish.risk ?? 5)}
          put={(text) => {
            const risk = Number(text.replace(",", "."));
            if (risk > 0 && risk < 50) put({ risk });
          }}
        />
        <PaceLog />
      </details>
      <button type="submit" class={lesson ? "main" : ""} disabled={busy}>
        {busy ? "Being made …" : lesson ? "Make it again" : "Make the booklet"}
      </button>
    </form>
  );
}

interface Choosing<T extends string> {
  name: string;
  value: T;
  choices: readonly (readonly [T, string])[];
  put: (value: T) => void;
}

function Choice<T extends string>({ name, value, choices, put }: Choosing<T>): JSX.Element {
  const id = useId();
  return (
    <p class="wish">
      <label for={id}>{name}</label>
      <select id={id} value={value} onChange={(e) => { put(e.currentTarget.value as T); }}>
        {choices.map(([word, shown]) => <option key={word} value={word}>{shown}</option>)}
      </select>
    </p>
  );
}

export interface Wording {
  name: string;
  value: string;
  placeholder?: string;
  put: (text: string) => void;
}

export function Words({ name, value, placeholder, put }: Wording): JSX.Element {
  const id = useId();
  return (
    <p class="wish">
      <label for={id}>{name}</label>
      <input
        id={id}
        type="text"
        value={value}
        maxLength={400}
        autocomplete="off"
        {...(placeholder === undefined ? {} : { placeholder })}
        onChange={(event) => { put(event.currentTarget.value); }}
      />
    </p>
  );
}
