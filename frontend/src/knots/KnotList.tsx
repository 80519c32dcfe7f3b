// All knots, by their figures, and the field that finds one by its name.
import type { JSX } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import type { Knot } from "../api/types";
import { address } from "../state/route";
import { figure, found, hand, other, shown, sought } from "./atlas";

export function KnotList(): JSX.Element {
  const id = useId();
  const families = found.value;
  const count = families.reduce((sum, f) => sum + f.knots.length, 0);
  return (
    <aside class="knot-list" aria-label="All knots">
      <div class="knot-search">
        <h1>Knots</h1>
        <label class="sr" for={id}>Find a knot by its name</label>
        <input
          id={id}
          type="search"
          placeholder="Find a knot"
          autocomplete="off"
          spellcheck={false}
          value={sought.value}
          onInput={(event) => { sought.value = event.currentTarget.value; }}
        />
        <p class="sr" role="status">{sought.value ? `${count} knots found` : ""}</p>
      </div>
      <div class="knot-families" tabIndex={-1}>
        {other.value && !sought.value && (
          <section aria-labelledby={`${id}-other`}>
            <h2 id={`${id}-other`}>Of your piece</h2>
            <p class="soft small">A form that the atlas does not come with.</p>
            <ul><Tile knot={other.value} family="" /></ul>
          </section>
        )}
        {families.map((family) => (
          <section key={family.name} aria-labelledby={`${id}-${family.name}`}>
            <h2 id={`${id}-${family.name}`}>{family.title}</h2>
            <p class="soft small">{family.about}</p>
            <ul>
              {family.knots.map((knot) => <Tile key={knot.name} knot={knot} family={family.title} />)}
            </ul>
          </section>
        ))}
        {count === 0 && <p class="soft">No knot of the atlas is called that.</p>}
      </div>
    </aside>
  );
}

function Tile({ knot, family }: { knot: Knot; family: string }): JSX.Element {
  const open = knot.name === shown.value;
  const here = useRef<HTMLAnchorElement>(null);
  useEffect(() => {
    if (open) here.current?.scrollIntoView({ block: "nearest" });
  }, [open]);
  return (
    <li>
      <a
        ref={here}
        class="knot-tile"
        href={address({ room: "knots", item: knot.name })}
        {...(open ? { "aria-current": "true" } : {})}
      >
        <span class="figure">
          <img src={figure(knot.name, hand.value)} alt="" loading="lazy" decoding="async" />
        </span>
        <span>{apart(knot.title, family)}</span>
      </a>
    </li>
  );
}

/** What sets a knot apart within its family: its name begins as the family's does. */
function apart(title: string, family: string): string {
  const stem = family.toLowerCase().replace(/(?<=ch)es$|s$/, "");
  const plain = title.toLowerCase().startsWith(stem)
    ? title.slice(stem.length).replace(/^s?[ ,]+/, "")
    : title;
  const short = plain.replace(/ times as thick as the working cord$/, " × as thick");
  const said = short || "level";
  return said.charAt(0).toUpperCase() + said.slice(1);
}
