// The lesson room: how the lesson is wanted, and everything that will be printed, seen before.
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { door } from "../api/http";
import type { Document, Lesson as Made } from "../api/types";
import { Downloads, LessonPage, Printed } from "../lesson/Sheets";
import { make, standing } from "../lesson/state";
import { TieAlong } from "../lesson/TieAlong";
import { Wishes } from "../lesson/Wishes";
import { Progress } from "../parts/Progress";
import { doc } from "../state/bench";
import { ended } from "../state/making";
import { system } from "../state/prefs";

const DRAWN = [
  { file: "chart.svg", name: "Chart", about: "the chart to work from" },
  { file: "picture.svg", name: "Picture", about: "the piece with its measures" },
] as const;

export function Lesson(): JSX.Element {
  const now = doc.value;
  if (!now) return <p class="wait" role="status">Opening the piece …</p>;
  if (!now.good_revision) {
    return <p class="wait" role="status">The booklet comes as soon as the plan can be worked.</p>;
  }
  return (
    <div class="lesson">
      <h1>{now.title}</h1>
      <aside class="lesson-side">
        <Wishes now={now} />
        {standing(now.name).lesson && <Busy piece={now.name} />}
      </aside>
      <Shown now={now} />
    </div>
  );
}

function Busy({ piece }: { piece: string }): JSX.Element | null {
  const { making } = standing(piece);
  return making && <Progress now={making} name="The booklet is being made" />;
}

/** What there is to look at: drawings always, the rest as soon as the lesson was made. */
function sheets(lesson: Made | null): string[] {
  const drawn = DRAWN.map((d) => d.name);
  if (!lesson) return ["Booklet", ...drawn];
  const films = lesson.files.filter((f) => /^filming.*\.pdf$/.test(f.name));
  const named = films.map((_, i) => (films.length > 1 ? `Filming sheet ${i + 1}` : "Filming sheet"));
  return ["Booklet", "Lesson page", ...named, "Downloads", "Tie along", ...drawn];
}

function Shown({ now }: { now: Document }): JSX.Element {
  const { lesson } = standing(now.name);
  const there = sheets(lesson);
  const [wanted, setWanted] = useState("");
  const here = useRef<HTMLElement>(null);
  const before = useRef(lesson?.number);
  useEffect(() => {
    if (before.current === lesson?.number) return;
    before.current = lesson?.number;
    setWanted("");
    here.current?.scrollIntoView({ block: "start" }); // on a phone it is below the form
  }, [lesson?.number]);
  const shown = there.includes(wanted) ? wanted : (there[0] ?? "");
  return (
    <section ref={here} class="lesson-shown" aria-label="What is shown">
      {lesson && lesson.revision !== now.good_revision && (
        <p class="stale" role="status">
          The piece has changed since this was made. Make it again to have the changes in it.
        </p>
      )}
      <div class="switch" role="group" aria-label="What is shown">
        {there.map((name) => (
          <button
            key={name}
            type="button"
            aria-pressed={name === shown}
            onClick={() => { setWanted(name); }}
          >
            {name}
          </button>
        ))}
      </div>
      <Sheet now={now} lesson={lesson} name={shown} />
    </section>
  );
}

function Sheet(props: { now: Document; lesson: Made | null; name: string }): JSX.Element | null {
  const { now, lesson, name } = props;
  const drawn = DRAWN.find((d) => d.name === name);
  if (drawn) return <Drawn now={now} sheet={drawn} />;
  if (!lesson) return <NotYet now={now} />;
  if (name === "Lesson page") return <LessonPage lesson={lesson} />;
  if (name === "Tie along") return <TieAlong lesson={lesson} />;
  if (name === "Downloads") return <Downloads lesson={lesson} />;
  const number = /\d+$/.exec(name)?.[0];
  const wanted = name === "Booklet" ? "booklet.pdf" : `filming${number ? `-${number}` : ""}.pdf`;
  const file = lesson.files.find((f) => f.name === wanted);
  return file ? <Printed lesson={lesson} file={file} key={wanted} /> : null;
}

/** What there will be, and the button that makes it. */
function NotYet({ now }: { now: Document }): JSX.Element {
  const { making } = standing(now.name);
  const busy = making !== null && !ended(making);
  return (
    <div class="not-yet">
      <h2>A booklet to tie it by</h2>
      <p>
        What to cut, every knot in pictures, every step in words, the chart, and the whole piece with
        its measures: to print, to keep, or to sell. With it comes a lesson page for a phone or
        tablet, and a sheet to film by.
      </p>
      <button type="button" class="main" disabled={busy} onClick={() => void make(now.name)}>
        {busy ? "Being made …" : "Make the booklet"}
      </button>
      <Busy piece={now.name} />
      <p class="soft small">
        It takes some seconds; you see every page before you print. Language, paper and lengths can
        be chosen beforehand, or later: it is made anew as often as you like.
      </p>
    </div>
  );
}

function Drawn(props: { now: Document; sheet: (typeof DRAWN)[number] }): JSX.Element {
  const { now, sheet } = props;
  const at = now.good_revision ?? 0;
  const address = `${door(now.name, `/${sheet.file}`)}?units=${system.value}&at=${at}`;
  return (
    <>
      <img src={address} alt={`${now.title}: ${sheet.about}`} />
      <p><a class="button" href={address} download={`${now.name}-${sheet.file}`}>Download</a></p>
    </>
  );
}
