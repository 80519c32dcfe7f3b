// From a change to what is seen of it, kept as performance measures that the benchmark reads.

type Seen = "numbers" | "picture";

const begun = new Map<number, { at: number; seen: Set<Seen> }>();

/** When the maker did what is being handled now. */
export function asked(): number {
  return window.event?.timeStamp ?? performance.now();
}

/** A change of that number was asked for at a time: a revision to be, or a try. */
export function started(id: number, at: number): void {
  begun.set(id, { at, seen: new Set() });
  if (begun.size > 50) begun.delete(begun.keys().next().value ?? id);
}

/**
 * The first numbers, or the first picture, that follow from a change are there: they are on the
 * screen when the next frame has been painted, and graphics have finished if that is to be waited
 * for. `server` says how long they took to work out, ms.
 */
export function measured(what: Seen, id: number, server: number, drawn?: Promise<void>): void {
  const change = begun.get(id);
  if (!change || change.seen.has(what)) return;
  change.seen.add(what);
  const detail = { id, server, arrived: performance.now() - change.at };
  void (drawn ?? Promise.resolve()).then(painted).then((end) => {
    performance.measure(`change to ${what}`, { start: change.at, end, detail });
  });
}

/** When the next frame has been painted: what runs after a frame's own callbacks runs then. */
function painted(): Promise<number> {
  return new Promise((resolve) => {
    requestAnimationFrame(() => {
      const after = new MessageChannel();
      after.port1.onmessage = () => { resolve(performance.now()); };
      after.port2.postMessage(null);
    });
  });
}
