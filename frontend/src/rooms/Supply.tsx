// The supply room: the maker's shelf, what their swatches say, and what to cut from which spool.
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { doc } from "../state/bench";
import { address, route } from "../state/route";
import { CuttingPart } from "../supply/CuttingPart";
import { MakePart } from "../supply/MakePart";
import { ShelfPart } from "../supply/ShelfPart";
import { look, shelf } from "../supply/state";
import { SwatchPart } from "../supply/SwatchPart";

const PARTS = [
  ["shelf", "Shelf"],
  ["swatches", "Swatches"],
  ["cutting", "Cutting plan"],
  ["make", "What can I make?"],
] as const;

export function Supply(): JSX.Element {
  useEffect(() => void look(), []);
  const { item, piece } = route.value;
  const there = PARTS.filter(([part]) => part !== "cutting" || piece);
  const part = there.find(([p]) => p === item)?.[0] ?? "shelf";
  return (
    <div class="supply">
      <h1>Supply</h1>
      <nav class="switch parts" aria-label="Of supply">
        {there.map(([p, name]) => (
          <a
            key={p}
            class="button"
            href={address({ room: "supply", item: p })}
            {...(p === part ? { "aria-current": "page" } : {})}
          >
            {name}
          </a>
        ))}
      </nav>
      {shelf.value ? <Part part={part} /> : <p class="wait" role="status">Looking at your shelf …</p>}
    </div>
  );
}

function Part({ part }: { part: string }): JSX.Element {
  if (part === "swatches") return <SwatchPart />;
  if (part === "make") return <MakePart />;
  if (part === "shelf") return <ShelfPart />;
  const now = doc.value;
  if (!now?.good_revision) {
    return <p class="wait" role="status">The cutting plan comes as soon as the piece can be worked.</p>;
  }
  return <CuttingPart now={now} />;
}
