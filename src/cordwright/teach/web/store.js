// What stays on the reader's device: ticks, the place in the lesson, their own measures.

/**
 * @typedef {{cuts: Object<string, number[]>, steps: Object<string, number[]>,
 *   rows: Object<string, number[]>, values: Object<string, Object<string, number>>,
 *   girths: Object<string, number>, units: Units, edition: number,
 *   at: Object<string, number>}} Kept
 */

/**
 * @param {string} mark of the lesson's version
 * @param {Units} units
 */
function makeStore(mark, units) {
  const key = `cordwright-lesson-${mark}`;
  /** @type {Kept} */
  const state = emptyState(units);
  let keeps = true;
  try {
    const found = JSON.parse(localStorage.getItem(key) ?? "null");
    if (found !== null) takeOver(state, found);
    localStorage.setItem(key, JSON.stringify(state));
  } catch {
    keeps = false; // private browsing, or a browser that keeps nothing for files
  }
  return {
    state,
    get keeps() {
      return keeps;
    },
    save() {
      if (!keeps) return;
      try {
        localStorage.setItem(key, JSON.stringify(state));
      } catch {
        keeps = false;
      }
    },
    reset() {
      Object.assign(state, emptyState(units));
      this.save();
    },
  };
}

/**
 * @param {Units} units
 * @returns {Kept}
 */
function emptyState(units) {
  const nothing = () => Object.create(null);
  return {
    cuts: nothing(), steps: nothing(), rows: nothing(), values: nothing(), girths: nothing(),
    at: nothing(), units, edition: 0,
  };
}

/**
 * Takes what was kept, as far as it is of the kind that it should be.
 * @param {Kept} state
 * @param {any} found
 */
function takeOver(state, found) {
  for (const name of /** @type {const} */ (["cuts", "steps", "rows"])) {
    for (const [key, list] of Object.entries(found[name] ?? {})) {
      if (Array.isArray(list)) state[name][key] = list.filter((n) => Number.isInteger(n));
    }
  }
  for (const name of /** @type {const} */ (["girths", "at"])) {
    for (const [key, n] of Object.entries(found[name] ?? {})) {
      if (Number.isFinite(n) && Number(n) >= 0) state[name][key] = /** @type {number} */ (n);
    }
  }
  for (const [key, values] of Object.entries(found.values ?? {})) {
    state.values[key] = Object.create(null);
    for (const [symbol, mm] of Object.entries(/** @type {object} */ (values) ?? {})) {
      if (Number.isFinite(mm) && mm > 0) state.values[key][symbol] = mm;
    }
  }
  if (["metric", "inch", "both"].includes(found.units)) state.units = found.units;
  if (Number.isInteger(found.edition)) state.edition = found.edition;
}

/**
 * Whether a number is ticked.
 * @param {Object<string, number[]>} ticks
 * @param {string} key
 * @param {number} n
 */
function ticked(ticks, key, n) {
  return (ticks[key] ?? []).includes(n);
}

/**
 * @param {Object<string, number[]>} ticks
 * @param {string} key
 * @param {number[]} numbers
 * @param {boolean} on
 */
function tick(ticks, key, numbers, on) {
  const rest = (ticks[key] ?? []).filter((n) => !numbers.includes(n));
  ticks[key] = on ? [...rest, ...numbers] : rest;
}
