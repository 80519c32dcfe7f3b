// From a change to what is seen of it, kept as performance measures that the benchmark reads.

type Seen = "numbers" | "picture";

const begun = new Map<number, { at: number; seen: Set<Seen> }>();

/** A change of that number was asked for: a revision to be, or a try. */
export function started(id: number): void {
  begun.set(id, { at: performance.now(), seen: new Set() });
  if (begun.size > 50) begun.delete(begun.keys().next().value ?? id);
}

/**
 * The first numbers, or the first picture, that follow from a change are there: they are on the
 * screen with the next frame. `server` says how long they took to work out, ms.
 */
export function measured(what: Seen, id: number, server: number): void {
  const change = begun.get(id);
  if (!change || change.seen.has(what)) return;
  change.seen.add(what);
  requestAnimationFrame(() => {
    const span = { start: change.at, end: performance.now() };
    performance.measure(`change to ${what}`, { ...span, detail: { server } });
  });
}
