// Swatches: a trial is entered, and what is known of a cord and a maker's hands is said.
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { get } from "../api/http";
import type { HandsAnswer, Making, ShelfField, SwatchReport } from "../api/types";
import { Progress } from "../parts/Progress";
import { FieldLine } from "./Entry";
import { FinishedPiece } from "./FinishedPiece";
import { Things } from "./ShelfPart";
import { look, of, worked, tried, type Thing } from "./state";

const START: ShelfField[] = [
  { word: "strand before", about: "One working strand before the knots.", example: "1.2 m or 4 ft", required: true },
  { word: "strand left", about: "What is left of it after the knots.", example: "35 cm or 14 in", required: true },
];

export function SwatchPart(): JSX.Element {
  const swatches = of("swatch");
  const finished = of("finished");
  const count = (swatches?.things.length ?? 0) + (finished?.things.length ?? 0);
  const cords = of("cord")?.things ?? [];
  if (!cords.length) {
    return <p class="soft">Put a cord on the shelf first; then tie a trial of ten knots in it.</p>;
  }
  return (
    <div class="two">
      <div>
        <Trial />
        <FinishedPiece />
      </div>
      <div>
        <Said count={count} />
        <section class="shelf-kind">
          <h2>Swatches so far</h2>
          {swatches && <Things kind={swatches} />}
        </section>
        {finished && finished.things.length > 0 && (
          <section class="shelf-kind">
            <h2>Finished pieces</h2>
            <Things kind={finished} />
          </section>
        )}
      </div>
    </div>
  );
}

function Trial(): JSX.Element {
  const [fields, setFields] = useState<Thing>({
    cord: of("cord")?.things[0]?.["name"] ?? "", knot: "square-knot", knots: "10",
  });
  const [making, setMaking] = useState<Making | null>(null);
  const known = of("swatch")?.fields ?? [];
  const lines = known.filter((f) => f.word !== "name" && f.word !== "used");
  const main = lines.filter((f) => f.required || f.word === "width" || f.word === "maker");
  const more = lines.filter((f) => !main.includes(f));
  const line = (field: ShelfField): JSX.Element => (
    <FieldLine
      key={field.word}
      field={field}
      value={fields[field.word] ?? ""}
      put={(text) => { setFields((before) => ({ ...before, [field.word]: text })); }}
    />
  );
  const enter = async (): Promise<void> => {
    const { "strand before": start = "", "strand left": left = "", ...rest } = fields;
    const body = { fields: rest, start, left };
    if ((await worked("/api/shelf/swatches", body, setMaking)) !== null) await look();
  };
  return (
    <form
      class="entry"
      aria-label="A trial"
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
      <h2>Enter a trial</h2>
      <p class="soft small">
        Measure a working strand, tie knots one below the other as you always do, and measure again.
      </p>
      {main.map(line)}
      {START.map(line)}
      <details class="more">
        <summary>Other knots, notes</summary>
        {more.map(line)}
      </details>
      <button type="submit" class="main">Keep the trial</button>
      {making && <Progress now={making} name="The trial is being entered" />}
    </form>
  );
}

const PARTS = [
  ["height", "height of a knot"],
  ["width", "width of a knot"],
  ["take_up", "cord that a knot takes up"],
] as const;

function Said({ count }: { count: number }): JSX.Element {
  const cords = (of("cord")?.things ?? []).map((t) => t["name"] ?? "");
  const makers = [...new Set((of("swatch")?.things ?? []).map((t) => t["maker"] ?? ""))].filter(Boolean);
  const [cord, setCord] = useState(cords[0] ?? "");
  const [maker, setMaker] = useState("");
  const [report, setReport] = useState<SwatchReport | null>(null);
  useEffect(() => {
    if (!cord) return;
    let gone = false;
    void worked("/api/shelf/hands", { cord, maker }, () => undefined).then(async (number) => {
      if (number === null || gone) return;
      const found = await tried(() => get<HandsAnswer>(`/api/shelf/hands/${number}`));
      if (found && !gone) setReport(found.report);
    });
    return () => { gone = true; };
  }, [cord, maker, count]);
  return (
    <section class="shelf-kind" aria-live="polite">
      <h2>What is known of a cord and these hands</h2>
      <p class="row">
        <select aria-label="Cord" value={cord} onChange={(e) => { setCord(e.currentTarget.value); }}>
          {cords.map((c) => <option key={c} value={c}>{c}</option>)}
        </select>
        {makers.length > 0 && (
          <select aria-label="Whose hands" value={maker} onChange={(e) => { setMaker(e.currentTarget.value); }}>
            <option value="">anybody's hands</option>
            {makers.map((m) => <option key={m} value={m}>{m}</option>)}
          </select>
        )}
      </p>
      {report && (
        <>
          <table class="things">
            <thead>
              <tr>
                <th scope="col">against the tight knot</th>
                <th scope="col">most likely</th>
                <th scope="col">90 in 100 within</th>
              </tr>
            </thead>
            <tbody>
              {PARTS.map(([part, name]) => (
                <tr key={part}>
                  <th scope="row">{name}</th>
                  <td>{report.factors[part].factor.toFixed(3)}</td>
                  <td>{report.factors[part].low.toFixed(3)} to {report.factors[part].high.toFixed(3)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p>
            Spare of knotted cord that is enough 95 times in 100:{" "}
            <strong>{(100 * report.spare).toFixed(0)} %</strong>.
          </p>
          {!report.factors.take_up.known && (
            <p class="soft small">No swatch tells of this cord yet: this is the published spread.</p>
          )}
        </>
      )}
    </section>
  );
}
