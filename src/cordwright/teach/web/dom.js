// Making elements. Words always become text: nothing here reads markup.

/** @typedef {Node | string | null | undefined | false} Child */

/**
 * An element with attributes and what is in it.
 * @param {string} name
 * @param {Object<string, any>} [attributes] `on…` are listeners, `false` and null leave one out
 * @param {...(Child | Child[])} children
 * @returns {any}
 */
function el(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (key === "checked" || key === "value") /** @type {any} */ (made)[key] = value;
    else made.setAttribute(key, value === true ? "" : String(value));
  }
  made.append(...children.flat().filter(isThere));
  return made;
}

/**
 * @param {Child} child
 * @returns {child is Node | string}
 */
function isThere(child) {
  return child !== null && child !== undefined && child !== false && child !== "";
}

/** @type {Map<string, string>} */
const sources = new Map();

/**
 * A picture: SVG shown as an image, so that it cannot run or reach anything.
 * @param {{svg: number, alt: string, wide: number, high: number}} figure
 * @param {string[]} svgs
 * @param {string} [kind] its class
 */
function picture(figure, svgs, kind = "") {
  const svg = svgs[figure.svg];
  if (!sources.has(svg)) sources.set(svg, `data:image/svg+xml,${encodeURIComponent(svg)}`);
  return el("img", {
    src: sources.get(svg), alt: figure.alt, class: kind || null, decoding: "async",
    width: Math.round(figure.wide * 4), height: Math.round(figure.high * 4),
  });
}

/**
 * Tells those who cannot see it what has changed.
 * @param {string} words
 */
function say(words) {
  const said = /** @type {HTMLElement} */ (document.getElementById("said"));
  said.textContent = words;
}
