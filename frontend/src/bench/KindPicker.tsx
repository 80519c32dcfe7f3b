// Work to choose from, by its figure.
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { KINDS, type Kind } from "./kinds";

export function KindPicker({ choose }: { choose: (kind: Kind) => void }): JSX.Element {
  return (
    <ul class="kinds-grid">
      {KINDS.map((kind) => (
        <li key={kind.name}>
          <button type="button" onClick={() => { choose(kind); }}>
            <span class="figure">
              <Figure kind={kind} />
            </span>
            <strong>{kind.name}</strong>
            <span class="soft small">{kind.about}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}

function Figure({ kind }: { kind: Kind }): JSX.Element {
  const [missing, setMissing] = useState(kind.figure === null);
  if (missing) return <Plain name={kind.name} />;
  const address = `/api/knots/${kind.figure ?? ""}.svg`;
  return <img src={address} alt="" loading="lazy" onError={() => { setMissing(true); }} />;
}

/** Signs for work without a knot, drawn in the manner of the figures. */
function Plain({ name }: { name: string }): JSX.Element {
  const ways: Record<string, string> = {
    "Free cord": "M14 4v56M26 4v56M38 4v56M50 4v56",
    Fringe: "M14 4v40M26 4v40M38 4v40M50 4v40M8 50h48",
    "Close to a round": "M14 4c0 14 4 20 18 20s18-6 18-20M14 60V40c0-8 8-12 18-12s18 4 18 12v20",
  };
  return (
    <svg viewBox="0 0 64 64" class="plain-figure" aria-hidden="true">
      <path d={ways[name] ?? "M20 4c0 20 24 14 24 30S20 44 20 60M44 4c0 20-24 14-24 30s24 10 24 26"} />
    </svg>
  );
}
