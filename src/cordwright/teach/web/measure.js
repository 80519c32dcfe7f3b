// Lengths: rounded to what a person measures, and written down. The same rules as units/length.py
// and teach/words.py, so that page and booklet say the same.

/** @typedef {"metric" | "inch"} System */
/** @typedef {"metric" | "inch" | "both"} Units */
/** @typedef {{decimal: string, inch: string, foot: string, both: string, range: string}} Signs */

const INCH_MM = 25.4;
const FOOT_MM = 304.8;
const YARD_MM = 914.4;
const EXACT_MM = 1e-6;

/** What is measured off to, mm: up to the first number, to the second. */
const STEPS_MM = {
  metric: [[1000, 5], [3000, 10], [Infinity, 50]],
  inch: [[YARD_MM, INCH_MM / 4], [10 * FOOT_MM, INCH_MM / 2], [Infinity, INCH_MM]],
};

/** The same for lengths that are checked by eye. */
const ABOUT_MM = {
  metric: [[100, 1], [1000, 5], [3000, 10], [Infinity, 50]],
  inch: [[100, INCH_MM / 4], [1000, INCH_MM / 2], [Infinity, INCH_MM]],
};

/**
 * The nearest whole number; halves to the even one, as Python rounds.
 * @param {number} x
 */
function rounded(x) {
  const low = Math.floor(x);
  const rest = x - low;
  if (rest !== 0.5) return rest < 0.5 ? low : low + 1;
  return low % 2 === 0 ? low : low + 1;
}

/**
 * The next length that a person measures off, mm; never shorter.
 * @param {number} mm
 * @param {System} system
 */
function roundUp(mm, system) {
  const step = /** @type {number[]} */ (STEPS_MM[system].find(([most]) => mm <= most))[1];
  return Math.ceil((mm - EXACT_MM) / step) * step + 0;
}

/**
 * @param {number} mm
 * @param {System} system
 */
function roundAbout(mm, system) {
  const steps = ABOUT_MM[system];
  const step = /** @type {number[]} */ (steps.find(([most]) => Math.abs(mm) <= most))[1];
  return rounded(mm / step) * step;
}

/** @param {number} quarters */
function fraction(quarters) {
  const whole = Math.floor(quarters / 4);
  const part = ["", "1/4", "1/2", "3/4"][quarters % 4];
  if (whole && part) return `${whole} ${part}`;
  return part || String(whole);
}

/**
 * A length as it is written in one system, to the millimetre or the quarter of an inch.
 * @param {number} mm
 * @param {System} system
 * @param {Signs} signs
 */
function lengthIn(mm, system, signs) {
  const minus = mm < 0 ? "-" : "";
  const size = Math.abs(mm);
  if (system === "metric") {
    const whole = rounded(size);
    if (whole < 10) return `${whole ? minus : ""}${whole} mm`;
    const [unit, per] = whole < 1000 ? ["cm", 10] : ["m", 1000];
    const shown = String(whole / per).replace(".", signs.decimal);
    return `${minus}${shown} ${unit}`;
  }
  const quarters = rounded(size / (INCH_MM / 4));
  if (quarters < 4 * 36) return `${quarters ? minus : ""}${fraction(quarters)} ${signs.inch}`;
  const rest = quarters % 48;
  const feet = `${minus}${Math.floor(quarters / 48)} ${signs.foot}`;
  return rest ? `${feet} ${fraction(rest)} ${signs.inch}` : feet;
}

/**
 * A length as the reader wants it.
 * @param {number} mm
 * @param {Units} units
 * @param {Signs} signs
 * @param {boolean} [about] whether it is checked by eye
 */
function lengthText(mm, units, signs, about) {
  /** @param {System} system */
  const told = (system) => lengthIn(about ? roundAbout(mm, system) : mm, system, signs);
  if (units !== "both") return told(units);
  return filled(signs.both, { metric: told("metric"), inch: told("inch") });
}

/**
 * A length to cut: inches beside metric ones are rounded up, never down.
 * @param {number} mm
 * @param {Units} units
 * @param {Signs} signs
 */
function cutText(mm, units, signs) {
  if (units !== "both") return lengthText(mm, units, signs);
  const inch = lengthIn(roundUp(mm, "inch"), "inch", signs);
  return filled(signs.both, { metric: lengthIn(mm, "metric", signs), inch });
}

/**
 * A cord's diameter: in mm everywhere.
 * @param {number} mm
 * @param {Signs} signs
 */
function thickText(mm, signs) {
  return `${String(Number(mm.toPrecision(4))).replace(".", signs.decimal)} mm`;
}

const OUNCE_G = 28.349523125;

/**
 * A weight, to the gram or the quarter of an ounce; less than half of either to one figure.
 * @param {number} g
 * @param {Units} units
 * @param {Signs} signs
 */
function weightText(g, units, signs) {
  const oz = g / OUNCE_G;
  const one = (/** @type {number} */ x) => Number(x.toPrecision(1));
  const told = (/** @type {number} */ x) => String(x).replace(".", signs.decimal);
  const metric = `${told(g < 0.5 ? one(g) : rounded(g))} g`;
  const inch = `${told(oz < 0.5 ? one(oz) : rounded(oz * 4) / 4)} oz`;
  if (units === "both") return filled(signs.both, { metric, inch });
  return units === "metric" ? metric : inch;
}

/**
 * A text with its places filled in; what is filled in is text, never read again.
 * @param {string} template with places such as {name}
 * @param {Object<string, string | number>} values
 */
function filled(template, values) {
  return template.replace(/\{(\w+)\}/g, (place, name) =>
    Object.hasOwn(values, name) ? String(values[name]) : place,
  );
}
