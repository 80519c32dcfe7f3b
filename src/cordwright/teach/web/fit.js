// The piece in the reader's own measures: what is cut, and every length, from the piece's exact
// sums over cord diameters and sizes.

/**
 * @typedef {{tail: number, free: number, knotted: [number, number][], knots: number}} StrandData
 * @typedef {{cord: string, part: string, fold: string, strands: number[], cut: number | null}} CordData
 * @typedef {{symbols: string[], values: number[], forms: number[][], extra: number,
 *   cords: CordData[], strands: StrandData[], kinds: string[], doubts: Object<string, any>,
 *   finished: number, weights: Object<string, number | null>}} FitData
 * @typedef {{used: number, spare: number, least: number}} StrandNeed
 * @typedef {{cord: number, halves: Halves, used: number, wanted: number, length: number,
 *   fold: [number, number] | null, given: boolean}} CutCord
 * @typedef {{id: string, cord: string, length: number, fold: "middle" | "uneven" | "none",
 *   foldMm: [number, number] | null, spare: number, given: boolean, part: string,
 *   cords: number[]}} CutEntry
 * @typedef {{values: number[], system: System, cords: CutCord[], entries: CutEntry[],
 *   entryOf: string[], totals: Object<string, number>, total: number}} Fitted
 */

/**
 * The value of a sum, mm.
 * @param {number[]} form mm, then the coefficient of every symbol
 * @param {number[]} values of the symbols, mm
 */
function valueOf(form, values) {
  let mm = form[0];
  for (let i = 1; i < form.length; i++) mm += form[i] * values[i - 1];
  return mm;
}

/**
 * What a strand uses, and its spare.
 * @param {StrandData} strand
 * @param {string} cord
 * @param {FitData} data
 * @param {number[]} values
 * @param {Chances} chances
 * @returns {StrandNeed}
 */
function needOf(strand, cord, data, values, chances) {
  const tail = valueOf(data.forms[strand.tail], values);
  const free = valueOf(data.forms[strand.free], values);
  const shares = data.kinds.map(() => 0);
  let knotted = 0;
  for (const [kind, form] of strand.knotted) {
    shares[kind] = valueOf(data.forms[form], values);
    knotted += shares[kind];
  }
  const tenth = 10 ** chances.shareDigits;
  const parts = shares.map((mm) => (knotted > 0 ? rounded((mm / knotted) * tenth) / tenth : 0));
  const factor = factorOf(data.doubts[cord], parts, strand.knots);
  const used = tail + free + knotted;
  const spare = Math.max(0, lengthFor({ tail, free, knotted }, factor, chances) - used);
  return { used, spare, least: used + spare };
}

/**
 * How long the piece hangs: as planned, and what the reader's measures add to its lengths. By
 * adding up alone where it is not known how the planned piece hangs.
 * @param {any} edition
 * @param {number[]} values
 */
function tallOf(edition, values) {
  const form = edition.forms[edition.cuts.finished];
  const summed = valueOf(form, edition.values);
  return (edition.hangs ?? summed) + valueOf(form, values) - summed;
}

/**
 * What to cut for the reader's measures.
 * @param {FitData} data
 * @param {number[]} values of the symbols, mm
 * @param {System} system what is measured in
 * @param {Chances} chances
 * @returns {Fitted}
 */
function fitted(data, values, system, chances) {
  const known = new Map();
  const cords = data.cords.map((cord, number) => {
    const needs = cord.strands.map((s) => {
      if (!known.has(s)) known.set(s, needOf(data.strands[s], cord.cord, data, values, chances));
      return /** @type {StrandNeed} */ (known.get(s));
    });
    return cutCord(cord, number, needs, data, values);
  });
  raise(cords, data, system);
  fold(cords, data, system);
  const entries = entriesOf(cords, data);
  /** @type {string[]} */
  const entryOf = [];
  /** @type {Object<string, number>} */
  const totals = {};
  for (const entry of entries) {
    for (const cord of entry.cords) entryOf[cord] = entry.id;
    totals[entry.cord] = (totals[entry.cord] ?? 0) + entry.cords.length * entry.length;
  }
  const total = entries.reduce((sum, e) => sum + e.cords.length * e.length, 0);
  return { values, system, cords, entries, entryOf, totals, total };
}

