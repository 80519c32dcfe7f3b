// From a change to what is seen of it, kept as performance measures that the tests read.

const begun = new Map<number, number>();

export function started(id: number): void {
  begun.set(id, performance.now());
  if (begun.size > 50) begun.delete(begun.keys().next().value ?? id);
}

/** Something that follows from a change is there: it is on the screen with the next frame. */
export function measured(what: "numbers" | "picture", id: number): void {
  const start = begun.get(id);
  if (start === undefined) return;
  requestAnimationFrame(() => {
    performance.measure(`change to ${what}`, { start, end: performance.now() });
  });
}
