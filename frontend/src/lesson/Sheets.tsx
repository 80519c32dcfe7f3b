// Everything that comes of a lesson, to be looked at: printed pages, the lesson page, downloads.
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Lesson, LessonFile } from "../api/types";
import { Dialog } from "../parts/Dialog";
import { counted } from "../units";

const NAMES: Record<string, string> = {
  "booklet.pdf": "Booklet to print (PDF)",
  "lesson.html": "Lesson page, one file that needs no network",
  "filming.pdf": "Sheet to film by (PDF)",
  "filming.md": "Sheet to film by (Markdown)",
  "steps.md": "Steps in words (Markdown)",
  "steps.json": "Steps as data (JSON)",
};

/** What a file is; editions have a number of their own at the end of its stem. */
function called(file: string): string {
  const number = /-(\d+)\.\w+$/.exec(file)?.[1];
  const name = NAMES[file.replace(/-\d+(?=\.\w+$)/, "")] ?? file;
  return number ? `${name}, size ${number}` : name;
}

/** In the order of `NAMES`: what most makers are after comes first. */
function sorted(files: readonly LessonFile[]): LessonFile[] {
  const order = Object.values(NAMES);
  const place = (file: LessonFile): number => order.findIndex((name) => called(file.name).startsWith(name));
  return [...files].sort((a, b) => place(a) - place(b));
}

function sized(bytes: number): string {
  return bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

export function Printed({ lesson, file }: { lesson: Lesson; file: LessonFile }): JSX.Element {
  const [large, setLarge] = useState<number | null>(null);
  const name = called(file.name);
  const address = (page: number): string =>
    `/api/lessons/${lesson.number}/pages/${file.name}/${page}.png`;
  const pages = Array.from({ length: file.pages }, (_, i) => i + 1);
  const file_ = `/api/lessons/${lesson.number}/files/${file.name}`;
  return (
    <>
      <p class="row">
        <a class="button main" href={`${file_}?show=true`} target="_blank" rel="noopener">
          Open to print
        </a>
        <a class="button" href={file_} download>Download (PDF)</a>
        <span class="soft small">
          {counted(file.pages, "page")} of {lesson.asked.paper === "letter" ? "Letter" : "A4"}, as they
          will be printed
        </span>
      </p>
      <ol class={`printed ${lesson.asked.paper ?? "a4"}`} aria-label={name}>
        {pages.map((page) => (
          <li key={page}>
            <button type="button" onClick={() => { setLarge(page); }}>
              <img src={address(page)} loading="lazy" alt={`Page ${page} of ${file.pages}`} />
            </button>
          </li>
        ))}
      </ol>
      {large !== null && (
        <Dialog title={`Page ${large} of ${file.pages}`} wide close={() => { setLarge(null); }}>
          <div class="row">
            <button type="button" disabled={large < 2} onClick={() => { setLarge(large - 1); }}>
              Page before
            </button>
            <button
              type="button"
              disabled={large >= file.pages}
              onClick={() => { setLarge(large + 1); }}
            >
              Page after
            </button>
          </div>
          <img class="paper" src={address(large)} alt={`Page ${large} of ${file.pages}`} />
        </Dialog>
      )}
    </>
  );
}

export function LessonPage({ lesson }: { lesson: Lesson }): JSX.Element {
  const address = `/lessons/${lesson.number}`;
  return (
    <>
      <p class="row soft small">
        What a reader gets: it fits itself to their own cord and ticks off what they have tied.
        <a href={address} target="_blank" rel="noopener">Open it in a tab of its own</a>
      </p>
      <iframe
        class="lesson-page"
        src={address}
        title="The lesson page"
        sandbox="allow-scripts allow-modals"
      />
    </>
  );
}

export function Downloads({ lesson }: { lesson: Lesson }): JSX.Element {
  return (
    <ul class="downloads">
      <li>
        <a class="button main" href={`/api/lessons/${lesson.number}/all.zip`} download>
          Download everything (ZIP)
        </a>
      </li>
      {sorted(lesson.files).map((file) => (
        <li key={file.name}>
          <a href={`/api/lessons/${lesson.number}/files/${file.name}`} download>
            {called(file.name)}
          </a>{" "}
          <span class="soft small">{sized(file.size)}</span>
        </li>
      ))}
    </ul>
  );
}
