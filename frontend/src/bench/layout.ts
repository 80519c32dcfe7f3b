// Where cards stand beside the piece: each as near as can be to where its part is, none over
// another, all in the order of the piece.

export interface Card {
  /** Where its middle should be, pixels. */
  wanted: number;
  height: number;
}

/**
 * Tops of cards that keep a gap, lie within 0 to `room` if they can, and are moved as little as
 * possible from where they should be (least squares: neighbours that would overlap are pooled).
 */
export function arranged(cards: readonly Card[], room: number, gap: number): number[] {
  interface Pool {
    top: number;
    height: number;
    weight: number;
    offsets: number[];
  }
  const pools: Pool[] = [];
  for (const card of cards) {
    let pool: Pool = {
      top: card.wanted - card.height / 2,
      height: card.height,
      weight: 1,
      offsets: [0],
    };
    for (;;) {
      const above = pools.at(-1);
      if (!above || above.top + above.height + gap <= pool.top) break;
      pools.pop();
      const shift = above.height + gap;
      const weight = above.weight + pool.weight;
      pool = {
        top: (above.top * above.weight + (pool.top - shift) * pool.weight) / weight,
        height: shift + pool.height,
        weight,
        offsets: [...above.offsets, ...pool.offsets.map((o) => o + shift)],
      };
    }
    pools.push(pool);
  }
  const tops = pools.flatMap((p) => p.offsets.map((o) => p.top + o));
  return inside(tops, cards, room, gap);
}

function inside(tops: number[], cards: readonly Card[], room: number, gap: number): number[] {
  const found = [...tops];
  let limit = room;
  for (let i = found.length - 1; i >= 0; i--) {
    const height = cards[i]?.height ?? 0;
    found[i] = Math.min(found[i] ?? 0, limit - height);
    limit = (found[i] ?? 0) - gap;
  }
  let least = 0;
  for (let i = 0; i < found.length; i++) {
    found[i] = Math.max(found[i] ?? 0, least);
    least = (found[i] ?? 0) + (cards[i]?.height ?? 0) + gap;
  }
  return found;
}
