// What the open piece really used of a cord, once it is tied: that teaches as a swatch does.
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { door } from "../api/http";
import type { Making, ShelfField } from "../api/types";
import { Progress } from "../parts/Progress";
import { doc } from "../state/bench";
import { say } from "../state/notices";
import { FieldLine } from "./Entry";
import { look, type Thing, worked } from "./state";

const FIELDS: ShelfField[] = [
  { word: "cut in all", about: "All that was cut of this cord.", example: "42 m or 140 ft", required: true },
  { word: "left over", about: "All that was left or trimmed off.", example: "3.2 m or 10 ft", required: true },
  { word: "maker", about: "Whose hands tied it.", example: "Wren", required: false },
];

export function FinishedPiece(): JSX.Element | null {
  const now = doc.value;
  const cords = (now?.outline?.cords ?? []).filter((c) => c.shelf);
  const [cord, setCord] = useState("");
  const [fields, setFields] = useState<Thing>({});
  const [making, setMaking] = useState<Making | null>(null);
  if (!now) return null;
  const chosen = cords.some((c) => c.name === cord) ? cord : (cords[0]?.name ?? "");
  const enter = async (): Promise<void> => {
    const { "cut in all": cut = "", "left over": left = "", maker = "" } = fields;
    const body = { cord: chosen, cut, left, maker };
    if ((await worked(door(now.name, "/finished"), body, setMaking)) === null) return;
    say(`What ${now.title} used is kept.`);
    setFields({});
    await look();
  };
  return (
    <form
      class="entry"
      aria-label="A finished piece"
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
      <h2>What {now.title} really used</h2>
      {cords.length === 0 ? (
        <p class="soft small">
          When it is tied, its left-overs teach as a swatch does. First say under Cutting plan which
          cord of the shelf it is tied in.
        </p>
      ) : (
        <>
          <p class="soft small">Measure what is left when the piece is tied: it teaches as a swatch does.</p>
          <p class="wish">
            <label for="finished-cord">cord of the plan</label>
            <select id="finished-cord" value={chosen} onChange={(e) => { setCord(e.currentTarget.value); }}>
              {cords.map((c) => <option key={c.name} value={c.name}>{c.name}: {c.shelf}</option>)}
            </select>
          </p>
          {FIELDS.map((field) => (
            <FieldLine
              key={field.word}
              field={field}
              value={fields[field.word] ?? ""}
              put={(text) => { setFields((before) => ({ ...before, [field.word]: text })); }}
            />
          ))}
          <button type="submit">Keep what it used</button>
          {making && <Progress now={making} name="What it used is being entered" />}
        </>
      )}
    </form>
  );
}