/**
 * @param {CordData} cord
 * @param {number} number
 * @param {StrandNeed[]} needs
 * @param {FitData} data
 * @param {number[]} values
 * @returns {CutCord}
 */
function cutCord(cord, number, needs, data, values) {
  const given = cord.cut !== null;
  const least = needs.map((n) => (given ? n.used : n.least));
  const halves = { fold: cord.fold, left: least[0], right: least.length > 1 ? least[1] : 0 };
  const length = cord.cut === null ? 0 : valueOf(data.forms[cord.cut], values);
  const used = needs.reduce((sum, n) => sum + n.used, 0);
  const wanted = needs.reduce((sum, n) => sum + n.spare, 0);
  return { cord: number, halves, used, wanted, length, fold: null, given };
}

/**
 * Rounds lengths up, and raises those of one kind of cord to few different ones.
 * @param {CutCord[]} cords
 * @param {FitData} data
 * @param {System} system
 */
function raise(cords, data, system) {
  const kinds = new Map();
  for (const cut of cords) {
    if (cut.given) continue;
    cut.length = measured(cut.halves, system);
    const kind = data.cords[cut.cord].cord;
    kinds.set(kind, [...(kinds.get(kind) ?? []), cut]);
  }
  for (const cuts of kinds.values()) {
    const raised = fewLengths(cuts.map((/** @type {CutCord} */ c) => c.length), data.extra);
    for (const cut of cuts) cut.length = /** @type {number} */ (raised.get(cut.length));
  }
}

/**
 * @param {CutCord[]} cords
 * @param {FitData} data
 * @param {System} system
 */
function fold(cords, data, system) {
  /** @type {Map<string, CutCord[]>} */
  const alike = new Map();
  for (const cut of cords) {
    const key = `${cut.length} ${data.cords[cut.cord].cord}`;
    alike.set(key, [...(alike.get(key) ?? []), cut]);
  }
  for (const cuts of alike.values()) {
    const pairs = cuts.map((c) => /** @type {[number, Halves]} */ ([c.cord, c.halves]));
    const folds = foldPoints(pairs, cuts[0].length, system);
    for (const cut of cuts) cut.fold = folds.get(cut.cord) ?? null;
  }
}

/** @param {CutCord} cut */
function foldOf(cut) {
  if (cut.halves.fold === "none") return "none";
  return cut.fold === null ? "middle" : "uneven";
}

/**
 * What of a cord is spare; of one already cut no more than it has.
 * @param {CutCord} cut
 */
function spareOf(cut) {
  return cut.given ? Math.min(cut.wanted, cut.length - cut.used) : cut.wanted;
}

/**
 * Each strand's part of a cord, mm.
 * @param {CutCord} cut
 */
function partsOf(cut) {
  if (cut.fold !== null) return cut.fold;
  return cut.halves.fold === "none" ? [cut.length] : [cut.length / 2, cut.length / 2];
}

/**
 * Equal cords together, named by order of appearance.
 * @param {CutCord[]} cords
 * @param {FitData} data
 * @returns {CutEntry[]}
 */
function entriesOf(cords, data) {
  /** @type {Map<string, CutCord[]>} */
  const groups = new Map();
  for (const cut of cords) {
    const cord = data.cords[cut.cord].cord;
    const key = JSON.stringify([cord, cut.length, foldOf(cut), cut.fold, cut.given]);
    groups.set(key, [...(groups.get(key) ?? []), cut]);
  }
  return [...groups.values()].map((group, i) => {
    const first = group[0];
    const neediest = group.reduce((a, b) =>
      b.used + spareOf(b) > a.used + spareOf(a) ? b : a,
    );
    return {
      id: letters(i),
      cord: data.cords[first.cord].cord,
      length: first.length,
      fold: foldOf(first),
      foldMm: first.fold,
      spare: spareOf(neediest),
      given: first.given,
      part: data.cords[first.cord].part,
      cords: group.map((c) => c.cord),
    };
  });
}
